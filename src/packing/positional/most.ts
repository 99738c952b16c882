import { valueBound } from '../bounds/value-bound.ts';
import type { Kind, MostQuestion, PackOptions, Sheet } from '../instance.ts';
import { mostFromSheet } from '../most.ts';
import type { PackResult, SheetTree } from '../result.ts';
import { Budget } from '../search/budget.ts';
import { Fronts } from './fronts.ts';
import { type Grid, gridOf } from './grid.ts';
import { GridProgramme, isExactSize, widestColumn } from './grid-programme.ts';
import { fixedFault, type Item, itemsOf, withKinds } from './items.ts';
import { freeArea } from './length-bounds.ts';
import { answerOpened, halvedQuestion } from './mirror.ts';
import { isPlacedExactSize, PlacedProgramme } from './placed-programme.ts';
import { PlacedSearch } from './placed-search.ts';
import { counted, placedCut } from './placed-tree.ts';
import { mostSets } from './sets.ts';
import { positionalShortest } from './shortest.ts';

/** Most kinds for which the better bounds are made. */
const BOUNDED_KINDS = 100;
/** The bound takes no more than this, or than the effort is worth: on sheets of odd sizes it would else take far longer than the search. */
const BOUND_OPERATIONS = 100_000_000;
const OPERATIONS_PER_NODE = 4000;
/** Most nodes for filling cell after cell; where time ends the search, the effort is as good as endless. */
const CELL_NODES = 300_000;
const EXACT_SHARE = 0.5;
const EXACT_NODES = 300_000;

/**
 * `mostFromSheet` for sheets in which something has a place of its own: forbidden boxes, fixed pieces, lattices, a
 * mirror. Fixed pieces are cut whatever they are worth. With `mirrorAt` copies are cut in pairs, so that of an odd
 * number one is not used. Whole numbers in the caller's units.
 */
export function positionalMost(question: MostQuestion, options: PackOptions): PackResult {
  const { sheet, set } = question;
  if (!Number.isFinite(sheet.length))
    throw new RangeError('most from a sheet needs a sheet of finite length');
  if (set !== undefined) return mostSets({ ...question, set }, options, positionalShortest);
  const kinds = question.kinds.map((kind) => usableKind(kind, sheet));
  if (sheet.mirrorAt !== undefined) {
    const halved = halvedQuestion([sheet], kinds, Math.floor);
    if (halved.fault !== undefined) return { status: 'impossible', reason: halved.fault, nodes: 0 };
    const answer = (own: PackOptions) =>
      positionalMost({ sheet: halved.sheets[0]!, kinds: halved.kinds }, own);
    return answerOpened(answer, options, { sheets: [sheet], halved, worth: (value) => 2 * value });
  }
  const fault = fixedFault(sheet, kinds);
  if (fault !== undefined) return { status: 'impossible', reason: fault, nodes: 0 };
  return new MostOfPlaces(sheet, kinds, options).run();
}

/** A kind with its worth, and no more copies than there is room for. */
function usableKind(kind: Kind, sheet: Sheet): Kind {
  const room = Math.floor((sheet.width * sheet.length) / (kind.width * kind.length));
  return { ...kind, copies: Math.min(kind.copies, room), value: kind.value ?? kind.width * kind.length };
}

class MostOfPlaces {
  private readonly sheet: Sheet;
  private readonly kinds: readonly Kind[];
  private readonly options: PackOptions;
  private readonly budget: Budget;
  private readonly items: readonly Item[];
  private readonly stages: 2 | 3 | 'any';
  private best: { value: number; tree: SheetTree } | undefined;
  private bound: number;

  constructor(sheet: Sheet, kinds: readonly Kind[], options: PackOptions) {
    this.sheet = sheet;
    this.kinds = kinds;
    this.options = options;
    this.budget = new Budget(options);
    this.stages = options.stages ?? 'any';
    this.items = itemsOf(kinds, [sheet]);
    this.bound = areaValueBound(kinds, freeArea(sheet));
    // A fixed piece may lie in a way that its kind forbids, of which the bound for free pieces knows nothing.
    const whole = kinds.every(({ value }) => Number.isInteger(value));
    if ((sheet.fixed?.length ?? 0) === 0 && whole && kinds.length <= BOUNDED_KINDS) {
      const operations = Math.max(BOUND_OPERATIONS, OPERATIONS_PER_NODE * options.effort);
      this.bound = Math.min(this.bound, valueBound({ sheet: besideEachOther(sheet), kinds }, operations));
    }
  }

