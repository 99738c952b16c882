import { checkPlan } from '../../check/check-plan.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { ClothUses, LeftOfCloth, LeftoverUse, UsesTogether } from '../../model/leftover-use.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthToPack } from '../bed.ts';
import { bedsOf } from '../beds.ts';
import { areaOf, fill } from './fill.ts';
import { leftOfCloths, leftoverCloth, staysWhole } from './left-of-cloths.ts';
import { moreToBuy } from './more-to-buy.ts';
import { mostOf } from './most-of.ts';
import { withPrint } from './print-of-leftovers.ts';
import { packOf, type Tried, triedOn, type UsesOptions } from './tried.ts';
import { usePlan, type Wished } from './use-plan.ts';

/** What the leftovers of every cloth of a plan could become, and what a little more cloth would give. */
export function usesOfLeftovers(cutPlan: CutPlan, options: UsesOptions): readonly ClothUses[] {
  return leftOrBought(cutPlan).map((left): ClothUses => {
    const tried = triedOn(cutPlan.plan, left, options);
    const found = usesOf(cutPlan.plan, left, options, tried);
    return { ...found, more: moreToBuy(cutPlan, found, tried, options) };
  });
}

/** Cloths that leave something, and those that leave only scrap but of which a little more can be bought. */
function leftOrBought(cutPlan: CutPlan): readonly LeftOfCloth[] {
  const found = leftOfCloths(cutPlan);
  return cutPlan.cloths.flatMap(({ cloth: name, purchase }) => {
    const own = found.find(({ cloth }) => cloth.name === name);
    if (own) return [own];
    const cloth = cutPlan.plan.cloths.find((each) => each.name === name)!;
    return purchase && !staysWhole(cloth)
      ? [{ cloth: withPrint(leftoverCloth(cloth, []), cloth), left: [] }]
      : [];
  });
}

/** What some leftovers of one cloth could become, best use first, and what fits together. */
export function usesOf(
  plan: Plan,
  left: LeftOfCloth,
  options: UsesOptions,
  tried: readonly Tried[] = triedOn(plan, left, options),
): Omit<ClothUses, 'more'> {
  if (left.left.length === 0) return { ...left, uses: [] };
  const uses = tried.flatMap((own) => useOf(plan, left, own, options) ?? []).sort(bestFirst);
  const together = usesTogether(plan, left, uses, tried, options);
  return { ...left, uses, ...(together && { together }) };
}

function useOf(plan: Plan, left: LeftOfCloth, tried: Tried, options: UsesOptions): LeftoverUse | undefined {
  const { wish, source, finished, set } = tried;
  const limit = wish.most ?? Number.POSITIVE_INFINITY;
  const most = mostOf(plan, left.cloth, { set }, limit, packOf(options));
  // What was counted is planned; should the plan not find room for all of it, it may for one less.
  for (let count = most.count; count >= Math.max(wish.least, most.count - 1, 1); count--) {
    const found = soundPlan(plan, left, [{ wish, count }], options);
    if (!found) continue;
    return {
      ...{ wish, source, finished, count },
      proven: most.proven && count === most.count,
      joined: found.joined.length > 0,
      from: found.cloths.flatMap(({ lengths }) => lengths.map(({ name }) => name)),
      takes: (100 * count * areaOf(set)) / areaLeft(plan, left),
      worth: count * (wish.worth ?? 0),
      plan: found,
    };
  }
  return undefined;
}

/** A use is only an offer: one that cannot be proven is not made. */
function soundPlan(
  plan: Plan,
  { cloth }: LeftOfCloth,
  wished: readonly Wished[],
  { planned }: UsesOptions,
): CutPlan | undefined {
  const found = planned(usePlan(plan, cloth, wished));
  return found && checkPlan(found).length === 0 ? found : undefined;
}

/** Dearest first; then the maker's list in its order; then what takes most of the cloth. */
export function bestFirst(one: LeftoverUse, other: LeftoverUse): number {
  if (one.worth !== other.worth) return other.worth - one.worth;
  if (one.source !== other.source) return RANK[one.source] - RANK[other.source];
  return one.source === 'list' ? 0 : other.takes - one.takes;
}

const RANK = { list: 0, plan: 1, usual: 2 } as const;

/** The dearest way to put several uses on the leftovers; of the maker's list alone where any of it fits. */
function usesTogether(
  plan: Plan,
  left: LeftOfCloth,
  uses: readonly LeftoverUse[],
  tried: readonly Tried[],
  options: UsesOptions,
): UsesTogether | undefined {
  const listed = uses.filter(({ source }) => source === 'list');
  const own = listed.length > 0 ? listed : uses;
  const fits = own.map(({ wish, count }) => ({ tried: tried.find((each) => each.wish === wish)!, count }));
  const best = fill(plan, left.cloth, fits, packOf(options));
  if (!best || best.wished.length < 2) return undefined;
  const found = soundPlan(plan, left, best.wished, options);
  if (!found) return undefined;
  return {
    worth: best.worth,
    plan: found,
    uses: best.wished.map(({ wish, count }) => {
      const { source, finished } = own.find((use) => use.wish === wish)!;
      return { wish, source, finished, count };
    }),
  };
}

function areaLeft(plan: Plan, { cloth }: LeftOfCloth): number {
  return bedsOf(plan, cloth).inHand.reduce((total, bed) => total + bed.usable * lengthToPack(bed), 0);
}
