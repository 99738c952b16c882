import type { Random } from '../search/random.ts';
import { CutForest } from './cut-forest.ts';
import { type FitOptions, type FitRule, findPlace, type Place } from './find-place.ts';
import { piecesBelow, placePart } from './forest-parts.ts';
import type { LaidPiece } from './layers.ts';
import { nodeToPart, type Part } from './part.ts';
import { ORDERS, pieceOrders, sortByFallingKey } from './piece-orders.ts';
import type { Pieces } from './pieces.ts';
import { Refill } from './refill.ts';

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

/** Ways tried of making a sheet shorter, of which the one that takes out least is kept. */
const SHRINK_ATTEMPTS = 12;
/** Pieces of a part that are listed at most when some of them are taken out. */
const MOST_LISTED = 200;

/**
 * Ruin and recreate on cut trees of given sheets: takes some pieces out, puts them and the left-out ones back by a
 * fit rule, and keeps the outcome or not by annealing on what stays out (after Gardeyn & Wauters 2022). The goal is
 * reached when nothing stays out.
 */
export class RuinAndRecreate {
  readonly forest: CutForest;
  readonly out: Int32Array;
  outCount: number;
  private readonly pieces: Pieces;
  private readonly random: Random;
  private readonly deepest: number;
  private readonly trimOnly: boolean;
  private readonly pieceCost: Float64Array;
  private readonly orders: Float64Array[];
  private readonly key: Float64Array;
  private readonly place: Place = { node: -1, width: 0, length: 0, score: 0 };
  private readonly tried: Int32Array;
  private triedStamp = 0;
  private readonly kept: Int32Array;
  private readonly keptOut: Int32Array;
  private readonly stack: Int32Array;
  private readonly draw: () => number;
  private readonly refills: Refill;
  private sheetArea = 1;

  constructor(pieces: Pieces, sheets: number, stages: 2 | 3 | 'any', random: Random) {
    const n = pieces.count;
    this.pieces = pieces;
    this.random = random;
    this.draw = random.unit;
    this.deepest = stages === 'any' ? Infinity : 2;
    this.trimOnly = stages === 2;
    this.forest = new CutForest(n, sheets);
    this.out = new Int32Array(n);
    this.outCount = 0;
    this.kept = new Int32Array(this.forest.state.length);
    this.keptOut = new Int32Array(n);
    this.key = new Float64Array(n);
    this.tried = new Int32Array(n);
    this.stack = new Int32Array(n + 1);
    let mean = 0;
    for (let i = 0; i < n; i++) mean += pieces.area[i] / n;
    this.pieceCost = Float64Array.from(pieces.area, (area) => (area / mean) ** 1.2 + 0.02);
    this.refills = new Refill(this.forest, pieces, this.pieceCost, random);
    this.orders = pieceOrders(pieces);
  }

  /** Empties all sheets and gives them these sizes. */
  reset(sizes: readonly { readonly width: number; readonly length: number }[]): void {
    this.sheetArea = 0;
    sizes.forEach(({ width, length }, sheet) => {
      this.forest.setSheet(sheet, width, length);
      this.sheetArea += width * length;
    });
    this.forest.clear();
    this.outCount = this.pieces.count;
    for (let i = 0; i < this.outCount; i++) this.out[i] = i;
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
    this.outCount = 0;
  }

  /** Parts of the first cuts of the first sheet. */
  sections(): number[] {
    const { first, next, pieces } = this.forest;
    const found: number[] = [];
    for (let part = first[pieces]; part >= 0; part = next[part]) found.push(part);
    return found;
  }

  piecesOf(section: number): number[] {
    const count = piecesBelow(this.forest, section, this.stack, 0, this.pieces.count);
    return Array.from(this.stack.subarray(0, count));
  }

  lengthOf(section: number): number {
    return this.forest.extent[2 * section + 1];
  }

