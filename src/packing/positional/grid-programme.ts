import type { Kind, Stages } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Fronts } from './fronts.ts';
import type { Grid, Span } from './grid.ts';
import { type CellBlock, columnsTree, gridTree, rowTree, turnedOver, widened } from './grid-tree.ts';
import { Multisets } from './multisets.ts';
import { filledParts, placedCut, REMNANT, type SizedTree } from './placed-tree.ts';

/** The programme is run up to this many pairs of sub-multisets and this many pieces: about a second. */
const MOST_PAIRS = 4_000_000;
const MOST_PIECES = 300;

/** Whether the exact programme is short enough to run for these kinds, and within an effort. */
export function isExactSize(kinds: readonly Kind[], columns: number, effort: number): boolean {
  const copies = kinds.map((kind) => kind.copies);
  if (!copies.every(Number.isSafeInteger)) return false;
  // The fronts count one node for sixteen pairs.
  if (Multisets.pairs(copies) / 16 > effort) return false;
  return Multisets.pairs(copies) * columns <= MOST_PAIRS && copies.reduce((a, b) => a + b, 0) <= MOST_PIECES;
}

/** The widest column of some grids. */
export function widestColumn(grids: readonly Grid[]): number {
  return Math.max(0, ...grids.flatMap(({ columns }) => columns.map(({ from, to }) => to - from)));
}

/**
 * Exact answers for a grid of free cells: for every sub-multiset of the kinds, the least length of one row of cells
 * that holds it. Within a row the sub-multiset is split over the columns, which share one length; each column's share
 * is packed by `Fronts`. With limited stages a row is a pile of sections, each crosscut through all columns.
 * O(columns × pairs) after the fronts.
 */
export class GridProgramme {
  readonly sets: Multisets;
  /** Least length of a row that holds a state; Infinity where none does. */
  readonly rowLength: Float64Array;
  private readonly grid: Grid;
  private readonly fronts: Fronts;
  private readonly stages: Stages;
  /** bestSplit[k][state]: least common length of the first k + 1 columns. */
  private readonly splits: Float64Array[] = [];

  /** The fronts must have been run, and be wide enough for every column of the grid. */
  constructor(grid: Grid, fronts: Fronts) {
    this.grid = grid;
    this.fronts = fronts;
    this.stages = fronts.stages;
    this.sets = fronts.sets;
    for (const { from, to } of grid.columns) this.addColumn(to - from);
    const lengths = this.splits.at(-1);
    if (lengths === undefined) {
      this.rowLength = new Float64Array(this.sets.states).fill(Number.POSITIVE_INFINITY);
      this.rowLength[0] = 0;
    } else {
      this.rowLength = this.stages === 'any' ? lengths : this.pileSections(lengths);
    }
  }

  /**
   * fits[r][state]: whether the first r rows hold the state, for r = 0 .. rows. Rows of open length hold whatever any
   * row holds.
   */
  fits(): readonly Uint8Array[] {
    const { states } = this.sets;
    const none = new Uint8Array(states);
    none[0] = 1;
    const fits = [none];
    for (const { from, to } of this.grid.rows) {
      const before = fits.at(-1)!;
      const after = new Uint8Array(states);
      for (let state = 0; state < states; state++) {
        this.sets.eachSub(state, (part) => {
          if (after[state] === 0 && before[state - part] === 1 && this.rowLength[part]! <= to - from)
            after[state] = 1;
        });
      }
      fits.push(after);
    }
    return fits;
  }

  /** The tree of a whole sheet that holds the state, as `fits` says it does. */
  build(state: number, fits: readonly Uint8Array[], length: number): SheetTree {
    return gridTree(this.grid, length, this.buildRows(state, fits, this.grid.rows.length));
  }

  /** The first `count` rows with the state in them; earlier rows are filled before later ones. */
  buildRows(state: number, fits: readonly Uint8Array[], count: number): SizedTree[] {
    const rows: SizedTree[] = [];
    let left = state;
    for (let row = count - 1; row >= 0; row--) {
      const { from, to } = this.grid.rows[row]!;
      let taken = -1;
      this.sets.eachSub(left, (part) => {
        const holds = fits[row]![left - part] === 1 && this.rowLength[part]! <= to - from;
        if (holds && (taken < 0 || part < taken)) taken = part;
      });
      rows[row] = this.buildRow(taken);
      left -= taken;
    }
    return rows;
  }

