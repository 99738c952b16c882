import type { Budget } from '../search/budget.ts';
import { SIDE_BY_SIDE, STACKED } from './cut-forest.ts';
import type { Measure } from './measures.ts';
import type { Part } from './part.ts';
import { RestFit } from './rest-fit.ts';
import { bitsOf, complemented, subsetsOf, WORD, WORD_BITS } from './subset-words.ts';

/** A kind in scaled units. */
export interface BlockKind {
  readonly width: number;
  readonly length: number;
  readonly copies: number;
  readonly turnable: boolean;
}

/** Pairs of sub-multisets counted as one search node. */
const PAIRS_PER_NODE = 16;
/** Nodes that are spent together, since asking whether to stop takes time. */
const SPENT_AT_ONCE = 256;

/** Measures by which pairs are judged before they are joined. */
const WASTES = 2;

/** How many pairs of sub-multisets the programme would look at: the product of (c + 1)(c + 2) / 2. */
export function paretoPairs(kinds: readonly BlockKind[]): number {
  return kinds.reduce((product, { copies }) => (product * (copies + 1) * (copies + 2)) / 2, 1);
}

/**
 * What stays empty at least beside and above a block, for each width and length it may have: lines across the sheet
 * cross pieces only, so beside a block of width w they are covered by a sum of piece sizes of at most `width` - w.
 */
export interface Gaps {
  readonly width: Int32Array;
  readonly length: Int32Array;
}

/**
 * Exhaustive dynamic programme over sub-multisets of the kinds, each with the Pareto front of the bounding boxes of
 * its guillotine blocks. A sub-multiset is a number: the sum of count × radix over the kinds.
 * Time O(pairs × front), memory O(sub-multisets × front).
 */
export class ParetoFronts {
  readonly states: number;
  readonly radix: number[] = [];
  private readonly kinds: readonly BlockKind[];
  private readonly width: number;
  private readonly limit: number;
  /** Every kind has one copy, so that a sub-multiset is a bit mask. */
  private readonly single: boolean;
  /** With single copies: bits of kinds like the one before, which share its fronts. */
  twins = 0;
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** 1 where a sub-multiset has a block at all. */
  private readonly live: Uint8Array;
  /** The same flags as bits, for masks. */
  readonly liveWords: Int32Array;
  readonly area: Float64Array;
  private readonly spare: number;
  private readonly mostPieces: number;
  private readonly gaps: Gaps | undefined;
  private readonly measures: readonly Measure[];
  /** Worth of each sub-multiset, measure by measure. */
  readonly worths: readonly Float64Array[];
  /** For the first measures: least waste of each sub-multiset, with what lies around it and within it alone. */
  private readonly wastes: readonly { lost: Float64Array; within: Float64Array; room: number }[];
  private readonly restFit: RestFit;
  widths = new Int32Array(4096);
  lengths = new Int32Array(4096);
  private used = 0;
  /** The front being made, widths rising, lengths falling. */
  private frontWidth = new Int32Array(256);
  private frontLength = new Int32Array(256);
  private frontSize = 0;

  /**
   * Blocks wider, longer, of more pieces or with more waste than `most` says are left out; the pieces are counted
   * where all are single. Every kind has at least one copy.
   */
  constructor(
    kinds: readonly BlockKind[],
    most: {
      readonly width: number;
      readonly length: number;
      readonly spare: number;
      readonly pieces?: number;
    },
    gaps?: Gaps,
    measures: readonly Measure[] = [],
  ) {
    this.gaps = gaps;
    this.measures = measures;
    if (kinds.some(({ copies }) => copies < 1)) throw new Error('every kind needs at least one copy');
    this.kinds = kinds;
    this.width = most.width;
    this.limit = most.length;
    this.spare = most.spare;
    this.mostPieces = most.pieces ?? Infinity;
    let states = 1;
    for (const { copies } of kinds) {
      this.radix.push(states);
      states *= copies + 1;
    }
    this.states = states;
    this.start = new Int32Array(states);
    this.end = new Int32Array(states);
    this.live = new Uint8Array(states);
    this.liveWords = new Int32Array((states >>> WORD_BITS) + 1);
    this.area = new Float64Array(states);
    for (let state = 1, kind = 0; state < states; state++) {
      if (kind + 1 < kinds.length && state >= this.radix[kind + 1]) kind++;
      this.area[state] = this.area[state - this.radix[kind]] + kinds[kind].width * kinds[kind].length;
    }
    this.worths = measures.map(({ worth }) => {
      const sums = new Float64Array(states);
      for (let state = 1, kind = 0; state < states; state++) {
        if (kind + 1 < kinds.length && state >= this.radix[kind + 1]) kind++;
        sums[state] = sums[state - this.radix[kind]] + worth[kind];
      }
      return sums;
    });
    this.wastes = measures.slice(0, WASTES).map(({ inside, total }) => ({
      lost: new Float64Array(states),
      within: new Float64Array(states),
      room: inside[inside.length - 1] - total,
    }));
    this.restFit = new RestFit(kinds, this.radix, most);
    this.single = kinds.every(({ copies }) => copies === 1);
    kinds.forEach((kind, i) => {
      const other = i > 0 ? kinds[i - 1] : undefined;
      const same = other?.width === kind.width && other.length === kind.length;
      if (this.single && same && other.turnable === kind.turnable) this.twins |= 1 << i;
    });
  }

