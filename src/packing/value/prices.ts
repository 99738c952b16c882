/**
 * Prices that stand for the limited copies: a Lagrangean bound on the value of one sheet.
 *
 * With a price λ ≥ 0 on each copy, a sheet of n copies within the limits b is worth Σ v·n ≤ Σ (v − λ)·n + Σ λ·b, and the
 * first sum is at most the best with unlimited copies. The prices are improved by subgradient steps (Held, Wolfe &
 * Crowder 1974), each price in proportion to the worth of its kind. They are kept to multiples of a power of two, so that all sums are exact.
 */
import type { Stages } from '../instance.ts';
import { countsOf } from './counts.ts';
import type { Grid } from './grid.ts';
import type { Parts } from './parts.ts';
import { partsOfTable } from './sheet-trees.ts';
import { stagedSheet } from './staged.ts';
import { type Spend, type ValueTable, valueTable } from './unlimited.ts';

export interface Limited {
  readonly grid: Grid;
  readonly copies: Int32Array;
  readonly values: Float64Array;
}

/** A sheet worth `value`, pieces above the limits left out. */
export interface FoundSheet {
  readonly value: number;
  parts(): Parts | undefined;
}

/** The best with unlimited copies at their prices. */
interface Relaxed {
  readonly worth: number;
  readonly counts: Int32Array;
  parts(): Parts | undefined;
}

/** Below this part of a full step the prices are taken as found. */
const leastPace = 1e-3;

export class PriceSearch {
  bound = Number.POSITIVE_INFINITY;
  /** Prices that give `bound`. */
  readonly prices: Float64Array;
  rounds = 0;
  /** The prices are as good as they get. */
  settled = false;
  private readonly limited: Limited;
  private readonly current: Float64Array;
  private readonly direction: Float64Array;
  /** Kinds that the grid rounds to nothing: all their copies are paid for, and their price must stay their worth. */
  private readonly pinned: Uint8Array;
  private readonly grain: number;
  private readonly stages: Stages;
  private table: ValueTable | undefined;
  private pace: number;
  private idle = 0;

  /** Starts from `prices` where they are given, with strides of `pace` full steps; bounds sheets of so many stages. */
  constructor(limited: Limited, prices?: Float64Array, pace = 1, stages: Stages = 'any') {
    this.limited = limited;
    this.pace = pace;
    this.stages = stages;
    const { values, copies, grid } = limited;
    const total = values.reduce((sum, value, kind) => sum + value * copies[kind]!, 0);
    this.grain = total < 2 ** 40 ? 256 : 1;
    this.current = prices?.slice() ?? new Float64Array(values.length);
    this.direction = new Float64Array(values.length);
    this.pinned = new Uint8Array(values.length);
    for (const { kind, coarseWidth, coarseLength } of grid.laid) {
      if (coarseWidth > 0 && coarseLength > 0) continue;
      this.pinned[kind] = 1;
      this.current[kind] = values[kind]!;
    }
    this.prices = this.current.slice();
  }

  /** One subgradient step towards `goal`, the best value known; false when ended early. */
  step(goal: number, spend: Spend, found: (sheet: FoundSheet) => void): boolean {
    const { grid, values, copies } = this.limited;
    const reduced = values.map((value, kind) => value - this.current[kind]!);
    const relaxed = this.relaxed(reduced, spend);
    if (!relaxed) return false;
    this.rounds += 1;
    const { counts } = relaxed;
    const paid = copies.reduce((sum, many, kind) => sum + many * this.current[kind]!, 0);
    const bound = relaxed.worth + paid;
    if (grid.coarse === 1) {
      const value = counts.reduce((sum, many, k) => sum + Math.min(many, copies[k]!) * values[k]!, 0);
      found({ value, parts: relaxed.parts });
    }
    this.remember(bound);
    this.move(bound, goal, counts);
    return true;
  }

  private relaxed(reduced: Float64Array, spend: Spend): Relaxed | undefined {
    const { grid, copies } = this.limited;
    if (this.stages !== 'any') {
      const sheet = stagedSheet(grid, reduced, this.stages, spend);
      return sheet && { ...sheet, parts: () => sheet.partsWithin(copies) };
    }
    const table = valueTable(grid, reduced, spend, this.table);
    this.table = table;
    if (!table) return undefined;
    const last = table.best.length - 1;
    return {
      worth: table.best[last]!,
      counts: countsOf(table, reduced, last),
      parts: () => partsOfTable(table, reduced, copies),
    };
  }

  private remember(bound: number): void {
    if (bound < this.bound) {
      this.idle = bound < this.bound - 1e-5 * this.bound ? 0 : this.idle + 1;
      this.bound = bound;
      this.prices.set(this.current);
    } else this.idle += 1;
    if (this.idle < 8) return;
    this.idle = 0;
    this.pace /= 2;
    if (this.pace < leastPace) this.settled = true;
    this.current.set(this.prices);
    this.direction.fill(0);
  }

  private move(bound: number, goal: number, counts: Int32Array): void {
    const { values, copies } = this.limited;
    let square = 0;
    for (let kind = 0; kind < counts.length; kind += 1) {
      if (this.pinned[kind] === 1) continue;
      const over = counts[kind]! - copies[kind]!;
      const pushed = over > 0 || this.current[kind]! > 0 ? over : 0;
      this.direction[kind] = 0.2 * this.direction[kind]! + pushed;
      square += this.direction[kind]! ** 2 * values[kind]! ** 2;
    }
    if (square === 0) {
      this.settled = true;
      return;
    }
    const stride = (this.pace * Math.max(bound - goal, bound * 1e-4)) / square;
    for (let kind = 0; kind < counts.length; kind += 1) {
      if (this.pinned[kind] === 1) continue;
      const price = this.current[kind]! + stride * values[kind]! ** 2 * this.direction[kind]!;
      const rounded = Math.round(price * this.grain) / this.grain;
      this.current[kind] = Math.min(values[kind]!, Math.max(0, rounded));
    }
  }
}
