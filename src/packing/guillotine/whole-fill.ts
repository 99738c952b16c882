import { SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import type { Part } from './part.ts';
import type { Pieces } from './pieces.ts';

/** Most pieces that are laid exactly. */
export const WHOLE_PIECES = 12;
/** Most boxes kept; a hole that needs more is given up. */
const MOST_BOXES = 40_000;

/**
 * Lays all of up to a dozen pieces into one rectangle, exactly: the Pareto boxes of every sub-set that wastes no more
 * than the whole can spare, each joined with those of every sub-set apart from it. Where little is spare few sub-sets
 * have a box at all, and only those are looked at; O(3^pieces) at worst.
 */
export class WholeFill {
  private readonly head = new Int32Array(1 << WHOLE_PIECES);
  private readonly area = new Float64Array(1 << WHOLE_PIECES);
  private readonly width = new Int32Array(MOST_BOXES);
  private readonly length = new Int32Array(MOST_BOXES);
  private readonly next = new Int32Array(MOST_BOXES);
  /** The two boxes a box is joined of, or the piece; -1 as second half for a piece. */
  private readonly first = new Int32Array(MOST_BOXES);
  private readonly second = new Int32Array(MOST_BOXES);
  private readonly stacked = new Uint8Array(MOST_BOXES);
  private readonly filled: Int32Array = new Int32Array(1 << WHOLE_PIECES);
  /** Boxes looked at in the last filling, kept or not. */
  lookedAt = 0;
  private boxes = 0;
  private across = 0;
  private along = 0;
  private spare = 0;

  /** All `members` in `width` by `length`, leaves as piece numbers; undefined where they do not go in. */
  fill(pieces: Pieces, members: readonly number[], width: number, length: number): Part | undefined {
    this.lookedAt = 0;
    let area = 0;
    for (const piece of members) {
      area += pieces.area[piece];
      const upright = pieces.width[piece] <= width && pieces.length[piece] <= length;
      const turned =
        pieces.turnable[piece] === 1 && pieces.length[piece] <= width && pieces.width[piece] <= length;
      if (!upright && !turned) return undefined;
    }
    if (area > width * length) return undefined;
    this.across = width;
    this.along = length;
    this.spare = width * length - area;
    this.boxes = 0;
    this.enterPieces(pieces, members);
    const whole = (1 << members.length) - 1;
    const found = this.joinAll(whole);
    return found ? this.partOf(this.head[whole], pieces) : undefined;
  }

  private enterPieces(pieces: Pieces, members: readonly number[]): void {
    const { head, area } = this;
    const subsets = 1 << members.length;
    head.fill(-1, 0, subsets);
    area[0] = 0;
    for (let subset = 1; subset < subsets; subset++) {
      const top = 31 - Math.clz32(subset);
      area[subset] = area[subset ^ (1 << top)] + pieces.area[members[top]];
    }
    members.forEach((piece, index) => {
      const subset = 1 << index;
      this.offer(subset, pieces.width[piece], pieces.length[piece], piece, -1, 0);
      if (pieces.turnable[piece] === 1) {
        this.offer(subset, pieces.length[piece], pieces.width[piece], piece, -1, 0);
      }
    });
  }

  /** Joins sub-sets in rising order: both halves of a sub-set are lower numbers than it, so each is complete by then. */
  private joinAll(whole: number): boolean {
    const { head, filled } = this;
    let many = 0;
    for (let subset = 1; subset < whole; subset++) {
      if (head[subset] < 0) continue;
      const apart = whole ^ subset;
      if (many <= 1 << bits(apart)) {
        for (let i = 0; i < many; i++) {
          if ((filled[i] & subset) === 0) this.join(subset, filled[i]);
        }
      } else {
        for (let other = apart; other > 0; other = (other - 1) & apart) {
          if (other < subset && head[other] >= 0) this.join(subset, other);
        }
      }
      if (head[whole] >= 0) return true;
      if (this.boxes > MOST_BOXES - 2000) return false;
      filled[many++] = subset;
    }
    return whole === 1 && head[1] >= 0;
  }

  private join(a: number, b: number): void {
    const { head, next, width, length, across, along } = this;
    const subset = a | b;
    for (let i = head[a]; i >= 0; i = next[i]) {
      for (let j = head[b]; j >= 0; j = next[j]) {
        const wide = width[i] + width[j];
        if (wide <= across) this.offer(subset, wide, Math.max(length[i], length[j]), i, j, 0);
        const long = length[i] + length[j];
        if (long <= along) this.offer(subset, Math.max(width[i], width[j]), long, i, j, 1);
      }
    }
  }

  /** Keeps a box unless another of the sub-set is no larger either way; drops those it makes needless. */
  private offer(subset: number, wide: number, long: number, a: number, b: number, stacked: number): void {
    this.lookedAt++;
    if (wide > this.across || long > this.along) return;
    if (wide * long - this.area[subset] > this.spare) return;
    const { head, next, width, length } = this;
    let before = -1;
    for (let box = head[subset]; box >= 0; box = next[box]) {
      if (width[box] <= wide && length[box] <= long) return;
      if (width[box] >= wide && length[box] >= long) {
        if (before < 0) head[subset] = next[box];
        else next[before] = next[box];
      } else before = box;
    }
    if (this.boxes === MOST_BOXES) return;
    const box = this.boxes++;
    width[box] = wide;
    length[box] = long;
    this.first[box] = a;
    this.second[box] = b;
    this.stacked[box] = stacked;
    next[box] = head[subset];
    head[subset] = box;
  }

  private partOf(top: number, pieces: Pieces): Part {
    const parts: Part[] = [];
    const waiting = [{ box: top, into: parts }];
    for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
      const { box, into } = task;
      const width = this.width[box];
      const length = this.length[box];
      const first = this.first[box];
      const second = this.second[box];
      if (second < 0) {
        into.push({ kind: 'piece', piece: first, turned: pieces.width[first] !== width, width, length });
        continue;
      }
      const inside: Part[] = [];
      const direction = this.stacked[box] === 1 ? STACKED : SIDE_BY_SIDE;
      into.push({ kind: 'join', direction, parts: inside, width, length });
      waiting.push({ box: first, into: inside }, { box: second, into: inside });
    }
    return parts[0];
  }
}

function bits(subset: number): number {
  let count = 0;
  for (let rest = subset; rest > 0; rest &= rest - 1) count++;
  return count;
}
