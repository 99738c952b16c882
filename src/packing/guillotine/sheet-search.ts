import { ColumnGeneration, type SheetColumn } from '../columns/column-generation.ts';
import { dive } from '../columns/dive.ts';
import type { Budget } from '../search/budget.ts';
import { type Random, seededRandom } from '../search/random.ts';
import type { FitRule } from './find-place.ts';
import type { BlockKind } from './pareto.ts';
import { forestToPart, type Part } from './part.ts';
import { type Pieces, totalArea } from './pieces.ts';
import { RuinAndRecreate } from './ruin-and-recreate.ts';
import { blockKinds, firstMembers } from './shapes.ts';
import { fullSheetSets, type SheetSet } from './sheet-sets.ts';
import type { BoundSheet } from './simple-bounds.ts';

export interface SheetSearchOptions {
  readonly sheets: readonly BoundSheet[];
  readonly bound: number;
  readonly seed: number;
  readonly stages: 2 | 3 | 'any';
  readonly budget: Budget;
  /** Told of each better cost, with the bound. */
  readonly onBetter: (cost: number, bound: number) => void;
}

/** One opened sheet: index into the kinds of sheet, and what is cut from it. */
export interface OpenedSheet {
  readonly sheet: number;
  readonly part: Part;
}

/** Choices of sheets looked at when new goals are set. */
const MOST_SETS = 4000;
/** Effort for starts from columns, as a multiple of that for starts of its own. */
const DIVING = 2;
/** Most shapes and kinds of sheet for which columns are made. */
const MOST_SHAPES = 300;
const MOST_KINDS = 40;

/**
 * Searches for ever cheaper choices of sheets that hold all pieces, and for proofs that none is cheaper.
 *
 * ```
 * greedy openings ─▶ ruin and recreate ─▶ columns: bound and good sheets ─▶ ruin and recreate from those sheets
 *                          ▲                                                            │
 *                          └────────────────────── more patience ───────────────────────┘
 * ```
 *
 * The goal is always a choice of sheets that costs less than the best (goal driven, after Gardeyn & Wauters 2022).
 */
export class SheetSearch {
  best = Infinity;
  bestSheets: readonly OpenedSheet[] = [];
  /** No choice of sheets that costs less holds all pieces. */
  bound: number;
  private readonly columns: ColumnGeneration | undefined;
  private readonly shapes: readonly BlockKind[];
  private readonly membersOf: readonly (readonly number[])[];
  private readonly random: Random;
  private dives = 0;
  private readonly pieces: Pieces;
  private readonly options: SheetSearchOptions;
  private readonly engine: RuinAndRecreate;
  private readonly slots: number;

  constructor(pieces: Pieces, options: SheetSearchOptions) {
    this.pieces = pieces;
    this.options = options;
    const total = options.sheets.reduce((sum, { copies }) => sum + copies, 0);
    this.slots = Math.min(total, pieces.count);
    this.random = seededRandom(options.seed);
    this.engine = new RuinAndRecreate(pieces, this.slots, options.stages, this.random);
    this.bound = options.bound;
    const { kinds, membersOf } = blockKinds(pieces);
    this.shapes = kinds;
    this.membersOf = membersOf;
    const few = kinds.length <= MOST_SHAPES && options.sheets.length <= MOST_KINDS && options.bound > 0;
    if (few) this.columns = new ColumnGeneration(pieces, options.sheets, options);
  }

  run(): void {
    const { budget } = this.options;
    this.greedyOpenings();
    let patience = 1;
    while (this.best > this.bound && !budget.ended) {
      const before = budget.nodes;
      const goals = this.goals();
      if (goals.length === 0) return;
      const tried = Math.max(1, Math.ceil(goals.length / 4));
      let reached = false;
      for (let i = 0; i < tried && !reached && !budget.ended; i++) reached = this.reach(goals[i], patience);
      if (reached) continue;
      const share = budget.nodes - before;
      this.generate(share);
      const until = budget.nodes + DIVING * share;
      while (!reached && !this.over && this.columns !== undefined && budget.nodes < until) {
        reached = this.reachByColumns();
      }
      if (!reached) patience = Math.min(patience + 1, 64);
    }
  }

  private get over(): boolean {
    return this.options.budget.ended || this.best <= this.bound;
  }