  run(): PackResult {
    const latticed = this.kinds.some(({ lattice }) => lattice !== undefined);
    const grid = latticed ? undefined : gridOf(this.sheet);
    const exact = grid !== undefined && this.gridExact(grid);
    if (!exact) {
      if (grid !== undefined) this.cellByCell(grid);
      this.search(3000, 0);
      if (this.best === undefined || this.best.value < this.bound) this.placedExact();
      for (let restart = 1; this.best === undefined || this.best.value < this.bound; restart++) {
        if (this.budget.spend()) break;
        this.search(20_000, restart);
      }
    }
    return this.answer();
  }

  private answer(): PackResult {
    const { best, bound, sheet, budget } = this;
    if (best === undefined) return { status: 'unknown', bound, nodes: budget.nodes };
    return {
      status: best.value === bound ? 'best' : 'found',
      value: best.value,
      bound,
      sheets: [{ sheet: 0, width: sheet.width, length: sheet.length, tree: best.tree }],
      nodes: budget.nodes,
    };
  }

  private improve(value: number, tree: SheetTree): void {
    if (this.best !== undefined && value <= this.best.value) return;
    this.best = { value, tree };
    this.budget.improve(value, this.bound);
  }

  /** All of it, where the sub-multisets of the kinds are few; true when that was done. */
  private gridExact(grid: Grid): boolean {
    const kinds = this.kinds;
    if (!isExactSize(kinds, grid.columns.length, this.options.effort)) return false;
    const limits = {
      width: widestColumn([grid]),
      length: this.sheet.length,
      spare: Number.POSITIVE_INFINITY,
    };
    const fronts = new Fronts(kinds, limits, this.stages);
    if (!fronts.run(this.budget)) return false;
    const programme = new GridProgramme(grid, fronts);
    const fits = programme.fits();
    const last = fits.at(-1)!;
    let [best, bestValue] = [0, 0];
    for (let state = 1; state < programme.sets.states; state++) {
      if (last[state] === 0) continue;
      const value = this.worth(programme.sets.digits(state));
      if (value > bestValue) [best, bestValue] = [state, value];
    }
    this.bound = bestValue;
    this.improve(bestValue, programme.build(best, fits, this.sheet.length));
    return true;
  }

  private worth(counts: readonly number[]): number {
    return counts.reduce((sum, count, kind) => sum + count * this.kinds[kind]!.value!, 0);
  }

  /** Fills one cell after another with what is most worth in it: best of all where copies have no limit. */
  private cellByCell(grid: Grid): void {
    const { stop, seed, effort } = this.options;
    const cells = grid.rows.length * grid.columns.length;
    const part = {
      seed,
      effort: Math.ceil(Math.min(effort * 0.3, CELL_NODES) / Math.max(1, cells)),
      ...(stop ? { stop } : {}),
    };
    // A row of cells is cut across first, so that within a cell one stage is spent.
    if (this.stages !== 'any') return;
    const left = this.kinds.map(({ copies }) => copies);
    let [value, bound] = [0, 0];
    const rows = grid.rows.map((row) => {
      const columns = grid.columns.map((column) => {
        const size = { width: column.to - column.from, length: row.to - row.from };
        const room = (kind: Kind) => Math.floor((size.width * size.length) / (kind.width * kind.length));
        const bounded = this.kinds.map((kind) => ({ ...kind, copies: Math.min(kind.copies, room(kind)) }));
        const kinds = bounded.map((kind, index) => ({
          ...kind,
          copies: Math.min(kind.copies, left[index]!),
        }));
        const result = mostFromSheet({ sheet: size, kinds }, part);
        this.budget.spendMany(result.nodes);
        const limited = bounded.some(({ copies }, index) => copies > left[index]!);
        bound +=
          limited || result.status === 'impossible'
            ? areaValueBound(bounded, size.width * size.length)
            : result.bound;
        const tree =
          result.status === 'best' || result.status === 'found' ? result.sheets[0]?.tree : undefined;
        for (const [kind, count] of counted(tree, this.kinds.length).entries()) left[kind]! -= count;
        if (result.status === 'best' || result.status === 'found') value += result.value;
        return { tree: tree ?? ({ kind: 'remnant' } as const), size: size.width };
      });
      return { row, columns };
    });
    this.bound = Math.min(this.bound, bound);
    this.improve(value, cellsTree(grid, rows));
  }

