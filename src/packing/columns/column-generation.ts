/**
 * Fewest or cheapest sheets by columns: each column is one way of cutting one sheet, and the linear programme of
 * covering all pieces gives every shape a price (Gilmore & Gomory 1961; for bins of rectangles Pisinger & Sigurd 2007).
 *
 * ```
 * columns ──▶ programme ──▶ prices ──▶ sheets worth more than they cost ──▶ columns
 *                              └─────▶ most that any sheet is worth ──▶ bound (Farley 1990)
 * ```
 *
 * With whole-numbered worths near the prices, a sheet of kind s is worth at most z(s), whatever is cut from it, and all
 * pieces are worth so much together: sheets that hold them cost at least what that much worth costs at the cheapest
 * rate. This is a bound for any worths, so neither rounding nor an early end can make it wrong.
 */
import { cheapest, costUnit, roundedUp } from '../bounds/sheets-bound.ts';
import type { FitRule } from '../guillotine/find-place.ts';
import { type Part, renumbered } from '../guillotine/part.ts';
import type { Pieces } from '../guillotine/pieces.ts';
import { blockKinds } from '../guillotine/shapes.ts';
import type { BoundSheet } from '../guillotine/simple-bounds.ts';
import type { Budget } from '../search/budget.ts';
import { type Random, seededRandom } from '../search/random.ts';
import { type Column, CoverProgramme } from './cover-programme.ts';
import { QuickFill } from './quick-fill.ts';
import { priceSheet } from './sheet-pricing.ts';

export interface SheetColumn extends Column {
  /** The sheet as cut, shapes on its leaves. */
  readonly part: Part;
}

/** Worth that stands for the dearest sheet's cost. */
const WHOLE = 2 ** 20;
/** Quick fills of each sheet in one round. */
const FILLS = 60;
const FILLS_IN_DIVE = 24;
const MOST_PIVOTS = 4000;
/** Nodes of the value search that count as one of the sheets' search. */
const NODES_EACH = 12;
/** Effort of pricing one sheet, in nodes of the value search: at first, and at most where proofs need more. */
const PRICING = 100_000;
const MOST_PRICING = 6_400_000;
/** A sheet worth so much more than it costs ends the search for a better one. */
const ENOUGH = 1.03;
/** What the programme's value may be off by, as a part of it. */
const TILTED = 1e-5;
/** Share of the prices of the best bound so far in those that are tried (Wentges 1997). */
const STEADY = 0.5;

export class ColumnGeneration {
  bound: number;
  /** No better bound lies in the programme. */
  bounded = false;
  /** The programme is solved: no better sheet is known. */
  finished = false;
  readonly columns: SheetColumn[] = [];
  readonly programme: CoverProgramme;
  private readonly pieces: Pieces;
  private readonly sheets: readonly BoundSheet[];
  private readonly shapes;
  private readonly stages: 2 | 3 | 'any';
  private readonly random: Random;
  private readonly fills: QuickFill;
  private readonly known = new Set<string>();
  private readonly unit: number;
  private readonly dearest: number;
  private steady: Float64Array | undefined;
  private steadyBound = 0;
  private pricing = PRICING;
  /** The last pricing ended before it was sure of its bound. */
  private open = false;

  constructor(
    pieces: Pieces,
    sheets: readonly BoundSheet[],
    { stages, seed, bound }: { stages: 2 | 3 | 'any'; seed: number; bound: number },
  ) {
    this.pieces = pieces;
    this.sheets = sheets;
    this.stages = stages;
    this.bound = bound;
    this.shapes = blockKinds(pieces).kinds;
    this.random = seededRandom(seed);
    this.fills = new QuickFill(pieces, stages, this.random);
    this.unit = costUnit(sheets);
    this.dearest = Math.max(...sheets.map(({ cost }) => cost));
    this.programme = new CoverProgramme(
      this.shapes.map(({ copies }) => copies),
      sheets.map(({ copies }) => copies),
      2 * this.dearest,
    );
  }

  /** Adds a sheet as cut, single pieces on its leaves; false where it is known. */
  addSheet(sheet: number, part: Part): boolean {
    return this.addPart(
      sheet,
      renumbered(part, (piece) => this.pieces.shape[piece]!),
    );
  }

  /** Goes on until the bound reaches `goal`, the programme is solved or about so many nodes are spent. */
  run(goal: number, budget: Budget, nodes: number): void {
    const last = budget.nodes + nodes;
    while (!this.finished && this.bound < goal && budget.nodes < last && !budget.ended) {
      const before = this.programme.pivots;
      const cost = this.programme.solve(MOST_PIVOTS);
      budget.spendMany(1 + (((this.programme.pivots - before) * this.shapes.length) >> 4));
      // The bound never passes the programme's own value.
      if (roundedUp(cost * (1 - TILTED), this.unit) <= this.bound) this.bounded = true;
      this.round(cost, budget);
    }
  }

