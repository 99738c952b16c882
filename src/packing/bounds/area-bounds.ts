/**
 * The area that pieces take up at least, after widths and lengths have been stretched by dual feasible functions.
 *
 * For f on the width and g on the length of a sheet, pieces that fit it satisfy Σ f(w)·g(l) ≤ f(W)·g(L) (Fekete &
 * Schepers 2004). A piece that may be turned counts with the lesser of its two ways, whichever it will lie in.
 */
import { dualFeasibleFunctions, type SizeFunction } from './dual-feasible.ts';
import type { LaidSizes } from './laid-sizes.ts';

export interface Stretching {
  readonly functions: readonly SizeFunction[];
  /** Image of each way's size, function by function. */
  readonly images: readonly Float64Array[];
}

/** All functions for one axis with the images of the sizes along it. O(functions · ways). */
export function stretchings(laid: LaidSizes, axis: 'width' | 'length', capacity: number): Stretching {
  const sizes = laid.ways.flatMap((open) => open.map((way) => way[axis]));
  const functions = dualFeasibleFunctions(capacity, sizes);
  return { functions, images: functions.map((stretch) => Float64Array.from(sizes, stretch)) };
}

/** Least stretched area of all pieces together. O(ways). */
export function stretchedArea(laid: LaidSizes, across: Float64Array, along: Float64Array): number {
  let total = 0;
  let way = 0;
  for (let piece = 0; piece < laid.copies.length; piece += 1) {
    let least = across[way]! * along[way]!;
    if (laid.ways[piece]!.length > 1) {
      way += 1;
      const other = across[way]! * along[way]!;
      if (other < least) least = other;
    }
    way += 1;
    total += laid.copies[piece]! * least;
  }
  return total;
}

/** Is there a pair of functions that shows that not all pieces fit into one sheet of this size? */
export function overfills(laid: LaidSizes, width: number, length: number, across: Stretching): boolean {
  const along = stretchings(laid, 'length', length);
  return across.functions.some((f, i) => {
    const room = f(width);
    return along.functions.some(
      (g, j) => stretchedArea(laid, across.images[i]!, along.images[j]!) > room * g(length),
    );
  });
}
