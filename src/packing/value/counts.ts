/** Reads back from a value table which pieces make a part's best, without recursion. */
import type { ValueTable } from './unlimited.ts';

/** What the best of a cell is made of: a piece, a cut with its two cells, or nothing. */
export type CellPlan =
  | { readonly kind: 'piece'; readonly way: number }
  | { readonly kind: 'across' | 'along'; readonly near: number; readonly far: number }
  | { readonly kind: 'smaller'; readonly cell: number }
  | { readonly kind: 'nothing' };

/** O(kinds + columns + rows) for one cell; `values` must be those the table was made with. */
export function cellPlan(table: ValueTable, values: Float64Array, cell: number): CellPlan {
  const { grid, best, rows } = table;
  const target = best[cell]!;
  if (target <= 0) return { kind: 'nothing' };
  const i = Math.floor(cell / rows);
  const j = cell - i * rows;
  if (i > 0 && best[cell - rows] === target) return { kind: 'smaller', cell: cell - rows };
  if (j > 0 && best[cell - 1] === target) return { kind: 'smaller', cell: cell - 1 };
  const x = grid.x.sizes[i]!;
  const y = grid.y.sizes[j]!;
  for (let way = 0; way < grid.laid.length; way += 1) {
    const { coarseWidth, coarseLength, kind } = grid.laid[way]!;
    if (values[kind] === target && coarseWidth <= x && coarseLength <= y) return { kind: 'piece', way };
  }
  for (let a = 1; 2 * grid.x.sizes[a]! <= x; a += 1) {
    const near = a * rows + j;
    const far = grid.x.down[x - grid.x.sizes[a]!]! * rows + j;
    if (best[near]! + best[far]! === target) return { kind: 'along', near, far };
  }
  for (let b = 1; 2 * grid.y.sizes[b]! <= y; b += 1) {
    const near = i * rows + b;
    const far = i * rows + grid.y.down[y - grid.y.sizes[b]!]!;
    if (best[near]! + best[far]! === target) return { kind: 'across', near, far };
  }
  throw new Error(`cell ${cell} is worth ${target}, which no cut of it gives`);
}

/** Copies of each kind in the best of one cell. */
export function countsOf(table: ValueTable, values: Float64Array, cell: number): Int32Array {
  const counts = new Int32Array(values.length);
  const open = [cell];
  while (open.length > 0) {
    const plan = cellPlan(table, values, open.pop()!);
    if (plan.kind === 'piece') counts[table.grid.laid[plan.way]!.kind]! += 1;
    else if (plan.kind === 'smaller') open.push(plan.cell);
    else if (plan.kind !== 'nothing') open.push(plan.near, plan.far);
  }
  return counts;
}
