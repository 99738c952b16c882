import type { Kind, Stages } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Budget } from '../search/budget.ts';
import { Multisets } from './multisets.ts';
import { filledParts, placedCut, REMNANT, type SizedTree } from './placed-tree.ts';

/** Pairs of sub-multisets counted as one search node. */
const PAIRS_PER_NODE = 16;

export interface FrontLimits {
  readonly width: number;
  readonly length: number;
  /** The most that any block may waste within its own bounding box. */
  readonly spare: number;
}

type Front = { width: number; length: number }[];

const NO_FRONT: Front = [];

/**
 * The Pareto front of bounding boxes of the blocks of each sub-multiset, by an exhaustive dynamic programme.
 *
 * `any`: all guillotine blocks. `3`: rows of columns, as cut from a section by lengthwise cuts and then crosscuts.
 * `2`: rows of single pieces. Memory O(sub-multisets × front), time O(pairs × front).
 */
export class Fronts {
  readonly sets: Multisets;
  private readonly kinds: readonly Kind[];
  private readonly limits: FrontLimits;
  readonly stages: Stages;
  private readonly area: Float64Array;
  /** Blocks as they are used: of any cut (`any`), or rows. */
  private readonly blocks: Front[] = [];
  /** What rows are made of: single pieces (`2`) or columns (`3`). Not used with `any`. */
  private readonly columns: Front[] = [];

  constructor(kinds: readonly Kind[], limits: FrontLimits, stages: Stages) {
    this.kinds = kinds;
    this.limits = limits;
    this.stages = stages;
    this.sets = new Multisets(kinds.map(({ copies }) => copies));
    this.area = new Float64Array(this.sets.states);
    for (let state = 1; state < this.sets.states; state++) {
      this.area[state] = this.sets
        .digits(state)
        .reduce((sum, count, kind) => sum + count * kinds[kind]!.width * kinds[kind]!.length, 0);
    }
  }

  /** Makes all fronts; false when the budget ended first. */
  run(budget: Budget): boolean {
    this.blocks.push(NO_FRONT);
    this.columns.push(NO_FRONT);
    let pairs = 0;
    for (let state = 1; state < this.sets.states; state++) {
      pairs += this.stages === 'any' ? this.makeBlocks(state) : this.makeRows(state);
      if (pairs < PAIRS_PER_NODE) continue;
      const nodes = Math.floor(pairs / PAIRS_PER_NODE);
      pairs -= nodes * PAIRS_PER_NODE;
      if (budget.spendMany(nodes)) return false;
    }
    return true;
  }

  /** Least length of a block of the state at most `width` wide; 0 for the empty state, Infinity where there is none. */
  shortest(state: number, width: number): number {
    if (state === 0) return 0;
    const front = this.blocks[state]!;
    let [low, high] = [0, front.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (front[middle]!.width <= width) low = middle + 1;
      else high = middle;
    }
    return low === 0 ? Number.POSITIVE_INFINITY : front[low - 1]!.length;
  }

  /** The tree of the shortest block of a state at most `width` wide, with its own width and length. */
  build(state: number, width: number): { tree: SheetTree; width: number; length: number } {
    if (state === 0) return { tree: REMNANT, width: 0, length: 0 };
    const box = this.blocks[state]!.findLast((entry) => entry.width <= width);
    if (box === undefined) throw new Error(`state ${state} has no block of width ${width}`);
    return { tree: this.rebuild(state, box, false), ...box };
  }

  private makeBlocks(state: number): number {
    const front = this.singleFront(state);
    let pairs = 0;
    this.sets.eachSub(state, (part) => {
      if (part === 0 || 2 * part > state) return;
      pairs++;
      this.joinBeside(front, this.blocks[part]!, this.blocks[state - part]!, state);
      this.joinAbove(front, this.blocks[part]!, this.blocks[state - part]!, state);
    });
    this.blocks.push(front);
    return pairs;
  }

  private makeRows(state: number): number {
    let pairs = 0;
    const column = this.singleFront(state);
    if (this.stages === 3) {
      this.sets.eachSub(state, (part) => {
        if (part === 0 || 2 * part > state) return;
        pairs++;
        this.joinAbove(column, this.columns[part]!, this.columns[state - part]!, state);
      });
    }
    this.columns.push(column);
    const row = [...column];
    this.sets.eachSub(state, (part) => {
      if (part === 0 || 2 * part > state) return;
      pairs++;
      this.joinBeside(row, this.blocks[part]!, this.blocks[state - part]!, state);
    });
    this.blocks.push(row);
    return pairs;
  }

