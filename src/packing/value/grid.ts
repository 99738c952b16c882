/**
 * The sizes that parts of a sheet can usefully have.
 *
 * Every cutting pattern can be pushed to the near corner until each cut lies at a sum of piece sizes (Herz 1972;
 * Christofides & Whitlock 1977), so parts of other sizes need no look. Sums respect the copies at hand.
 *
 * Where such sizes are too many, all are counted in coarse units, rounded down, pieces and sheet alike: what fits
 * still fits, since rounded parts of a cut never add up to more than the rounded whole. Values found on a coarse grid
 * are therefore bounds from above.
 */
import type { Kind } from '../instance.ts';

/** A piece as it may be laid: one entry per kind and turn that fits the sheet. */
export interface Laid {
  readonly kind: number;
  readonly turned: boolean;
  readonly width: number;
  readonly length: number;
  readonly coarseWidth: number;
  readonly coarseLength: number;
}

export interface Axis {
  /** Useful sizes in coarse units, rising from 0 to the whole. */
  readonly sizes: Int32Array;
  /** `down[size]` is the index of the greatest useful size that is at most `size`. */
  readonly down: Int32Array;
}

export interface Grid {
  readonly width: number;
  readonly length: number;
  /** How many units of length one coarse unit is; 1 where the grid is exact. */
  readonly coarse: number;
  readonly x: Axis;
  readonly y: Axis;
  readonly laid: readonly Laid[];
}

/** The most operations that one table over a grid may take. */
const mostOperations = 6e8;

/** Most copies of each kind that a sheet of this size could hold by area, never above its limit. O(kinds). */
export function usableCopies(kinds: readonly Kind[], width: number, length: number): Int32Array {
  return Int32Array.from(kinds, (kind) =>
    Math.min(kind.copies, Math.floor((width * length) / (kind.width * kind.length))),
  );
}

/** Operations that one table over the grid takes. */
export function operationsOf({ x, y }: Grid): number {
  const columns = x.sizes.length;
  const rows = y.sizes.length;
  return (columns * rows * (columns + rows)) / 4;
}

/** The grid of a sheet in whole units, as fine as one table of it stays affordable. */
export function gridOf(kinds: readonly Kind[], width: number, length: number): Grid {
  let coarse = 1;
  for (;;) {
    const grid = gridInUnits(kinds, width, length, coarse);
    const operations = operationsOf(grid);
    if (operations <= mostOperations) return grid;
    coarse = coarser(coarse, operations / mostOperations);
  }
}

/**
 * A rough picture of the same sheet, sizes rounded to the nearest unit, whose tables take at most so many operations;
 * undefined where the sheet's own grid is no dearer. Values found on it bound nothing.
 */
export function roughGridOf(
  kinds: readonly Kind[],
  width: number,
  length: number,
  operations: number,
): Grid | undefined {
  let coarse = 1;
  for (;;) {
    const grid = gridInUnits(kinds, width, length, coarse, Math.round);
    const taken = operationsOf(grid);
    if (taken <= operations) return coarse === 1 ? undefined : grid;
    coarse = coarser(coarse, taken / operations);
  }
}

/** Operations fall with the third power of the unit, or slower where few sizes are useful. */
function coarser(coarse: number, excess: number): number {
  return Math.ceil(coarse * Math.max(1.15, 0.8 * Math.cbrt(excess)));
}

function gridInUnits(
  kinds: readonly Kind[],
  width: number,
  length: number,
  coarse: number,
  round: (size: number) => number = Math.floor,
): Grid {
  const inUnits = (size: number) => round(size / coarse);
  const laid = laidKinds(kinds, width, length, inUnits);
  const copies = usableCopies(kinds, width, length);
  return {
    width,
    length,
    coarse,
    x: axisOf(
      laid.map((way) => [way.coarseWidth, copies[way.kind]!] as const),
      inUnits(width),
    ),
    y: axisOf(
      laid.map((way) => [way.coarseLength, copies[way.kind]!] as const),
      inUnits(length),
    ),
    laid,
  };
}

/** Ways of laying each kind that fit into `width` × `length`; a square has one way. */
function laidKinds(
  kinds: readonly Kind[],
  width: number,
  length: number,
  inUnits: (size: number) => number,
): Laid[] {
  const laid: Laid[] = [];
  kinds.forEach((kind, index) => {
    if (kind.copies < 1) return;
    const add = (turned: boolean, wide: number, long: number): void => {
      if (wide > width || long > length) return;
      const coarse = { coarseWidth: inUnits(wide), coarseLength: inUnits(long) };
      laid.push({ kind: index, turned, width: wide, length: long, ...coarse });
    };
    add(false, kind.width, kind.length);
    if (kind.quarterTurn && kind.width !== kind.length) add(true, kind.length, kind.width);
  });
  return laid;
}

/** All sums of sizes up to `whole`, each size at most as often as its copies say. O(sizes · whole). */
function axisOf(sizes: readonly (readonly [size: number, copies: number])[], whole: number): Axis {
  const merged = new Map<number, number>();
  for (const [size, copies] of sizes) if (size > 0) merged.set(size, (merged.get(size) ?? 0) + copies);
  const reached = new Uint8Array(whole + 1);
  const used = new Int32Array(whole + 1);
  reached[0] = 1;
  for (const [size, copies] of merged) {
    used.fill(0);
    for (let at = size; at <= whole; at += 1) {
      if (reached[at] === 1 || reached[at - size] === 0 || used[at - size]! >= copies) continue;
      reached[at] = 1;
      used[at] = used[at - size]! + 1;
    }
  }
  reached[whole] = 1;
  const down = new Int32Array(whole + 1);
  const list: number[] = [];
  for (let at = 0; at <= whole; at += 1) {
    if (reached[at] === 1) list.push(at);
    down[at] = list.length - 1;
  }
  return { sizes: Int32Array.from(list), down };
}
