import type { Random } from '../search/random.ts';
import { CutForest } from './cut-forest.ts';
import type { FitOptions, FitRule } from './find-place.ts';
import { placePart } from './forest-parts.ts';
import type { LaidPiece } from './layers.ts';
import { LeftOut } from './left-out.ts';
import type { Part } from './part.ts';
import { ORDERS } from './piece-orders.ts';
import type { Pieces } from './pieces.ts';
import { type Dearest, Recreate } from './recreate.ts';
import { Refill } from './refill.ts';
import { Ruin } from './ruin.ts';

/** What varies between restarts. */
export interface RuinSettings {
  /** Temperature at the start of a cycle, in mean piece costs. */
  readonly hot: number;
  readonly iterations: number;
  readonly mostRemoved: number;
  /** Weight of cut-up free strips in the objective. */
  readonly fragments: number;
  /** Places passed over, one in so many. */
  readonly skip: number;
  readonly growth: number;
  /** Share of the moves that fill a hole exactly. */
  readonly refits: number;
}

/** For a few parts that are packed anew by themselves. */
export function groupSettings(iterations: number, random: Random): RuinSettings {
  return {
    hot: [0.15, 0.08, 0.04][random.below(3)],
    iterations,
    mostRemoved: [10, 6][random.below(2)],
    fragments: 0.1,
    skip: 0.01,
    growth: 1,
    refits: 0.003,
  };
}

/** Ways tried of making a sheet shorter, of which the one that takes out least is kept. */
const SHRINK_ATTEMPTS = 12;

/**
 * Ruin and recreate on cut trees of given sheets: takes some pieces out, puts them and the left-out ones back by a
 * fit rule, and keeps the outcome or not by annealing on what stays out (after Gardeyn & Wauters 2022). The goal is
 * reached when nothing stays out.
 */
export class RuinAndRecreate {
  readonly forest: CutForest;
  private readonly left: LeftOut;
  private readonly pieces: Pieces;
  private readonly random: Random;
  private readonly deepest: number;
  private readonly trimOnly: boolean;
  private readonly pieceCost: Float64Array;
  private readonly kept: Int32Array;
  private readonly keptLeft: LeftOut;
  private readonly ruin: Ruin;
  private readonly recreate: Recreate;
  private readonly refills: Refill;
  private sheetArea = 1;
  private readonly totalArea: number;
  private readonly limit: Dearest;

  constructor(pieces: Pieces, sheets: number, stages: 2 | 3 | 'any', random: Random) {
    const n = pieces.count;
    this.pieces = pieces;
    this.random = random;
    this.deepest = stages === 'any' ? Infinity : 2;
    this.trimOnly = stages === 2;
    this.forest = new CutForest(n, sheets);
    this.left = new LeftOut(n);
    this.kept = new Int32Array(this.forest.state.length);
    this.keptLeft = new LeftOut(n);
    let mean = 0;
    for (let i = 0; i < n; i++) mean += pieces.area[i] / n;
    this.totalArea = mean * n;
    this.pieceCost = Float64Array.from(pieces.area, (area) => (area / mean) ** 1.2 + 0.02);
    this.ruin = new Ruin(this.forest, this.left, random);
    this.limit = { cost: Infinity, perArea: 0, costOf: this.pieceCost };
    this.recreate = new Recreate(this.forest, this.left, pieces, random);
    this.refills = new Refill(this.forest, pieces, this.pieceCost, random);
  }

  /** The pieces that are left out: the first `outCount`. */
  get out(): Int32Array {
    return this.left.list;
  }

  /** How many pieces are left out. */
  get outCount(): number {
    return this.left.count;
  }

  /** Sum of the areas of the pieces left out. */
  get outArea(): number {
    return this.left.sum(this.pieces.area);
  }

  /** Empties all sheets and gives them these sizes. */
  reset(sizes: readonly { readonly width: number; readonly length: number }[]): void {
    this.sheetArea = 0;
    for (const [sheet, size] of sizes.entries()) this.openSheet(sheet, size);
    this.forest.clear();
    this.left.fill();
  }

  /** Gives an empty sheet (index from 0) a size. */
  openSheet(sheet: number, size: { readonly width: number; readonly length: number }): void {
    this.forest.setSheet(sheet, size.width, size.length);
    this.sheetArea += size.width * size.length;
  }

  /** Lays everything out in layers on the first sheet, which is empty and long enough. */
  layOut(layers: readonly (readonly LaidPiece[])[]): void {
    const { forest } = this;
    const sheet = this.pieces.count;
    for (const layer of layers) {
      let node = sheet;
      for (const { piece, width, length } of layer) {
        forest.place(piece, node, width, length);
        node = node === sheet ? forest.parent[piece] : node;
      }
    }
    this.left.count = 0;
  }

  /** Puts parts, whose pieces are out, into a sheet (index from 0), which has room for them. */
  put(parts: readonly Part[], sheet = 0): void {
    for (const part of parts) placePart(this.forest, part, this.pieces.count + sheet);
    this.left.strikePlaced(this.forest);
  }