  private singleFront(state: number): Front {
    const front: Front = [];
    const index = this.sets.single(state);
    if (index < 0) return front;
    const { width, length, quarterTurn } = this.kinds[index]!;
    this.offer(front, width, length, state);
    if (quarterTurn) this.offer(front, length, width, state);
    return front;
  }

  private joinBeside(front: Front, a: Front, b: Front, state: number): void {
    for (let i = 0, j = 0; i < a.length && j < b.length; ) {
      const [one, other] = [a[i]!, b[j]!];
      const width = one.width + other.width;
      if (width > this.limits.width) return;
      this.offer(front, width, Math.max(one.length, other.length), state);
      if (one.length >= other.length) i++;
      if (other.length >= one.length) j++;
    }
  }

  private joinAbove(front: Front, a: Front, b: Front, state: number): void {
    for (let i = a.length - 1, j = b.length - 1; i >= 0 && j >= 0; ) {
      const [one, other] = [a[i]!, b[j]!];
      const length = one.length + other.length;
      if (length > this.limits.length) return;
      this.offer(front, Math.max(one.width, other.width), length, state);
      if (one.width >= other.width) i--;
      if (other.width >= one.width) j--;
    }
  }

  /** Widths rise and lengths fall along a front. */
  private offer(front: Front, width: number, length: number, state: number): void {
    const { limits } = this;
    if (width > limits.width || length > limits.length) return;
    if (width * length - this.area[state]! > limits.spare) return;
    let [low, high] = [0, front.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (front[middle]!.width <= width) low = middle + 1;
      else high = middle;
    }
    if (low > 0 && front[low - 1]!.length <= length) return;
    const from = low > 0 && front[low - 1]!.width === width ? low - 1 : low;
    let to = low;
    while (to < front.length && front[to]!.length >= length) to++;
    front.splice(from, to - from, { width, length });
  }

  /** Finds again how a box was made; recursion goes no deeper than there are pieces in the state. */
  private rebuild(state: number, box: Front[number], column: boolean): SheetTree {
    const index = this.sets.single(state);
    if (index >= 0) {
      const turned = this.kinds[index]!.width !== box.width || this.kinds[index]!.length !== box.length;
      return { kind: 'piece', piece: index, quarterTurns: turned ? 1 : 0 };
    }
    const from = column ? this.columns : this.blocks;
    let tree: SheetTree | undefined;
    const tryJoin = (part: number, crosscut: boolean) => {
      for (const one of from[part]!) {
        for (const other of from[state - part]!) {
          if (tree !== undefined || !isJoin(one, other, box, crosscut)) continue;
          const halves = [
            this.rebuild(part, one, column),
            this.rebuild(state - part, other, column),
          ] as const;
          tree = joined(
            crosscut,
            box,
            [
              { tree: halves[0], ...one },
              { tree: halves[1], ...other },
            ],
            this.stages,
          );
        }
      }
    };
    this.sets.eachSub(state, (part) => {
      if (tree !== undefined || part === 0 || 2 * part > state) return;
      if (this.stages === 'any' || column) tryJoin(part, true);
      if (!column) tryJoin(part, false);
    });
    if (tree !== undefined) return tree;
    if (this.stages === 3 && !column) return this.rebuild(state, box, true);
    throw new Error(`no pair makes a block of ${box.width} by ${box.length}`);
  }
}

function isJoin(one: Front[number], other: Front[number], box: Front[number], crosscut: boolean): boolean {
  return crosscut
    ? one.length + other.length === box.length && Math.max(one.width, other.width) === box.width
    : one.width + other.width === box.width && Math.max(one.length, other.length) === box.length;
}

/** Blocks in one cut. With any stages each is filled up as a whole, else slot by slot, which adds no stage. */
function joined(
  crosscut: boolean,
  box: { width: number; length: number },
  parts: readonly { tree: SheetTree; width: number; length: number }[],
  stages: Stages,
): SheetTree {
  const direction = crosscut ? 'crosscut' : 'lengthwise';
  const filled = parts.flatMap(({ tree, width, length }): readonly SizedTree[] => {
    const [size, across] = crosscut ? [length, width] : [width, length];
    const whole = crosscut ? box.width : box.length;
    if (stages !== 'any') return filledParts(direction, tree, { size, across, whole });
    const padded = placedCut(crosscut ? 'lengthwise' : 'crosscut', [
      { tree, size: across },
      { tree: REMNANT, size: whole - across },
    ]);
    return [{ tree: padded, size }];
  });
  return placedCut(direction, filled);
}
