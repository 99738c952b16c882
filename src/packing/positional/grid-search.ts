import { forestToPart, partToTree } from '../guillotine/part.ts';
import { expandPieces, type Pieces, type Scale, scaleOf } from '../guillotine/pieces.ts';
import { RuinAndRecreate } from '../guillotine/ruin-and-recreate.ts';
import { settingsFor } from '../guillotine/strip-search.ts';
import type { Kind } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Budget } from '../search/budget.ts';
import { seededRandom } from '../search/random.ts';
import type { Grid } from './grid.ts';
import { type CellBlock, gridTree, rowTree } from './grid-tree.ts';

type FitRule = Parameters<RuinAndRecreate['fill']>[1];

/**
 * Search for grids too large for the exact programme: ruin and recreate on the cut trees of all cells of a grid at
 * once. The cells of one row share their length.
 */
export class GridSearch {
  private readonly grid: Grid;
  private readonly scale: Scale;
  private readonly pieces: Pieces;
  private readonly engine: RuinAndRecreate;
  private readonly budget: Budget;

  constructor(kinds: readonly Kind[], grid: Grid, seed: number, budget: Budget) {
    this.grid = grid;
    this.budget = budget;
    this.scale = scaleOf(kinds);
    this.pieces = expandPieces(kinds, this.scale);
    const cells = grid.columns.length * grid.rows.length;
    this.engine = new RuinAndRecreate(this.pieces, cells, 'any', seededRandom(seed));
  }

  /**
   * The shortest length found that holds all pieces, not looking below `bound`; undefined when none was found within
   * the grid. Ends when the bound is met or the budget ends; tries greedy answers even without any budget.
   */
  shortest(
    bound: number,
    onBetter: (length: number) => void,
  ): { length: number; tree: SheetTree } | undefined {
    const { grid, budget } = this;
    let best: { length: number; tree: SheetTree } | undefined;
    const note = () => {
      const length = this.usedLength();
      if (best !== undefined && length >= best.length) return;
      best = { length, tree: this.tree(length) };
      onBetter(length);
    };
    let restart = 0;
    for (let row = this.firstRow(bound); row < grid.rows.length; row++) {
      const { from, to } = grid.rows[row]!;
      const longest = Math.min(to - from, this.sumOfSides());
      for (const order of [0, 1, 2, 3]) {
        for (const rule of [0, 3, 1] as const) {
          if (budget.ended && best !== undefined) return best;
          budget.spendMany(1 + (this.pieces.count >> 4));
          this.reset(row, longest);
          this.engine.fill(order, rule, 0, 1);
          if (this.engine.outCount === 0) note();
        }
      }
      if (best === undefined && this.reach(row, longest, restart, 4)) note();
      restart += 4;
      if (best !== undefined) break;
    }
    if (best === undefined) return undefined;
    return this.improve(bound, () => best!, note, restart);
  }

  /** Whether all pieces were made to fit the whole grid, and how; undefined when they were not. */
  fit(patience: number): SheetTree | undefined {
    const last = this.grid.rows.length - 1;
    if (last < 0) return undefined;
    const { from, to } = this.grid.rows[last]!;
    for (let restart = 0; restart === 0 || (restart < patience && !this.budget.ended); restart++) {
      if (this.reach(last, to - from, restart, 1)) return this.tree(this.grid.length);
    }
    return undefined;
  }

  private improve(
    bound: number,
    best: () => { length: number; tree: SheetTree },
    note: () => void,
    start: number,
  ): { length: number; tree: SheetTree } {
    const { budget } = this;
    const { unitY } = this.scale;
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

  /** Tries to put everything into the rows up to `row`, the last of them used to a length, by cycles of annealing. */
  private reach(row: number, length: number, restart: number, patience: number): boolean {
    const { engine, budget } = this;
    this.reset(row, length);
    engine.fill(restart % 5, (restart % 5) as FitRule, 0.05, 1);
    if (engine.outCount === 0) return true;
    for (let cycle = 0; cycle < 2 * patience && !budget.ended; cycle++) {
      if (engine.anneal(settingsFor(restart + cycle, this.pieces.count), budget.spend)) return true;
    }
    return false;
  }

  private reset(lastRow: number, lastLength: number): void {
    const { unitX, unitY } = this.scale;
    const sizes = this.grid.rows.flatMap(({ from, to }, row) => {
      const length = row < lastRow ? to - from : row === lastRow ? Math.min(lastLength, to - from) : 0;
      return this.grid.columns.map((column) => ({
        width: Math.floor((column.to - column.from) / unitX),
        length: Math.floor(Math.min(length, this.sumOfSides()) / unitY),
      }));
    });
    this.engine.reset(sizes);
  }

  private firstRow(bound: number): number {
    return Math.max(
      0,
      this.grid.rows.findIndex(({ to }) => to >= bound),
    );
  }

  private sumOfSides(): number {
    let sum = 0;
    for (let piece = 0; piece < this.pieces.count; piece++) {
      sum += Math.max(this.pieces.width[piece]!, this.pieces.length[piece]!) * this.scale.unitY;
    }
    return sum;
  }

  private cellLength(cell: number): number {
    const { forest } = this.engine;
    const node = this.pieces.count + cell;
    return (forest.extent[2 * node + 1]! - forest.free[node]!) * this.scale.unitY;
  }

  private rowLength(row: number): number {
    const columns = this.grid.columns.length;
    return Math.max(...this.grid.columns.map((_, column) => this.cellLength(row * columns + column)));
  }

  private usedLength(): number {
    const row = this.grid.rows.findLastIndex((_, index) => this.rowLength(index) > 0);
    return row < 0 ? 0 : this.grid.rows[row]!.from + this.rowLength(row);
  }

  private tree(length: number): SheetTree {
    const columns = this.grid.columns.length;
    const rows = this.grid.rows.map((_, row) => {
      const size = this.rowLength(row);
      const blocks = this.grid.columns.map((_, column) => this.block(row * columns + column));
      return { tree: rowTree(this.grid, blocks, size), size };
    });
    return gridTree(this.grid, length, rows);
  }

  private block(cell: number): CellBlock {
    const { from, to } = this.grid.columns[cell % this.grid.columns.length]!;
    const length = this.cellLength(cell);
    const turned = (piece: number, width: number) => width !== this.pieces.width[piece];
    const part = length === 0 ? undefined : forestToPart(this.engine.forest, cell, turned);
    if (part === undefined) return { tree: { kind: 'remnant' }, width: to - from, length: 0 };
    const size = { width: to - from, length };
    return { tree: partToTree(part, this.scale, size, (piece) => this.pieces.kind[piece]!), ...size };
  }
}
