import type { Random } from '../search/random.ts';
import { SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import type { Part } from './part.ts';

/** Most pieces that a hole is filled from. */
export const HOLE_PIECES = 12;
/** Most boxes kept in all fronts together; a hole that needs more is given up. */
const MOST_BOXES = 60_000;

/** A single piece offered for a hole. */
export interface HolePiece {
  readonly piece: number;
  readonly width: number;
  readonly length: number;
  readonly turnable: boolean;
  readonly worth: number;
}

export interface Hole {
  readonly width: number;
  readonly length: number;
  /** Fillings worth less than this are of no use. */
  readonly leastWorth: number;
  /** Most area that any block of the filling may waste. */
  readonly spare: number;
}

/**
 * Fills a small rectangle as well as can be from a dozen pieces: all subsets with the Pareto fronts of their guillotine
 * blocks. Blocks that waste more than the hole can spare are dropped, which keeps the fronts short where little is
 * spare. Time O(3^pieces) at worst.
 */
export class HoleFiller {
  private readonly start = new Int32Array((1 << HOLE_PIECES) + 1);
  private readonly area = new Float64Array(1 << HOLE_PIECES);
  private readonly worth = new Float64Array(1 << HOLE_PIECES);
  private readonly widths = new Int32Array(MOST_BOXES);
  private readonly lengths = new Int32Array(MOST_BOXES);
  private readonly frontWidth = new Int32Array(MOST_BOXES);
  private readonly frontLength = new Int32Array(MOST_BOXES);
  private frontSize = 0;
  private hole: Hole = { width: 0, length: 0, leastWorth: 0, spare: 0 };
  private pieces: readonly HolePiece[] = [];

  /**
   * The worthiest filling, or one worth `leastWorth` at least that is as short along `direction` as it gets. Leaves of
   * the part are the `piece` numbers. Undefined where there is none.
   */
  fill(
    pieces: readonly HolePiece[],
    hole: Hole,
    direction: 0 | 1,
    random: Random,
  ): { part: Part; taken: readonly number[] } | undefined {
    this.pieces = pieces;
    this.hole = hole;
    const subsets = 1 << pieces.length;
    if (!this.makeFronts(subsets)) return undefined;
    let best = 0;
    let bestWorth = hole.leastWorth - 1e-9;
    let bestAlong = Infinity;
    let bestBox = 0;
    let ties = 0;
    for (let subset = 1; subset < subsets; subset++) {
      const from = this.start[subset];
      const to = this.start[subset + 1];
      if (from === to || this.worth[subset] < bestWorth - 1e-9) continue;
      const box = direction === STACKED ? to - 1 : from;
      const along = direction === STACKED ? this.lengths[box] : this.widths[box];
      const better = this.worth[subset] > bestWorth + 1e-9 || along < bestAlong;
      if (!better && (along > bestAlong || random.below(++ties + 1) > 0)) continue;
      if (better) ties = 0;
      best = subset;
      bestWorth = this.worth[subset];
      bestAlong = along;
      bestBox = box;
    }
    if (best === 0) return undefined;
    const taken = pieces.filter((_, i) => (best >> i) & 1).map(({ piece }) => piece);
    return { part: this.rebuild(best, bestBox, random), taken };
  }

  private makeFronts(subsets: number): boolean {
    const { pieces, start, area, worth } = this;
    start[0] = 0;
    start[1] = 0;
    area[0] = 0;
    worth[0] = 0;
    for (let subset = 1; subset < subsets; subset++) {
      const top = 31 - Math.clz32(subset);
      const rest = subset ^ (1 << top);
      area[subset] = area[rest] + pieces[top].width * pieces[top].length;
      worth[subset] = worth[rest] + pieces[top].worth;
      this.frontSize = 0;
      const from = start[subset];
      if (area[subset] <= this.hole.width * this.hole.length) {
        if (rest === 0) {
          this.offer(subset, pieces[top].width, pieces[top].length);
          if (pieces[top].turnable) this.offer(subset, pieces[top].length, pieces[top].width);
        } else this.joinHalves(subset);
      }
      if (from + this.frontSize >= MOST_BOXES) return false;
      for (let i = 0; i < this.frontSize; i++) {
        this.widths[from + i] = this.frontWidth[i];
        this.lengths[from + i] = this.frontLength[i];
      }
      start[subset + 1] = from + this.frontSize;
    }
    return true;
  }

  private joinHalves(subset: number): void {
    const { start } = this;
    for (let part = (subset - 1) & subset; 2 * part >= subset; part = (part - 1) & subset) {
      const rest = subset ^ part;
      if (start[part] === start[part + 1] || start[rest] === start[rest + 1]) continue;
      this.join(subset, part, rest);
    }
  }

  private join(subset: number, a: number, b: number): void {
    const { widths, lengths, start, hole } = this;
    const endA = start[a + 1];
    const endB = start[b + 1];
    let i = start[a];
    let j = start[b];
    while (i < endA && j < endB) {
      const width = widths[i] + widths[j];
      if (width > hole.width) break;
      const lengthA = lengths[i];
      const lengthB = lengths[j];
      this.offer(subset, width, Math.max(lengthA, lengthB));
      if (lengthA >= lengthB) i++;
      if (lengthB >= lengthA) j++;
    }
    i = endA - 1;
    j = endB - 1;
    while (i >= start[a] && j >= start[b]) {
      const length = lengths[i] + lengths[j];
      if (length > hole.length) break;
      const widthA = widths[i];
      const widthB = widths[j];
      this.offer(subset, Math.max(widthA, widthB), length);
      if (widthA >= widthB) i--;
      if (widthB >= widthA) j--;
    }
  }

  private offer(subset: number, width: number, length: number): void {
    const { hole, frontWidth, frontLength } = this;
    if (width > hole.width || length > hole.length) return;
    if (width * length - this.area[subset] > hole.spare) return;
    let at = 0;
    while (at < this.frontSize && frontWidth[at] <= width) at++;
    if (at > 0 && frontLength[at - 1] <= length) return;
    const from = at > 0 && frontWidth[at - 1] === width ? at - 1 : at;
    let to = at;
    while (to < this.frontSize && frontLength[to] >= length) to++;
    if (from === to) {
      for (let k = this.frontSize; k > from; k--) {
        frontWidth[k] = frontWidth[k - 1];
        frontLength[k] = frontLength[k - 1];
      }
      this.frontSize++;
    } else if (to > from + 1) {
      const drop = to - from - 1;
      for (let k = to; k < this.frontSize; k++) {
        frontWidth[k - drop] = frontWidth[k];
        frontLength[k - drop] = frontLength[k];
      }
      this.frontSize -= drop;
    }
    frontWidth[from] = width;
    frontLength[from] = length;
  }

  private rebuild(subset: number, box: number, random: Random): Part {
    const top: Part[] = [];
    const waiting = [{ subset, box, into: top }];
    for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
      const width = this.widths[task.box];
      const length = this.lengths[task.box];
      if ((task.subset & (task.subset - 1)) === 0) {
        const piece = this.pieces[31 - Math.clz32(task.subset)];
        const turned = piece.width !== width;
        task.into.push({ kind: 'piece', piece: piece.piece, turned, width, length });
        continue;
      }
      const pair = this.findPair(task.subset, width, length, random);
      const parts: Part[] = [];
      task.into.push({ kind: 'join', direction: pair.direction, parts, width, length });
      waiting.push({ subset: pair.a, box: pair.boxA, into: parts });
      waiting.push({ subset: pair.b, box: pair.boxB, into: parts });
    }
    return top[0];
  }

  /** One of the pairs that make a box, each as likely as the others. */
  private findPair(subset: number, width: number, length: number, random: Random) {
    const { widths, lengths, start } = this;
    let found: { direction: 0 | 1; a: number; b: number; boxA: number; boxB: number } | undefined;
    let count = 0;
    for (let a = (subset - 1) & subset; 2 * a >= subset; a = (a - 1) & subset) {
      const b = subset ^ a;
      for (let boxA = start[a]; boxA < start[a + 1]; boxA++) {
        for (let boxB = start[b]; boxB < start[b + 1]; boxB++) {
          const beside =
            widths[boxA] + widths[boxB] === width && Math.max(lengths[boxA], lengths[boxB]) === length;
          const above =
            lengths[boxA] + lengths[boxB] === length && Math.max(widths[boxA], widths[boxB]) === width;
          if ((!beside && !above) || random.below(++count) > 0) continue;
          found = { direction: beside ? SIDE_BY_SIDE : STACKED, a, b, boxA, boxB };
        }
      }
    }
    if (found === undefined) throw new Error(`no pair makes ${width} by ${length}`);
    return found;
  }
}
