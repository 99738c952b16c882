import type { Kind } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Budget } from '../search/budget.ts';
import { CellEngine } from './cell-engine.ts';
import type { Grid } from './grid.ts';

/**
 * Shortest length on a grid too large for the exact programme, by ruin and recreate with ever shorter targets. The
 * cells of one row share their length.
 */
export class GridSearch {
  private readonly grid: Grid;
  private readonly engine: CellEngine;
  private readonly budget: Budget;

  constructor(kinds: readonly Kind[], grid: Grid, seed: number, budget: Budget) {
    this.grid = grid;
    this.budget = budget;
    this.engine = new CellEngine(kinds, [grid], seed, budget);
  }

  /**
   * The shortest length found that holds all pieces, not looking below `bound`; undefined when none was found within
   * the grid. Ends when the bound is met or the budget ends; tries greedy answers even without any budget.
   */
  shortest(
    bound: number,
    onBetter: (length: number) => void,
  ): { length: number; tree: SheetTree } | undefined {
    const { grid, budget, engine } = this;
    let best: { length: number; tree: SheetTree } | undefined;
    const note = () => {
      const length = engine.usedLength(0);
      if (best !== undefined && length >= best.length) return;
      best = { length, tree: engine.tree(0, length) };
      onBetter(length);
    };
    let restart = 0;
    const firstRow = grid.rows.findIndex(({ to }) => to >= bound);
    for (let row = Math.max(0, firstRow); row < grid.rows.length; row++) {
      for (const order of [0, 1, 2, 3]) {
        for (const rule of [0, 3, 1]) {
          if (budget.ended && best !== undefined) return best;
          budget.spendMany(1 + (engine.pieces.count >> 4));
          this.reset(row, Number.POSITIVE_INFINITY);
          if (engine.fill(order, rule, 0)) note();
        }
      }
      if (best === undefined && this.reach(row, Number.POSITIVE_INFINITY, restart, 4)) note();
      restart += 4;
      if (best !== undefined) break;
    }
    if (best === undefined) return undefined;
    return this.improve(bound, () => best!, note, restart);
  }

  private improve(
    bound: number,
    best: () => { length: number; tree: SheetTree },
    note: () => void,
    start: number,
  ): { length: number; tree: SheetTree } {
    const { budget } = this;
    const { unitY } = this.engine.scale;
    let [restart, patience, low] = [start, 1, bound];
    while (best().length > bound && !budget.spend()) {
      const row = this.grid.rows.findLastIndex(({ from }) => from < best().length);
      const { from } = this.grid.rows[row]!;
      const floor = Math.max(low, from);
      if (floor >= best().length) {
        low = bound;
        patience *= 2;
        // Nothing shorter in this row: try to do without it.
        if (row > 0 && this.reach(row - 1, Number.POSITIVE_INFINITY, restart++, patience)) note();
        continue;
      }
      const half = floor + Math.floor((best().length - floor) / 2);
      const target = patience === 1 ? Math.max(half, from + unitY) : best().length - unitY;
      if (target > from && this.reach(row, target - from, restart++, patience)) note();
      else low = Math.max(target, floor) + 1;
    }
    return best();
  }

  /** Tries to put everything into the rows up to `row`, the last of them used to a length. */
  private reach(row: number, length: number, restart: number, patience: number): boolean {
    this.reset(row, length);
    return this.engine.reach(restart, 2 * patience);
  }

  private reset(lastRow: number, lastLength: number): void {
    this.engine.reset((_, row) => {
      const { from, to } = this.grid.rows[row]!;
      if (row > lastRow) return 0;
      return row < lastRow ? to - from : Math.min(lastLength, to - from);
    });
  }
}