  partOf(section: number): Part {
    const unturned = this.pieces.width;
    const part = nodeToPart(this.forest, section, (piece, width) => width !== unturned[piece]);
    if (part === undefined) throw new Error(`section ${section} is empty`);
    return part;
  }

  /** Puts parts, whose pieces are out, into a sheet (index from 0), which has room for them. */
  put(parts: readonly Part[], sheet = 0): void {
    for (const part of parts) placePart(this.forest, part, this.pieces.count + sheet);
    let left = 0;
    for (let i = 0; i < this.outCount; i++) {
      if (!this.forest.isPlaced(this.out[i])) this.out[left++] = this.out[i];
    }
    this.outCount = left;
  }

  /** Puts other parts, made of the same pieces, in the place of some sections. */
  exchange(sections: readonly number[], parts: readonly Part[]): void {
    for (const section of sections) this.forest.detach(section);
    this.put(parts);
  }

  /** Everything that `restore` needs to bring back the present trees, where nothing is left out. */
  snapshot(): Int32Array {
    return this.forest.state.slice();
  }

  restore(snapshot: Int32Array): void {
    this.forest.state.set(snapshot);
    this.outCount = 0;
  }

  /** Length of the first sheet up to which it is used. */
  get usedLength(): number {
    const sheet = this.pieces.count;
    return this.forest.extent[2 * sheet + 1] - this.forest.free[sheet];
  }

  /** Gives the first sheet another length; where it shrinks, pieces that stand in the way are taken out. */
  setLength(length: number): void {
    const { forest, out, kept, keptOut } = this;
    const sheet = this.pieces.count;
    const change = length - forest.extent[2 * sheet + 1];
    if (forest.free[sheet] + change < 0) {
      kept.set(forest.state);
      keptOut.set(out);
      const keptCount = this.outCount;
      let bestArea = Infinity;
      let bestState: Int32Array | undefined;
      let bestOut = out;
      let bestCount = 0;
      for (let attempt = 0; attempt < SHRINK_ATTEMPTS; attempt++) {
        while (forest.free[sheet] + change < 0) this.takeOut(this.anyPlaced());
        const area = this.outArea;
        if (area < bestArea) {
          bestArea = area;
          bestState = forest.state.slice();
          bestOut = out.slice();
          bestCount = this.outCount;
        }
        forest.state.set(kept);
        out.set(keptOut);
        this.outCount = keptCount;
      }
      if (bestState !== undefined) forest.state.set(bestState);
      out.set(bestOut);
      this.outCount = bestCount;
    }
    forest.extent[2 * sheet + 1] += change;
    forest.free[sheet] += change;
  }

  /** Puts back what is out, in the given order and by the given rule. */
  fill(order: number, rule: FitRule, skip: number, growth: number): void {
    this.recreate(order, { rule, deepest: this.deepest, trimOnly: this.trimOnly, skip, growth });
  }

  /** Sum of the areas of the pieces left out. */
  get outArea(): number {
    let sum = 0;
    for (let i = 0; i < this.outCount; i++) sum += this.pieces.area[this.out[i]];
    return sum;
  }

  /** One cycle of annealing; true as soon as nothing is left out. `spend` is called each iteration, true to end. */
  anneal(settings: RuinSettings, spend: () => boolean): boolean {
    const { forest, random, kept, keptOut, out } = this;
    if (this.outCount === 0) return true;
    let cost = this.cost(settings.fragments);
    kept.set(forest.state);
    keptOut.set(out);
    let keptCount = this.outCount;
    for (let iteration = 0; iteration < settings.iterations; iteration++) {
      if (spend()) return false;
      const cold = 1 - iteration / settings.iterations;
      const temperature = settings.hot * cold * cold;
      // A filled hole knows no stages, so it is only for any.
      if (this.deepest < Infinity || random.unit() >= settings.refits || !this.refill()) {
        this.ruin(1 + random.below(settings.mostRemoved));
        this.recreate(random.below(ORDERS), {
          rule: random.below(5) as FitRule,
          deepest: this.deepest,
          trimOnly: this.trimOnly,
          skip: settings.skip,
          growth: settings.growth,
        });
      }
      if (this.outCount === 0) return true;
      const fresh = this.cost(settings.fragments);
      if (fresh <= cost - temperature * Math.log(random.unit() + 1e-12)) {
        cost = fresh;
        kept.set(forest.state);
        keptOut.set(out);
        keptCount = this.outCount;
      } else {
        forest.state.set(kept);
        out.set(keptOut);
        this.outCount = keptCount;
      }
    }
    return false;
  }