  /**
   * New columns by quick fills, from what is left of each shape and at the prices of that rest; for dives. They count
   * among all columns too.
   */
  moreFor(left: readonly number[], prices: Float64Array, budget: Budget): SheetColumn[] {
    const before = this.columns.length;
    const taken = this.shapes.map(() => 0);
    const worth = Float64Array.from(this.pieces.shape, (shape) =>
      taken[shape]!++ < left[shape]! ? prices[shape]! : 0,
    );
    this.fillSheets(worth, prices, budget, FILLS_IN_DIVE);
    return this.columns.slice(before);
  }

  private round(cost: number, budget: Budget): void {
    const prices = this.programme.prices();
    const worth = Float64Array.from(this.pieces.shape, (shape) => prices[shape]!);
    const added = this.fillSheets(worth, prices, budget, FILLS);
    if (added > 2) return;
    const steady = this.bounded ? undefined : this.steady;
    const mixed = steady && prices.map((price, row) => STEADY * steady[row]! + (1 - STEADY) * price);
    if (mixed && this.priceAll(mixed, { prices, cost }, budget)) return;
    if (this.priceAll(prices, { prices, cost }, budget) || added > 0 || budget.ended) return;
    if (this.open && !this.bounded && this.pricing < MOST_PRICING) this.pricing *= 2;
    else this.finished = true;
  }

  /** Adds sheets that quick fills find; returns how many. */
  private fillSheets(worth: Float64Array, prices: Float64Array, budget: Budget, most: number): number {
    const { pieces, sheets, fills, random, shapes } = this;
    let added = 0;
    sheets.forEach((sheet, index) => {
      const needed = sheet.cost - prices[shapes.length + index]!;
      for (let fill = 0; fill < most; fill++) {
        if (budget.spendMany(1 + (pieces.count >> 5))) return;
        const total = fills.fill(sheet, worth, {
          power: [1, 0.5, 1.2, 0.8][fill % 4]!,
          noise: fill < 4 ? 0 : [0.2, 0.6, 1.5][fill % 3]!,
          rule: random.below(5) as FitRule,
        });
        if (total <= needed * (1 + 1e-5)) continue;
        if (this.addSheet(index, fills.part()!)) added++;
      }
    });
    return added;
  }

  /** Prices every sheet at `tried`, bounds the cost by that, and adds what is worth more than it costs at the programme's own prices. */
  private priceAll(
    tried: Float64Array,
    { prices, cost }: { prices: Float64Array; cost: number },
    budget: Budget,
  ): boolean {
    const { sheets, shapes } = this;
    const worth = Float64Array.from(shapes, (_, shape) =>
      Math.max(0, Math.round((tried[shape]! / this.dearest) * WHOLE)),
    );
    const total = shapes.reduce((sum, { copies }, shape) => sum + copies * worth[shape]!, 0);
    // A bound above this is the highest that the programme can give.
    const provable = this.bounded ? 0 : roundedUp(cost * (1 - TILTED), this.unit) - this.unit;
    let added = false;
    let complete = true;
    this.open = false;
    const held = sheets.map((sheet, index) => {
      if (budget.ended) complete = false;
      if (!complete) return 0;
      const paid = ((sheet.cost - tried[shapes.length + index]!) / this.dearest) * WHOLE;
      // Sheets worth less than this let the bound rise as far as it can, so that they need not be looked at.
      const harmless = provable > 0 ? ((total * sheet.cost) / provable) * (1 - 1e-6) : 0;
      const floor = Math.floor(Math.max(paid, harmless));
      const priced = priceSheet(shapes, sheet, worth, {
        floor,
        enough: floor * ENOUGH,
        effort: this.pricing,
        stages: this.stages,
        stop: () => budget.ended,
      });
      budget.spendMany(1 + Math.floor(priced.nodes / NODES_EACH));
      if (priced.part && this.addPart(index, priced.part)) {
        const column = this.columns[this.columns.length - 1]!;
        if (this.programme.reduced(column, prices) < -1e-6 * sheet.cost) added = true;
      }
      if (priced.bound > Math.max(priced.value, floor)) this.open = true;
      return priced.bound;
    });
    if (complete) this.takeBound(total, held, tried);
    return added;
  }

  private takeBound(total: number, held: readonly number[], tried: Float64Array): void {
    const bound = cheapest(this.sheets, held, total);
    if (roundedUp(bound, this.unit) > this.bound) this.bound = roundedUp(bound, this.unit);
    if (bound <= this.steadyBound) return;
    this.steadyBound = bound;
    this.steady = tried.slice();
  }

  private addPart(sheet: number, part: Part): boolean {
    const counts = new Map<number, number>();
    const open = [part];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (next.kind === 'piece') counts.set(next.piece, (counts.get(next.piece) ?? 0) + 1);
      else open.push(...next.parts);
    }
    const rows = [...counts.keys()].sort((a, b) => a - b);
    const key = `${sheet} ${rows.map((row) => `${row}:${counts.get(row)}`).join(' ')}`;
    if (this.known.has(key)) return false;
    this.known.add(key);
    const column = {
      rows,
      counts: rows.map((row) => counts.get(row)!),
      sheet,
      cost: this.sheets[sheet]!.cost,
      part,
    };
    this.columns.push(column);
    this.programme.add(column);
    return true;
  }
}
