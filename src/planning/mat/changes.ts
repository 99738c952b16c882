import { findMake } from '../../makes/catalogue.ts';
import type { ClothName } from '../../model/cloth.ts';
import type { Size } from '../../model/piece.ts';
import type { MakeOrder, Plan } from '../../model/plan.ts';
import { toJoinRule } from '../../model/reading/join-fields.ts';
import type { Ticks } from '../../units/ticks.ts';

/** An order of a make, or a loose piece, by its place in the plan's list. */
export interface ThingAt {
  readonly list: 'make' | 'pieces';
  readonly index: number;
}

/** One change of a plan, small enough to be made in the text of its file. */
export type PlanChange =
  /** With 0 it is left out altogether. */
  | { readonly kind: 'count'; readonly of: ThingAt; readonly count: number }
  /** A finished measure of a make; the cut size of a loose piece. */
  | {
      readonly kind: 'measure';
      readonly of: ThingAt;
      readonly measure: string;
      readonly value: Size | Ticks;
    }
  /** So many joins are permitted: under the make's own measure, or by the rule of a loose piece. */
  | { readonly kind: 'join'; readonly of: ThingAt; readonly most: number; readonly measure?: string }
  /** More of a measured cloth is bought. */
  | { readonly kind: 'buy-more'; readonly cloth: ClothName };

export function withChanges(plan: Plan, changes: readonly PlanChange[]): Plan {
  return withoutNothing(inPlace(plan, changes));
}

/** With every thing still in its place in the lists, those of which none is wanted too, for changes that come after. */
export function inPlace(plan: Plan, changes: readonly PlanChange[]): Plan {
  return changes.reduce((before, change) => changed(before, change), plan);
}

/** Each place in the plan once, with the last that was made of it. */
export function lastOfEach(changes: readonly PlanChange[]): readonly PlanChange[] {
  const byPlace = new Map(changes.map((change) => [placeOf(change), change] as const));
  return [...byPlace.values()];
}

function placeOf(change: PlanChange): string {
  if (change.kind === 'buy-more') return JSON.stringify([change.kind, change.cloth]);
  const measure = change.kind === 'count' ? undefined : change.measure;
  return JSON.stringify([change.kind, change.of.list, change.of.index, measure]);
}

function changed(plan: Plan, change: PlanChange): Plan {
  if (change.kind === 'buy-more') {
    const cloths = plan.cloths.map((cloth) => {
      const buy = cloth.measured?.reckoned.buy;
      return cloth.name === change.cloth && buy ? { ...cloth, buy } : cloth;
    });
    return { ...plan, cloths };
  }
  const { list, index } = change.of;
  if (list === 'make') {
    const makes = plan.makes.map((order, at) => {
      if (at !== index) return order;
      if (change.kind === 'count') return { ...order, count: change.count };
      const [measure, value] =
        change.kind === 'measure' ? [change.measure, change.value] : [change.measure!, change.most];
      return { ...order, measures: { ...order.measures, ...keptOf(order, measure), [measure]: value } };
    });
    return { ...plan, makes };
  }
  const pieces = plan.pieces.map((piece, at) => {
    if (at !== index) return piece;
    if (change.kind === 'count') return { ...piece, count: change.count };
    if (change.kind === 'measure') return { ...piece, size: change.value as Size };
    return {
      ...piece,
      join: piece.join
        ? { ...piece.join, mostJoins: change.most }
        : toJoinRule({ by: 'seam', 'most joins': change.most }, plan.unit),
    };
  });
  return { ...plan, pieces };
}

/** What an order was to hold stays as large as it was when the order is made smaller: a pad is at hand, or bought by its size. */
export function keptOf(order: MakeOrder, measure: string): Readonly<Record<string, Size>> {
  const need = findMake(order.make)?.spec.needs?.find(({ size }) => size === measure);
  if (!need || order.measures[need.kept] !== undefined) return {};
  return { [need.kept]: order.measures[measure] as Size };
}

/** What is no longer wanted at all is left out, and so are sets of which nothing is left. */
function withoutNothing(plan: Plan): Plan {
  const makes = plan.makes.filter(({ count }) => count > 0);
  const pieces = plan.pieces.filter(({ count }) => count > 0);
  if (makes.length === plan.makes.length && pieces.length === plan.pieces.length) return plan;
  const left = new Set(makes.map(({ name }) => name));
  const sets = plan.sets
    ?.map((set) => ({ ...set, orders: set.orders.filter((order) => left.has(order)) }))
    .filter(({ orders }) => orders.length > 0);
  const { sets: _, ...rest } = plan;
  return { ...rest, makes, pieces, ...(sets && sets.length > 0 && { sets }) };
}
