/**
 * Most value from one sheet when copies are not limited and cut stages are: Gilmore & Gomory (1965), by knapsacks
 * within knapsacks.
 *
 * ```
 * 2 stages: sections along the length ◀── pieces side by side, each at most as long as its section
 * 3 stages: sections along the length ◀── columns side by side ◀── pieces one behind the other, at most as wide
 * ```
 *
 * With prices on copies (prices.ts) it bounds limited copies too, and more tightly than any number of stages would.
 */
import type { Axis, Grid, Laid } from './grid.ts';
import { type Parts, rowOf } from './parts.ts';
import type { Spend } from './unlimited.ts';

/** The best sheet: its worth, and its sections by what lies in them. */
export interface StagedSheet {
  readonly worth: number;
  readonly counts: Int32Array;
  /** Its parts, copies above these limits left out. */
  partsWithin(copies: Int32Array): Parts | undefined;
}

/** A thing that fills part of an axis: a piece in its row, a column in its section, a section of the sheet. */
interface Filling {
  readonly size: number;
  readonly value: number;
}

/** Most cells kept for all columns together, and most operations of one such sheet. */
const mostCells = 4e6;
const mostOperations = 6e8;

/** Whether the knapsacks of a grid are affordable; they need not be where sizes are very many. */
export function stagesAffordable({ x, y, laid }: Grid): boolean {
  const columns = x.sizes.length;
  const rows = y.sizes.length;
  const ways = new Set(laid.map((way) => way.coarseWidth)).size;
  const lengths = new Set(laid.map((way) => way.coarseLength)).size;
  const operations = Math.max(ways * rows * columns + rows * rows, lengths * columns * laid.length);
  return ways * rows <= mostCells && operations <= mostOperations;
}

/** The best sheet by `values` of each kind; kinds worth nothing or less are left out. Undefined when ended early. */
export function stagedSheet(
  grid: Grid,
  values: Float64Array,
  stages: 2 | 3,
  spend: Spend,
): StagedSheet | undefined {
  const ways = grid.laid.filter(
    ({ kind, coarseWidth, coarseLength }) => values[kind]! > 0 && coarseWidth > 0 && coarseLength > 0,
  );
  const found =
    stages === 2 ? rowsOfPieces(grid, ways, values, spend) : rowsOfColumns(grid, ways, values, spend);
  if (!found) return undefined;
  const { sections, contentsOf } = found;
  const sheet = new Knapsack(grid.y, sections);
  if (spend(sheet.operations)) return undefined;
  const contents = sheet.fillings(grid.y.sizes.length - 1).map(contentsOf);
  const counts = new Int32Array(values.length);
  for (const way of contents.flat(2)) counts[way.kind]! += 1;
  return { worth: sheet.worth, counts, partsWithin: (copies) => partsOf(contents, copies) };
}

interface Sections {
  readonly sections: readonly Filling[];
  /** The columns of a section by its index, each with its pieces. */
  contentsOf(section: number): readonly (readonly Laid[])[];
}

/** Two stages: a section is as long as one of its pieces, and each of its columns is one piece. */
function rowsOfPieces(
  grid: Grid,
  ways: readonly Laid[],
  values: Float64Array,
  spend: Spend,
): Sections | undefined {
  const lengths = [...new Set(ways.map((way) => way.coarseLength))];
  const within = (length: number) => ways.filter((way) => way.coarseLength <= length);
  const rowOfLength = (length: number): Knapsack =>
    new Knapsack(
      grid.x,
      within(length).map(({ coarseWidth, kind }) => ({ size: coarseWidth, value: values[kind]! })),
    );
  const sections: Filling[] = [];
  for (const size of lengths) {
    const row = rowOfLength(size);
    sections.push({ size, value: row.worth });
    if (spend(row.operations)) return undefined;
  }
  const contentsOf = (section: number) => {
    const length = lengths[section]!;
    const row = rowOfLength(length);
    return row.fillings(grid.x.sizes.length - 1).map((way) => [within(length)[way]!]);
  };
  return { sections, contentsOf };
}

