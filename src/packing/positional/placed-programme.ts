import type { Box, Sheet, Stages } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Budget } from '../search/budget.ts';
import { insideBoxes } from './grid.ts';
import { extracted, firstStart, type Item, overlap, type Pose } from './items.ts';
import { Multisets } from './multisets.ts';
import { placedCut, REMNANT } from './placed-tree.ts';

const MOST_PIECES = 12;
const MOST_STATES = 800;
const MOST_MARKS = 400;
const MOST_ENDS = 20_000;

/** Whether the exact programme may be tried on these items at all. */
export function isPlacedExactSize(items: readonly Item[]): boolean {
  const pieces = items.reduce((sum, { copies }) => sum + copies, 0);
  return (
    pieces <= MOST_PIECES && items.reduce((product, { copies }) => product * (copies + 1), 1) <= MOST_STATES
  );
}

/**
 * Exact answers where places are absolute, for a handful of pieces: the least length up to which a sub-multiset of the
 * items reaches when it is cut from the sheet between two lengthwise lines, from a certain height on.
 *
 * A lengthwise cut may be moved towards the near edge until it touches a piece, and pieces towards it until they touch
 * an edge, a forbidden box or are at a point of their lattice (normal patterns, Herz 1972, with places); so only ends of
 * such chains of pieces need be tried. Crosscuts need no trying: the near part is made as short as can be.
 * Exponential; ended by its budget.
 */
export class PlacedProgramme {
  readonly sets: Multisets;
  /** True once the budget ended; what is said after that is of no use. */
  ended = false;
  private readonly sheet: Sheet;
  private readonly items: readonly Item[];
  private readonly boxes: readonly Box[];
  private readonly stages: Stages;
  private readonly budget: Budget;
  private building = false;
  /** Ends known so far: by level, state and lines, then by where they begin. */
  private readonly known = new Map<number, Map<number, number>>();
  private readonly area: readonly number[];
  /** Lines along the length at which parts may begin and end, from edge to edge. */
  private readonly lines: readonly number[];

  constructor(sheet: Sheet, items: readonly Item[], stages: Stages, budget: Budget) {
    this.sheet = sheet;
    this.items = items;
    this.stages = stages;
    this.budget = budget;
    this.boxes = insideBoxes(sheet);
    this.sets = new Multisets(items.map(({ copies }) => copies));
    this.lines = [0, ...this.makeMarks(), sheet.width];
    this.area = Array.from({ length: this.sets.states }, (_, state) =>
      this.sets.digits(state).reduce((sum, count, index) => sum + count * items[index]!.area, 0),
    );
  }

  /** The least length of sheet that holds the state; Infinity where none does within the sheet's own length. */
  least(state: number): number {
    return this.top(1, 0, 0, this.lines.length - 1, state);
  }

  /** The tree of the state in a sheet of a length that `least` allows. */
  build(state: number, length: number): SheetTree {
    // What is built was found before and is known, so building needs no effort of its own.
    this.building = true;
    return this.tree(1, { y0: 0, y1: length, from: 0, to: this.lines.length - 1 }, state);
  }

  /** The least length up to which `state` reaches from `y0` on between two lines, with cuts of `level` and beyond. */
  private top(level: number, y0: number, from: number, to: number, state: number): number {
    if (state === 0) return y0;
    const width = this.lines[to]! - this.lines[from]!;
    if (this.ended || this.area[state]! > width * (this.sheet.length - y0)) return Number.POSITIVE_INFINITY;
    const single = this.sets.single(state);
    if (single >= 0) {
      const at = this.single(this.items[single]!, y0, this.lines[from]!, this.lines[to]!);
      return at?.y1 ?? Number.POSITIVE_INFINITY;
    }
    const depth = this.stages === 'any' ? 0 : level;
    const count = this.lines.length;
    const key = ((depth * this.sets.states + state) * count + from) * count + to;
    let ends = this.known.get(key);
    if (ends === undefined) {
      ends = new Map();
      this.known.set(key, ends);
    }
    const before = ends.get(y0);
    if (before !== undefined) return before;
    let best = Number.POSITIVE_INFINITY;
    this.eachWay(level, { y0, from, to, state }, (end) => {
      if (end < best) best = end;
      return false;
    });
    ends.set(y0, best);
    return best;
  }

