import { findMake } from '../../makes/catalogue.ts';
import { expandMakes } from '../../makes/expand.ts';
import type { Cloth, ClothName } from '../../model/cloth.ts';
import type { Wish } from '../../model/leftover-use.ts';
import type { PieceWanted, Size } from '../../model/piece.ts';
import type { MakeOrder, Plan } from '../../model/plan.ts';

/** So many of one wish. */
export interface Wished {
  readonly wish: Wish;
  readonly count: number;
}

/** An order for a wish, with every part that it names, else that must have a cloth, cut from this one. */
export function orderFor({ wish, count }: Wished, cloth: ClothName): MakeOrder {
  return orderOf({ wish, count }, Object.fromEntries(partsOf(wish).map((part) => [part, [cloth]])));
}

/** An order for a wish, each part from any of some cloths. */
export function orderOf(
  { wish, count }: Wished,
  cloths: Readonly<Record<string, readonly ClothName[]>>,
): MakeOrder {
  const parts = Object.entries(cloths);
  const open = parts.filter(([, names]) => names.length > 1);
  return {
    name: wish.name,
    make: wish.make,
    count,
    measures: wish.measures,
    cloths: Object.fromEntries(parts.map(([part, names]) => [part, names[0]!])),
    ...(open.length > 0 && { choices: Object.fromEntries(open) }),
    ...(wish.matches && { matches: wish.matches }),
  };
}

/** Parts that have a cloth: those that the wish names, else all that must have one. */
function partsOf({ make, parts }: Wish): readonly string[] {
  if (parts) return Object.keys(parts);
  const { parts: all } = findMake(make)!.spec;
  return Object.keys(all).filter((part) => all[part]!.optional !== true);
}

/** A plan that cuts so many of some wishes from one cloth, and nothing else; its tools and rulers are those of `plan`. */
export function usePlan(plan: Plan, cloth: Cloth, wished: readonly Wished[]): Plan {
  return {
    ...habitsOf(plan),
    name: `${plan.name}: from the leftovers of ${cloth.name}`,
    cloths: [cloth],
    makes: namedApart(wished).map((own) => orderFor(own, cloth.name)),
    pieces: [],
  };
}

/** What a plan says of tools and paper, whatever is cut. */
export function habitsOf(plan: Plan) {
  const { unit, rulerMark, paper, currency, keep, tools, stages } = plan;
  return { unit, rulerMark, paper, currency, keep, tools, stages };
}

/** Usual sizes of one make share a name; orders of one plan may not. */
function namedApart(wished: readonly Wished[]): readonly Wished[] {
  return wished.map((own, index) => {
    const before = wished.slice(0, index).filter(({ wish }) => wish.name === own.wish.name).length;
    return before === 0 ? own : { ...own, wish: { ...own.wish, name: `${own.wish.name} ${before + 1}` } };
  });
}

/** What one of a wish is: its pieces and its finished size; undefined where its measures make nothing. */
export function expandWish(
  plan: Plan,
  cloth: Cloth,
  wish: Wish,
): { readonly pieces: readonly PieceWanted[]; readonly finished: Size } | undefined {
  const { pieces, sheets, issues } = expandMakes(usePlan(plan, cloth, [{ wish, count: 1 }]));
  const failed = pieces.length === 0 || issues.some(({ severity }) => severity === 'error');
  // A piece that would stand upside down in a print is no use of it.
  const upsideDown = issues.some(({ code }) => code === 'part-upside-down');
  return failed || upsideDown ? undefined : { pieces, finished: sheets[0]!.finished };
}