  private cost(fragments: number): number {
    let sum = 0;
    for (let i = 0; i < this.outCount; i++) sum += this.pieceCost[this.out[i]];
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
    if (this.deepest !== Infinity) return false;
    const count = this.refills.tryOne(this.out, this.outCount);
    if (count < 0) return false;
    this.outCount = count;
    return true;
  }

  private takeOut(piece: number): void {
    this.forest.remove(piece);
    this.out[this.outCount++] = piece;
  }

  /** Takes out `count` pieces: scattered, from around one piece, or alike one piece. */
  private ruin(count: number): void {
    const { forest, random, pieces } = this;
    const placed = pieces.count - this.outCount;
    if (placed === 0) return;
    const seed = this.anyPlaced();
    const way = random.below(10);
    if (way < 4) {
      this.takeOut(seed);
      for (let i = 1; i < count && this.outCount < pieces.count; i++) this.takeOut(this.anyPlaced());
      return;
    }
    // Climb until the part holds enough pieces, then take out its pieces.
    let node = forest.parent[seed];
    let climb = 1 + random.below(3);
    while (--climb > 0 && forest.parent[node] >= 0) node = forest.parent[node];
    this.takeOutBelow(node, seed, count);
  }

  /** Takes out `seed` and up to `count - 1` other pieces below `node`, in tree order from a random start. */
  private takeOutBelow(node: number, seed: number, count: number): void {
    const { random, stack } = this;
    const all = piecesBelow(this.forest, node, stack, 0, MOST_LISTED);
    let found = 0;
    for (let i = 0; i < all; i++) if (stack[i] !== seed) stack[found++] = stack[i];
    const start = found > 0 ? random.below(found) : 0;
    const taken = Math.min(found, count - 1);
    this.takeOut(seed);
    for (let i = 0; i < taken; i++) this.takeOut(stack[(start + i) % found]);
  }

  private anyPlaced(): number {
    const { forest, random, pieces } = this;
    let piece = random.below(pieces.count);
    while (!forest.isPlaced(piece)) piece = piece + 1 === pieces.count ? 0 : piece + 1;
    return piece;
  }

  private sortOut(order: number): void {
    const { out, key, random } = this;
    const by = this.orders[order];
    for (let i = 0; i < this.outCount; i++) key[out[i]] = by === undefined ? random.unit() : by[out[i]];
    sortByFallingKey(out, this.outCount, key);
  }

  private recreate(order: number, fit: FitOptions): void {
    const { out, pieces, forest, place, tried } = this;
    this.sortOut(order);
    const stamp = ++this.triedStamp;
    let left = 0;
    const n = this.outCount;
    for (let i = 0; i < n; i++) {
      const piece = out[i];
      if (tried[pieces.shape[piece]] === stamp) {
        out[left++] = piece;
        continue;
      }
      place.node = -1;
      place.score = Infinity;
      findPlace(forest, pieces.width[piece], pieces.length[piece], fit, this.draw, place);
      if (pieces.turnable[piece])
        findPlace(forest, pieces.length[piece], pieces.width[piece], fit, this.draw, place);
      if (place.node < 0) {
        tried[pieces.shape[piece]] = stamp;
        out[left++] = piece;
      } else {
        forest.place(piece, place.node, place.width, place.length);
      }
    }
    this.outCount = left;
  }
}
