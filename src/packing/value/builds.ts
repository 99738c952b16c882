/**
 * Builds: rectangles put together from pieces, side by side or one behind the other, with waste beside the smaller.
 *
 * A build keeps its size, its tally of pieces, its worth and how it was put together. Of two builds with the same
 * pieces, one that is no smaller either way is never needed (Wang 1983; Viswanathan & Bagchi 1993).
 */
import type { Stages } from '../instance.ts';
import type { Grid } from './grid.ts';
import { type TallyFormat, tallyFormat } from './tallies.ts';

export const laidPiece = 0;
export const sideBySide = 1;
export const oneBehindOther = 2;

/** What a search over builds works on; `prices[k]` is taken off the worth of each copy of kind k. */
export interface BuildSpace {
  readonly grid: Grid;
  readonly copies: Int32Array;
  readonly values: Float64Array;
  readonly prices: Float64Array;
  /** Most reduced worth around a part (outside.ts), for the same prices. */
  readonly outside: Float64Array;
  /** Worths of whole sheets differ by at least this. */
  readonly step: number;
  readonly stages: Stages;
}

export class BuildStore {
  readonly format: TallyFormat;
  count = 0;
  /** True size. */
  width: Int32Array;
  length: Int32Array;
  /** Cell of the grid that bounds what can lie around it. */
  column: Int32Array;
  row: Int32Array;
  /** Worth less prices. */
  reduced: Float64Array;
  worth: Float64Array;
  near: Int32Array;
  far: Int32Array;
  how: Uint8Array;
  /** Cut stages inside, not counting trimming to size. */
  level: Uint8Array;
  hash: Int32Array;
  tallies: Int32Array;
  readonly space: BuildSpace;
  readonly kindHash: Int32Array;
  private chain: Int32Array;
  private heads: Int32Array;
  private readonly scratch: Int32Array;

  constructor(space: BuildSpace, room = 1024) {
    this.space = space;
    this.format = tallyFormat(space.copies);
    this.width = new Int32Array(room);
    this.length = new Int32Array(room);
    this.column = new Int32Array(room);
    this.row = new Int32Array(room);
    this.reduced = new Float64Array(room);
    this.worth = new Float64Array(room);
    this.near = new Int32Array(room);
    this.far = new Int32Array(room);
    this.how = new Uint8Array(room);
    this.level = new Uint8Array(room);
    this.hash = new Int32Array(room);
    this.chain = new Int32Array(room);
    this.heads = new Int32Array(4 * room).fill(-1);
    this.tallies = new Int32Array(room * this.format.words);
    this.scratch = new Int32Array(this.format.words);
    this.kindHash = Int32Array.from(space.copies, (_, kind) => scramble(kind + 1));
  }

  /** Adds one laid piece as a build; −1 when an equal or smaller build of it is known. */
  addPiece(way: number): number {
    const { grid, values, prices } = this.space;
    const { kind, width, length, coarseWidth, coarseLength } = grid.laid[way]!;
    this.scratch.fill(0);
    this.scratch[this.format.word[kind]!] = this.format.unit[kind]!;
    const build = this.append(width, length, this.kindHash[kind]!, laidPiece, 0);
    if (build < 0) return build;
    this.column[build] = grid.x.down[coarseWidth]!;
    this.row[build] = grid.y.down[coarseLength]!;
    this.near[build] = way;
    this.far[build] = -1;
    this.worth[build] = values[kind]!;
    this.reduced[build] = values[kind]! - prices[kind]!;
    return build;
  }

  /** Do the two together keep to the copies at hand? */
  fits(near: number, far: number): boolean {
    const { words, limit, guard } = this.format;
    const a = near * words;
    const b = far * words;
    for (let word = 0; word < words; word += 1) {
      const left = limit[word]! - this.tallies[a + word]! - this.tallies[b + word]!;
      if ((left & guard[word]!) !== guard[word]!) return false;
    }
    return true;
  }

