import type { Random } from '../search/random.ts';
import type { CutForest } from './cut-forest.ts';
import { piecesBelow } from './forest-parts.ts';
import type { LeftOut } from './left-out.ts';

/** Pieces of a part that are listed at most when some of them are taken out. */
const MOST_LISTED = 200;
/** Share of the ruins that scatter, share of the others that have two centres, and share of centres at a gap. */
const SCATTERED = 0.2;
const TWO_CENTRES = 0.8;
const AT_GAP = 0.8;
/** Nodes drawn until one has a gap. */
const DRAWS = 40;

/**
 * Takes some pieces out of a forest: scattered ones, or those around one or two centres, mostly beside gaps. Two gaps
 * become one only where both are opened at once, which is what a nearly full sheet needs.
 */
export class Ruin {
  private readonly forest: CutForest;
  private readonly random: Random;
  private readonly left: LeftOut;
  private readonly stack: Int32Array;

  constructor(forest: CutForest, left: LeftOut, random: Random) {
    this.forest = forest;
    this.left = left;
    this.random = random;
    this.stack = new Int32Array(forest.pieces + 1);
  }

  /** Takes out `count` pieces, or as many as there are. */
  run(count: number): void {
    const { random, forest, left } = this;
    if (random.unit() < SCATTERED) {
      for (let i = 0; i < count && left.count < forest.pieces; i++) left.takeOut(forest, this.anyPlaced());
      return;
    }
    const second = count > 1 && random.unit() < TWO_CENTRES ? count >> 1 : 0;
    this.around(count - second);
    if (second > 0) this.around(second);
  }

  /** One of the placed pieces. */
  anyPlaced(): number {
    const { forest, random } = this;
    let piece = random.below(forest.pieces);
    while (!forest.isPlaced(piece)) piece = piece + 1 === forest.pieces ? 0 : piece + 1;
    return piece;
  }

  /** Takes out pieces around a centre: climbs a few parts up from it and takes out some of what lies below. */
  private around(count: number): void {
    const { forest, random, left } = this;
    if (left.count >= forest.pieces) return;
    const centre = random.unit() < AT_GAP ? this.besideGap() : this.anyPlaced();
    let node = forest.parent[centre];
    let climb = 1 + random.below(3);
    while (--climb > 0 && forest.parent[node] >= 0) node = forest.parent[node];
    this.takeOutBelow(node, centre, count);
  }

  /** A piece below some node with a gap, or any piece where none was met. */
  private besideGap(): number {
    const { forest, random } = this;
    const { free, first, marks, pieces } = forest;
    const cuts = marks[0] - pieces;
    for (let draw = 0; draw < DRAWS; draw++) {
      let node = pieces + random.below(cuts);
      if (free[node] <= 0 || first[node] < 0) continue;
      while (node >= pieces) node = this.anyPart(node);
      return node;
    }
    return this.anyPlaced();
  }

  private anyPart(node: number): number {
    const { first, next } = this.forest;
    let chosen = first[node];
    let seen = 1;
    for (let part = next[chosen]; part >= 0; part = next[part]) {
      if (this.random.below(++seen) === 0) chosen = part;
    }
    return chosen;
  }

  /** Takes out `seed` and up to `count - 1` other pieces below `node`, in tree order from a random start. */
  private takeOutBelow(node: number, seed: number, count: number): void {
    const { forest, random, stack, left } = this;
    const all = piecesBelow(forest, node, stack, 0, MOST_LISTED);
    let found = 0;
    for (let i = 0; i < all; i++) if (stack[i] !== seed) stack[found++] = stack[i];
    const start = found > 0 ? random.below(found) : 0;
    const taken = Math.min(found, count - 1);
    left.takeOut(forest, seed);
    for (let i = 0; i < taken; i++) left.takeOut(forest, stack[(start + i) % found]);
  }
}