  /** One row with the state in it, as long as `rowLength` says. */
  buildRow(state: number): SizedTree {
    if (state === 0) return { tree: REMNANT, size: 0 };
    if (this.stages === 'any') {
      const size = this.rowLength[state]!;
      return { tree: this.splitTree(state, size, rowTree), size };
    }
    const sections: SizedTree[] = [];
    const lengths = this.splits.at(-1)!;
    for (let left = state; left > 0; ) {
      let section = 0;
      this.sets.eachSub(left, (part) => {
        const found = section > 0 || part === 0;
        if (!found && lengths[part]! + this.rowLength[left - part]! === this.rowLength[left]) section = part;
      });
      const size = lengths[section]!;
      const tree = this.splitTree(section, size, (grid, blocks) =>
        columnsTree(
          grid,
          blocks.map((block, index) => slots(block, grid.columns[index]!, size)),
        ),
      );
      sections.push({ tree, size });
      left -= section;
    }
    return { tree: placedCut('crosscut', sections), size: this.rowLength[state]! };
  }

  private addColumn(width: number): void {
    const { states } = this.sets;
    const own = new Float64Array(states);
    for (let state = 0; state < states; state++) own[state] = this.fronts.shortest(state, width);
    const before = this.splits.at(-1);
    if (before === undefined) {
      this.splits.push(own);
      return;
    }
    const best = new Float64Array(states).fill(Number.POSITIVE_INFINITY);
    for (let state = 0; state < states; state++) {
      this.sets.eachSub(state, (part) => {
        const length = Math.max(own[part]!, before[state - part]!);
        if (length < best[state]!) best[state] = length;
      });
    }
    this.splits.push(best);
  }

  private pileSections(sections: Float64Array): Float64Array {
    const pile = new Float64Array(this.sets.states).fill(Number.POSITIVE_INFINITY);
    pile[0] = 0;
    for (let state = 1; state < this.sets.states; state++) {
      this.sets.eachSub(state, (part) => {
        if (part === 0) return;
        const length = sections[part]! + pile[state - part]!;
        if (length < pile[state]!) pile[state] = length;
      });
    }
    return pile;
  }

  /**
   * Splits a state over the columns within a length; among the splits that allow it, shares as alike as can be, so
   * that the columns can be laid on each other. Columns with equal shares get the same block, turned over.
   */
  private splitTree(
    state: number,
    length: number,
    assemble: (grid: Grid, blocks: readonly CellBlock[], length: number) => SheetTree,
  ): SheetTree {
    const { columns } = this.grid;
    const shares: number[] = [];
    let left = state;
    for (let column = columns.length - 1; column > 0; column--) {
      const width = columns[column]!.to - columns[column]!.from;
      let [best, bestUneven] = [-1, Number.POSITIVE_INFINITY];
      this.sets.eachSub(left, (part) => {
        if (this.fronts.shortest(part, width) > length || this.splits[column - 1]![left - part]! > length)
          return;
        const uneven = this.unevenness(left, part, column + 1);
        if (uneven < bestUneven) [best, bestUneven] = [part, uneven];
      });
      shares[column] = best;
      left -= best;
    }
    shares[0] = left;
    const widthOf = (column: number) => columns[column]!.to - columns[column]!.from;
    const blocks = shares.map((share, column) => {
      const alike = shares.flatMap((other, index) => (other === share ? [widthOf(index)] : []));
      const narrow = Math.min(...alike);
      // The block for the narrowest of equal columns, unless that is too long for what the columns have in common.
      const fits = this.fronts.shortest(share, narrow) <= length;
      const block = this.fronts.build(share, fits ? narrow : widthOf(column));
      if (share === 0 || column % 2 === 0 || shares[column - 1] !== share) return block;
      const tree =
        this.stages === 'any'
          ? widened(block, widthOf(column))
          : slots(block, columns[column]!, block.length);
      return { ...block, tree: turnedOver(tree, widthOf(column), block.length), width: widthOf(column) };
    });
    return assemble(this.grid, blocks, length);
  }

  private unevenness(state: number, part: number, columns: number): number {
    const whole = this.sets.digits(state);
    return this.sets
      .digits(part)
      .reduce((sum, count, kind) => sum + Math.abs(columns * count - whole[kind]!), 0);
  }
}

/** A row of slots as wide as its column and as long as its section, each slot trimmed by itself: no stage is added. */
function slots(block: CellBlock, column: Span, whole: number): SheetTree {
  const parts = filledParts('lengthwise', block.tree, { size: block.width, across: block.length, whole });
  return placedCut('lengthwise', [...parts, { tree: REMNANT, size: column.to - column.from - block.width }]);
}