  /** Fills all fronts; false where the budget ended first. */
  build(budget: Budget): boolean {
    let pairs = 0;
    for (let state = 1; state < this.states; state++) {
      if (bitsOf(state) > this.mostPieces) continue;
      pairs += this.makeFront(state);
      if (pairs >= SPENT_AT_ONCE * PAIRS_PER_NODE) {
        const nodes = Math.floor(pairs / PAIRS_PER_NODE);
        pairs -= nodes * PAIRS_PER_NODE;
        if (budget.spendMany(nodes)) return false;
      }
    }
    return true;
  }

  /** Least length of a block of this sub-multiset that is at most `width` wide; Infinity where there is none. */
  leastLength(state: number, width: number): number {
    const at = this.narrowEnough(state, width);
    return at < this.start[state] ? Infinity : this.lengths[at];
  }

  /** The block of least length of this sub-multiset that is at most `width` wide. */
  shortest(state: number, width: number): Part | undefined {
    const at = this.narrowEnough(state, width);
    return at < this.start[state] ? undefined : this.rebuild(state, this.widths[at], this.lengths[at]);
  }

  private narrowEnough(state: number, width: number): number {
    let at = this.end[state] - 1;
    while (at >= this.start[state] && this.widths[at] > width) at--;
    return at;
  }

  /** Copies of each kind in a sub-multiset. */
  digits(state: number): number[] {
    return this.kinds.map(({ copies }, i) => Math.floor(state / this.radix[i]) % (copies + 1));
  }

  /** Fills the front of one state from those below it; returns how many pairs were looked at. */
  private makeFront(state: number): number {
    this.frontSize = 0;
    if (this.twins !== 0 && (state & this.twins & ~(state << 1)) !== 0) {
      const bit = 31 - Math.clz32(state & this.twins & ~(state << 1));
      const alike = state ^ (1 << bit) ^ (1 << (bit - 1));
      this.start[state] = this.start[alike];
      this.end[state] = this.end[alike];
      if (this.live[alike] === 1) {
        this.markLive(state);
        this.noteWastes(state);
      }
      return 1;
    }
    this.offerKind(state);
    let joined = 0;
    const pairs = this.eachHalf(state, (part) => {
      joined++;
      if (this.wastesTooMuch(part, state - part)) return;
      this.joinBeside(state, part, state - part);
      this.joinAbove(state, part, state - part);
    });
    this.keepFront(state);
    return pairs + joined;
  }

  /** Calls back with each proper sub-multiset not larger (by index) than what it leaves, where both make blocks; returns how many were looked at. */
  private eachHalf(state: number, visit: (part: number) => void): number {
    if (this.single) return this.eachHalfMask(state, visit);
    const { live, radix } = this;
    const most = Int32Array.from(this.digits(state));
    const count = new Int32Array(most.length);
    let part = 0;
    for (let looked = 0; ; looked++) {
      let i = 0;
      while (i < most.length && count[i] === most[i]) {
        part -= count[i] * radix[i];
        count[i] = 0;
        i++;
      }
      if (i === most.length) return looked;
      count[i]++;
      part += radix[i];
      if (2 * part > state) return looked;
      if (live[part] === 1 && live[state - part] === 1) visit(part);
    }
  }

