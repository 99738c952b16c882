import type { Budget } from '../search/budget.ts';
import { seededRandom } from '../search/random.ts';
import type { FitRule } from './find-place.ts';
import { forestToPart, type Part } from './part.ts';
import type { Pieces } from './pieces.ts';
import { RuinAndRecreate, type RuinSettings } from './ruin-and-recreate.ts';

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
        patience *= 2;
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
    const cycles = 2 * patience;
    for (let cycle = 0; cycle < cycles; cycle++) {
      if (engine.anneal(settingsFor(restart + cycle, this.pieces.count), budget.spend)) {
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

function settingsFor(turn: number, count: number): RuinSettings {
  return {
    hot: [0.3, 0.1, 0.2, 0.05][turn % 4],
    iterations: 10000 + 100 * count,
    mostRemoved: [6, 3, 8][turn % 3],
    fragments: 0.3,
    skip: 0.02,
    growth: 1,
  };
}
