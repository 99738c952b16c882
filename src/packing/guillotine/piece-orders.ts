import type { Pieces } from './pieces.ts';

/** Orders in which pieces are put back: those of `pieceOrders`, and one more at random. */
export const ORDERS = 6;
/** Up to this many, insertion is the quickest way of sorting. */
const FEW = 40;
/** Breaks ties by area. */
const HAIR = 1e-6;

/**
 * Keys by which pieces are sorted, falling: area, longer side, length, width, girth. A turnable piece has its shorter
 * side as length and its longer as width.
 */
export function pieceOrders({ count, width, length, area, turnable }: Pieces): Float64Array[] {
  const keys = (key: (piece: number) => number): Float64Array =>
    Float64Array.from({ length: count }, (_, i) => key(i));
  const longer = (i: number): number => Math.max(width[i], length[i]);
  const shorter = (i: number): number => Math.min(width[i], length[i]);
  return [
    keys((i) => area[i]),
    keys((i) => longer(i) + HAIR * area[i]),
    keys((i) => (turnable[i] ? shorter(i) : length[i]) + HAIR * area[i]),
    keys((i) => (turnable[i] ? longer(i) : width[i]) + HAIR * area[i]),
    keys((i) => width[i] + length[i]),
  ];
}

/** Sorts the first `count` entries by falling key; the order of equals depends on nothing but the order given. */
export function sortByFallingKey(list: Int32Array, count: number, key: Float64Array): void {
  if (count > FEW) {
    list.subarray(0, count).sort((a, b) => key[b] - key[a] || a - b);
    return;
  }
  for (let i = 1; i < count; i++) {
    const entry = list[i];
    let j = i - 1;
    while (j >= 0 && key[list[j]] < key[entry]) {
      list[j + 1] = list[j];
      j--;
    }
    list[j + 1] = entry;
  }
}
