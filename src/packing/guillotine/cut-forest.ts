/** Parts of a node lie side by side along x (its cuts run lengthwise). */
export const SIDE_BY_SIDE = 0;
/** Parts of a node are stacked along y (its cuts run across). */
export const STACKED = 1;

const NONE = -1;
/** `free` of a node that is not in use, so that nothing ever fits into it. */
const UNUSED = -1;

/**
 * Sheets cut by straight cuts, as n-ary trees whose cut direction alternates, kept in one Int32Array so that a
 * search can take a snapshot, change the trees and copy the snapshot back.
 *
 * Node ids 0 .. pieces-1 are the pieces themselves, each filling its part exactly; higher ids are cut nodes, the
 * first of them the sheets (always stacked). The parts of a cut node have no order: all that is left along its
 * direction is one free strip over its whole cross extent.
 *
 * ```
 *   a stacked node:   +-----------+
 *                     |   free    |   its parts all have its width;
 *                     +-----------+   heights of parts + free = its height
 *                     |  part b   |
 *                     +-----------+
 *                     |  part a   |
 *                     +-----------+
 * ```
 *
 * After each removal, slack across that all parts of a node share is given to the parent's free strip (tightening). Placing a piece may therefore grow a node again out of that strip.
 */
export class CutForest {
  readonly pieces: number;
  readonly sheets: number;
  /** Everything that a snapshot must hold. */
  readonly state: Int32Array;
  /** extent[2 * node + direction]: width at 0, length at 1. */
  readonly extent: Int32Array;
  readonly free: Int32Array;
  readonly direction: Int32Array;
  readonly parent: Int32Array;
  readonly first: Int32Array;
  readonly next: Int32Array;
  readonly previous: Int32Array;
  /** [0]: one past the highest cut node ever used; [1]: head of the list of unused ones below it. */
  readonly marks: Int32Array;
  /** Nodes that came to be since `createdCount` was last set to 0; those beyond the capacity are not listed. */
  readonly created: Int32Array;
  createdCount = 0;
  private readonly capacity: number;

  constructor(pieces: number, sheets: number) {
    this.pieces = pieces;
    this.sheets = sheets;
    this.capacity = 4 * pieces + sheets + 8;
    const n = this.capacity;
    this.state = new Int32Array(8 * n + 2);
    this.extent = this.state.subarray(0, 2 * n);
    this.free = this.state.subarray(2 * n, 3 * n);
    this.direction = this.state.subarray(3 * n, 4 * n);
    this.parent = this.state.subarray(4 * n, 5 * n);
    this.first = this.state.subarray(5 * n, 6 * n);
    this.next = this.state.subarray(6 * n, 7 * n);
    this.previous = this.state.subarray(7 * n, 8 * n);
    this.marks = this.state.subarray(8 * n, 8 * n + 2);
    this.created = new Int32Array(n);
    this.clear();
  }

  /** Takes all pieces out; the sheets keep their sizes. */
  clear(): void {
    const base = this.pieces;
    this.free.fill(UNUSED);
    this.parent.fill(NONE);
    this.first.fill(NONE);
    this.next.fill(NONE);
    this.previous.fill(NONE);
    for (let sheet = base; sheet < base + this.sheets; sheet++) {
      this.direction[sheet] = STACKED;
      this.free[sheet] = this.extent[2 * sheet + STACKED];
    }
    this.marks[0] = base + this.sheets;
    this.marks[1] = NONE;
  }

  /** Sets the size of an empty sheet (index from 0). */
  setSheet(sheet: number, width: number, length: number): void {
    const node = this.pieces + sheet;
    this.extent[2 * node] = width;
    this.extent[2 * node + 1] = length;
    this.free[node] = length;
  }

  isPlaced(piece: number): boolean {
    return this.parent[piece] !== NONE;
  }

  /**
   * Places a piece of the given size into the free strip of `node`, growing the node out of its parent's free strip
   * (across) or its parent out of its grandparent's (along) where it is too small. The caller has checked that it fits.
   */
  place(piece: number, node: number, width: number, length: number): void {
    const { extent, free } = this;
    const direction = this.direction[node];
    const along = direction === STACKED ? length : width;
    const across = direction === STACKED ? width : length;
    const crossIndex = 2 * node + 1 - direction;
    if (across > extent[crossIndex]) this.growAcross(node, across - extent[crossIndex]);
    if (along > free[node]) this.growAcross(this.parent[node], along - free[node]);
    extent[2 * piece] = width;
    extent[2 * piece + 1] = length;
    free[node] -= along;
    const slack = extent[crossIndex] - across;
    if (slack === 0) {
      this.link(piece, node);
      return;
    }
    const cell = this.newNode(1 - direction, slack);
    extent[2 * cell + direction] = along;
    extent[2 * cell + 1 - direction] = extent[crossIndex];
    this.link(cell, node);
    this.link(piece, cell);
  }

  /** A new empty part of `node`, `along` of its free strip; it divides the other way and must not stay empty. */
  openCell(node: number, along: number): number {
    const { extent, free } = this;
    const direction = this.direction[node];
    const across = extent[2 * node + 1 - direction];
    free[node] -= along;
    const cell = this.newNode(1 - direction, across);
    extent[2 * cell + direction] = along;
    extent[2 * cell + 1 - direction] = across;
    this.link(cell, node);
    return cell;
  }

