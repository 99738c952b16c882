/**
 * Most value from all that lies around a part pushed into the near corner of the sheet.
 *
 * Viswanathan & Bagchi (1993): around a part of x × y the sheet is completed by parts laid beside it, each as long or
 * wide as what is there already. With a table of bests for each part this is a dynamic programme from the whole
 * sheet inwards, O(cells · (columns + rows)); `outside[last] = 0`.
 */
import type { Spend, ValueTable } from './unlimited.ts';

export function outsideTable({ grid, best, rows }: ValueTable, spend: Spend): Float64Array | undefined {
  const columns = grid.x.sizes.length;
  const xs = grid.x.sizes;
  const ys = grid.y.sizes;
  const outside = new Float64Array(columns * rows);
  for (let i = columns - 1; i >= 0; i -= 1) {
    const here = i * rows;
    for (let wider = i + 1; wider < columns; wider += 1) {
      const beside = grid.x.down[xs[wider]! - xs[i]!]! * rows;
      const then = wider * rows;
      for (let j = 0; j < rows; j += 1) {
        const sum = best[beside + j]! + outside[then + j]!;
        if (sum > outside[here + j]!) outside[here + j] = sum;
      }
    }
    for (let j = rows - 1; j >= 0; j -= 1) {
      let most = outside[here + j]!;
      for (let longer = j + 1; longer < rows; longer += 1) {
        const sum = best[here + grid.y.down[ys[longer]! - ys[j]!]!]! + outside[here + longer]!;
        if (sum > most) most = sum;
      }
      outside[here + j] = most;
    }
    if (spend((columns - i) * rows + (rows * rows) / 2)) return undefined;
  }
  return outside;
}
