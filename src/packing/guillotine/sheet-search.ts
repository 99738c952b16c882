import type { Budget } from '../search/budget.ts';
import { seededRandom } from '../search/random.ts';
import type { FitRule } from './find-place.ts';
import { forestToPart, type Part } from './part.ts';
import { type Pieces, totalArea } from './pieces.ts';
import { RuinAndRecreate } from './ruin-and-recreate.ts';
import { fullSheetSets, type SheetSet } from './sheet-sets.ts';
import type { BoundSheet } from './simple-bounds.ts';

export interface SheetSearchOptions {
  readonly sheets: readonly BoundSheet[];
  readonly bound: number;
  readonly seed: number;
  readonly stages: 2 | 3 | 'any';
  readonly budget: Budget;
  readonly onBetter: (cost: number) => void;
}

/** One opened sheet: index into the kinds of sheet, and what is cut from it. */
export interface OpenedSheet {
  readonly sheet: number;
  readonly part: Part;
}

/** Choices of sheets looked at when new goals are set. */
const MOST_SETS = 4000;

/**
 * Searches for ever cheaper choices of sheets that hold all pieces: greedy openings first, then choices that cost
 * less than the best, each tried by ruin and recreate with growing patience (goal driven, after Gardeyn & Wauters 2022).
 */
export class SheetSearch {
  best = Infinity;
  bestSheets: readonly OpenedSheet[] = [];
  private readonly pieces: Pieces;
  private readonly options: SheetSearchOptions;
  private readonly engine: RuinAndRecreate;
  private readonly slots: number;

  constructor(pieces: Pieces, options: SheetSearchOptions) {
    this.pieces = pieces;
    this.options = options;
    const total = options.sheets.reduce((sum, { copies }) => sum + copies, 0);
    this.slots = Math.min(total, pieces.count);
    this.engine = new RuinAndRecreate(pieces, this.slots, options.stages, seededRandom(options.seed));
  }

  run(): void {
    const { bound, budget } = this.options;
    this.greedyOpenings();
    let patience = 1;
    while (this.best > bound && !budget.ended) {
      const goals = this.goals();
      if (goals.length === 0) return;
      const tried = Math.max(1, Math.ceil(goals.length / 4));
      let reached = false;
      for (let i = 0; i < tried && !reached && !budget.ended; i++) reached = this.reach(goals[i], patience);
      if (!reached) patience = Math.min(patience + 1, 64);
    }
  }

  private goals(): SheetSet[] {
    const { sheets } = this.options;
    const below = this.best === Infinity ? Number.MAX_VALUE : this.best;
    return fullSheetSets(sheets, totalArea(this.pieces), below, MOST_SETS).filter(
      ({ counts }) => counts.reduce((sum, count) => sum + count, 0) <= this.slots,
    );
  }

  /** Opens sheets one by one, filling each before the next: by cost per area, by size, by cost. */
  private greedyOpenings(): void {
    const { sheets, budget, bound } = this.options;
    const size = ({ width, length }: BoundSheet): number => width * length;
    const openings: ((a: number, b: number) => number)[] = [
      (a, b) => sheets[a].cost / size(sheets[a]) - sheets[b].cost / size(sheets[b]),
      (a, b) => size(sheets[b]) - size(sheets[a]),
      (a, b) => sheets[a].cost - sheets[b].cost,
    ];
    const kinds = sheets.map((_, index) => index);
    for (const opening of sheets.length === 1 ? openings.slice(0, 1) : openings) {
      const order = [...kinds].sort((a, b) => opening(a, b) || a - b);
      for (const rule of [0, 1, 3] as FitRule[]) {
        for (const sorting of [0, 1, 2, 3]) {
          if (this.best <= bound || (budget.ended && this.best < Infinity)) return;
          budget.spendMany(1 + (this.pieces.count >> 4));
          this.open(order, rule, sorting);
        }
      }
    }
  }

  private open(order: readonly number[], rule: FitRule, sorting: number): void {
    const { sheets } = this.options;
    const { engine } = this;
    const opened: number[] = [];
    const empty = Array.from({ length: this.slots }, () => ({ width: 0, length: 0 }));
    engine.reset(empty);
    for (const kind of order) {
      for (let copy = 0; copy < sheets[kind].copies && opened.length < this.slots; copy++) {
        const before = engine.outCount;
        engine.openSheet(opened.length, sheets[kind]);
        engine.fill(sorting, rule, 0, 1);
        // A sheet that takes nothing now takes nothing later: what is out only shrinks.
        if (engine.outCount === before) {
          engine.openSheet(opened.length, { width: 0, length: 0 });
          break;
        }
        opened.push(kind);
        if (engine.outCount === 0) {
          this.note(opened);
          return;
        }
      }
    }
  }

  private reach(goal: SheetSet, patience: number): boolean {
    const { engine } = this;
    const { sheets, budget } = this.options;
    const opened = goal.counts.flatMap((count, kind) => Array.from({ length: count }, () => kind));
    const sizes = Array.from({ length: this.slots }, (_, slot) =>
      slot < opened.length ? sheets[opened[slot]] : { width: 0, length: 0 },
    );
    engine.reset(sizes);
    engine.fill(patience % 5, (patience % 5) as FitRule, 0.05, 1);
    for (let cycle = 0; cycle < 2; cycle++) {
      const turn = cycle + patience;
      const settings = {
        hot: [0.15, 0.08, 0.25, 0.04][turn % 4],
        iterations: (10_000 + 300 * this.pieces.count) * Math.min(patience, 8),
        mostRemoved: [10, 6, 16][turn % 3],
        fragments: [0.2, 0, 0.1][turn % 3],
        skip: 0.01,
        growth: [1, 2, 0.5][turn % 3],
        refits: 0.003,
      };
      if (engine.anneal(settings, budget.spend)) {
        this.note(opened);
        return true;
      }
      if (budget.ended) return false;
    }
    return false;
  }

  private note(opened: readonly number[]): void {
    const { sheets } = this.options;
    const { pieces, engine } = this;
    const found: OpenedSheet[] = [];
    let cost = 0;
    opened.forEach((sheet, slot) => {
      const part = forestToPart(engine.forest, slot, (piece, width) => width !== pieces.width[piece]);
      if (part === undefined) return;
      found.push({ sheet, part });
      cost += sheets[sheet].cost;
    });
    if (cost >= this.best) return;
    this.best = cost;
    this.bestSheets = found;
    this.options.onBetter(cost);
  }
}
