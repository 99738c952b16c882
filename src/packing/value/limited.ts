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
import { outsideTable } from './outside.ts';
import type { Parts } from './parts.ts';
import { type FoundSheet, type Limited, PriceSearch } from './prices.ts';
import { partsOfBuild } from './sheet-trees.ts';
import { stagesAffordable } from './staged.ts';
import { valueTable } from './unlimited.ts';

/** This many operations on a table count as one node. */
export const operationsPerNode = 256;
const mostBuilds = 1_500_000;
const leastPerSlice = 4;
const nearPart = 0.006;

export interface ValueAnswer {
  /** Worth of the best sheet found; `floor` where none is worth more. */
  readonly value: number;
  readonly bound: number;
  readonly parts: Parts | undefined;
}

export interface LimitedQuestion extends Limited {
  /** Worths of whole sheets are multiples of this. */
  readonly step: number;
  readonly stages: Stages;
  /** Only sheets worth more than this are of interest. */
  readonly floor: number;
  /** Prices to start from. */
  readonly prices?: Float64Array;
}

export class LimitedSearch {
  value: number;
  bound: number;
  parts: Parts | undefined;
  readonly prices: PriceSearch;
  /** Prices of sheets within the cut stages alone, where these are limited: they bound better, but lead no builds. */
  private readonly staged: PriceSearch | undefined;
  private readonly question: LimitedQuestion;
  private readonly budget: Budget;
  private readonly spendOperations: (operations: number) => boolean;
  private pending = 0;
  /** First stride of `closeGap`, as a part of the bound. */
  private stride = 0.0005;
  private perSlice = leastPerSlice;

  constructor(question: LimitedQuestion, budget: Budget) {
    this.question = question;
    this.budget = budget;
    this.value = question.floor;
    this.prices = new PriceSearch(question, question.prices, question.prices ? 0.5 : 1);
    const { values, copies, stages, grid } = question;
    if (stages !== 'any' && stagesAffordable(grid))
      this.staged = new PriceSearch(question, question.prices, 1, stages);
    this.bound = values.reduce((sum, value, kind) => sum + value * copies[kind]!, 0);
    this.spendOperations = (operations) => {
      this.pending += operations;
      const nodes = Math.floor(this.pending / operationsPerNode);
      this.pending -= nodes * operationsPerNode;
      return this.budget.spendMany(nodes);
    };
  }

  get over(): boolean {
    return this.budget.ended || this.value >= this.bound;
  }

  /** Little is missing: then a proof is more likely than a better sheet. */
  get near(): boolean {
    return this.bound - this.value <= nearPart * this.bound;
  }

  get answer(): ValueAnswer {
    return { value: this.value, bound: Math.max(this.bound, this.value), parts: this.parts };
  }

  /** One round: better prices, a lower bound, better sheets, each for about `share` nodes. */
  round(share: number): void {
    this.improvePrices(share);
    this.searchBuilds(share);
  }

  /** Builds within the bound that the prices give. */
  searchBuilds(share: number): void {
    if (this.over) return;
    const space = this.spaceOf();
    if (!space) return;
    this.closeGap(space, this.near ? 4 * share : share);
    this.searchWider(space, 2 * share);
  }

  /** A sheet found elsewhere. */
  take(value: number, parts: Parts | undefined): void {
    if (value <= this.value) return;
    this.value = value;
    this.parts = parts;
    this.budget.improve(value, Math.max(value, this.bound));
  }

  /** Exhausts the values from the bound downwards, in strides that double as long as there is nothing. */
  private closeGap(space: BuildSpace, share: number): void {
    const { step } = this.question;
    const until = this.budget.nodes + share;
    while (!this.over && this.budget.nodes < until) {
      const stride = Math.max(step, Math.floor((this.stride * this.bound) / step) * step);
      const above = Math.max(this.value, this.bound - stride);
      const { complete, best } = this.search(space, { above, perSlice: Infinity, until });
      if (!complete) {
        this.stride /= 2;
        break;
      }
      this.bound = best < 0 ? above : this.value;
      this.stride *= 2;
    }
  }

  /** Keeps more and more builds while that is affordable. */
  private searchWider(space: BuildSpace, share: number): void {
    const until = this.budget.nodes + share;
    while (!this.over && this.budget.nodes < until) {
      const { complete } = this.search(space, {
        above: this.value,
        perSlice: this.perSlice,
        until: Infinity,
      });
      if (complete) this.bound = this.value;
      if (this.budget.nodes < until) this.perSlice *= 2;
    }
  }

  /** Subgradient steps for about `share` nodes. */
  improvePrices(share: number): void {
    if (this.staged) this.stepPrices(this.staged, share, (sheet) => this.takeSheet(sheet));
    const ignored = () => {};
    const taken = (sheet: FoundSheet) => this.takeSheet(sheet);
    this.stepPrices(this.prices, share, this.question.stages === 'any' ? taken : ignored);
  }

  private stepPrices(prices: PriceSearch, share: number, found: (sheet: FoundSheet) => void): void {
    const until = this.budget.nodes + share;
    while (!this.over && !prices.settled && this.budget.nodes < until) {
      prices.step(this.value, this.spendOperations, found);
      this.lowerBound(prices.bound);
    }
  }

  private lowerBound(bound: number): void {
    const { step } = this.question;
    this.bound = Math.min(this.bound, Math.floor(bound / step) * step);
  }

  private takeSheet(sheet: FoundSheet): void {
    if (sheet.value > this.value) this.take(sheet.value, sheet.parts());
  }

  private spaceOf(): BuildSpace | undefined {
    const { question } = this;
    const { prices } = this.prices;
    const reduced = question.values.map((value, kind) => value - prices[kind]!);
    const table = valueTable(question.grid, reduced, this.spendOperations);
    const outside = table && outsideTable(table, this.spendOperations);
    return outside && { ...question, prices: prices.slice(), outside };
  }

  private search(
    space: BuildSpace,
    { above, perSlice, until }: { above: number; perSlice: number; until: number },
  ): BuildOutcome {
    const outcome = searchBuilds(space, {
      above,
      perSlice,
      mostBuilds,
      spend: (work) => this.budget.spendMany(work) || this.budget.nodes >= until,
    });
    if (outcome.best >= 0) {
      this.take(outcome.store.worth[outcome.best]!, partsOfBuild(outcome.store, outcome.best));
    }
    return outcome;
  }
}