  /**
   * `eachHalf` where sub-multisets are bit masks: thirty-two at a time, those that differ in their lowest five bits,
   * since most have no block at all where little may be wasted.
   */
  private eachHalfMask(state: number, visit: (part: number) => void): number {
    const { liveWords } = this;
    const high = state >>> WORD_BITS;
    const low = state & (WORD - 1);
    if (high === 0) return this.eachHalfLow(state, visit);
    // Halves without the top bit are those not larger than what they leave.
    const below = high ^ (1 << (31 - Math.clz32(high)));
    const within = subsetsOf[low];
    let looked = 1;
    for (let part = below; ; part = (part - 1) & below) {
      looked++;
      const near = liveWords[part] & within;
      const far = liveWords[high ^ part];
      if (near !== 0 && far !== 0) {
        let both = near & complemented(far, low);
        while (both !== 0) {
          const bit = 31 - Math.clz32(both & -both);
          both &= both - 1;
          visit((part << WORD_BITS) | bit);
        }
      }
      if (part === 0) return looked;
    }
  }

  private eachHalfLow(state: number, visit: (part: number) => void): number {
    const { live } = this;
    let looked = 1;
    const below = state ^ (1 << (31 - Math.clz32(state)));
    for (let part = below; part > 0; part = (part - 1) & below) {
      looked++;
      if ((live[part] & live[state ^ part]) === 1) visit(part);
    }
    return looked;
  }

  private offerKind(state: number): void {
    const kind = this.radix.indexOf(state);
    if (kind < 0) return;
    const { width, length, turnable } = this.kinds[kind];
    this.offer(state, width, length);
    if (turnable) this.offer(state, length, width);
  }

  private joinBeside(state: number, a: number, b: number): void {
    const { widths, lengths, start, end } = this;
    let i = start[a];
    let j = start[b];
    const endA = end[a];
    const endB = end[b];
    while (i < endA && j < endB) {
      const width = widths[i] + widths[j];
      if (width > this.width) return;
      const lengthA = lengths[i];
      const lengthB = lengths[j];
      this.offer(state, width, Math.max(lengthA, lengthB));
      if (lengthA >= lengthB) i++;
      if (lengthB >= lengthA) j++;
    }
  }

  private joinAbove(state: number, a: number, b: number): void {
    const { widths, lengths, start, end } = this;
    let i = end[a] - 1;
    let j = end[b] - 1;
    while (i >= start[a] && j >= start[b]) {
      const length = lengths[i] + lengths[j];
      if (length > this.limit) return;
      const widthA = widths[i];
      const widthB = widths[j];
      this.offer(state, Math.max(widthA, widthB), length);
      if (widthA >= widthB) i--;
      if (widthB >= widthA) j--;
    }
  }

