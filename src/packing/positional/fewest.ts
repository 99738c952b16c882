import type { FewestQuestion, Kind, PackOptions, Sheet } from '../instance.ts';
import type { PackedSheet, PackResult, SheetTree } from '../result.ts';
import { Budget } from '../search/budget.ts';
import { CellEngine } from './cell-engine.ts';
import { fewestExactly } from './fewest-exact.ts';
import { type Grid, gridOf } from './grid.ts';
import { fixedFault, itemsOf, placeFault, withKinds } from './items.ts';
import { answerOpened, halvedQuestion } from './mirror.ts';
import { PlacedSearch } from './placed-search.ts';
import { counted } from './placed-tree.ts';
import {
  areaCostBound,
  cellCostBound,
  cheaperChoices,
  choices,
  type Offer,
  offersOf,
  sum,
} from './sheet-choice.ts';

/** Most kinds for which the better bounds are made. */
const BOUNDED_KINDS = 600;
const MOST_CHOICES = 20_000;

/**
 * `fewestSheets` for sheets in which something has a place of its own: forbidden boxes, fixed pieces, lattices, a
 * mirror. A fixed piece is cut when its sheet is opened, and takes one of the copies of its kind.
 *
 * Mirrored sheets all or none: each kind is then cut 2 × ceil(copies ÷ 2) times. Throws on a question that mixes them,
 * that fixes pieces on the fold, or that sets a lattice across several different mirrors.
 */
export function positionalFewest(question: FewestQuestion, options: PackOptions): PackResult {
  const { sheets, kinds } = question;
  if (kinds.every(({ copies }) => copies === 0)) {
    return { status: 'best', value: 0, bound: 0, sheets: [], nodes: 0 };
  }
  if (sheets.some(({ length }) => !Number.isFinite(length))) {
    throw new RangeError('fewest sheets needs sheets of finite length');
  }
  if (sheets.some(({ mirrorAt }) => mirrorAt !== undefined)) return mirroredFewest(question, options);
  const plain = sheets.every(({ fixed = [] }) => fixed.length === 0);
  const fault = plain ? placeFault(itemsOf(kinds, []), sheets) : undefined;
  if (fault !== undefined) return { status: 'impossible', reason: fault, nodes: 0 };
  // A sheet whose fixed pieces cannot lie where they are fixed cannot be opened.
  const usable = sheets.map((sheet) =>
    fixedFault(sheet, kinds) === undefined ? sheet : { ...sheet, copies: 0 },
  );
  return new FewestOfPlaces(usable, kinds, options).run();
}

function mirroredFewest({ sheets, kinds }: FewestQuestion, options: PackOptions): PackResult {
  if (sheets.some(({ mirrorAt }) => mirrorAt === undefined)) {
    throw new RangeError('either all sheets are cut double at a mirror or none');
  }
  const halved = halvedQuestion(sheets, kinds, Math.ceil);
  if (halved.openings.some(({ onFold }) => onFold.size > 0)) {
    throw new RangeError('fewest sheets takes no pieces fixed on the fold');
  }
  const mirrors = new Set(
    sheets.map(({ mirrorAt }, index) => `${mirrorAt} ${halved.openings[index]!.margin}`),
  );
  if (mirrors.size > 1 && kinds.some(({ lattice }) => lattice?.x !== undefined)) {
    throw new RangeError('a lattice across the width needs one mirror for all sheets');
  }
  if (halved.fault !== undefined) return { status: 'impossible', reason: halved.fault, nodes: 0 };
  const answer = (own: PackOptions) => positionalFewest({ sheets: halved.sheets, kinds: halved.kinds }, own);
  return answerOpened(answer, options, { sheets, halved, worth: (cost) => cost });
}

class FewestOfPlaces {
  private readonly kinds: readonly Kind[];
  private readonly options: PackOptions;
  private readonly budget: Budget;
  private readonly offers: readonly Offer[];
  private readonly area: number;
  private readonly stages: 2 | 3 | 'any';
  private bound: number;
  private best: { cost: number; counts: readonly number[]; sheets: readonly PackedSheet[] } | undefined;

  constructor(sheets: readonly Sheet[], kinds: readonly Kind[], options: PackOptions) {
    this.kinds = kinds;
    this.options = options;
    this.budget = new Budget(options);
    this.stages = options.stages ?? 'any';
    const pieces = kinds.reduce((total, { copies }) => total + copies, 0);
    this.offers = offersOf(sheets, pieces);
    this.area = kinds.reduce((total, { width, length, copies }) => total + width * length * copies, 0);
    this.bound = areaCostBound(this.offers, kinds);
    // A fixed piece may lie in a way that its kind forbids, of which the bound for free pieces knows nothing.
    const fixed = sheets.some((sheet) => (sheet.fixed?.length ?? 0) > 0);
    if (!fixed && kinds.length <= BOUNDED_KINDS) {
      const open = this.offers.filter(({ copies }) => copies > 0);
      this.bound = Math.max(this.bound, cellCostBound(open, kinds));
    }
  }

  run(): PackResult {
    const { budget, offers } = this;
    if (this.bound === Number.POSITIVE_INFINITY) {
      return {
        status: 'impossible',
        reason: 'all sheets together do not hold the pieces',
        nodes: 0,
      };
    }
    this.start();
    if (this.best?.cost !== this.bound) {
      const exact = fewestExactly(offers, this.kinds, this.options, budget);
      if (exact === 'none') {
        return {
          status: 'impossible',
          reason: 'no way of cutting these sheets gives every piece',
          nodes: budget.nodes,
        };
      }
      if (exact !== undefined) {
        this.bound = exact.cost;
        if (this.best === undefined || this.best.cost > exact.cost) {
          this.best = { ...exact, counts: offers.map(() => 0) };
        }
      } else {
        this.search();
      }
    }
    return this.answer();
  }

