import { checkPlan } from '../../check/check-plan.ts';
import { expandMakes } from '../../makes/expand.ts';
import type { Cloth, ClothName } from '../../model/cloth.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { ClothUses, LeftOfCloth, UseAcross, Wish } from '../../model/leftover-use.ts';
import type { PieceWanted, Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { bedsOf } from '../beds.ts';
import { MOST_COUNTED } from '../find-in-cupboard.ts';
import { type Candidate, candidatesAcross } from './candidates.ts';
import { limitByArea, mostOf } from './most-of.ts';
import { packOf, type UsesOptions } from './tried.ts';
import { habitsOf, orderOf } from './use-plan.ts';

type ClothsOfParts = Readonly<Record<string, readonly ClothName[]>>;

/**
 * What leftovers of several cloths could become together: things whose parts are told to come from cloths that differ, or
 * may. Told is only what takes leftovers of two cloths at least, and is more than one of them gives by itself. Dearest
 * first, then the maker's list in its order.
 *
 * @param uses what each cloth leaves, and gives by itself
 */
export function usesAcross(
  plan: Plan,
  uses: readonly (LeftOfCloth & Partial<Pick<ClothUses, 'uses'>>)[],
  options: UsesOptions,
): readonly UseAcross[] {
  const found = candidatesAcross(plan, options.withUsual).flatMap((candidate) => {
    const alone = uses.flatMap((own) => (own.uses ?? []).filter(({ wish }) => isSame(wish, candidate.wish)));
    const most = alone.reduce((greatest, { count }) => Math.max(greatest, count), 0);
    return useAcross(plan, uses, candidate, most, options) ?? [];
  });
  return found.sort((one, other) => other.worth - one.worth);
}

function isSame(one: Wish, other: Wish): boolean {
  return one.name === other.name && one.make === other.make;
}

function useAcross(
  plan: Plan,
  lefts: readonly LeftOfCloth[],
  { wish, source }: Candidate,
  alone: number,
  options: UsesOptions,
): UseAcross | undefined {
  const names = lefts.filter(({ left }) => left.length > 0).map(({ cloth }) => cloth.name);
  const parts = onLeftovers(wish, names);
  if (!parts) return undefined;
  const asked = new Set(Object.values(parts).flat());
  const cloths = lefts.map(({ cloth }) => cloth).filter(({ name }) => asked.has(name));
  const one = expandAcross(plan, cloths, wish, parts);
  if (!one) return undefined;
  const limit = Math.min(wish.most ?? Number.POSITIVE_INFINITY, MOST_COUNTED);
  const bound = mostAcross(plan, cloths, wish, parts, one.pieces, options);
  const most = Math.min(limit, bound);
  const least = Math.max(wish.least, alone + 1);
  const planned = (count: number) => soundAcross(plan, cloths, wish, parts, count, options);
  const best = mostPlanned(least, most, planned);
  if (!best) return undefined;
  const { count, plan: cut } = best;
  return {
    ...{ wish, source, finished: one.finished, count },
    proven: count === bound || count === wish.most,
    joined: cut.joined.length > 0,
    from: cut.cloths.map(({ cloth, lengths }) => ({ cloth, lengths: lengths.map(({ name }) => name) })),
    worth: count * (wish.worth ?? 0),
    plan: cut,
  };
}

/** The cloths of each part that leave something; undefined where a part has none. */
function onLeftovers({ parts = {} }: Wish, names: readonly ClothName[]): ClothsOfParts | undefined {
  const own = Object.entries(parts).map(([part, cloths]) => {
    return [part, cloths.filter((cloth) => names.includes(cloth))] as const;
  });
  return own.every(([, cloths]) => cloths.length > 0) ? Object.fromEntries(own) : undefined;
}

/**
 * No more than this can be had: of a part that comes from one cloth, no more than that cloth gives with all else that
 * comes from it alone; of one that may come from several, no more than they give of it together. What no count proves is
 * bounded by its area.
 */
function mostAcross(
  plan: Plan,
  cloths: readonly Cloth[],
  wish: Wish,
  parts: ClothsOfParts,
  pieces: readonly (PieceWanted & { readonly of: string })[],
  options: UsesOptions,
): number {
  const limit = Math.min(wish.most ?? Number.POSITIVE_INFINITY, MOST_COUNTED);
  const bounds = Object.values(parts).map((names) => {
    const same = (part: string) => JSON.stringify(parts[part]) === JSON.stringify(names);
    // Parts of the same cloths are counted together where those are one, else each by itself.
    const together = names.length === 1 ? [pieces.filter(({ of }) => same(of))] : [];
    const each = Object.keys(parts)
      .filter(same)
      .map((part) => pieces.filter(({ of }) => of === part));
    return Math.min(
      ...(together.length > 0 ? together : each).map((set) =>
        cloths
          .filter(({ name }) => names.includes(name))
          .reduce((total, cloth) => total + boundOn(plan, cloth, set, limit, options), 0),
      ),
    );
  });
  return Math.min(...bounds);
}

function boundOn(
  plan: Plan,
  cloth: Cloth,
  set: readonly PieceWanted[],
  limit: number,
  options: UsesOptions,
): number {
  const own = set.map((piece) => ({ ...piece, cloth: cloth.name }));
  const { count, proven } = mostOf(plan, cloth, { set: own }, limit, packOf(options));
  if (proven && count < limit) return count;
  // Of what is joined only its area counts, which is no less than that of the whole piece.
  const room = bedsOf(plan, cloth).inHand;
  return limitByArea(
    own.map(({ size, copies }) => ({ ...size, copies, quarterTurn: false })),
    [],
    room,
  );
}

/** The most that can be planned from `least` to `most`; more never fit where fewer do not, so the counts are halved. */
function mostPlanned(
  least: number,
  most: number,
  planned: (count: number) => CutPlan | undefined,
): { readonly count: number; readonly plan: CutPlan } | undefined {
  if (least > most) return undefined;
  const all = planned(most);
  if (all) return { count: most, plan: all };
  let [fits, fails] = [least, most];
  let plan = least < most ? planned(least) : undefined;
  if (!plan) return undefined;
  while (fails - fits > 1) {
    const middle = Math.floor((fits + fails) / 2);
    const found = planned(middle);
    if (found) [fits, plan] = [middle, found];
    else fails = middle;
  }
  return { count: fits, plan };
}

/** One of it: its pieces with the part that each belongs to, and its finished size; undefined where it cannot be made. */
function expandAcross(
  plan: Plan,
  cloths: readonly Cloth[],
  wish: Wish,
  parts: ClothsOfParts,
):
  | { readonly pieces: readonly (PieceWanted & { readonly of: string })[]; readonly finished: Size }
  | undefined {
  const { pieces, sheets, issues } = expandMakes(planAcross(plan, cloths, wish, parts, 1));
  if (pieces.length === 0 || issues.some(({ severity }) => severity === 'error')) return undefined;
  // A piece that would stand upside down in a print is no use of it.
  if (issues.some(({ code }) => code === 'part-upside-down')) return undefined;
  // Cut from a cloth that is named after its part, each piece tells which that is.
  const byPart = Object.fromEntries(Object.keys(parts).map((part) => [part, [part]]));
  const named = expandMakes(planAcross(plan, [], wish, byPart, 1)).pieces;
  const own = pieces.map((piece, index) => ({ ...piece, of: named[index]!.cloth }));
  return { pieces: own, finished: sheets[0]!.finished };
}

function planAcross(
  plan: Plan,
  cloths: readonly Cloth[],
  wish: Wish,
  parts: ClothsOfParts,
  count: number,
): Plan {
  const { rules } = wish;
  return {
    ...habitsOf(plan),
    name: `${plan.name}: from leftovers of ${cloths.map(({ name }) => name).join(' and ')}`,
    cloths,
    makes: [orderOf({ wish, count }, parts)],
    pieces: [],
    ...(rules && { sets: [{ name: wish.name, orders: [wish.name], rules }] }),
  };
}

/** A use is only an offer: one that cannot be proven, or that one cloth gives, is not made. */
function soundAcross(
  plan: Plan,
  cloths: readonly Cloth[],
  wish: Wish,
  parts: ClothsOfParts,
  count: number,
  { planned }: UsesOptions,
): CutPlan | undefined {
  const found = planned(planAcross(plan, cloths, wish, parts, count));
  return found && found.cloths.length > 1 && checkPlan(found).length === 0 ? found : undefined;
}
