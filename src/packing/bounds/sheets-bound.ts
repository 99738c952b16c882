import { scaleOf } from '../guillotine/pieces.ts';
import type { FewestQuestion, Kind } from '../instance.ts';
import { type Stretching, stretchedArea, stretchings } from './area-bounds.ts';
import { laidSizes } from './laid-sizes.ts';

/** Work of one bound: products of images formed. */
const mostProducts = 6e7;

export interface Room {
  readonly width: number;
  readonly length: number;
  readonly copies: number;
  readonly cost: number;
}

/**
 * A cost that the sheets cannot go below, whatever the cuts; Infinity where the pieces do not fit the sheets at hand.
 *
 * For each pair of dual feasible functions, made for the largest width and length, the sheets must hold the stretched
 * area of the pieces; what they hold is bought at the cheapest rate first (the linear relaxation of a covering
 * knapsack) and rounded up to a cost that whole sheets can have. Holds for free placement too.
 */
export function sheetsBound({ sheets, kinds }: FewestQuestion): number {
  const wanted = kinds.filter(({ copies }) => copies > 0);
  if (wanted.length === 0) return 0;
  const scale = scaleOf(wanted);
  const scaled = wanted.map(
    (kind): Kind => ({ ...kind, width: kind.width / scale.unitX, length: kind.length / scale.unitY }),
  );
  const rooms = sheets.map(
    (sheet): Room => ({
      width: Math.floor(sheet.width / scale.unitX),
      length: Math.floor(sheet.length / scale.unitY),
      copies: sheet.copies ?? 1,
      cost: sheet.cost ?? sheet.width * sheet.length,
    }),
  );
  const width = Math.max(...rooms.map((room) => room.width));
  const length = Math.max(...rooms.map((room) => room.length));
  const laid = laidSizes(scaled, width, length);
  if (!laid) return Infinity;
  const across = stretchings(laid, 'width', width);
  const along = stretchings(laid, 'length', length);
  const unit = costUnit(rooms);
  let bound = 0;
  let products = 0;
  for (const [i, j] of pairs(across, along)) {
    const area = stretchedArea(laid, across.images[i]!, along.images[j]!);
    const held = rooms.map((room) => across.functions[i]!(room.width) * along.functions[j]!(room.length));
    bound = Math.max(bound, roundedUp(cheapest(rooms, held, area), unit));
    products += across.images[i]!.length;
    if (products > mostProducts) break;
  }
  return bound;
}

/** All pairs of functions; those with the identity, which matter most, come first. */
function pairs(across: Stretching, along: Stretching): [number, number][] {
  const all = across.functions.flatMap((_, i) => along.functions.map((_, j): [number, number] => [i, j]));
  return all.sort(([a, b], [c, d]) => Math.min(a, b) - Math.min(c, d) || a + b - (c + d));
}

/** Least cost of parts of sheets that together hold `area`; Infinity where all of them do not. */
export function cheapest(rooms: readonly Room[], held: readonly number[], area: number): number {
  const order = rooms
    .map((_, index) => index)
    .filter((index) => held[index]! > 0)
    .sort((a, b) => rooms[a]!.cost / held[a]! - rooms[b]!.cost / held[b]!);
  let left = area;
  let cost = 0;
  for (const index of order) {
    if (left <= 0) break;
    const { copies, cost: each } = rooms[index]!;
    const count = Math.min(copies, left / held[index]!);
    cost += count * each;
    left = count < copies ? 0 : left - copies * held[index]!;
  }
  return left > 0 ? Infinity : cost;
}

/** The largest number that measures every cost; 0 where some cost is not whole. */
export function costUnit(rooms: readonly { readonly cost: number }[]): number {
  let unit = 0;
  for (const { cost } of rooms) {
    if (!Number.isInteger(cost)) return 0;
    let [large, small] = [cost, unit];
    while (small > 0) [large, small] = [small, large % small];
    unit = large;
  }
  return unit;
}

/** Division may err in the last place, so a hair is taken off before rounding up. */
export function roundedUp(cost: number, unit: number): number {
  const safe = cost - 1e-9 * cost;
  return unit > 0 && Number.isFinite(cost) ? Math.ceil(safe / unit) * unit : safe;
}