  private answer(): PackResult {
    const { best, bound, budget } = this;
    if (best === undefined) return { status: 'unknown', bound, nodes: budget.nodes };
    const status = best.cost === bound ? 'best' : 'found';
    return { status, value: best.cost, bound, sheets: best.sheets, nodes: budget.nodes };
  }

  /** All sheets at first, then those that were not used are left out. */
  private start(): void {
    const all = this.offers.map(({ copies }) => copies);
    const byArea = [...this.offers.keys()].sort(
      (a, b) => this.offers[a]!.cost / this.offers[a]!.area - this.offers[b]!.cost / this.offers[b]!.area,
    );
    const counts = all.map(() => 0);
    for (const index of byArea) {
      while (counts[index]! < all[index]!) {
        counts[index]! += 1;
        if (sum(this.offers, counts, ({ area }) => area) < this.area) continue;
        if (this.attempt(counts, 0, 200)) return;
        if (this.budget.ended) return;
      }
    }
  }

  /** Cheaper choices of sheets, cheapest first, with more and more patience for each. */
  private search(): void {
    for (let round = 0; !this.budget.spend(); round++) {
      const below = this.best?.cost ?? Number.POSITIVE_INFINITY;
      if (below <= this.bound) return;
      const limits = { area: this.area, below, most: MOST_CHOICES };
      const next = choices(this.offers, limits) ?? this.stepsFrom(this.best?.counts);
      if (next.length === 0) return;
      for (const counts of next) {
        if (this.budget.ended) return;
        if (this.attempt(counts, round, 300 * 2 ** Math.min(round, 8))) break;
      }
    }
  }

  private stepsFrom(counts: readonly number[] | undefined): readonly (readonly number[])[] {
    const all = this.offers.map(({ copies }) => copies);
    return counts === undefined ? [all] : cheaperChoices(this.offers, counts, this.area);
  }

  /** Tries to lay everything into a choice of sheets; keeps it, without the sheets left empty, when it is cheapest. */
  private attempt(counts: readonly number[], restart: number, iterations: number): boolean {
    const opened = counts.flatMap((count, index) => Array.from({ length: count }, () => this.offers[index]!));
    const grids = this.gridsOf(opened);
    const trees = grids
      ? this.layInCells(opened, grids, restart)
      : this.layInPlaces(opened, restart, iterations);
    if (trees === undefined) return false;
    const used = opened.flatMap((offer, at) =>
      this.isUnused(trees[at]!) ? [] : [{ offer, packed: packedSheet(offer, trees[at]!) }],
    );
    const cost = used.reduce((total, { offer }) => total + offer.cost, 0);
    if (cost >= (this.best?.cost ?? Number.POSITIVE_INFINITY)) return true;
    const usedCounts = this.offers.map(
      (_, index) => used.filter(({ offer }) => offer.index === index).length,
    );
    this.best = { cost, counts: usedCounts, sheets: used.map(({ packed }) => packed) };
    this.budget.improve(cost, this.bound);
    return true;
  }

  /** The grids of all sheets, where each is one and nothing limits the stages or asks for a lattice. */
  private gridsOf(opened: readonly Offer[]): readonly Grid[] | undefined {
    if (this.stages !== 'any' || this.kinds.some(({ lattice }) => lattice !== undefined)) return undefined;
    const grids = opened.flatMap(({ sheet }) => gridOf(sheet) ?? []);
    return grids.length === opened.length ? grids : undefined;
  }

  /** Whether a sheet yields nothing that was asked for, so that it need not be opened. */
  private isUnused(tree: SheetTree): boolean {
    return counted(tree, this.kinds.length).every(
      (count, kind) => count === 0 || this.kinds[kind]!.withSheet === true,
    );
  }

  private layInCells(
    opened: readonly Offer[],
    grids: readonly Grid[],
    restart: number,
  ): readonly SheetTree[] | undefined {
    const engine = new CellEngine(this.kinds, grids, this.options.seed + restart, this.budget);
    engine.reset((grid, row) => grids[grid]!.rows[row]!.to - grids[grid]!.rows[row]!.from);
    if (!engine.reach(restart, 2 ** Math.min(restart, 8))) return undefined;
    return opened.map(({ sheet }, index) => engine.tree(index, sheet.length));
  }

  private layInPlaces(
    opened: readonly Offer[],
    restart: number,
    iterations: number,
  ): readonly SheetTree[] | undefined {
    const sheets = opened.map(({ sheet }) => sheet);
    const items = itemsOf(this.kinds, sheets);
    for (const [kind, { copies, withSheet }] of this.kinds.entries()) {
      if (withSheet) continue;
      if (items.filter(({ place }) => place?.kind === kind).length > copies) return undefined;
    }
    const { stages, budget, options } = this;
    const seed = options.seed + 104_729 * restart;
    const engine = new PlacedSearch({ items, stages, seed, budget, costOf: ({ area }) => area ** 1.2 });
    engine.reset(sheets);
    engine.fill(restart % 5, { choice: ([0, 1, 2] as const)[restart % 3]!, skip: 0, whim: 0 });
    if (!engine.complete) engine.anneal(iterations, 0.2);
    if (!engine.complete) return undefined;
    return opened.map(({ sheet }, index) => withKinds(engine.trees[index]!, boxOf(sheet), items));
  }
}

function boxOf({ width, length }: Sheet): { x0: number; y0: number; x1: number; y1: number } {
  return { x0: 0, y0: 0, x1: width, y1: length };
}

function packedSheet({ sheet, index }: Offer, tree: SheetTree): PackedSheet {
  return { sheet: index, width: sheet.width, length: sheet.length, tree };
}