  /**
   * Tries every last cut of a state, calling back with the end it reaches and the parts it makes; a callback that
   * answers true ends the trying.
   */
  private eachWay(
    level: number,
    { y0, from, to, state }: { y0: number; from: number; to: number; state: number },
    visit: (end: number, make: (y1: number) => SheetTree) => boolean,
  ): void {
    const any = this.stages === 'any';
    const deepest = any || level === this.stages;
    const inner = any || deepest ? level : level + 1;
    let done = false;
    if (!deepest) {
      const end = this.top(level + 1, y0, from, to, state);
      if (end < Number.POSITIVE_INFINITY) {
        done = visit(end, (y1) => this.tree(level + 1, { y0, y1, from, to }, state));
      }
    }
    this.sets.eachSub(state, (part) => {
      if (done || this.ended || part === 0 || part === state) return;
      if (!this.building && this.budget.spend()) {
        this.ended = true;
        return;
      }
      const rest = state - part;
      if (any || level % 2 === 1) {
        const middle = this.isPlain(deepest, any, part)
          ? this.top(inner, y0, from, to, part)
          : Number.POSITIVE_INFINITY;
        const end = middle < Number.POSITIVE_INFINITY ? this.top(level, middle, from, to, rest) : middle;
        if (end < Number.POSITIVE_INFINITY) {
          done = visit(end, (y1) =>
            placedCut('crosscut', [
              { tree: this.tree(inner, { y0, y1: middle, from, to }, part), size: middle - y0 },
              { tree: this.tree(level, { y0: middle, y1, from, to }, rest), size: y1 - middle },
            ]),
          );
        }
      }
      if (done || !(any || level % 2 === 0) || !this.isPlain(deepest, any, part)) return;
      const { lines } = this;
      for (let line = from + 1; line < to; line++) {
        const near = this.top(inner, y0, from, line, part);
        if (near === Number.POSITIVE_INFINITY) continue;
        const end = Math.max(near, this.top(level, y0, line, to, rest));
        if (end === Number.POSITIVE_INFINITY) continue;
        done = visit(end, (y1) =>
          placedCut('lengthwise', [
            { tree: this.tree(inner, { y0, y1, from, to: line }, part), size: lines[line]! - lines[from]! },
            { tree: this.tree(level, { y0, y1, from: line, to }, rest), size: lines[to]! - lines[line]! },
          ]),
        );
        if (done) return;
      }
    });
  }

  /** At the deepest level each part is a single piece, trimmed to size. */
  private isPlain(deepest: boolean, any: boolean, part: number): boolean {
    return any || !deepest || this.sets.single(part) >= 0;
  }

  private tree(
    level: number,
    part: { y0: number; y1: number; from: number; to: number },
    state: number,
  ): SheetTree {
    if (state === 0) return REMNANT;
    const box = { x0: this.lines[part.from]!, y0: part.y0, x1: this.lines[part.to]!, y1: part.y1 };
    const single = this.sets.single(state);
    if (single >= 0) {
      const item = this.items[single]!;
      const at = this.single(item, box.y0, box.x0, box.x1)!;
      const leaf: SheetTree = { kind: 'piece', piece: item.kind, quarterTurns: at.pose.turned ? 1 : 0 };
      const crosscutFirst =
        this.stages === 'any'
          ? (box.y1 - at.y1) * (box.x1 - box.x0) >= (box.x1 - at.x1) * (box.y1 - box.y0)
          : level % 2 === 1;
      return extracted(leaf, at, box, crosscutFirst);
    }
    const wanted = this.top(level, part.y0, part.from, part.to, state);
    let made: SheetTree | undefined;
    this.eachWay(level, { ...part, state }, (end, make) => {
      if (end !== wanted) return false;
      made = make(part.y1);
      return true;
    });
    if (made === undefined) throw new Error(`no cut makes state ${state} reach ${wanted}`);
    return made;
  }

  /** Where a single piece ends soonest, from `y0` on between `x0` and `x1`. */
  private single(item: Item, y0: number, x0: number, x1: number): (Box & { pose: Pose }) | undefined {
    let best: (Box & { pose: Pose }) | undefined;
    for (const pose of item.poses) {
      for (const nearX of [x0, ...this.boxes.map((box) => box.x1)]) {
        const x = nearX < x0 ? Number.POSITIVE_INFINITY : firstStart(item, pose, 'x', nearX);
        if (x + pose.width > x1) continue;
        for (const nearY of [y0, ...this.boxes.map((box) => box.y1)]) {
          const y = nearY < y0 ? Number.POSITIVE_INFINITY : firstStart(item, pose, 'y', nearY);
          const box = { x0: x, y0: y, x1: x + pose.width, y1: y + pose.length, pose };
          if (box.y1 > this.sheet.length || box.y1 >= (best?.y1 ?? Number.POSITIVE_INFINITY)) continue;
          if (!this.boxes.some((other) => overlap(box, other))) best = box;
        }
      }
    }
    return best;
  }

  /** Ends of chains of pieces across the width, each used at most as often as there are copies. */
  private makeMarks(): readonly number[] {
    const { width } = this.sheet;
    const seen = new Set<string>();
    const marks = new Set<number>();
    const open = [{ at: 0, left: this.sets.states - 1 }];
    for (const { x1 } of this.boxes)
      if (x1 > 0 && x1 < width) open.push({ at: x1, left: this.sets.states - 1 });
    for (let top = open.pop(); top !== undefined; top = open.pop()) {
      const { at, left } = top;
      for (const [index, item] of this.items.entries()) {
        if (this.sets.digit(left, index) === 0) continue;
        for (const pose of item.poses) {
          // Beyond a box the chain may go on past it with any piece: each box is a start of its own.
          const end = firstStart(item, pose, 'x', at) + pose.width;
          const rest = left - this.sets.stateOf(this.items.map((_, other) => (other === index ? 1 : 0)));
          const key = `${end} ${rest}`;
          if (end >= width || seen.has(key)) continue;
          seen.add(key);
          marks.add(end);
          open.push({ at: end, left: rest });
        }
      }
      if (seen.size > MOST_ENDS || marks.size > MOST_MARKS) {
        this.ended = true;
        return [];
      }
    }
    return [...marks].sort((a, b) => a - b);
  }
}