  /** Every restart begins anew, so that more effort only adds restarts to those of less. */
  private search(iterations: number, restart: number): void {
    const { items, sheet, budget } = this;
    const seed = this.options.seed + 7919 * restart;
    const costOf = (item: Item) => this.kinds[item.kind]!.value!;
    const engine = new PlacedSearch({ items, stages: this.stages, seed, budget, costOf });
    engine.reset([sheet]);
    engine.fill(0, { choice: 0, skip: 0, whim: 0 });
    engine.anneal(iterations, 0.2);
    const [tree] = engine.bestTrees as [SheetTree];
    const box = { x0: 0, y0: 0, x1: sheet.width, y1: sheet.length };
    const withKind = withKinds(tree, box, items);
    const counts = counted(tree, items.length);
    if (items.some(({ place }, index) => place !== undefined && counts[index] === 0)) return;
    const value = this.worth(counted(withKind, this.kinds.length));
    if (engine.complete) this.bound = Math.min(this.bound, value);
    this.improve(value, withKind);
  }

  /** Tries every sub-multiset worth more than the best, most worth first, as long as its share of the effort lasts. */
  private placedExact(): void {
    const { items, sheet } = this;
    if (!isPlacedExactSize(items)) return;
    const effort = Math.min(EXACT_NODES, Math.floor(this.options.effort * EXACT_SHARE));
    const { stop, seed } = this.options;
    const budget = new Budget({ effort, seed, ...(stop ? { stop } : {}) });
    const programme = new PlacedProgramme(sheet, items, this.stages, budget);
    const states: { state: number; value: number }[] = [];
    for (let state = 0; state < programme.sets.states; state++) {
      const digits = programme.sets.digits(state);
      if (items.some(({ place }, index) => place !== undefined && digits[index] === 0)) continue;
      const value = items.reduce(
        (sum, { kind }, index) => sum + digits[index]! * this.kinds[kind]!.value!,
        0,
      );
      if (value > (this.best?.value ?? -1)) states.push({ state, value });
    }
    states.sort((a, b) => b.value - a.value || a.state - b.state);
    for (const { state, value } of states) {
      const least = programme.least(state);
      if (programme.ended) break;
      this.bound = Math.min(this.bound, value);
      if (least > sheet.length) continue;
      this.improve(value, programme.build(state, sheet.length));
      this.budget.spendMany(budget.nodes);
      return;
    }
    this.budget.spendMany(budget.nodes);
    if (!programme.ended && this.best !== undefined) this.bound = this.best.value;
  }
}

/** The free cells of a grid beside and beyond each other as one sheet, which holds whatever they hold. */
function besideEachOther(sheet: Sheet): Sheet {
  const grid = gridOf(sheet);
  const { width, length } = sheet;
  if (grid === undefined) return { width, length };
  const extent = (spans: Grid['rows']) => spans.reduce((sum, { from, to }) => sum + to - from, 0);
  return { width: extent(grid.columns), length: extent(grid.rows) };
}

function cellsTree(
  grid: Grid,
  rows: readonly {
    row: { from: number; to: number };
    columns: readonly { tree: SheetTree; size: number }[];
  }[],
): SheetTree {
  const remnant: SheetTree = { kind: 'remnant' };
  let y = 0;
  const sections: { tree: SheetTree; size: number }[] = [];
  for (const { row, columns } of rows) {
    let x = 0;
    const parts: { tree: SheetTree; size: number }[] = [];
    for (const [index, { from, to }] of grid.columns.entries()) {
      parts.push({ tree: remnant, size: from - x }, columns[index]!);
      x = to;
    }
    parts.push({ tree: remnant, size: grid.width - x });
    sections.push(
      { tree: remnant, size: row.from - y },
      { tree: placedCut('lengthwise', parts), size: row.to - row.from },
    );
    y = row.to;
  }
  sections.push({ tree: remnant, size: grid.length - y });
  return placedCut('crosscut', sections);
}

/** What the most valuable pieces for their area would be worth if they could be poured into the area. */
export function areaValueBound(kinds: readonly Kind[], area: number): number {
  const dense = kinds
    .filter(({ copies }) => copies > 0)
    .map(({ width, length, copies, value }) => ({
      size: width * length,
      copies,
      value: value ?? width * length,
    }))
    .sort((a, b) => b.value / b.size - a.value / a.size);
  let [left, worth] = [area, 0];
  for (const { size, copies, value } of dense) {
    const taken = Math.min(copies, left / size);
    worth += taken * value;
    left -= taken * size;
  }
  // Half a unit in the last places is given away rather than claimed.
  return dense.every(({ value }) => Number.isInteger(value))
    ? Math.floor(worth * (1 + 1e-12))
    : worth * (1 + 1e-12);
}
