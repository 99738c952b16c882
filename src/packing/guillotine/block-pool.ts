import type { Random } from '../search/random.ts';
import { SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import type { Part } from './part.ts';
import type { Pieces } from './pieces.ts';

/** Joins tried for a pool. */
const JOINS = 1500;
/** Most pieces in a block, and most of its box that it may waste. */
const MOST_JOINED = 6;
const MOST_WASTE = 0.03;
/** Partners looked at in one class of sides, and classes tried one after the other. */
const SCAN = 8;
const TRIES = 4;
/** Classes of sides; with sides shorter than this, every side is a class of its own. */
const CLASSES = 512;

/** A hole that blocks are made for: its size, and the area that all of them together may waste. */
export interface PoolHole {
  readonly width: number;
  readonly length: number;
  readonly spare: number;
}

/**
 * Many small blocks that waste next to nothing, grown at random from the pieces that are left, after the layers of
 * blocks of Wei, Tian, Zhu & Lim 2014 ("A block-based layer building approach for the 2D guillotine strip packing
 * problem"). Blocks may share pieces: no more than one of such is ever used. Memory is bounded by the number of joins.
 */
export class BlockPool {
  count = 0;
  /** Partners looked at to grow the blocks. */
  lookedAt = 0;
  hole: PoolHole = { width: 0, length: 0, spare: 0 };
  readonly width: Int32Array;
  readonly length: Int32Array;
  readonly area: Float64Array;
  /** Pieces in a block. */
  readonly joined: Uint8Array;
  private readonly pieces: Pieces;
  private readonly random: Random;
  /** -1 for a piece on its own, else the way its two halves lie. */
  private readonly direction: Int8Array;
  /** Piece of a single block, or first half. */
  private readonly first: Int32Array;
  private readonly second: Int32Array;
  /** The same block with every piece turned, or -1. */
  private readonly twin: Int32Array;
  private readonly nextOfBox: Int32Array;
  private readonly boxes = new Int32Array(CLASSES * CLASSES).fill(-1);
  private readonly byWidth: number[][] = [];
  private readonly byLength: number[][] = [];
  private readonly masks: Int32Array;
  private readonly words: number;
  /** Units in one class of sides. */
  private unit = 1;

  constructor(pieces: Pieces, random: Random) {
    this.pieces = pieces;
    this.random = random;
    const most = 2 * (pieces.count + JOINS);
    this.words = (pieces.count + 31) >> 5;
    this.width = new Int32Array(most);
    this.length = new Int32Array(most);
    this.area = new Float64Array(most);
    this.joined = new Uint8Array(most);
    this.direction = new Int8Array(most);
    this.first = new Int32Array(most);
    this.second = new Int32Array(most);
    this.twin = new Int32Array(most);
    this.nextOfBox = new Int32Array(most);
    this.masks = new Int32Array(most * this.words);
    for (let i = 0; i < CLASSES; i++) {
      this.byWidth.push([]);
      this.byLength.push([]);
    }
  }

  /** Forgets all blocks and grows new ones of `members` that fit the hole. */
  grow(members: readonly number[], hole: PoolHole): void {
    this.clear();
    this.hole = hole;
    this.unit = Math.floor(Math.max(hole.width, hole.length) / CLASSES) + 1;
    for (const piece of members) this.addPiece(piece);
    if (this.count === 0) return;
    for (let join = 0; join < JOINS; join++) this.joinOne();
  }

  /** The pieces of blocks, as marks by piece number. */
  mark(blocks: readonly number[], marks: Uint8Array): void {
    for (const block of blocks) {
      for (let piece = 0; piece < this.pieces.count; piece++) {
        if ((this.masks[block * this.words + (piece >> 5)] >> (piece & 31)) & 1) marks[piece] = 1;
      }
    }
  }

  /** Blocks of about this width, at least all of just this one; likewise of this length. */
  ofWidth(width: number): readonly number[] {
    return this.byWidth[this.classOf(width)];
  }

  ofLength(length: number): readonly number[] {
    return this.byLength[this.classOf(length)];
  }

  private clear(): void {
    for (let block = 0; block < this.count; block++) {
      this.boxes[this.boxOf(this.width[block], this.length[block])] = -1;
      this.byWidth[this.classOf(this.width[block])].length = 0;
      this.byLength[this.classOf(this.length[block])].length = 0;
    }
    this.count = 0;
    this.lookedAt = 0;
  }

  private classOf(side: number): number {
    return Math.floor(side / this.unit);
  }

  private boxOf(width: number, length: number): number {
    return this.classOf(width) * CLASSES + this.classOf(length);
  }

  private addPiece(piece: number): void {
    const { pieces } = this;
    const width = pieces.width[piece];
    const length = pieces.length[piece];
    const upright = this.enterPiece(piece, width, length);
    if (pieces.turnable[piece] === 1) this.pair(upright, this.enterPiece(piece, length, width));
    else if (width === length) this.pair(upright, upright);
  }

  /** Enters a piece as it lies; -1 where it does not fit the hole so. */
  private enterPiece(piece: number, width: number, length: number): number {
    if (width > this.hole.width || length > this.hole.length) return -1;
    const block = this.enter(width, length, -1, piece, -1);
    this.area[block] = this.pieces.area[piece];
    this.joined[block] = 1;
    this.masks[block * this.words + (piece >> 5)] |= 1 << (piece & 31);
    return block;
  }

  private pair(a: number, b: number): void {
    if (a < 0 || b < 0) return;
    this.twin[a] = b;
    this.twin[b] = a;
  }

  /** Enters a block without its area, count and mask, which are cleared. */
  private enter(width: number, length: number, direction: number, first: number, second: number): number {
    const block = this.count++;
    this.width[block] = width;
    this.length[block] = length;
    this.direction[block] = direction;
    this.first[block] = first;
    this.second[block] = second;
    this.twin[block] = -1;
    this.masks.fill(0, block * this.words, (block + 1) * this.words);
    const box = this.boxOf(width, length);
    this.nextOfBox[block] = this.boxes[box];
    this.boxes[box] = block;
    this.byWidth[this.classOf(width)].push(block);
    this.byLength[this.classOf(length)].push(block);
    return block;
  }

  /** Takes a block at random and the first partner found with about the same side. */
  private joinOne(): void {
    const { random } = this;
    const block = random.below(this.count);
    const direction = random.below(2) === 0 ? SIDE_BY_SIDE : STACKED;
    const side = direction === STACKED ? this.width[block] : this.length[block];
    const lists = direction === STACKED ? this.byWidth : this.byLength;
    const top = this.classOf(side);
    for (let step = 0; step < TRIES && step <= top; step++) {
      const list = lists[top - step];
      const from = list.length > 0 ? random.below(list.length) : 0;
      for (let i = 0; i < SCAN && i < list.length; i++) {
        this.lookedAt++;
        const partner = list[(from + i) % list.length];
        if (this.join(block, partner, direction)) return;
      }
      if (this.hole.spare === 0) return;
    }
  }

  private join(a: number, b: number, direction: typeof SIDE_BY_SIDE | typeof STACKED): boolean {
    const { hole } = this;
    if (this.joined[a] + this.joined[b] > MOST_JOINED) return false;
    const stacked = direction === STACKED;
    const width = stacked ? Math.max(this.width[a], this.width[b]) : this.width[a] + this.width[b];
    const length = stacked ? this.length[a] + this.length[b] : Math.max(this.length[a], this.length[b]);
    if (width > hole.width || length > hole.length) return false;
    const area = this.area[a] + this.area[b];
    const box = width * length;
    if (box - area > hole.spare || box - area > MOST_WASTE * box) return false;
    if (this.overlap(a, b) || this.known(a, b, width, length)) return false;
    const block = this.addJoin(a, b, direction, width, length);
    const turnedA = this.twin[a];
    const turnedB = this.twin[b];
    if (turnedA < 0 || turnedB < 0 || length > hole.width || width > hole.length) return true;
    if (this.known(a, b, length, width)) return true;
    const other = stacked ? SIDE_BY_SIDE : STACKED;
    this.pair(block, this.addJoin(turnedA, turnedB, other, length, width));
    return true;
  }

  private addJoin(a: number, b: number, direction: number, width: number, length: number): number {
    const { words, masks } = this;
    const block = this.enter(width, length, direction, a, b);
    this.area[block] = this.area[a] + this.area[b];
    this.joined[block] = this.joined[a] + this.joined[b];
    for (let word = 0; word < words; word++) {
      masks[block * words + word] = masks[a * words + word] | masks[b * words + word];
    }
    return block;
  }

  /** Whether two blocks share a piece. */
  overlap(a: number, b: number): boolean {
    const { words, masks } = this;
    for (let word = 0; word < words; word++) {
      if ((masks[a * words + word] & masks[b * words + word]) !== 0) return true;
    }
    return false;
  }

  /** Whether a block of this size with the pieces of `a` and `b` is there. */
  private known(a: number, b: number, width: number, length: number): boolean {
    const { words, masks } = this;
    for (let block = this.boxes[this.boxOf(width, length)]; block >= 0; block = this.nextOfBox[block]) {
      if (this.width[block] !== width || this.length[block] !== length) continue;
      let word = 0;
      while (
        word < words &&
        masks[block * words + word] === (masks[a * words + word] | masks[b * words + word])
      )
        word++;
      if (word === words) return true;
    }
    return false;
  }

  /** A block of exactly this size that shares no piece with the given ones; -1 where there is none. */
  findBox(width: number, length: number, apart: number, apartToo: number): number {
    for (let block = this.boxes[this.boxOf(width, length)]; block >= 0; block = this.nextOfBox[block]) {
      if (this.width[block] !== width || this.length[block] !== length) continue;
      if (!this.overlap(block, apart) && (apartToo < 0 || !this.overlap(block, apartToo))) return block;
    }
    return -1;
  }

  /** A block as a part whose leaves are piece numbers. */
  partOf(top: number): Part {
    const parts: Part[] = [];
    const waiting = [{ block: top, into: parts }];
    for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
      const { block, into } = task;
      const width = this.width[block];
      const length = this.length[block];
      const first = this.first[block];
      if (this.direction[block] < 0) {
        const turned = this.pieces.width[first] !== width;
        into.push({ kind: 'piece', piece: first, turned, width, length });
        continue;
      }
      const inside: Part[] = [];
      const direction = this.direction[block] === STACKED ? STACKED : SIDE_BY_SIDE;
      into.push({ kind: 'join', direction, parts: inside, width, length });
      waiting.push({ block: first, into: inside }, { block: this.second[block], into: inside });
    }
    return parts[0];
  }
}
