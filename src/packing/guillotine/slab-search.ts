import type { Budget } from '../search/budget.ts';
import type { Random } from '../search/random.ts';
import { BlockPool } from './block-pool.ts';
import { STACKED } from './cut-forest.ts';
import { joined, type Part } from './part.ts';
import type { Pieces } from './pieces.ts';
import { type Slab, slabPart, slabsOf } from './pool-slabs.ts';
import { WholeFill } from './whole-fill.ts';

/** So few pieces are laid into what is left exactly. */
const REST = 11;
/** Slabs that leave so few, tried at each step, and others that are followed. */
const CLOSING = 40;
const OPENING = 2;
/** Nodes counted for a pool and for an exact rest, and partners or boxes looked at that count as one more. */
const POOL_NODES = 50;
const REST_NODES = 4;
const LOOKED_AT_PER_NODE = 256;
/** Weights of the score of a slab; the lower, the sooner it is tried. */
const WASTE = 0.04;
const SMALL = 0.1;
const CHANCE = 0.03;

/** A hole with the pieces that must all go into it, and the slabs of it yet to be tried. */
interface Frame {
  readonly members: readonly number[];
  readonly width: number;
  readonly length: number;
  /** The slab that left this hole. */
  readonly slab: CutSlab | undefined;
  openings: CutSlab[] | undefined;
}

/** A slab as a part, since the pool it came from is grown anew in the next hole. */
interface CutSlab {
  readonly part: Part;
  readonly direction: Slab['direction'];
  readonly rest: readonly number[];
  /** Sizes of the hole that it leaves. */
  readonly width: number;
  readonly length: number;
}

/**
 * Lays all pieces into a rectangle that has next to no area to spare, slab by slab: each slab lies across the whole
 * hole, along or across, and wastes no more than its share; the last few pieces are laid exactly. Where annealing has
 * few places to move a piece to, this finds what fits without loss. Depth first, with its own stack; each call begins
 * afresh from the random numbers.
 */
export class SlabSearch {
  private readonly pieces: Pieces;
  private readonly random: Random;
  private readonly pool: BlockPool;
  private readonly filler = new WholeFill();
  private readonly marks: Uint8Array;

  constructor(pieces: Pieces, random: Random) {
    this.pieces = pieces;
    this.random = random;
    this.pool = new BlockPool(pieces, random);
    this.marks = new Uint8Array(pieces.count);
  }

  /** All pieces in `width` by `length` at most, or undefined where that was not found within about `nodes`. */
  search(width: number, length: number, budget: Budget, nodes: number): Part | undefined {
    const last = budget.nodes + nodes;
    const all = Array.from({ length: this.pieces.count }, (_, piece) => piece);
    const frames: Frame[] = [{ members: all, width, length, slab: undefined, openings: undefined }];
    while (frames.length > 0 && budget.nodes < last && !budget.ended) {
      const frame = frames[frames.length - 1];
      if (frame.openings === undefined) {
        const closed = this.open(frame, budget);
        if (closed !== undefined) return assembled(frames, closed);
      }
      const slab = frame.openings?.pop();
      if (slab === undefined) frames.pop();
      else {
        const { rest: members } = slab;
        frames.push({ members, width: slab.width, length: slab.length, slab, openings: undefined });
      }
    }
    return undefined;
  }

  /** Lists the slabs to follow from a hole, or fills it at once. */
  private open(frame: Frame, budget: Budget): Part | undefined {
    budget.spend();
    frame.openings = [];
    const { members, width, length } = frame;
    if (members.length <= REST) return this.fillRest(frame, budget);
    const spare = width * length - this.areaOf(members);
    if (spare < 0) return undefined;
    this.pool.grow(members, { width, length, spare });
    budget.spendFew(POOL_NODES + Math.floor(this.pool.lookedAt / LOOKED_AT_PER_NODE));
    const slabs = slabsOf(this.pool, this.random);
    const scores = slabs.map((slab) => this.score(slab, frame, spare));
    const order = slabs.map((_, index) => index).sort((a, b) => scores[a] - scores[b]);
    let closing = 0;
    for (const index of order) {
      const slab = slabs[index];
      if (members.length - slab.pieces > REST) {
        if (frame.openings.length < OPENING) frame.openings.push(this.cutOff(slab, frame));
      } else if (closing++ < CLOSING) {
        const cut = this.cutOff(slab, frame);
        const { rest, direction } = cut;
        if (rest.length === 0) return cut.part;
        const filled = this.fillRest({ ...cut, members: rest }, budget);
        if (filled !== undefined) return joined(direction, [cut.part, filled]);
        if (budget.ended) return undefined;
      }
      if (closing >= CLOSING && frame.openings.length >= OPENING) break;
    }
    frame.openings.reverse();
    return undefined;
  }

  private score(slab: Slab, { members, width, length }: Frame, spare: number): number {
    const box = slab.along * (slab.direction === STACKED ? width : length);
    const whole = width * length;
    const mean = (whole - spare) / members.length;
    const wasted = spare === 0 ? 0 : ((box - slab.area) / spare) * ((whole - box) / box);
    return WASTE * wasted + SMALL * ((slab.pieces * mean) / box) + CHANCE * this.random.unit();
  }

  private cutOff(slab: Slab, { members, width, length }: Frame): CutSlab {
    const { marks, pool } = this;
    marks.fill(0);
    pool.mark(slab.blocks, marks);
    const stacked = slab.direction === STACKED;
    return {
      part: slabPart(pool, slab),
      direction: slab.direction,
      rest: members.filter((piece) => marks[piece] === 0),
      width: stacked ? width : width - slab.along,
      length: stacked ? length - slab.along : length,
    };
  }

  private fillRest(
    hole: { readonly members: readonly number[]; readonly width: number; readonly length: number },
    budget: Budget,
  ): Part | undefined {
    const { members, width, length } = hole;
    const part = this.filler.fill(this.pieces, members, width, length);
    budget.spendFew(REST_NODES + Math.floor(this.filler.lookedAt / LOOKED_AT_PER_NODE));
    return part;
  }

  private areaOf(members: readonly number[]): number {
    let area = 0;
    for (const piece of members) area += this.pieces.area[piece];
    return area;
  }
}

/** The slabs cut off on the way to the last hole, round what lies in it. */
function assembled(frames: readonly Frame[], last: Part): Part {
  let part = last;
  for (let i = frames.length - 1; i > 0; i--) {
    const { slab } = frames[i];
    if (slab !== undefined) part = joined(slab.direction, [slab.part, part]);
  }
  return part;
}
