import type { Kind, PackOptions, Sheet } from '../instance.ts';
import type { PackResult, SheetTree } from '../result.ts';
import { Budget } from '../search/budget.ts';
import { shortestLength } from '../shortest.ts';
import { columnByColumn } from './column-split.ts';
import { Fronts } from './fronts.ts';
import type { Grid } from './grid.ts';
import { GridProgramme, isExactSize, widestColumn } from './grid-programme.ts';
import { GridSearch } from './grid-search.ts';
import { gridTree, rowTree, turnedOver, widened } from './grid-tree.ts';
import { freeArea, positionalLengthBound } from './length-bounds.ts';

/** Share of the effort for an answer with both columns alike. */
const ALIKE_SHARE = 0.2;
/** Share of it for columns packed one by one. */
const APART_SHARE = 0.25;

/**
 * Shortest length on a grid of free cells: exact by `GridProgramme` for home-sized jobs, else ruin and recreate on all
 * cells with a common length. Stages must be `any` for the search; undefined where only a general search can help.
 */
export function gridShortest(
  sheet: Sheet,
  kinds: readonly Kind[],
  grid: Grid,
  options: PackOptions,
): PackResult | undefined {
  const stages = options.stages ?? 'any';
  const budget = new Budget(options);
  const bound = positionalLengthBound(sheet, kinds);
  if (bound > sheet.length) {
    const reason = `all pieces need at least ${bound} of length, the sheet has ${sheet.length}`;
    return { status: 'impossible', reason, nodes: 0 };
  }
  const greedy = greedyLength(sheet, kinds, grid);
  if (isExactSize(kinds, grid.columns.length, options.effort)) {
    const exact = exactShortest(
      kinds,
      grid,
      { sheet, longest: Math.min(sheet.length, greedy), budget },
      stages,
    );
    if (exact === 'none') {
      return {
        status: 'impossible',
        reason: 'the pieces do not fit the free cells of the sheet',
        nodes: budget.nodes,
      };
    }
    if (exact !== undefined) return answer(sheet, exact, exact.length, budget);
  }
  if (stages !== 'any') return undefined;
  const alike = alikeColumns(sheet, kinds, grid, options, budget);
  if (alike?.length === bound) return answer(sheet, alike, bound, budget);
  const apart = columnByColumn(sheet, kinds, grid, {
    options,
    budget,
    effort: Math.floor(shareOf(options.effort, APART_SHARE, kinds)),
  });
  const search = new GridSearch(kinds, grid, options.seed, budget);
  const searched = search.shortest(bound, (length) => budget.improve(length, bound));
  // Of equal lengths the one with alike columns, which is cut in two plies.
  const found = [alike, apart, searched].reduce((best, one) =>
    best === undefined || (one !== undefined && one.length < best.length) ? one : best,
  );
  if (found === undefined) return { status: 'unknown', bound, nodes: budget.nodes };
  return answer(sheet, found, bound, budget);
}

/** A share of the effort, but no more than helps: where time ends the search, the effort is as good as endless. */
function shareOf(effort: number, share: number, kinds: readonly Kind[]): number {
  const pieces = kinds.reduce((sum, { copies }) => sum + copies, 0);
  return Math.min(effort * share, 15_000 + 150 * pieces);
}

interface FoundLength {
  readonly length: number;
  readonly tree: SheetTree;
}

function answer(sheet: Sheet, found: FoundLength, bound: number, budget: Budget): PackResult {
  const { length, tree } = found;
  budget.improve(length, bound);
  return {
    status: length === bound ? 'best' : 'found',
    value: length,
    bound,
    sheets: [{ sheet: 0, width: sheet.width, length, tree }],
    nodes: budget.nodes,
  };
}

/** A length that a plain greedy start reaches; Infinity where it does not reach one. */
function greedyLength(sheet: Sheet, kinds: readonly Kind[], grid: Grid): number {
  const search = new GridSearch(kinds, grid, 1, new Budget({ effort: 0, seed: 1 }));
  return search.shortest(0, () => undefined)?.length ?? sheet.length;
}

function exactShortest(
  kinds: readonly Kind[],
  grid: Grid,
  { sheet, longest, budget }: { sheet: Sheet; longest: number; budget: Budget },
  stages: 2 | 3 | 'any',
): FoundLength | 'none' | undefined {
  const area = kinds.reduce((sum, { width, length, copies }) => sum + width * length * copies, 0);
  // Greedy lengths are for any stages; with fewer the answer may be longer.
  const limit = stages === 'any' ? longest : sheet.length;
  const spare = Number.isFinite(limit)
    ? freeArea({ ...sheet, length: limit }) - area
    : Number.POSITIVE_INFINITY;
  const fronts = new Fronts(kinds, { width: widestColumn([grid]), length: limit, spare }, stages);
  if (!fronts.run(budget)) return undefined;
  const programme = new GridProgramme(grid, fronts);
  const all = programme.sets.states - 1;
  const fits = programme.fits();
  let best: { length: number; row: number; state: number } | undefined;
  for (const [row, { from, to }] of grid.rows.entries()) {
    for (let before = 0; before <= all; before++) {
      if (fits[row]![before] === 0) continue;
      const length = programme.rowLength[all - before]!;
      if (length > to - from || from + length >= (best?.length ?? Number.POSITIVE_INFINITY)) continue;
      best = { length: length === 0 ? 0 : from + length, row, state: all - before };
    }
    if (best !== undefined) break;
  }
  if (best === undefined) return 'none';
  const { length, row, state } = best;
  const lastRow = programme.buildRow(state);
  const rows = [...programme.buildRows(all - state, fits, row), lastRow];
  return { length, tree: gridTree(grid, length, rows) };
}

/**
 * Both columns alike, where every count is even: half of everything in a strip as wide as the narrower column, and its
 * image in the other. Seldom the shortest, but the least work.
 */
function alikeColumns(
  sheet: Sheet,
  kinds: readonly Kind[],
  grid: Grid,
  options: PackOptions,
  budget: Budget,
): FoundLength | undefined {
  const [near, far] = grid.columns.map(({ from, to }) => to - from);
  const even = kinds.every(({ copies }) => copies % 2 === 0);
  const oneRow = grid.rows.length === 1 && grid.rows[0]!.from === 0;
  if (!even || !oneRow || near === undefined || far === undefined || grid.columns.length > 2)
    return undefined;
  const width = Math.min(near, far);
  const halves = kinds.map((kind) => ({ ...kind, copies: kind.copies / 2 }));
  const { stop, seed } = options;
  const effort = Math.ceil(shareOf(options.effort, ALIKE_SHARE, kinds));
  const own = { effort, seed, ...(stop ? { stop } : {}) };
  const result = shortestLength({ sheet: { width, length: sheet.length }, kinds: halves }, own);
  budget.spendMany(result.nodes);
  if (result.status !== 'best' && result.status !== 'found') return undefined;
  const [packed] = result.sheets;
  if (packed === undefined) return undefined;
  const block = { tree: packed.tree, width, length: packed.length };
  const image = turnedOver(widened(block, far), far, packed.length);
  const blocks = [block, { tree: image, width: far, length: packed.length }];
  budget.improve(packed.length, 0);
  return {
    length: packed.length,
    tree: gridTree(grid, packed.length, [
      { tree: rowTree(grid, blocks, packed.length), size: packed.length },
    ]),
  };
}