  /** Everything that `restore` needs to bring back the present trees, where nothing is left out. */
  snapshot(): Int32Array {
    return this.forest.state.slice();
  }

  restore(snapshot: Int32Array): void {
    this.forest.state.set(snapshot);
    this.left.count = 0;
  }

  /** Length of the first sheet up to which it is used. */
  get usedLength(): number {
    const sheet = this.pieces.count;
    return this.forest.extent[2 * sheet + 1] - this.forest.free[sheet];
  }

  /** Gives the first sheet another length; where it shrinks, pieces that stand in the way are taken out. */
  setLength(length: number): void {
    const { forest } = this;
    const sheet = this.pieces.count;
    const change = length - forest.extent[2 * sheet + 1];
    if (forest.free[sheet] + change < 0) this.makeRoom(-change);
    forest.extent[2 * sheet + 1] += change;
    forest.free[sheet] += change;
  }

  /** Takes pieces out of the first sheet until so much length of it is free: the best of some random ways. */
  private makeRoom(wanted: number): void {
    const { forest, left, ruin } = this;
    const sheet = this.pieces.count;
    this.keep();
    let bestArea = Infinity;
    let bestState = forest.state;
    const bestLeft = new LeftOut(this.pieces.count);
    for (let attempt = 0; attempt < SHRINK_ATTEMPTS; attempt++) {
      while (forest.free[sheet] < wanted) left.takeOut(forest, ruin.anyPlaced());
      if (this.outArea < bestArea) {
        bestArea = this.outArea;
        bestState = forest.state.slice();
        bestLeft.copyFrom(left);
      }
      this.goBack();
    }
    forest.state.set(bestState);
    left.copyFrom(bestLeft);
  }

  /** Puts back what is out, in the given order and by the given rule. */
  fill(order: number, rule: FitRule, skip: number, growth: number): void {
    this.recreate.run(order, this.fit(rule, skip, growth));
  }

  private fit(rule: FitRule, skip: number, growth: number): FitOptions {
    return { rule, deepest: this.deepest, trimOnly: this.trimOnly, skip, growth };
  }

  /** One cycle of annealing; true as soon as nothing is left out. `spend` is called each iteration, true to end. */
  anneal(settings: RuinSettings, spend: () => boolean): boolean {
    const { random, left } = this;
    if (left.count === 0) return true;
    const fits = [0, 1, 2, 3, 4].map((rule) => this.fit(rule as FitRule, settings.skip, settings.growth));
    let cost = this.cost(settings.fragments);
    this.keep();
    for (let iteration = 0; iteration < settings.iterations; iteration++) {
      if (spend()) return false;
      const cold = 1 - iteration / settings.iterations;
      const temperature = settings.hot * cold * cold;
      const most = cost - temperature * Math.log(random.unit() + 1e-12);
      // A filled hole knows no stages, so it is only for any.
      if (this.deepest < Infinity || random.unit() >= settings.refits || !this.refill()) {
        this.ruin.run(1 + random.below(settings.mostRemoved));
        if (
          !this.recreate.run(
            random.below(ORDERS + 1),
            fits[random.below(5)],
            this.dearest(most, settings.fragments),
          )
        ) {
          this.goBack();
          continue;
        }
      }
      if (left.count === 0) return true;
      const fresh = this.cost(settings.fragments);
      if (fresh <= most) {
        cost = fresh;
        this.keep();
      } else this.goBack();
    }
    return false;
  }

  /** What the pieces left out may cost at most for the whole to cost at most `most`, whatever the free strips are like. */
  private dearest(most: number, fragments: number): Dearest {
    const { pieces, sheetArea } = this;
    const bonus = (fragments * pieces.count) / sheetArea;
    this.limit.cost = most + bonus * (sheetArea - this.totalArea) + 1e-9;
    this.limit.perArea = bonus;
    return this.limit;
  }

  private keep(): void {
    this.kept.set(this.forest.state);
    this.keptLeft.copyFrom(this.left);
  }

  private goBack(): void {
    this.forest.state.set(this.kept);
    this.left.copyFrom(this.keptLeft);
  }

  private cost(fragments: number): number {
    const sum = this.left.sum(this.pieceCost);
    if (fragments === 0) return sum;
    const { free, extent, direction, marks, pieces } = this.forest;
    let squares = 0;
    for (let node = pieces; node < marks[0]; node++) {
      if (free[node] <= 0) continue;
      const area = free[node] * extent[2 * node + 1 - direction[node]];
      squares += area * area;
    }
    return sum - (fragments * Math.sqrt(squares) * this.pieces.count) / this.sheetArea;
  }

  /** Fills one hole anew (see `Refill`); false where nothing was done. */
  private refill(): boolean {
    const { left } = this;
    const count = this.refills.tryOne(left.list, left.count);
    if (count < 0) return false;
    left.count = count;
    return true;
  }
}
