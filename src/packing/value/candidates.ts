/**
 * Joins of two builds that may become builds, the best of them kept.
 *
 * Kept in typed arrays; when four times as many are in as are wanted, joins of the same pieces to the same size are
 * merged and the worst are thrown out.
 */
import { type BuildStore, sideBySide } from './builds.ts';

export class CandidateList {
  count = 0;
  /** Joins ranked at or below this were thrown out and need not be offered. */
  floor = Number.NEGATIVE_INFINITY;
  /** False once a join was thrown out that was not the same as another. */
  complete = true;
  near: Int32Array;
  far: Int32Array;
  how: Uint8Array;
  private rank: Float64Array;
  private readonly store: BuildStore;
  private readonly most: number;

  constructor(store: BuildStore, most: number) {
    this.store = store;
    this.most = most;
    this.near = new Int32Array(64);
    this.far = new Int32Array(64);
    this.how = new Uint8Array(64);
    this.rank = new Float64Array(64);
  }

  offer(rank: number, near: number, far: number, how: number): void {
    if (this.count === this.rank.length) {
      if (this.count >= 4 * this.most) this.thin();
      if (this.count > 0.7 * this.rank.length) this.grow();
    }
    const at = this.count;
    this.count += 1;
    this.rank[at] = rank;
    this.near[at] = near;
    this.far[at] = far;
    this.how[at] = how;
  }

  /** All that is kept, best first; the list is empty afterwards. */
  take(): (readonly [near: number, far: number, how: number])[] {
    this.merge();
    const order = Array.from({ length: this.count }, (_, index) => index);
    order.sort((a, b) => this.rank[b]! - this.rank[a]! || a - b);
    this.count = 0;
    return order.map((index) => [this.near[index]!, this.far[index]!, this.how[index]!]);
  }

  private thin(): void {
    this.merge();
    if (this.count <= this.most) return;
    const ranks = this.rank.slice(0, this.count).sort();
    const least = ranks[this.count - this.most]!;
    this.complete = false;
    this.floor = least;
    let kept = 0;
    for (let index = 0; index < this.count; index += 1) {
      if (this.rank[index]! >= least && kept < 2 * this.most) this.move(index, kept++);
    }
    this.count = kept;
  }

  /** Drops joins that give the same pieces in the same size as an earlier one. */
  private merge(): void {
    const slots = 2 ** Math.ceil(Math.log2(2 * this.count + 2));
    const table = new Int32Array(slots).fill(-1);
    let kept = 0;
    for (let index = 0; index < this.count; index += 1) {
      const hash = this.store.hash[this.near[index]!]! + this.store.hash[this.far[index]!]!;
      let slot = (Math.imul(hash, 0x9e3779b1) >>> 4) & (slots - 1);
      while (table[slot]! >= 0 && !this.same(table[slot]!, index)) slot = (slot + 1) & (slots - 1);
      if (table[slot]! >= 0) continue;
      this.move(index, kept);
      table[slot] = kept;
      kept += 1;
    }
    this.count = kept;
  }

  private same(a: number, b: number): boolean {
    const { store } = this;
    if (this.rank[a] !== this.rank[b]) return false;
    if (store.space.stages !== 'any' && this.how[a] !== this.how[b]) return false;
    const [aNear, aFar, bNear, bFar] = [this.near[a]!, this.far[a]!, this.near[b]!, this.far[b]!];
    const aBeside = this.how[a] === sideBySide;
    const bBeside = this.how[b] === sideBySide;
    if (sizeOf(store.width, aNear, aFar, aBeside) !== sizeOf(store.width, bNear, bFar, bBeside)) return false;
    if (sizeOf(store.length, aNear, aFar, !aBeside) !== sizeOf(store.length, bNear, bFar, !bBeside))
      return false;
    const { words } = store.format;
    const { tallies } = store;
    for (let word = 0; word < words; word += 1) {
      const inA = tallies[aNear * words + word]! + tallies[aFar * words + word]!;
      if (inA !== tallies[bNear * words + word]! + tallies[bFar * words + word]!) return false;
    }
    return store.space.stages === 'any' || this.levels(a) === this.levels(b);
  }

  private levels(index: number): number {
    const { level, how } = this.store;
    const of = (build: number) => level[build]! + (how[build] === this.how[index] ? 0 : 1);
    return Math.max(of(this.near[index]!), of(this.far[index]!));
  }

  private move(from: number, to: number): void {
    this.rank[to] = this.rank[from]!;
    this.near[to] = this.near[from]!;
    this.far[to] = this.far[from]!;
    this.how[to] = this.how[from]!;
  }

  private grow(): void {
    const room = 2 * this.rank.length;
    const grown = { near: new Int32Array(room), far: new Int32Array(room), how: new Uint8Array(room) };
    const rank = new Float64Array(room);
    grown.near.set(this.near);
    grown.far.set(this.far);
    grown.how.set(this.how);
    rank.set(this.rank);
    this.near = grown.near;
    this.far = grown.far;
    this.how = grown.how;
    this.rank = rank;
  }
}

function sizeOf(sizes: Int32Array, near: number, far: number, added: boolean): number {
  return added ? sizes[near]! + sizes[far]! : Math.max(sizes[near]!, sizes[far]!);
}
