import type { Budget } from '../search/budget.ts';
import { seededRandom } from '../search/random.ts';
import type { FitRule } from './find-place.ts';
import { forestToPart, type Part } from './part.ts';
import type { Pieces } from './pieces.ts';
import { RuinAndRecreate, type RuinSettings } from './ruin-and-recreate.ts';

/** Cycles of annealing spent on one target before the next is set. */
const CYCLES = 2;
/** Longest cycles, as a multiple of the first. */
const MOST_PATIENCE = 12;

export interface StripSearchOptions {
  readonly width: number;
  readonly bound: number;
  readonly seed: number;
  readonly stages: 2 | 3 | 'any';
  readonly budget: Budget;
  /** Told of each shorter answer. */
  readonly onBetter: (length: number, part: Part) => void;
}

/**
 * Searches a strip of given width for ever shorter answers until the bound is met or the budget ends: greedy starts
 * first, then length targets, by bisection at first and then always one less than the best.
 */
export class StripSearch {
  best = Infinity;
  bestPart: Part | undefined;
  private readonly pieces: Pieces;
  private readonly options: StripSearchOptions;
  private readonly engine: RuinAndRecreate;

  constructor(pieces: Pieces, options: StripSearchOptions) {
    this.pieces = pieces;
    this.options = options;
    this.engine = new RuinAndRecreate(pieces, 1, options.stages, seededRandom(options.seed));
  }

  run(): void {
    this.greedyStarts();
    let low = this.options.bound;
    let restart = 0;
    let patience = 1;
    while (this.best > this.options.bound && !this.options.budget.ended) {
      if (low >= this.best) {
        low = this.options.bound;
        patience = Math.min(MOST_PATIENCE, patience === 1 ? 3 : patience * 2);
      }
      const target = patience === 1 ? (low + this.best) >> 1 : this.best - 1;
      if (!this.reach(target, restart++, patience)) low = target + 1;
    }
  }

  private greedyStarts(): void {
    const { width, budget } = this.options;
    const { pieces, engine } = this;
    let longest = 0;
    for (let i = 0; i < pieces.count; i++) longest += Math.max(pieces.width[i], pieces.length[i]);
    for (const rule of [0, 3, 1] as FitRule[]) {
      for (const order of [0, 1, 2, 3]) {
        if (this.best < Infinity && (budget.ended || this.best <= this.options.bound)) return;
        budget.spendMany(1 + (pieces.count >> 4));
        engine.reset([{ width, length: longest }]);
        engine.fill(order, rule, 0, 1);
        this.note();
      }
    }
  }

  /** Tries to put everything into a strip of the given length, by a few cycles of annealing. */
  private reach(target: number, restart: number, patience: number): boolean {
    const { engine } = this;
    const { width, budget } = this.options;
    if (restart % 2 === 0) {
      engine.reset([{ width, length: target }]);
      engine.fill(restart % 5, (restart % 5) as FitRule, 0.05, 1);
    } else {
      engine.setLength(target);
    }
    for (let cycle = 0; cycle < CYCLES; cycle++) {
      const settings = settingsFor(restart + cycle, this.pieces.count, patience);
      if (engine.anneal(settings, budget.spend)) {
        this.note();
        return true;
      }
      if (budget.ended) return false;
    }
    return false;
  }

  private note(): void {
    const { engine, pieces } = this;
    const length = engine.usedLength;
    if (engine.outCount > 0 || length >= this.best) return;
    const turned = (piece: number, width: number): boolean => width !== pieces.width[piece];
    const part = forestToPart(engine.forest, 0, turned);
    if (part === undefined) return;
    this.best = length;
    this.bestPart = part;
    this.options.onBetter(length, part);
  }
}

/** Settings of one cycle of annealing; they go round, so that no one of them rules a search. */
export /** Settings by turns, since none wins everywhere; cycles grow with patience. */
function settingsFor(turn: number, count: number, patience: number): RuinSettings {
  return {
    hot: [0.15, 0.08, 0.25, 0.04][turn % 4],
    iterations: (12_000 + 400 * count) * patience,
    mostRemoved: [10, 16, 6][turn % 3],
    fragments: [0.2, 0, 0.1][turn % 3],
    skip: 0.01,
    growth: [1, 2, 0.5][turn % 3],
    refits: 0.003,
  };
}
