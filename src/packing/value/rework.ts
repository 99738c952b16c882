/**
 * Betters a sheet by cutting some of its area anew.
 *
 * Some neighbouring parts of one cut, with the slack of that cut, make a smaller sheet; its best, from the pieces in it
 * and those left out, is the same question over again and often answered exactly in a moment (large neighbourhood
 * search, Shaw 1998, on cut trees). The area grows while answers are proven and shrinks while they are not.
 */
import type { Kind, Stages } from '../instance.ts';
import { Budget } from '../search/budget.ts';
import type { Random } from '../search/random.ts';
import { gridOf, operationsOf, usableCopies } from './grid.ts';
import { LimitedSearch, operationsPerNode } from './limited.ts';
import { countsIn, type Parts, type RowOfParts, rowOf } from './parts.ts';

export interface Reworking {
  readonly kinds: readonly Kind[];
  readonly width: number;
  readonly length: number;
  readonly copies: Int32Array;
  readonly values: Float64Array;
  readonly step: number;
  readonly random: Random;
  readonly stages: Stages;
}

/** A cut of the sheet with the room it has. */
interface Spot {
  readonly node: RowOfParts;
  readonly path: readonly number[];
  readonly width: number;
  readonly length: number;
}

export class Rework {
  parts: Parts | undefined;
  value = 0;
  /** Part of the sheet's area that is cut anew at once. */
  private share = 0.15;
  private readonly what: Reworking;

  constructor(what: Reworking) {
    this.what = what;
  }

  /** Goes on from a better sheet found elsewhere. */
  take(value: number, parts: Parts): void {
    if (value <= this.value) return;
    this.value = value;
    this.parts = parts;
  }

  /** Cuts one area anew with at most `effort` nodes; returns the nodes spent. */
  attempt(effort: number, prices: Float64Array, stop: () => boolean): number {
    const { random, values } = this.what;
    const whole = this.parts;
    if (!whole) return 0;
    const spots = spotsOf(whole, this.what.width, this.what.length);
    const spot = spots[random.below(spots.length)]!;
    const { chosen, width, length } = this.choose(spot);
    const inside = countsIn(
      chosen.map((index) => spot.node.parts[index]!),
      values.length,
    );
    const worth = inside.reduce((sum, many, kind) => sum + many * values[kind]!, 0);
    const used = countsIn([whole], values.length);
    const free = this.what.copies.map((many, kind) => many - used[kind]! + inside[kind]!);
    const found = this.solve({ width, length, free, floor: worth - this.what.step, effort, prices, stop });
    if (found.parts) {
      this.replace(spot, chosen, found.parts);
      this.value += found.value - worth;
    }
    return found.nodes;
  }

  private choose({ node, width, length }: Spot): {
    chosen: readonly number[];
    width: number;
    length: number;
  } {
    const { random } = this.what;
    const most = this.share * (0.5 + random.unit()) * this.what.width * this.what.length;
    const across = node.along ? width : length;
    let size =
      (node.along ? length : width) - node.parts.reduce((sum, part) => sum + sizeAlong(part, node.along), 0);
    const order = node.parts.map((_, index) => index);
    for (let index = order.length - 1; index > 0; index -= 1) {
      const other = random.below(index + 1);
      [order[index], order[other]] = [order[other]!, order[index]!];
    }
    // By place, not by part: alike parts may be one and the same object.
    const chosen: number[] = [];
    for (const index of order) {
      const next = size + sizeAlong(node.parts[index]!, node.along);
      if (chosen.length > 0 && next * across > most) continue;
      chosen.push(index);
      size = next;
    }
    return node.along ? { chosen, width, length: size } : { chosen, width: size, length };
  }

  private solve(area: {
    width: number;
    length: number;
    free: Int32Array;
    floor: number;
    effort: number;
    prices: Float64Array;
    stop: () => boolean;
  }): { parts: Parts | undefined; value: number; nodes: number } {
    const { values, step } = this.what;
    const kinds = this.what.kinds.map((kind, index) => ({ ...kind, copies: area.free[index]! }));
    const grid = gridOf(kinds, area.width, area.length);
    const copies = usableCopies(kinds, area.width, area.length);
    const budget = new Budget({ effort: area.effort, seed: 0, stop: area.stop });
    const search = new LimitedSearch(
      { grid, copies, values, step, stages: 'any', floor: area.floor, prices: area.prices },
      budget,
    );
    let share = Math.max(1000, (3 * operationsOf(grid)) / operationsPerNode);
    for (; !search.over; share *= 2) search.round(share);
    const proven = search.value >= search.bound;
    this.share = Math.min(0.6, Math.max(0.02, this.share * (proven ? 1.02 : 0.96)));
    return { parts: search.parts, value: search.value, nodes: budget.nodes };
  }

  private replace(spot: Spot, chosen: readonly number[], by: Parts): void {
    const { node, path } = spot;
    const kept = node.parts.filter((_, index) => !chosen.includes(index));
    let fresh = rowOf([...kept, by], node.along)!;
    const above: RowOfParts[] = [];
    let at = this.parts!;
    for (const index of path) {
      if (!('parts' in at)) break;
      above.push(at);
      at = at.parts[index]!;
    }
    for (let depth = path.length - 1; depth >= 0; depth -= 1) {
      const { parts, along } = above[depth]!;
      fresh = rowOf(
        parts.map((part, index) => (index === path[depth] ? fresh : part)),
        along,
      )!;
    }
    this.parts = fresh;
  }
}

function sizeAlong(part: Parts, along: boolean): number {
  return along ? part.length : part.width;
}

/** Every cut of the sheet; the sheet itself counts as a cut of one part where it is not cut. */
function spotsOf(root: Parts, width: number, length: number): Spot[] {
  const whole =
    'parts' in root ? root : { width: root.width, length: root.length, along: true, parts: [root] };
  const spots: Spot[] = [{ node: whole, path: [], width, length }];
  for (let index = 0; index < spots.length; index += 1) {
    const { node, path, width: wide, length: long } = spots[index]!;
    node.parts.forEach((part, at) => {
      if (!('parts' in part)) return;
      const room = node.along ? { width: wide, length: part.length } : { width: part.width, length: long };
      spots.push({ node: part, path: [...path, at], ...room });
    });
  }
  return spots;
}
