import type { Random } from '../search/random.ts';
import type { CutForest } from './cut-forest.ts';
import { piecesBelow, placePart } from './forest-parts.ts';
import { HOLE_PIECES, HoleFiller, type HolePiece } from './hole-filler.ts';
import type { Pieces } from './pieces.ts';

/** Share of a hole's own pieces that its filling must cover, so that fillings that swap pieces are found too. */
const LEAST_COVER = 0.98;
/** Nodes drawn until one has free space, and until one is taken as it comes. */
const DRAWS = 12;
const CHOOSY_DRAWS = 8;

interface Hole {
  readonly node: number;
  readonly direction: 0 | 1;
  /** Parts to be taken out, and the pieces below them (the first of `members`). */
  readonly parts: readonly number[];
  readonly members: number;
  /** Extent of the parts and the free strip together, in the node's direction. */
  readonly along: number;
}

/**
 * A move of the search: some parts of a cut node with free space are taken out, and the hole that they leave with that
 * space is filled as well as can be from their pieces and some of those left out. For any number of stages only.
 */
export class Refill {
  private readonly forest: CutForest;
  private readonly pieces: Pieces;
  private readonly worth: Float64Array;
  private readonly random: Random;
  /** Made when a hole is first filled: its room takes longer to make than most searches take. */
  private filler: HoleFiller | undefined;
  private readonly members: Int32Array;

  constructor(forest: CutForest, pieces: Pieces, worth: Float64Array, random: Random) {
    this.forest = forest;
    this.pieces = pieces;
    this.worth = worth;
    this.random = random;
    this.members = new Int32Array(pieces.count + 1);
  }

  /** Fills one hole anew; `out` lists the pieces left out. Returns how many are left out then, -1 if nothing was done. */
  tryOne(out: Int32Array, outCount: number): number {
    const { forest, random, members, worth, pieces } = this;
    const hole = this.chooseHole(outCount);
    if (hole === undefined) return -1;
    const { node, direction, along } = hole;
    const cross = forest.extent[2 * node + 1 - direction];
    const offered: HolePiece[] = [];
    let leastWorth = 0;
    let area = 0;
    for (let i = 0; i < hole.members; i++) {
      offered.push(this.offer(members[i]));
      leastWorth += worth[members[i]];
      area += pieces.area[members[i]];
    }
    const start = outCount > 0 ? random.below(outCount) : 0;
    for (let i = 0; i < outCount && offered.length < HOLE_PIECES; i++) {
      const piece = out[(start + i) % outCount];
      if (pieces.area[piece] <= along * cross) offered.push(this.offer(piece));
    }
    const room = {
      width: direction === 1 ? cross : along,
      length: direction === 1 ? along : cross,
      leastWorth,
      spare: along * cross - area * LEAST_COVER,
    };
    this.filler ??= new HoleFiller();
    const filling = this.filler.fill(offered, room, direction, random);
    if (filling === undefined) return -1;
    for (const part of hole.parts) forest.detach(part);
    placePart(forest, filling.part, node);
    forest.settle(node);
    const taken = new Set(filling.taken);
    let left = 0;
    for (let i = 0; i < outCount; i++) if (!taken.has(out[i])) out[left++] = out[i];
    for (let i = 0; i < hole.members; i++) if (!taken.has(members[i])) out[left++] = members[i];
    return left;
  }

  private offer(piece: number): HolePiece {
    const { pieces, worth } = this;
    return {
      piece,
      width: pieces.width[piece],
      length: pieces.length[piece],
      turnable: pieces.turnable[piece] === 1,
      worth: worth[piece],
    };
  }

  /** Parts of a node from a random one on, as long as their pieces are few enough. */
  private chooseHole(outCount: number): Hole | undefined {
    const { forest, random, members } = this;
    const { first, next, free, extent } = forest;
    const node = this.looseNode();
    if (node < 0) return undefined;
    const direction = forest.direction[node] === 1 ? 1 : 0;
    let count = 0;
    for (let part = first[node]; part >= 0; part = next[part]) count++;
    const most = HOLE_PIECES - Math.min(outCount, 3) - random.below(4);
    const parts: number[] = [];
    let found = 0;
    let along = free[node];
    let part = first[node];
    for (let skip = random.below(count); skip > 0; skip--) part = next[part];
    for (let i = 0; i < count; i++) {
      const reached = piecesBelow(forest, part, members, found, most);
      if (reached <= most) {
        found = reached;
        along += extent[2 * part + direction];
        parts.push(part);
      }
      part = next[part] >= 0 ? next[part] : first[node];
    }
    return found < 2 ? undefined : { node, direction, parts, members: found, along };
  }

  /** A cut node at random, one with free space where possible; -1 where none was met. */
  private looseNode(): number {
    const { forest, random } = this;
    const { free, first, marks, pieces } = forest;
    const count = marks[0] - pieces;
    for (let draw = 0; draw < DRAWS; draw++) {
      const node = pieces + random.below(count);
      if (free[node] > (draw < CHOOSY_DRAWS ? 0 : -1) && first[node] >= 0) return node;
    }
    return -1;
  }
}
