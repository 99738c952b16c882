import type { Budget } from '../search/budget.ts';
import { SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import type { Measure } from './measures.ts';
import type { BlockKind, Gaps, ParetoFronts } from './pareto.ts';
import type { Part } from './part.ts';
import { bitsOf, subsetsOf, WORD, WORD_BITS } from './subset-words.ts';
import { type WorthCutting, worthCutting } from './worth-cutting.ts';

/** Rooms kept in all at most; a question that needs more is given up. */
const MOST_ROOMS = 6_000_000;
/** Blocks looked at that count as one search node, and nodes spent together. */
const BLOCKS_PER_NODE = 16;
const SPENT_AT_ONCE = 256;

/** What a sheet is cut down to, and the pieces that may be offered for it. */
export interface Whole {
  readonly width: number;
  readonly length: number;
  readonly kinds: readonly BlockKind[];
  readonly measures: readonly Measure[];
  readonly gaps: Gaps | undefined;
}

/**
 * Whether single pieces can be cut from a sheet, given the fronts of all blocks of at most half of them.
 *
 * Every cut leaves a side with at most half of the pieces. So the sheet is cut down from outside: a *room* is a set of
 * pieces with a rectangle that they must all be cut from, and each small block, pushed to one of its sides, leaves a
 * smaller room for the others. Rooms too small for their pieces are dropped, by their area and by other measures, and
 * so are those within another room of the same pieces. Where half of the pieces or fewer are left, the fronts say
 * whether they fit. That leaves most of the large sets out, which a programme that only joins blocks has to make.
 */
export class OutsideIn {
  private readonly fronts: ParetoFronts;
  private readonly whole: Whole;
  private readonly half: number;
  /** For each set of pieces the first of its rooms. */
  private readonly head: Int32Array;
  private readonly leastWidth: Int32Array;
  private readonly leastLength: Int32Array;
  private rooms = 0;
  private width = new Int32Array(4096);
  private length = new Int32Array(4096);
  private next = new Int32Array(4096);
  /** The room that it was cut from, the block that was cut off, and whether that lay above. */
  private from = new Int32Array(4096);
  private block = new Int32Array(4096);
  private above = new Uint8Array(4096);
  private answer: Part | undefined;
  private worthCutting: WorthCutting | undefined;

  /** `fronts` hold the blocks of up to `half` pieces, which is at least half of them, one a bit. */
  constructor(fronts: ParetoFronts, half: number, whole: Whole) {
    this.fronts = fronts;
    this.half = half;
    this.whole = whole;
    this.head = new Int32Array(fronts.states).fill(-1);
    const { kinds } = whole;
    const least = (side: (kind: BlockKind) => number): Int32Array => {
      const most = new Int32Array(fronts.states);
      for (let state = 1; state < fronts.states; state++) {
        const top = 31 - Math.clz32(state);
        most[state] = Math.max(most[state ^ (1 << top)], side(kinds[top]));
      }
      return most;
    };
    this.leastWidth = least(({ width, length, turnable }) => (turnable ? Math.min(width, length) : width));
    this.leastLength = least(({ width, length, turnable }) => (turnable ? Math.min(width, length) : length));
  }

  /** A part with all pieces, `none` where there is none, `ended` where the budget or the memory did not suffice. */
  run(budget: Budget): Part | 'none' | 'ended' {
    const full = this.fronts.states - 1;
    const { width, length } = this.whole;
    this.worthCutting = worthCutting(this.fronts, this.half, this.whole);
    this.offer(full, width, length, -1, 0, 0);
    let looked = 0;
    for (let state = full; state > 0 && this.answer === undefined; state--) {
      if (this.head[state] < 0) continue;
      looked += this.cutDown(state);
      if (this.rooms >= MOST_ROOMS) return 'ended';
      if (looked < SPENT_AT_ONCE * BLOCKS_PER_NODE) continue;
      const nodes = Math.floor(looked / BLOCKS_PER_NODE);
      looked -= nodes * BLOCKS_PER_NODE;
      if (budget.spendMany(nodes)) return 'ended';
    }
    return this.answer ?? 'none';
  }

  /** Cuts small blocks off every room of a set; returns how many were looked at. */
  private cutDown(state: number): number {
    let looked = 0;
    for (let room = this.head[state]; room >= 0 && this.answer === undefined; room = this.next[room]) {
      const { width, length, worthCutting } = this;
      const { liveWords } = this.fronts;
      const beside = worthCutting?.besideAt(length[room]) ?? liveWords;
      const above = worthCutting?.aboveAt(width[room]) ?? liveWords;
      looked += this.eachBlock(state, beside, (block) => this.cutOffBeside(state, block, room));
      looked += this.eachBlock(state, above, (block) => this.cutOffAbove(state, block, room));
    }
    return looked;
  }

  /** Calls back with the flagged blocks of at most half of the pieces of a set; returns how many were looked at. */
  private eachBlock(state: number, words: Int32Array, visit: (block: number) => void): number {
    const { twins } = this.fronts;
    const high = state >>> WORD_BITS;
    const within = subsetsOf[state & (WORD - 1)];
    const most = bitsOf(state) >> 1;
    let looked = 0;
    for (let part = high; this.answer === undefined; part = (part - 1) & high) {
      looked++;
      let flags = words[part] & within;
      while (flags !== 0) {
        const bit = 31 - Math.clz32(flags & -flags);
        flags &= flags - 1;
        const block = (part << WORD_BITS) | bit;
        if (block === 0 || bitsOf(block) > most) continue;
        // Of pieces that are alike, the first are taken first.
        if ((block & twins & ~(block << 1) & (state << 1)) !== 0) continue;
        looked++;
        visit(block);
      }
      if (part === 0) break;
    }
    return looked;
  }

  private cutOffBeside(state: number, block: number, room: number): void {
    const { widths, lengths, start, end, area } = this.fronts;
    const { gaps, width: most } = this.whole;
    const width = this.width[room];
    const length = this.length[room];
    let at = start[block];
    while (at < end[block] && lengths[at] > length) at++;
    if (at === end[block]) return;
    const left = width - widths[at];
    const rest = state ^ block;
    if (left * length < area[rest]) return;
    const useful = gaps === undefined ? left : left - gaps.width[most - left];
    this.offer(rest, useful, length, room, block, 0);
  }

  private cutOffAbove(state: number, block: number, room: number): void {
    const { widths, lengths, start, end, area } = this.fronts;
    const { gaps, length: most } = this.whole;
    const width = this.width[room];
    const length = this.length[room];
    let at = end[block] - 1;
    while (at >= start[block] && widths[at] > width) at--;
    if (at < start[block]) return;
    const left = length - lengths[at];
    const rest = state ^ block;
    if (width * left < area[rest]) return;
    const useful = gaps === undefined ? left : left - gaps.length[most - left];
    this.offer(rest, width, useful, room, block, 1);
  }

  /** Notes a room, unless it cannot hold its pieces or lies within another; a small one is judged at once. */
  private offer(
    state: number,
    width: number,
    length: number,
    from: number,
    block: number,
    above: 0 | 1,
  ): void {
    const { fronts, whole, head } = this;
    if (width < this.leastWidth[state] || length < this.leastLength[state]) return;
    if (fronts.area[state] > width * length) return;
    if (bitsOf(state) <= this.half) {
      if (fronts.leastLength(state, width) > length) return;
      this.answer = this.assemble(state, width, from, block, above);
      return;
    }
    for (let i = 0; i < whole.measures.length; i++) {
      const { inside, column, row, rows } = whole.measures[i];
      if (fronts.worths[i][state] > inside[column[width] * rows + row[length]]) return;
    }
    for (let room = head[state]; room >= 0; room = this.next[room]) {
      if (this.width[room] >= width && this.length[room] >= length) return;
    }
    let before = -1;
    for (let room = head[state]; room >= 0; room = this.next[room]) {
      if (this.width[room] <= width && this.length[room] <= length) {
        if (before < 0) head[state] = this.next[room];
        else this.next[before] = this.next[room];
      } else before = room;
    }
    this.note(state, width, length);
    const room = this.rooms - 1;
    this.from[room] = from;
    this.block[room] = block;
    this.above[room] = above;
  }

  private note(state: number, width: number, length: number): void {
    const room = this.rooms++;
    if (room === this.width.length) {
      const size = 2 * room;
      const grown = (array: Int32Array): Int32Array<ArrayBuffer> => {
        const larger = new Int32Array(size);
        larger.set(array);
        return larger;
      };
      this.width = grown(this.width);
      this.length = grown(this.length);
      this.next = grown(this.next);
      this.from = grown(this.from);
      this.block = grown(this.block);
      const above = new Uint8Array(size);
      above.set(this.above);
      this.above = above;
    }
    this.width[room] = width;
    this.length[room] = length;
    this.next[room] = this.head[state];
    this.head[state] = room;
  }

  /** The blocks cut off on the way to a room, put back around what the room holds. */
  private assemble(state: number, width: number, from: number, block: number, above: number): Part {
    const { fronts } = this;
    let part = fronts.shortest(state, width)!;
    let step = { from, block, above };
    while (step.from >= 0) {
      const room = step.from;
      const off = this.blockOf(step.block, this.width[room], this.length[room], step.above === 1);
      const stacked = step.above === 1;
      const size = stacked
        ? { width: Math.max(part.width, off.width), length: part.length + off.length }
        : { width: part.width + off.width, length: Math.max(part.length, off.length) };
      part = { kind: 'join', direction: stacked ? STACKED : SIDE_BY_SIDE, parts: [part, off], ...size };
      step = { from: this.from[room], block: this.block[room], above: this.above[room] };
    }
    return part;
  }

  private blockOf(block: number, width: number, length: number, above: boolean): Part {
    const { fronts } = this;
    if (above) return fronts.shortest(block, width)!;
    let at = fronts.start[block];
    while (fronts.lengths[at] > length) at++;
    return fronts.rebuild(block, fronts.widths[at], fronts.lengths[at]);
  }
}