  /** Puts a box into the front being made, unless it is dominated or wastes too much. */
  private offer(state: number, width: number, length: number): void {
    if (width > this.width || length > this.limit) return;
    const within = width * length - this.area[state];
    if (within > this.spare) return;
    if (this.gaps !== undefined) {
      const beside = this.gaps.width[width] * length + this.gaps.length[length] * width;
      if (within + beside > this.spare) return;
    }
    const { frontWidth, frontLength } = this;
    let low = 0;
    let high = this.frontSize;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (frontWidth[middle] <= width) low = middle + 1;
      else high = middle;
    }
    // Entries before `low` are at most as wide; the last of them is the shortest.
    if (low > 0 && frontLength[low - 1] <= length) return;
    if (this.isHopeless(state, width, length)) return;
    const from = low > 0 && frontWidth[low - 1] === width ? low - 1 : low;
    let to = low;
    while (to < this.frontSize && frontLength[to] >= length) to++;
    if (from === to) {
      if (this.frontSize === frontWidth.length) {
        this.frontWidth = grown(frontWidth);
        this.frontLength = grown(frontLength);
      }
      this.frontWidth.copyWithin(from + 1, from, this.frontSize);
      this.frontLength.copyWithin(from + 1, from, this.frontSize);
      this.frontSize++;
    } else if (to > from + 1) {
      frontWidth.copyWithin(from + 1, to, this.frontSize);
      frontLength.copyWithin(from + 1, to, this.frontSize);
      this.frontSize -= to - from - 1;
    }
    this.frontWidth[from] = width;
    this.frontLength[from] = length;
  }

  /**
   * Whether two sub-multisets waste too much together, however they are joined. What a block takes from the sheet, by
   * a measure, grows by all that its neighbour could hold, so that the wastes add up.
   */
  private wastesTooMuch(a: number, b: number): boolean {
    const { wastes } = this;
    for (let i = 0; i < wastes.length; i++) {
      const { lost, within, room } = wastes[i];
      if (lost[a] + within[b] > room || lost[b] + within[a] > room) return true;
    }
    return false;
  }

  /** Notes the least wastes over the front of a state. */
  private noteWastes(state: number): void {
    const { wastes, measures, worths, widths, lengths } = this;
    for (let i = 0; i < wastes.length; i++) {
      const { outside, inside, column, row, rows } = measures[i];
      const whole = inside[inside.length - 1];
      let lost = Infinity;
      let within = Infinity;
      for (let at = this.start[state]; at < this.end[state]; at++) {
        const cell = column[widths[at]] * rows + row[lengths[at]];
        lost = Math.min(lost, whole - outside[cell]);
        within = Math.min(within, inside[cell]);
      }
      wastes[i].lost[state] = lost - worths[i][state];
      wastes[i].within[state] = within - worths[i][state];
    }
  }

  /** Whether what fits around such a block is, by some measure, too little for the pieces that are not in it. */
  private isHopeless(state: number, width: number, length: number): boolean {
    const { measures, worths } = this;
    for (let i = 0; i < measures.length; i++) {
      const { outside, column, row, rows, total } = measures[i];
      if (worths[i][state] + outside[column[width] * rows + row[length]] < total) return true;
    }
    if (measures.length === 0) return false;
    return !this.restFit.mayFit(state, this.width - width, this.limit - length);
  }

  private keepFront(state: number): void {
    while (this.used + this.frontSize > this.widths.length) {
      this.widths = grown(this.widths);
      this.lengths = grown(this.lengths);
    }
    this.widths.set(this.frontWidth.subarray(0, this.frontSize), this.used);
    this.lengths.set(this.frontLength.subarray(0, this.frontSize), this.used);
    this.start[state] = this.used;
    this.used += this.frontSize;
    this.end[state] = this.used;
    if (this.frontSize === 0) return;
    this.markLive(state);
    this.noteWastes(state);
  }

  private markLive(state: number): void {
    this.live[state] = 1;
    this.liveWords[state >>> WORD_BITS] |= 1 << (state & (WORD - 1));
  }

  /** Finds again how a box of a front was made; no links are stored, for memory's sake. Own stack, no recursion. */
  rebuild(state: number, width: number, length: number): Part {
    const top: Part[] = [];
    const waiting = [{ state, width, length, into: top }];
    for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
      const { into, ...box } = task;
      const kind = this.radix.indexOf(box.state);
      if (kind >= 0) {
        const turned = this.kinds[kind].width !== box.width;
        into.push({ kind: 'piece', piece: kind, turned, width: box.width, length: box.length });
        continue;
      }
      const { direction, pair } = this.findPair(box);
      const parts: Part[] = [];
      into.push({ kind: 'join', direction, parts, width: box.width, length: box.length });
      for (const half of pair) waiting.push({ ...half, into: parts });
    }
    return top[0];
  }

  private findPair(box: Box): { direction: 0 | 1; pair: [Box, Box] } {
    const { widths, lengths, start, end } = this;
    let found: { direction: 0 | 1; pair: [Box, Box] } | undefined;
    this.eachHalf(box.state, (part) => {
      const rest = box.state - part;
      for (let i = start[part]; i < end[part] && found === undefined; i++) {
        for (let j = start[rest]; j < end[rest]; j++) {
          const beside =
            widths[i] + widths[j] === box.width && Math.max(lengths[i], lengths[j]) === box.length;
          const above =
            lengths[i] + lengths[j] === box.length && Math.max(widths[i], widths[j]) === box.width;
          if (!beside && !above) continue;
          const a = { state: part, width: widths[i], length: lengths[i] };
          const b = { state: rest, width: widths[j], length: lengths[j] };
          found = { direction: beside ? SIDE_BY_SIDE : STACKED, pair: [a, b] };
          break;
        }
      }
    });
    if (found === undefined) throw new Error(`no pair makes ${box.width} by ${box.length}`);
    return found;
  }
}

interface Box {
  readonly state: number;
  readonly width: number;
  readonly length: number;
}

function grown(array: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}
