import type { Kind, PackOptions, Sheet } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Budget } from '../search/budget.ts';
import { shortestLength } from '../shortest.ts';
import type { Grid } from './grid.ts';
import { type CellBlock, gridTree, rowTree } from './grid-tree.ts';

/** Nodes for each column in the first round; each round has twice those of the one before. */
const FIRST_ROUND = 400;

interface Split {
  /** For each column, how many of each kind it holds. */
  readonly counts: number[][];
}

/**
 * The columns of a grid of one row, each packed as a strip of its own: the pieces are shared out by area, then moved
 * from the longest column to the shortest, round by round. Best with many pieces, of which any share packs closely.
 * Rounds are of a fixed effort, so that more effort only adds to them.
 */
export function columnByColumn(
  sheet: Sheet,
  kinds: readonly Kind[],
  grid: Grid,
  { options, budget, effort }: { options: PackOptions; budget: Budget; effort: number },
): { readonly length: number; readonly tree: SheetTree } | undefined {
  const widths = grid.columns.map(({ from, to }) => to - from);
  if (grid.rows.length !== 1 || grid.rows[0]!.from > 0 || widths.length < 2) return undefined;
  const split = sharedByArea(kinds, widths);
  if (split === undefined) return undefined;
  let best: { length: number; tree: SheetTree } | undefined;
  const { seed, stop } = options;
  let left = effort;
  for (let round = 0; left > 0 && !budget.ended; round++) {
    const blocks: CellBlock[] = [];
    for (const [column, width] of widths.entries()) {
      const own = kinds.map((kind, index) => ({ ...kind, copies: split.counts[column]![index]! }));
      const nodes = Math.max(1, Math.min(left, FIRST_ROUND * 2 ** round));
      const question = { sheet: { width, length: sheet.length }, kinds: own };
      const result = shortestLength(question, { effort: nodes, seed, ...(stop ? { stop } : {}) });
      left -= Math.max(1, result.nodes);
      budget.spendMany(result.nodes);
      if (result.status !== 'best' && result.status !== 'found') return best;
      const [packed] = result.sheets;
      blocks.push({ tree: packed?.tree ?? { kind: 'remnant' }, width, length: packed?.length ?? 0 });
    }
    const length = Math.max(...blocks.map((block) => block.length));
    if (best === undefined || length < best.length) {
      const row = { tree: rowTree(grid, blocks, length), size: length };
      best = { length, tree: gridTree(grid, length, [row]) };
      budget.improve(length, 0);
    }
    rebalance(
      split,
      kinds,
      widths,
      blocks.map((block) => block.length),
    );
  }
  return best;
}

/** Each piece, largest first, to the column with the least area for its width; undefined where one fits none. */
function sharedByArea(kinds: readonly Kind[], widths: readonly number[]): Split | undefined {
  const counts = widths.map(() => kinds.map(() => 0));
  const loads = widths.map(() => 0);
  const order = [...kinds.keys()].sort((a, b) => areaOf(kinds[b]!) - areaOf(kinds[a]!) || a - b);
  for (const index of order) {
    const kind = kinds[index]!;
    for (let copy = 0; copy < kind.copies; copy++) {
      let least = -1;
      for (const [column, width] of widths.entries()) {
        if (!fits(kind, width)) continue;
        if (least < 0 || loads[column]! / width < loads[least]! / widths[least]!) least = column;
      }
      if (least < 0) return undefined;
      loads[least]! += areaOf(kind);
      counts[least]![index]! += 1;
    }
  }
  return { counts };
}

/** Moves the piece from the longest column to the shortest that comes closest to making them equal, if one does. */
function rebalance(
  { counts }: Split,
  kinds: readonly Kind[],
  widths: readonly number[],
  lengths: readonly number[],
): void {
  const longest = lengths.indexOf(Math.max(...lengths));
  const shortest = lengths.indexOf(Math.min(...lengths));
  const [from, to] = [widths[longest]!, widths[shortest]!];
  const wanted = ((lengths[longest]! - lengths[shortest]!) * from * to) / (from + to);
  let [moved, closest] = [-1, wanted];
  for (const [index, kind] of kinds.entries()) {
    if (counts[longest]![index] === 0 || !fits(kind, to)) continue;
    const off = Math.abs(areaOf(kind) - wanted);
    if (off < closest) [moved, closest] = [index, off];
  }
  if (moved < 0) return;
  counts[longest]![moved]! -= 1;
  counts[shortest]![moved]! += 1;
}

function areaOf({ width, length }: Kind): number {
  return width * length;
}

function fits({ width, length, quarterTurn }: Kind, columnWidth: number): boolean {
  return width <= columnWidth || (quarterTurn && length <= columnWidth);
}
