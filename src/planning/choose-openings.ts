import { type Expanded, expandMakes } from '../makes/expand.ts';
import { choosesEachCover, leavesOpening } from '../makes/openings.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { OpeningSplit, PieceWanted } from '../model/piece.ts';
import type { MakeOrder, Plan } from '../model/plan.ts';
import { wishesOf } from './choose.ts';

/** How many covers of each order close level and how many upright, by the order's name. */
export type Openings = ReadonlyMap<string, OpeningSplit>;

/** Plans one cloth for given pieces, quickly; undefined where it cannot. */
export type LayOutQuickly = (cloth: string, pieces: readonly PieceWanted[]) => ClothPlan | undefined;

/**
 * Settles, order by order, which way its covers close where the plan leaves it open: all level or all upright, or so
 * many of each where each cover may close its own way. What is judged is every cloth that the choice changes, by the
 * wishes, its orders before as settled and those after closing level. The mixtures are searched from coarse to fine.
 */
export function chooseOpenings(plan: Plan, layOut: LayOutQuickly): Openings {
  const chosen = new Map<string, OpeningSplit>();
  const known = new Map<string, ClothPlan | undefined>();
  const planned = (cloth: string, pieces: readonly PieceWanted[]) => {
    const key = JSON.stringify([
      cloth,
      pieces.map(({ size, copies, grain, join }) => [size, copies, grain, join]),
    ]);
    if (!known.has(key)) known.set(key, layOut(cloth, pieces));
    return known.get(key);
  };
  for (const order of plan.makes.filter(leavesOpening)) {
    const judge = (level: number): readonly number[] | undefined => {
      const split = { level, upright: order.count - level };
      return judged(plan, order, expandMakes(plan, new Map([...chosen, [order.name, split]])), planned);
    };
    chosen.set(order.name, bestSplit(order, judge));
  }
  return chosen;
}

type Judge = (level: number) => readonly number[] | undefined;

/** All level before all upright, and either before a mixture, where nothing else tells them apart. */
function bestSplit(order: MakeOrder, judge: Judge): OpeningSplit {
  const { count } = order;
  let best: { readonly level: number; readonly wishes: readonly number[] } | undefined;
  const tried = new Set<number>();
  const look = (level: number) => {
    if (level < 0 || level > count || tried.has(level)) return;
    tried.add(level);
    const wishes = judge(level);
    if (wishes && (!best || lower(wishes, best.wishes))) best = { level, wishes };
  };
  for (const level of [count, 0]) look(level);
  if (choosesEachCover(order)) {
    const coarse = Math.max(1, Math.ceil(count / 4));
    for (let level = count - coarse; level > 0; level -= coarse) look(level);
    for (let step = Math.ceil(coarse / 2); tried.size <= count; step = Math.ceil(step / 2)) {
      const centre: number = best?.level ?? count;
      look(centre + step);
      look(centre - step);
      if (step === 1 && centre === (best?.level ?? count)) break;
    }
  }
  const level = best?.level ?? count;
  return { level, upright: count - level };
}

/** The wishes of all cloths that the order is cut from together; undefined where one of them cannot be cut so. */
function judged(
  plan: Plan,
  order: MakeOrder,
  made: Expanded,
  layOut: LayOutQuickly,
): readonly number[] | undefined {
  const own = made.pieces.filter((piece) => piece.order === order.name);
  if (own.length === 0) return undefined;
  const cloths = new Set(own.filter((piece) => piece.opening !== undefined).map(({ cloth }) => cloth));
  const plans: ClothPlan[] = [];
  for (const cloth of cloths) {
    const found = layOut(
      cloth,
      made.pieces.filter((piece) => piece.cloth === cloth),
    );
    if (!found) return undefined;
    plans.push(found);
  }
  const wishes = plans.map((clothPlan) => wishesOf(plan, clothPlan));
  return [upsideDown(plan, own), ...moneyOf(plans), ...sums(wishes)];
}

/** Pieces of which a part would stand upside down in a cloth with an up. */
function upsideDown(plan: Plan, pieces: readonly PieceWanted[]): number {
  return pieces.reduce((total, piece) => {
    const direction = plan.cloths.find(({ name }) => name === piece.cloth)?.direction;
    const hasUp = direction === 'one-way' || direction === 'nap';
    return total + (hasUp && piece.bothWaysUp === true ? piece.copies : 0);
  }, 0);
}

/** What is to pay, where every cloth that is bought has a price. */
function moneyOf(plans: readonly ClothPlan[]): readonly [number] {
  const purchases = plans.flatMap(({ purchase }) => purchase ?? []);
  const priced = purchases.every(({ cost }) => cost !== undefined);
  return [priced ? purchases.reduce((total, { cost }) => total + cost!, 0) : 0];
}

function sums(rows: readonly (readonly number[])[]): readonly number[] {
  return (rows[0] ?? []).map((_, column) => rows.reduce((total, row) => total + row[column]!, 0));
}

function lower(a: readonly number[], b: readonly number[]): boolean {
  const differs = a.findIndex((wish, index) => wish !== b[index]);
  return differs >= 0 && a[differs]! < b[differs]!;
}