/** Three stages: a column holds pieces at most as wide as itself, a section columns of at most its own length. */
function rowsOfColumns(
  grid: Grid,
  ways: readonly Laid[],
  values: Float64Array,
  spend: Spend,
): Sections | undefined {
  const widths = [...new Set(ways.map((way) => way.coarseWidth))];
  const within = widths.map((width) => ways.filter((way) => way.coarseWidth <= width));
  const columns: Knapsack[] = [];
  for (const pieces of within) {
    const column = new Knapsack(
      grid.y,
      pieces.map(({ coarseLength, kind }) => ({ size: coarseLength, value: values[kind]! })),
    );
    columns.push(column);
    if (spend(column.operations)) return undefined;
  }
  const rowOfLength = (at: number): Knapsack =>
    new Knapsack(
      grid.x,
      widths.map((size, column) => ({ size, value: columns[column]!.best[at]! })),
    );
  const sections: Filling[] = [];
  for (let at = 1; at < grid.y.sizes.length; at += 1) {
    const row = rowOfLength(at);
    sections.push({ size: grid.y.sizes[at]!, value: row.worth });
    if (spend(row.operations)) return undefined;
  }
  const contentsOf = (section: number) => {
    const chosen = rowOfLength(section + 1).fillings(grid.x.sizes.length - 1);
    return chosen.map((column) =>
      columns[column]!.fillings(section + 1).map((piece) => within[column]![piece]!),
    );
  };
  return { sections, contentsOf };
}

/** The unlimited knapsack for every useful size of an axis. O(sizes · fillings). */
class Knapsack {
  readonly best: Float64Array;
  readonly operations: number;
  private readonly axis: Axis;
  private readonly items: readonly Filling[];
  /** The filling last put in, or −1 where the next smaller size is worth as much. */
  private readonly last: Int32Array;

  constructor(axis: Axis, items: readonly Filling[]) {
    const { sizes, down } = axis;
    this.axis = axis;
    this.items = items;
    this.best = new Float64Array(sizes.length);
    this.last = new Int32Array(sizes.length).fill(-1);
    this.operations = sizes.length * (items.length + 1);
    for (let at = 1; at < sizes.length; at += 1) {
      let most = this.best[at - 1]!;
      for (let item = 0; item < items.length; item += 1) {
        const { size, value } = items[item]!;
        if (size > sizes[at]!) continue;
        const sum = this.best[down[sizes[at]! - size]!]! + value;
        if (sum <= most) continue;
        most = sum;
        this.last[at] = item;
      }
      this.best[at] = most;
    }
  }

  get worth(): number {
    return this.best[this.best.length - 1]!;
  }

  /** Indices of the fillings of the best in the size at `from`. */
  fillings(from: number): number[] {
    const { sizes, down } = this.axis;
    const found: number[] = [];
    for (let at = from; at > 0; ) {
      const item = this.last[at]!;
      if (item < 0) {
        at -= 1;
        continue;
      }
      found.push(item);
      at = down[sizes[at]! - this.items[item]!.size]!;
    }
    return found;
  }
}

function partsOf(contents: readonly (readonly (readonly Laid[])[])[], copies: Int32Array): Parts | undefined {
  const left = copies.slice();
  const isLeft = ({ kind }: Laid): boolean => {
    if (left[kind]! === 0) return false;
    left[kind]! -= 1;
    return true;
  };
  const row = (parts: readonly (Parts | undefined)[], along: boolean) =>
    rowOf(
      parts.filter((part) => part !== undefined),
      along,
    );
  const sections = contents.map((columns) =>
    row(
      columns.map((pieces) =>
        row(
          pieces.filter(isLeft).map(({ kind, turned, width, length }) => ({ kind, turned, width, length })),
          true,
        ),
      ),
      false,
    ),
  );
  return row(sections, true);
}
