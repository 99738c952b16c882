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

/** Length of the cycles of annealing, as a multiple of the shortest of a strip: cells are tried anew only a few times. */
const PATIENCE = 3;

type FitRule = Parameters<RuinAndRecreate['fill']>[1];

/**
 * Ruin and recreate on the cut trees of all free cells of some grid sheets at once; a goal is given as the length of
 * each row of cells, and is met when nothing stays out.
 */
export class CellEngine {
  readonly pieces: Pieces;
  readonly scale: Scale;
  private readonly grids: readonly Grid[];
  private readonly engine: RuinAndRecreate;
  private readonly budget: Budget;
  private readonly firstCell: readonly number[];
  private readonly longest: number;

  constructor(kinds: readonly Kind[], grids: readonly Grid[], seed: number, budget: Budget) {
    this.grids = grids;
    this.budget = budget;
    this.scale = scaleOf(kinds);
    this.pieces = expandPieces(kinds, this.scale);
    const first: number[] = [];
    let cells = 0;
    for (const { columns, rows } of grids) {
      first.push(cells);
      cells += columns.length * rows.length;
    }
    this.firstCell = first;
    this.engine = new RuinAndRecreate(this.pieces, cells, 'any', seededRandom(seed));
    const { width, length } = this.pieces;
    this.longest = length.reduce((sum, long, piece) => sum + Math.max(long, width[piece]!), 0);
  }

  /** A length on which all pieces could lie one beyond the other. */
  get longEnough(): number {
    return this.longest * this.scale.unitY;
  }

  /** Empties all cells and gives each row its length. */
  reset(lengthOf: (grid: number, row: number) => number): void {
    const { unitX, unitY } = this.scale;
    const sizes = this.grids.flatMap((grid, index) =>
      grid.rows.flatMap((_, row) => {
        const length = Math.floor(Math.min(lengthOf(index, row), this.longEnough) / unitY);
        return grid.columns.map(({ from, to }) => ({ width: Math.floor((to - from) / unitX), length }));
      }),
    );
    this.engine.reset(sizes);
  }

  /** Puts everything in by one greedy rule; true when nothing stays out. */
  fill(order: number, rule: number, skip: number): boolean {
    this.engine.fill(order, rule as FitRule, skip, 1);
    return this.engine.outCount === 0;
  }

  /** Cycles of annealing after a greedy start; true when nothing stays out. */
  reach(restart: number, cycles: number): boolean {
    const { engine, budget } = this;
    if (this.fill(restart % 5, restart % 5, 0.05)) return true;
    for (let cycle = 0; cycle < cycles && !budget.ended; cycle++) {
      if (engine.anneal(settingsFor(restart + cycle, this.pieces.count, PATIENCE), budget.spend)) return true;
    }
    return false;
  }

  /** How far the pieces of one row of cells reach, from the row's near edge. */
  rowLength(grid: number, row: number): number {
    const { columns } = this.grids[grid]!;
    return Math.max(0, ...columns.map((_, column) => this.cellLength(grid, row, column)));
  }

  /** How far the pieces of a sheet reach; 0 where it has none. */
  usedLength(grid: number): number {
    const { rows } = this.grids[grid]!;
    const row = rows.findLastIndex((_, index) => this.rowLength(grid, index) > 0);
    return row < 0 ? 0 : rows[row]!.from + this.rowLength(grid, row);
  }

  tree(index: number, length: number): SheetTree {
    const grid = this.grids[index]!;
    const rows = grid.rows.map((_, row) => {
      const size = this.rowLength(index, row);
      const blocks = grid.columns.map((_, column) => this.block(index, row, column));
      return { tree: rowTree(grid, blocks, size), size };
    });
    return gridTree(grid, length, rows);
  }

  private cell(grid: number, row: number, column: number): number {
    return this.firstCell[grid]! + row * this.grids[grid]!.columns.length + column;
  }

  private cellLength(grid: number, row: number, column: number): number {
    const { forest } = this.engine;
    const node = this.pieces.count + this.cell(grid, row, column);
    return (forest.extent[2 * node + 1]! - forest.free[node]!) * this.scale.unitY;
  }

  private block(grid: number, row: number, column: number): CellBlock {
    const { from, to } = this.grids[grid]!.columns[column]!;
    const length = this.cellLength(grid, row, column);
    const turned = (piece: number, width: number) => width !== this.pieces.width[piece];
    const cell = this.cell(grid, row, column);
    const part = length === 0 ? undefined : forestToPart(this.engine.forest, cell, turned);
    if (part === undefined) return { tree: { kind: 'remnant' }, width: to - from, length: 0 };
    const size = { width: to - from, length };
    return { tree: partToTree(part, this.scale, size, (piece) => this.pieces.kind[piece]!), ...size };
  }
}
