/**
 * Most value from every useful size of part when copies are not limited.
 *
 * Gilmore & Gomory (1966) as Beasley (1985) discretised it: the best of a part is one piece, or the best of the two
 * parts of some cut. O(cells · (columns + rows)) for a grid of cells = columns · rows.
 *
 * Kinds that a coarse grid rounds to nothing have no cell: the caller must count all their copies beside the table.
 */
import type { Grid } from './grid.ts';

export interface ValueTable {
  readonly grid: Grid;
  /** Row by row of x: `best[i * rows + j]` for the part `x.sizes[i]` × `y.sizes[j]`. */
  readonly best: Float64Array;
  readonly rows: number;
}

/** Told of operations done since the last call; true ends the work. */
export type Spend = (operations: number) => boolean;

/**
 * `values[k]` is the worth of one copy of kind k; a kind worth nothing or less is left out. Undefined when ended early.
 * `reuse` is a table of the same grid that is no longer needed.
 */
export function valueTable(
  grid: Grid,
  values: Float64Array,
  spend: Spend,
  reuse?: ValueTable,
): ValueTable | undefined {
  const columns = grid.x.sizes.length;
  const rows = grid.y.sizes.length;
  const best = reuse?.best ?? new Float64Array(columns * rows);
  best.fill(0);
  seed(grid, values, best, rows);
  for (let i = 1; i < columns; i += 1) {
    const here = i * rows;
    for (let j = 0, before = here - rows; j < rows; j += 1, before += 1) {
      if (best[before]! > best[here + j]!) best[here + j] = best[before]!;
    }
    const lengthwise = cutLengthwise(grid, best, i);
    const crosscuts = cutAcross(grid, best, here);
    if (spend(lengthwise + crosscuts)) return undefined;
  }
  return { grid, best, rows };
}

/** Improves one row of x by cuts along the length; returns the operations. */
function cutLengthwise(grid: Grid, best: Float64Array, i: number): number {
  const { sizes, down } = grid.x;
  const rows = grid.y.sizes.length;
  const here = i * rows;
  const x = sizes[i]!;
  let a = 1;
  for (; 2 * sizes[a]! <= x; a += 1) {
    const near = a * rows;
    const far = down[x - sizes[a]!]! * rows;
    for (let j = 1; j < rows; j += 1) {
      const sum = best[near + j]! + best[far + j]!;
      if (sum > best[here + j]!) best[here + j] = sum;
    }
  }
  return a * rows;
}

/** Improves one row of x by cuts across, from short parts to long; returns the operations. */
function cutAcross(grid: Grid, best: Float64Array, here: number): number {
  const { sizes, down } = grid.y;
  const rows = sizes.length;
  let operations = rows;
  for (let j = 1; j < rows; j += 1) {
    let most = best[here + j]!;
    if (best[here + j - 1]! > most) most = best[here + j - 1]!;
    const y = sizes[j]!;
    let b = 1;
    for (; 2 * sizes[b]! <= y; b += 1) {
      const sum = best[here + b]! + best[here + down[y - sizes[b]!]!]!;
      if (sum > most) most = sum;
    }
    best[here + j] = most;
    operations += b;
  }
  return operations;
}

function seed(grid: Grid, values: Float64Array, best: Float64Array, rows: number): void {
  for (const way of grid.laid) {
    if (way.coarseWidth === 0 || way.coarseLength === 0) continue;
    const cell = grid.x.down[way.coarseWidth]! * rows + grid.y.down[way.coarseLength]!;
    const value = values[way.kind]!;
    if (value > best[cell]!) best[cell] = value;
  }
}
