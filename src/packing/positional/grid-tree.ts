import type { SheetTree } from '../result.ts';
import type { Grid } from './grid.ts';
import { isLeftover, mirrored, placedCut, REMNANT, type SizedTree, sizedParts } from './placed-tree.ts';

/** What lies in one cell, from its near corner on. */
export interface CellBlock {
  readonly tree: SheetTree;
  readonly width: number;
  readonly length: number;
}

/** The tree of a whole grid sheet of the given length from its rows, each as long as its span or shorter. */
export function gridTree(grid: Grid, length: number, rows: readonly SizedTree[]): SheetTree {
  const parts: SizedTree[] = [];
  let at = 0;
  for (const [index, { from }] of grid.rows.entries()) {
    const row = rows[index];
    if (row === undefined || row.size === 0 || from >= length) continue;
    parts.push({ tree: REMNANT, size: from - at }, row);
    at = from + row.size;
  }
  parts.push({ tree: REMNANT, size: length - at });
  return placedCut('crosscut', parts);
}

/**
 * One row of cells as a tree over the whole width: crosscuts that can run through every column are made first, so
 * that the cloth comes off in sections, and only what they leave is parted at the strips between the columns. The
 * sections of a cell may change places; equal ones are brought to the same height. `length` is at least that of every
 * block.
 */
export function rowTree(grid: Grid, blocks: readonly CellBlock[], length: number): SheetTree {
  const waiting = blocks.map((block, index) => {
    const { from, to } = grid.columns[index]!;
    return sections(block, to - from);
  });
  const bands: SizedTree[] = [];
  for (;;) {
    const size = commonSize(waiting);
    if (size === undefined) break;
    const band = waiting.map((parts) => {
      const index = parts.findIndex((part) => part.size === size);
      return index < 0 ? REMNANT : parts.splice(index, 1)[0]!.tree;
    });
    bands.push({ tree: columnsTree(grid, band), size });
  }
  const rest = Math.max(0, ...waiting.map(sizeSum));
  if (rest > 0) {
    const columns = waiting.map((parts) =>
      placedCut('crosscut', [...parts, { tree: REMNANT, size: rest - sizeSum(parts) }]),
    );
    bands.push({ tree: columnsTree(grid, columns), size: rest });
  }
  bands.push({ tree: REMNANT, size: length - sizeSum(bands) });
  return placedCut('crosscut', bands);
}

/** One tree for each column, side by side with the strips between them. */
export function columnsTree(grid: Grid, trees: readonly SheetTree[]): SheetTree {
  const parts: SizedTree[] = [];
  let at = 0;
  for (const [index, { from, to }] of grid.columns.entries()) {
    parts.push({ tree: REMNANT, size: from - at }, { tree: trees[index] ?? REMNANT, size: to - from });
    at = to;
  }
  parts.push({ tree: REMNANT, size: grid.width - at });
  return placedCut('lengthwise', parts);
}

/** The tree turned over about a lengthwise line, so that it lies on its like when the cloth is folded between them. */
export function turnedOver(tree: SheetTree, width: number, length: number): SheetTree {
  return mirrored(tree, { x0: 0, y0: 0, x1: width, y1: length });
}

/** The sections that crosscuts part a block into, each as wide as its column; leftovers dropped. */
function sections(block: CellBlock, width: number): SizedTree[] {
  const tree = widened(block, width);
  const parts =
    tree.kind === 'cut' && tree.direction === 'crosscut'
      ? [...sizedParts(tree, block.length)]
      : [{ tree, size: block.length }];
  return parts
    .filter(({ tree: part, size }) => size > 0 && !isLeftover(part))
    .sort((a, b) => b.size - a.size);
}

/** A block as wide as its column: each of its crosscut sections is widened, so that its crosscuts stay first. */
export function widened(block: CellBlock, width: number): SheetTree {
  const pad = (tree: SheetTree) =>
    placedCut('lengthwise', [
      { tree, size: block.width },
      { tree: REMNANT, size: width - block.width },
    ]);
  const { tree } = block;
  if (tree.kind !== 'cut' || tree.direction !== 'crosscut') return pad(tree);
  return placedCut(
    'crosscut',
    sizedParts(tree, block.length).map(({ tree: part, size }) => ({ tree: pad(part), size })),
  );
}

/**
 * The largest size of a section that every column has one of. Where a column has none left, a crosscut through it
 * would only cut up its leftover.
 */
function commonSize(waiting: readonly (readonly SizedTree[])[]): number | undefined {
  return waiting[0]?.find(({ size }) => waiting.every((parts) => parts.some((part) => part.size === size)))
    ?.size;
}

function sizeSum(parts: readonly SizedTree[]): number {
  return parts.reduce((total, { size }) => total + size, 0);
}