  /** Makes columns for about so many nodes; may raise the bound. */
  private generate(nodes: number): void {
    const { columns } = this;
    if (columns === undefined || columns.finished) return;
    columns.run(this.best, this.options.budget, nodes);
    this.bound = Math.max(this.bound, Math.min(columns.bound, this.best));
  }

  /** Begins with sheets that the columns advise, and puts the rest in by ruin and recreate. */
  private reachByColumns(): boolean {
    const { columns, engine, random } = this;
    const { sheets } = this.options;
    if (columns === undefined || columns.columns.length === 0) return false;
    const chosen = dive(
      columns.columns,
      this.shapes.map(({ copies }) => copies),
      sheets.map(({ copies }) => copies),
      {
        below: this.best,
        noise: 0.5 * random.unit(),
        random,
        more: (left, prices) => columns.moreFor(left, prices, this.options.budget),
      },
    );
    const opened = this.withMore(chosen);
    if (opened.length > this.slots) return false;
    engine.reset(this.sizesOf(opened));
    const members = this.membersOf.map((own) => [...own]);
    chosen.forEach(({ part }, slot) => {
      const own = firstMembers(part, members, this.pieces);
      if (own !== undefined) engine.put([own], slot);
    });
    engine.fill(0, 0, 0, 1);
    // Good sheets are not to be torn apart: a short and cold anneal is for the few pieces left out.
    this.dives++;
    return this.annealTo(opened, {
      turn: this.dives,
      iterations: 1500 + 40 * this.pieces.count,
      cold: 0.3,
      cycles: 1,
    });
  }

  /** The sheets of the columns chosen, and as many more, cheapest first, as cost less than the best. */
  private withMore(chosen: readonly SheetColumn[]): number[] {
    const { sheets } = this.options;
    const opened = chosen.map(({ sheet }) => sheet);
    let cost = opened.reduce((sum, sheet) => sum + sheets[sheet].cost, 0);
    const left = sheets.map(({ copies }, kind) => copies - opened.filter((sheet) => sheet === kind).length);
    const byCost = sheets.map((_, kind) => kind).sort((a, b) => sheets[a].cost - sheets[b].cost || a - b);
    for (const kind of byCost) {
      while (left[kind] > 0 && cost + sheets[kind].cost < this.best && opened.length < this.slots) {
        opened.push(kind);
        cost += sheets[kind].cost;
        left[kind]--;
      }
    }
    return opened;
  }

  private sizesOf(opened: readonly number[]): { width: number; length: number }[] {
    const { sheets } = this.options;
    return Array.from({ length: this.slots }, (_, slot) =>
      slot < opened.length ? sheets[opened[slot]] : { width: 0, length: 0 },
    );
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
    const { sheets, budget } = this.options;
    const { bound } = this;
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
    const opened = goal.counts.flatMap((count, kind) => Array.from({ length: count }, () => kind));
    engine.reset(this.sizesOf(opened));
    engine.fill(patience % 5, (patience % 5) as FitRule, 0.05, 1);
    const iterations = (10_000 + 300 * this.pieces.count) * Math.min(patience, 8);
    return this.annealTo(opened, { turn: patience, iterations, cold: 1, cycles: 2 });
  }

  private annealTo(
    opened: readonly number[],
    {
      turn: first,
      iterations,
      cold,
      cycles,
    }: { turn: number; iterations: number; cold: number; cycles: number },
  ): boolean {
    const { engine } = this;
    const { budget } = this.options;
    for (let cycle = 0; cycle < cycles; cycle++) {
      const turn = cycle + first;
      const settings = {
        hot: cold * [0.15, 0.08, 0.25, 0.04][turn % 4],
        iterations,
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
    for (const { sheet, part } of this.partsOf(opened)) this.columns?.addSheet(sheet, part);
    return false;
  }

  private partsOf(opened: readonly number[]): OpenedSheet[] {
    const { pieces, engine } = this;
    return opened.flatMap((sheet, slot) => {
      const part = forestToPart(engine.forest, slot, (piece, width) => width !== pieces.width[piece]);
      return part === undefined ? [] : [{ sheet, part }];
    });
  }

  private note(opened: readonly number[]): void {
    const { sheets } = this.options;
    const found = this.partsOf(opened);
    const cost = found.reduce((sum, { sheet }) => sum + sheets[sheet].cost, 0);
    if (cost >= this.best) return;
    this.best = cost;
    this.bestSheets = found;
    for (const { sheet, part } of found) this.columns?.addSheet(sheet, part);
    this.options.onBetter(cost, this.bound);
  }
}
