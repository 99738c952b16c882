/**
 * Most value from one sheet when copies are limited: bound and answer are brought together in rounds.
 *
 * ```
 * prices ──▶ bound, and sheets with surplus pieces left out
 *    │
 *    └─────▶ builds within the bound, few of them at first, twice as many each round ──▶ better sheets, or a proof
 * ```
 */
import type { Stages } from '../instance.ts';
import type { Budget } from '../search/budget.ts';
import { type BuildOutcome, searchBuilds } from './build-search.ts';
import type { BuildSpace } from './builds.ts';
import { operationsOf } from './grid.ts';
import { outsideTable } from './outside.ts';
import { type Limited, PriceSearch, type TableSheet } from './prices.ts';
import { type Parts, partsOfBuild, partsOfTable } from './sheet-trees.ts';
import { valueTable } from './unlimited.ts';

/** This many operations on a table count as one node. */
const operationsPerNode = 256;
const mostBuilds = 1_500_000;
const leastPerSlice = 4;

export interface ValueAnswer {
  readonly value: number;
  readonly bound: number;
  readonly parts: Parts | undefined;
}

export interface LimitedQuestion extends Limited {
  /** Worths of whole sheets are multiples of this. */
  readonly step: number;
  readonly stages: Stages;
}

export function mostLimited(question: LimitedQuestion, budget: Budget): ValueAnswer {
  return new LimitedSearch(question, budget).run();
}

class LimitedSearch {
  private readonly question: LimitedQuestion;
  private readonly budget: Budget;
  private readonly prices: PriceSearch;
  private readonly spendOperations: (operations: number) => boolean;
  private pending = 0;
  private value = 0;
  private bound: number;
  private parts: Parts | undefined;

  constructor(question: LimitedQuestion, budget: Budget) {
    this.question = question;
    this.budget = budget;
    this.prices = new PriceSearch(question);
    const { values, copies } = question;
    this.bound = values.reduce((sum, value, kind) => sum + value * copies[kind]!, 0);
    this.spendOperations = (operations) => {
      this.pending += operations;
      const nodes = Math.floor(this.pending / operationsPerNode);
      this.pending -= nodes * operationsPerNode;
      return this.budget.spendMany(nodes);
    };
  }

  run(): ValueAnswer {
    let share = Math.max(20_000, (4 * operationsOf(this.question.grid)) / operationsPerNode);
    for (let perSlice = leastPerSlice; !this.over(); perSlice *= 2, share *= 2) {
      this.improvePrices(share);
      if (this.over()) break;
      const space = this.spaceOf();
      if (!space) break;
      const outcome = this.search(space, perSlice, this.value);
      if (outcome.complete) this.bound = this.value;
    }
    return { value: this.value, bound: this.bound, parts: this.parts };
  }

  private over(): boolean {
    return this.budget.ended || this.value >= this.bound;
  }

  /** Subgradient steps for about `share` nodes. */
  private improvePrices(share: number): void {
    const until = this.budget.nodes + share;
    while (!this.over() && !this.prices.settled && this.budget.nodes < until) {
      this.prices.step(this.value, this.spendOperations, (sheet) => this.takeTable(sheet));
      this.lowerBound(this.prices.bound);
    }
  }

  private lowerBound(bound: number): void {
    const { step } = this.question;
    this.bound = Math.min(this.bound, Math.floor(bound / step) * step);
  }

  private takeTable(sheet: TableSheet): void {
    if (sheet.value <= this.value || this.question.stages !== 'any') return;
    this.value = sheet.value;
    this.parts = partsOfTable(sheet, this.question.copies);
    this.budget.improve(this.value, Math.max(this.value, this.bound));
  }

  private spaceOf(): BuildSpace | undefined {
    const { question } = this;
    const { prices } = this.prices;
    const reduced = question.values.map((value, kind) => value - prices[kind]!);
    const table = valueTable(question.grid, reduced, this.spendOperations);
    const outside = table && outsideTable(table, this.spendOperations);
    return outside && { ...question, prices: prices.slice(), outside };
  }

  private search(space: BuildSpace, perSlice: number, above: number): BuildOutcome {
    const outcome = searchBuilds(space, {
      above,
      perSlice,
      mostBuilds,
      spend: (work) => this.budget.spendMany(work),
    });
    if (outcome.best >= 0) {
      this.value = outcome.store.worth[outcome.best]!;
      this.parts = partsOfBuild(outcome.store, outcome.best);
      this.budget.improve(this.value, this.bound);
    }
    return outcome;
  }
}