  /** Joins two builds; −1 when the result is dominated or has too many cut stages. */
  join(near: number, far: number, how: number): number {
    const level = Math.max(this.levelWithin(near, how), this.levelWithin(far, how));
    const { stages } = this.space;
    if (stages !== 'any' && (level > stages || (level === stages && how === sideBySide))) return -1;
    const { words } = this.format;
    for (let word = 0; word < words; word += 1) {
      this.scratch[word] = this.tallies[near * words + word]! + this.tallies[far * words + word]!;
    }
    const beside = how === sideBySide;
    const width = together(this.width[near]!, this.width[far]!, beside);
    const length = together(this.length[near]!, this.length[far]!, !beside);
    const build = this.append(width, length, (this.hash[near]! + this.hash[far]!) | 0, how, level);
    if (build < 0) return build;
    this.column[build] = this.joinedColumn(near, far, beside);
    this.row[build] = this.joinedRow(near, far, !beside);
    this.near[build] = near;
    this.far[build] = far;
    this.worth[build] = this.worth[near]! + this.worth[far]!;
    this.reduced[build] = this.reduced[near]! + this.reduced[far]!;
    return build;
  }

  private joinedColumn(near: number, far: number, beside: boolean): number {
    const { sizes, down } = this.space.grid.x;
    const a = this.column[near]!;
    const b = this.column[far]!;
    return beside ? down[sizes[a]! + sizes[b]!]! : Math.max(a, b);
  }

  private joinedRow(near: number, far: number, behind: boolean): number {
    const { sizes, down } = this.space.grid.y;
    const a = this.row[near]!;
    const b = this.row[far]!;
    return behind ? down[sizes[a]! + sizes[b]!]! : Math.max(a, b);
  }

  private levelWithin(build: number, how: number): number {
    const level = this.level[build]!;
    return this.how[build] === how ? level : level + 1;
  }

  private append(width: number, length: number, hash: number, how: number, level: number): number {
    if (this.dominated(width, length, hash, how, level)) return -1;
    if (this.count === this.width.length) this.grow();
    const build = this.count;
    this.count += 1;
    this.width[build] = width;
    this.length[build] = length;
    this.hash[build] = hash;
    this.how[build] = how;
    this.level[build] = level;
    this.tallies.set(this.scratch, build * this.format.words);
    const head = this.headOf(hash);
    this.chain[build] = this.heads[head]!;
    this.heads[head] = build;
    return build;
  }

  private dominated(width: number, length: number, hash: number, how: number, level: number): boolean {
    const staged = this.space.stages !== 'any';
    for (let other = this.heads[this.headOf(hash)]!; other >= 0; other = this.chain[other]!) {
      if (this.hash[other] !== hash || this.width[other]! > width || this.length[other]! > length) continue;
      if (staged && this.level[other]! >= level && (this.level[other] !== level || this.how[other] !== how)) {
        continue;
      }
      if (this.sameTally(other)) return true;
    }
    return false;
  }

  private sameTally(other: number): boolean {
    const { words } = this.format;
    for (let word = 0; word < words; word += 1) {
      if (this.tallies[other * words + word] !== this.scratch[word]) return false;
    }
    return true;
  }

  private headOf(hash: number): number {
    return (Math.imul(hash, 0x9e3779b1) >>> 8) & (this.heads.length - 1);
  }

  private grow(): void {
    const room = 2 * this.column.length;
    const wider = <T extends Int32Array | Float64Array | Uint8Array>(old: T, size: number): T => {
      const grown = new (old.constructor as new (size: number) => T)(size);
      grown.set(old);
      return grown;
    };
    this.width = wider(this.width, room);
    this.length = wider(this.length, room);
    this.column = wider(this.column, room);
    this.row = wider(this.row, room);
    this.reduced = wider(this.reduced, room);
    this.worth = wider(this.worth, room);
    this.near = wider(this.near, room);
    this.far = wider(this.far, room);
    this.how = wider(this.how, room);
    this.level = wider(this.level, room);
    this.hash = wider(this.hash, room);
    this.chain = wider(this.chain, room);
    this.tallies = wider(this.tallies, room * this.format.words);
    if (this.heads.length >= 1 << 23) return;
    this.heads = new Int32Array(2 * this.heads.length).fill(-1);
    for (let build = 0; build < this.count; build += 1) {
      const head = this.headOf(this.hash[build]!);
      this.chain[build] = this.heads[head]!;
      this.heads[head] = build;
    }
  }
}

function together(a: number, b: number, added: boolean): number {
  return added ? a + b : Math.max(a, b);
}

function scramble(seed: number): number {
  let mixed = Math.imul(seed, 0x9e3779b1);
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x21f0aaad);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
  return mixed ^ (mixed >>> 15);
}