  /** Takes a piece out, drops emptied nodes and gives slack that has become common to the free strips above. */
  remove(piece: number): void {
    const { free, extent, direction, parent, first } = this;
    let node = parent[piece];
    this.unlink(piece);
    free[node] += extent[2 * piece + direction[node]];
    while (first[node] === NONE && parent[node] !== NONE) {
      const above = parent[node];
      this.unlink(node);
      free[above] += extent[2 * node + direction[above]];
      this.dropNode(node);
      node = above;
    }
    this.settle(node);
  }

  /**
   * Takes out a whole part with everything below it, and leaves its space free in its parent, which may be left empty.
   * The caller fills the space again and then calls `settle` for the parent.
   */
  detach(part: number): void {
    const { first, next, parent, pieces, free, extent } = this;
    const above = parent[part];
    this.unlink(part);
    free[above] += extent[2 * part + this.direction[above]];
    let node = part;
    while (node >= 0) {
      while (first[node] >= 0) node = first[node];
      // A node without parts: let it go, then the next beside it, or the node above, now without parts itself.
      const up = node === part ? NONE : parent[node];
      if (up >= 0) first[up] = next[node];
      parent[node] = NONE;
      next[node] = NONE;
      this.previous[node] = NONE;
      if (node >= pieces) this.dropNode(node);
      node = up;
    }
  }

  /** Gives slack to the free strips above after the parts of `node` have changed. */
  settle(node: number): void {
    const { free, parent } = this;
    const above = parent[node];
    this.tightenUpward(node);
    // `node` may have been dissolved by the first call, but only into a parent that is then tight already.
    if (above !== NONE && free[above] !== UNUSED) this.tightenUpward(above);
  }

  private tightenUpward(start: number): void {
    let node = start;
    while (node !== NONE && this.parent[node] !== NONE && this.free[node] !== UNUSED) {
      const above = this.parent[node];
      if (!this.tighten(node)) return;
      node = this.parent[above];
    }
  }

  /** Gives the slack across that all parts of `node` share to its parent's free strip; false where there is none. */
  private tighten(node: number): boolean {
    const { free, extent, direction, next, first, pieces } = this;
    let slack = 0x7fffffff;
    for (let part = first[node]; part !== NONE; part = next[part]) {
      if (part < pieces) return false;
      if (free[part] < slack) {
        slack = free[part];
        if (slack === 0) return false;
      }
    }
    const cross = 1 - direction[node];
    extent[2 * node + cross] -= slack;
    free[this.parent[node]] += slack;
    let part = first[node];
    while (part !== NONE) {
      const following = next[part];
      extent[2 * part + cross] -= slack;
      free[part] -= slack;
      if (free[part] === 0) this.dissolveIfSingle(part);
      part = following;
    }
    return true;
  }

  /** A full node with one part is no cut at all: the part, or the part's own parts, go up into the parent. */
  private dissolveIfSingle(node: number): void {
    const { first, next, parent, free } = this;
    const only = first[node];
    if (next[only] !== NONE) return;
    const above = parent[node];
    this.unlink(only);
    this.unlink(node);
    this.dropNode(node);
    if (only < this.pieces) {
      this.link(only, above);
      return;
    }
    free[above] += free[only];
    let part = first[only];
    while (part !== NONE) {
      const following = next[part];
      this.unlink(part);
      this.link(part, above);
      part = following;
    }
    this.dropNode(only);
  }

  /** Makes `node` larger across its direction by `amount`, out of its parent's free strip. */
  private growAcross(node: number, amount: number): void {
    const { free, extent, direction, next, first, pieces } = this;
    const cross = 1 - direction[node];
    free[this.parent[node]] -= amount;
    extent[2 * node + cross] += amount;
    let part = first[node];
    while (part !== NONE) {
      const following = next[part];
      const cell = part < pieces ? this.wrap(part, cross) : part;
      extent[2 * cell + cross] += amount;
      free[cell] += amount;
      part = following;
    }
  }

  /** Puts a node of the given direction and of the piece's own size between a piece and its parent. */
  private wrap(piece: number, direction: number): number {
    const above = this.parent[piece];
    const cell = this.newNode(direction, 0);
    this.extent[2 * cell] = this.extent[2 * piece];
    this.extent[2 * cell + 1] = this.extent[2 * piece + 1];
    this.unlink(piece);
    this.link(cell, above);
    this.link(piece, cell);
    return cell;
  }

  private newNode(direction: number, free: number): number {
    const { marks } = this;
    let node = marks[1];
    if (node !== NONE) {
      marks[1] = this.next[node];
      this.next[node] = NONE;
    } else {
      node = marks[0]++;
      if (node >= this.capacity) throw new Error(`cut forest is full: ${this.pieces} pieces, node ${node}`);
    }
    this.direction[node] = direction;
    this.free[node] = free;
    if (this.createdCount < this.capacity) this.created[this.createdCount++] = node;
    return node;
  }

  private dropNode(node: number): void {
    this.free[node] = UNUSED;
    this.first[node] = NONE;
    this.next[node] = this.marks[1];
    this.marks[1] = node;
  }

  private link(node: number, above: number): void {
    const head = this.first[above];
    this.parent[node] = above;
    this.previous[node] = NONE;
    this.next[node] = head;
    if (head !== NONE) this.previous[head] = node;
    this.first[above] = node;
  }

  private unlink(node: number): void {
    const before = this.previous[node];
    const after = this.next[node];
    if (before === NONE) this.first[this.parent[node]] = after;
    else this.next[before] = after;
    if (after !== NONE) this.previous[after] = before;
    this.parent[node] = NONE;
    this.next[node] = NONE;
    this.previous[node] = NONE;
  }
}
