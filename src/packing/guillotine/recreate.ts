import type { Random } from '../search/random.ts';
import type { CutForest } from './cut-forest.ts';
import { type FitOptions, OpenNodes, type Place } from './find-place.ts';
import type { LeftOut } from './left-out.ts';
import { ORDERS, pieceOrders, sortByFallingKey } from './piece-orders.ts';
import type { Pieces } from './pieces.ts';

/** Up to what cost pieces may stay out: each its own, less something for its area. */
export interface Dearest {
  cost: number;
  perArea: number;
  readonly costOf: Float64Array;
}

/** Puts pieces that are left out back one by one, each into the place that a rule likes best. */
export class Recreate {
  private readonly forest: CutForest;
  private readonly left: LeftOut;
  private readonly pieces: Pieces;
  private readonly random: Random;
  private readonly orders: Float64Array[];
  private readonly key: Float64Array;
  private readonly open: OpenNodes;
  private readonly leastWidth: Int32Array;
  private readonly leastLength: Int32Array;
  private readonly place: Place = { node: -1, width: 0, length: 0, score: 0 };
  private readonly best: Place = { node: -1, width: 0, length: 0, score: 0 };
  /** For each shape the last fill in which it found no place. */
  private readonly refused: Int32Array;
  private fills = 0;

  constructor(forest: CutForest, left: LeftOut, pieces: Pieces, random: Random) {
    this.forest = forest;
    this.left = left;
    this.pieces = pieces;
    this.random = random;
    this.orders = pieceOrders(pieces);
    this.key = new Float64Array(pieces.count);
    this.open = new OpenNodes(forest);
    this.leastWidth = leastSides(pieces, pieces.width, pieces.length);
    this.leastLength = leastSides(pieces, pieces.length, pieces.width);
    this.refused = new Int32Array(pieces.count);
  }

  /**
   * `order` as in `pieceOrders`, then at random, then the piece that fits best first (`ORDERS`). False as soon as what finds no place costs more than
   * `dearest` says; the caller then goes back to what was kept, since the list of what is left out is no longer right.
   */
  run(order: number, fit: FitOptions, dearest?: Dearest): boolean {
    const { left, pieces, forest, refused, open } = this;
    const { list, count } = left;
    if (order === ORDERS) return this.tightestFirst(fit);
    this.sort(order);
    const fill = ++this.fills;
    this.collect();
    let still = 0;
    let cost = 0;
    const most = dearest === undefined ? Infinity : dearest.cost;
    for (let i = 0; i < count; i++) {
      const piece = list[i];
      const shape = pieces.shape[piece];
      if (refused[shape] !== fill && this.placeOne(piece, fit)) {
        open.addCreated();
      } else {
        refused[shape] = fill;
        list[still++] = piece;
        if (dearest !== undefined) {
          cost += dearest.costOf[piece] - dearest.perArea * pieces.area[piece];
          if (cost > most) return false;
        }
      }
    }
    left.count = still;
    forest.createdCount = 0;
    return true;
  }

  /** Places at each step the piece that a place suits best, whichever that is. */
  private tightestFirst(fit: FitOptions): boolean {
    const { left, pieces, forest, open, place, refused, best } = this;
    const { list } = left;
    const fill = ++this.fills;
    this.collect();
    let waiting = left.count;
    for (;;) {
      best.score = Infinity;
      let chosen = -1;
      for (let i = 0; i < waiting; i++) {
        const piece = list[i];
        const shape = pieces.shape[piece];
        if (refused[shape] === fill) continue;
        this.findPlace(piece, fit);
        if (place.node < 0) refused[shape] = fill;
        else if (place.score < best.score) {
          chosen = i;
          best.node = place.node;
          best.width = place.width;
          best.length = place.length;
          best.score = place.score;
        }
      }
      if (chosen < 0) break;
      forest.place(list[chosen], best.node, best.width, best.length);
      open.addCreated();
      waiting--;
      list[chosen] = list[waiting];
    }
    left.count = waiting;
    forest.createdCount = 0;
    return true;
  }

  private placeOne(piece: number, fit: FitOptions): boolean {
    this.findPlace(piece, fit);
    const { place } = this;
    if (place.node < 0) return false;
    this.forest.place(piece, place.node, place.width, place.length);
    return true;
  }

  private findPlace(piece: number, fit: FitOptions): void {
    const { pieces, place, open } = this;
    const width = pieces.width[piece];
    const length = pieces.length[piece];
    place.node = -1;
    place.score = Infinity;
    open.find(width, length, fit, this.random.unit, place);
    if (pieces.turnable[piece] === 1) open.find(length, width, fit, this.random.unit, place);
  }

  private collect(): void {
    const { list, count } = this.left;
    let width = 0x7fffffff;
    let length = 0x7fffffff;
    for (let i = 0; i < count; i++) {
      width = Math.min(width, this.leastWidth[list[i]]);
      length = Math.min(length, this.leastLength[list[i]]);
    }
    this.open.collect({ width, length });
  }

  private sort(order: number): void {
    const { key, random } = this;
    const { list, count } = this.left;
    const by = this.orders[order];
    for (let i = 0; i < count; i++) key[list[i]] = by === undefined ? random.unit() : by[list[i]];
    sortByFallingKey(list, count, key);
  }
}

/** The extent a piece has at least in a direction, however it is turned. */
function leastSides(pieces: Pieces, own: Int32Array, other: Int32Array): Int32Array {
  return Int32Array.from(own, (side, piece) =>
    pieces.turnable[piece] ? Math.min(side, other[piece]) : side,
  );
}
