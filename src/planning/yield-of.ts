import { checkPlan } from '../check/check-plan.ts';
import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import { expandMakes } from '../makes/expand.ts';
import type { Cloth, ClothName, LengthInHand } from '../model/cloth.ts';
import { copyNames } from '../model/cupboard.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Outcome } from '../model/issue.ts';
import type { ClothUses, LeftOfCloth } from '../model/leftover-use.ts';
import type { Plan } from '../model/plan.ts';
import { staysWhole } from './leftovers/left-of-cloths.ts';
import { mostOf } from './leftovers/most-of.ts';
import { packOf, type UsesOptions } from './leftovers/tried.ts';
import { usesOf, usesOfLeftovers } from './leftovers/uses-of.ts';
import { type NamedSet, piecesOfSet, planOfSets } from './named-set.ts';

export interface ClothYield {
  readonly cloth: ClothName;
  /** Complete sets that the lengths of it hold; absent where none is here, and it is bought. */
  readonly sets?: number;
  readonly proven: boolean;
}

/** How many complete sets the cloth that is here gives, and what else fits into the rest. */
export interface Yielded {
  readonly set: NamedSet;
  readonly sets: number;
  /** No more can be had. */
  readonly proven: boolean;
  /** In the plan's order; only cloths with a part in the set. */
  readonly cloths: readonly ClothYield[];
  /** Cuts the sets; absent where there is none. */
  readonly cutPlan?: CutPlan;
  /** Of what the sets leave, and of lengths that they leave whole. */
  readonly uses: readonly ClothUses[];
}

/** Sets that are left off one by one, should a plan of all cloths not find room for what each holds by itself. */
const MOST_LEFT_OFF = 3;

/**
 * The other way round: most complete sets that the lengths in hand hold, cloth by cloth and together, as the engine's
 * *most complete sets* answers; then a plan that cuts them, and the uses of what is over. A cloth of which nothing is in
 * hand sets no limit where it can be bought.
 *
 * @param most more sets are not looked for
 */
export function yieldOf(plan: Plan, set: NamedSet, most: number, options: UsesOptions): Outcome<Yielded> {
  const one = planOfSets(plan, set, 1);
  const { pieces, issues } = expandMakes(one);
  if (issues.some(({ severity }) => severity === 'error')) return { ok: false, issues };
  const asked = piecesOfSet(one, pieces, set)!;
  const cloths = plan.cloths.flatMap((cloth): readonly ClothYield[] => {
    const own = pieces.filter((piece) => piece.cloth === cloth.name && asked.has(piece.id));
    if (own.length === 0) return [];
    if (cloth.inHand.length === 0) return [{ cloth: cloth.name, proven: true }];
    const { count, proven } = mostOf(one, asHere(cloth), { set: own }, most, packOf(options));
    return [{ cloth: cloth.name, sets: count, proven }];
  });
  const limits = cloths.flatMap(({ sets }) => (sets === undefined ? [] : [sets]));
  const counted = Math.min(most, ...limits);
  const here = { ...plan, cloths: plan.cloths.map(asHere) };
  const found = planned(here, set, counted, options);
  const sets = found?.sets ?? 0;
  const least = cloths.filter((own) => own.sets === counted);
  const proven = sets === counted && (counted === most || least.some((own) => own.proven));
  return {
    ok: true,
    issues,
    value: {
      ...{ set, sets, proven, cloths },
      ...(found && { cutPlan: found.cutPlan }),
      uses: usesOfRest(here, found?.cutPlan, options),
    },
  };
}

/** Where some of it is here, no more is bought. */
function asHere(cloth: Cloth): Cloth {
  const { buy: _, ...rest } = cloth;
  return cloth.inHand.length === 0 ? cloth : rest;
}

function planned(plan: Plan, set: NamedSet, counted: number, options: UsesOptions) {
  for (let sets = counted; sets >= Math.max(1, counted - MOST_LEFT_OFF); sets--) {
    const { wishes: _, ...asked } = planOfSets(plan, set, sets);
    const cutPlan = options.planned(asked);
    if (cutPlan && checkPlan(cutPlan).length === 0) return { sets, cutPlan };
  }
  return undefined;
}

function usesOfRest(plan: Plan, cutPlan: CutPlan | undefined, options: UsesOptions): readonly ClothUses[] {
  const rest = cutPlan
    ? usesOfLeftovers({ ...cutPlan, plan: { ...cutPlan.plan, ...wishesOf(plan) } }, options)
    : [];
  const ofCut = rest.map((own) => ({ ...own, more: [] })).filter(({ left }) => left.length > 0);
  const whole = plan.cloths.flatMap((cloth) => {
    const left = unopened(cloth, cutPlan);
    return left ? [{ ...usesOf(plan, left, options), more: [] }] : [];
  });
  return [...ofCut, ...whole];
}

function wishesOf({ wishes }: Plan): Pick<Plan, 'wishes'> {
  return wishes ? { wishes } : {};
}

/** The lengths in hand that nothing was cut from, as the cloth that they are. */
function unopened(cloth: Cloth, cutPlan: CutPlan | undefined): LeftOfCloth | undefined {
  const cut = cutPlan?.cloths.find((own) => own.cloth === cloth.name)?.lengths.map(({ name }) => name) ?? [];
  if (staysWhole(cloth)) return undefined;
  const inHand = cloth.inHand.flatMap((own): readonly LengthInHand[] =>
    copyNames(own.name, own.copies)
      .filter((name) => !cut.includes(name))
      .map((name) => ({ ...own, name, copies: 1 })),
  );
  if (inHand.length === 0) return undefined;
  const { buy: _, repeat: __, ...rest } = cloth;
  return {
    cloth: { ...rest, inHand, lay: 'flat' },
    left: inHand.map((own) => {
      const { along, across } = lossBeforeCutting(cloth, own);
      return {
        name: own.name,
        size: { width: afterWashing(own.width, across), length: afterWashing(own.length, along) },
      };
    }),
  };
}
