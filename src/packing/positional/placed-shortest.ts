import type { Kind, PackOptions, Sheet } from '../instance.ts';
import type { PackResult, SheetTree } from '../result.ts';
import { Budget } from '../search/budget.ts';
import { insideBoxes } from './grid.ts';
import { fixedFault, type Item, itemsOf, placeFault, withKinds } from './items.ts';
import { positionalLengthBound } from './length-bounds.ts';
import { isPlacedExactSize, PlacedProgramme } from './placed-programme.ts';
import { PlacedSearch } from './placed-search.ts';
import { clipped, usedLength } from './placed-tree.ts';

/** The exact programme gets this share of the effort, up to a number of nodes worth about two seconds. */
const EXACT_SHARE = 0.5;
const EXACT_NODES = 300_000;

interface Found {
  readonly length: number;
  readonly tree: SheetTree;
}

/**
 * Shortest length where forbidden boxes, fixed pieces and lattices give parts a place of their own: greedy answers,
 * then an exact programme for a handful of pieces, else ruin and recreate with ever shorter targets.
 */
export function placedShortest(sheet: Sheet, kinds: readonly Kind[], options: PackOptions): PackResult {
  const items = itemsOf(kinds, [sheet]);
  const fault = fixedFault(sheet, kinds) ?? placeFault(items, [sheet]);
  if (fault !== undefined) return { status: 'impossible', reason: fault, nodes: 0 };
  const bound = positionalLengthBound(sheet, kinds);
  if (bound > sheet.length) {
    const reason = `all pieces need at least ${bound} of length, the sheet has ${sheet.length}`;
    return { status: 'impossible', reason, nodes: 0 };
  }
  const budget = new Budget(options);
  const strip = new StripOfPlaces(sheet, items, options, budget);
  strip.start(bound);
  if (strip.best?.length !== bound && isPlacedExactSize(items)) {
    const proven = strip.prove(options);
    if (proven === 'none') {
      return {
        status: 'impossible',
        reason: 'no way of cutting gives every piece where it must lie',
        nodes: budget.nodes,
      };
    }
    if (proven === 'best' && strip.best !== undefined) return strip.answer(strip.best.length);
  }
  strip.search(bound);
  return strip.answer(bound);
}

class StripOfPlaces {
  best: Found | undefined;
  /** The shortest that the search itself has found, with items on its leaves. */
  private shortest: Found | undefined;
  private readonly sheet: Sheet;
  private readonly items: readonly Item[];
  private readonly budget: Budget;
  private readonly engine: PlacedSearch;
  private readonly stages: 2 | 3 | 'any';
  private readonly longest: number;
  private bound = 0;

  constructor(sheet: Sheet, items: readonly Item[], options: PackOptions, budget: Budget) {
    this.sheet = sheet;
    this.items = items;
    this.budget = budget;
    this.stages = options.stages ?? 'any';
    const costOf = ({ area }: Item) => area ** 1.2;
    this.engine = new PlacedSearch({ items, stages: this.stages, seed: options.seed, budget, costOf });
    this.longest = Math.min(sheet.length, longEnough(sheet, items));
  }

  /** Greedy answers, so that there is one soon. */
  start(bound: number): void {
    this.bound = bound;
    for (const choice of [1, 0, 2] as const) {
      for (const order of [0, 2, 3]) {
        if (this.budget.ended && this.best !== undefined) return;
        this.budget.spendMany(1);
        this.engine.reset([{ ...this.sheet, length: this.longest }]);
        this.engine.fill(order, { choice, skip: 0, whim: 0 });
        this.note(this.longest);
        if (this.best?.length === bound) return;
      }
    }
  }

  /** Proves the best answer best, or finds a better one that is; `none` proves that there is no answer. */
  prove(options: PackOptions): 'best' | 'none' | undefined {
    const { stop } = options;
    const effort = Math.min(EXACT_NODES, Math.floor(options.effort * EXACT_SHARE));
    const budget = new Budget({ effort, seed: options.seed, ...(stop ? { stop } : {}) });
    const length = this.best === undefined ? this.longest : this.best.length - 1;
    const programme = new PlacedProgramme({ ...this.sheet, length }, this.items, this.stages, budget);
    const least = programme.least(programme.sets.states - 1);
    this.budget.spendMany(budget.nodes);
    if (programme.ended) return undefined;
    if (least < Number.POSITIVE_INFINITY) {
      this.best = { length: least, tree: programme.build(programme.sets.states - 1, least) };
    }
    return this.best === undefined ? 'none' : 'best';
  }

  /** Ever shorter targets, by bisection at first and then always one less than the best. */
  search(bound: number): void {
    let [low, restart, patience] = [bound, 0, 1];
    while ((this.best?.length ?? Number.POSITIVE_INFINITY) > bound && !this.budget.spend()) {
      const best = this.best?.length;
      if (best === undefined) {
        this.reach(this.longest, restart++, patience++);
        continue;
      }
      if (low >= best) {
        low = bound;
        patience *= 2;
      }
      const target = patience === 1 ? low + Math.floor((best - low) / 2) : best - 1;
      if (!this.reach(target, restart++, patience)) low = target + 1;
    }
  }

  answer(bound: number): PackResult {
    const { budget, best, sheet } = this;
    if (best === undefined) return { status: 'unknown', bound, nodes: budget.nodes };
    return {
      status: best.length === bound ? 'best' : 'found',
      value: best.length,
      bound,
      sheets: [{ sheet: 0, width: sheet.width, length: best.length, tree: best.tree }],
      nodes: budget.nodes,
    };
  }

  private reach(length: number, restart: number, patience: number): boolean {
    const { engine, budget } = this;
    const choice = ([1, 0, 2] as const)[restart % 3]!;
    if (restart % 2 === 1 && this.shortest !== undefined) {
      const { tree, length: had } = this.shortest;
      const box = { x0: 0, y0: 0, x1: this.sheet.width, y1: had };
      engine.resume([{ ...this.sheet, length }], [clipped(tree, box, length)]);
    } else {
      engine.reset([{ ...this.sheet, length }]);
    }
    engine.fill(restart % 5, { choice, skip: 0.05, whim: 0.1 });
    for (let cycle = 0; cycle < 2 * patience && !engine.complete && !budget.ended; cycle++) {
      engine.anneal(1500, [0.3, 0.1, 0.2][cycle % 3]!);
    }
    return this.note(length);
  }

  private note(length: number): boolean {
    if (!this.engine.complete) return false;
    const box = { x0: 0, y0: 0, x1: this.sheet.width, y1: length };
    const [tree] = this.engine.trees as [SheetTree];
    const used = usedLength(tree, box);
    if (this.best !== undefined && used >= this.best.length) return true;
    this.shortest = { length: used, tree: clipped(tree, box, used) };
    this.best = { length: used, tree: withKinds(this.shortest.tree, { ...box, y1: used }, this.items) };
    this.budget.improve(used, this.bound);
    return true;
  }
}

/** A length on which every piece could lie beyond the one before it, past every box and fixed piece. */
function longEnough(sheet: Sheet, items: readonly Item[]): number {
  let length = 0;
  for (const { y1 } of insideBoxes(sheet)) if (Number.isFinite(y1)) length = Math.max(length, y1);
  for (const { place, poses } of items) {
    if (place !== undefined) length = Math.max(length, place.y0 + poses[0]!.length);
  }
  for (const { copies, poses, lattice } of items) {
    length += copies * (Math.max(...poses.map((pose) => pose.length)) + (lattice?.y?.period ?? 0));
  }
  return length;
}
