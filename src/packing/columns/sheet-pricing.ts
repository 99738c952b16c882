/**
 * The most that one sheet can hold when each shape has a worth: a sheet worth more than it costs, or a proof that there
 * is none (value/limited.ts).
 */
import { SIDE_BY_SIDE, STACKED } from '../guillotine/cut-forest.ts';
import type { BlockKind } from '../guillotine/pareto.ts';
import type { Part } from '../guillotine/part.ts';
import type { BoundSheet } from '../guillotine/simple-bounds.ts';
import { Budget } from '../search/budget.ts';
import { gridOf, usableCopies } from '../value/grid.ts';
import { LimitedSearch } from '../value/limited.ts';
import type { Parts } from '../value/parts.ts';

export interface Priced {
  /** Worth of the best sheet found above the floor, else the floor. */
  readonly value: number;
  /** No sheet is worth more. */
  readonly bound: number;
  readonly part: Part | undefined;
  readonly nodes: number;
}

/** Nodes of the first round; each further one has twice as many. */
const FIRST_SHARE = 2000;

/**
 * `worth` in whole numbers, shape by shape; only sheets worth more than `floor` are looked for. Ends as soon as one is
 * worth more than `enough`, the bound meets the value, or `effort` nodes are spent.
 */
export function priceSheet(
  shapes: readonly BlockKind[],
  sheet: BoundSheet,
  worth: Float64Array,
  limits: {
    readonly floor: number;
    readonly enough: number;
    readonly effort: number;
    readonly stages: 2 | 3 | 'any';
    readonly stop: () => boolean;
  },
): Priced {
  const kinds = shapes.map(({ width, length, copies, turnable }, shape) => ({
    width,
    length,
    copies: worth[shape]! > 0 ? copies : 0,
    quarterTurn: turnable,
  }));
  const { width, length } = sheet;
  const budget = new Budget({ effort: limits.effort, seed: 0, stop: limits.stop });
  const search = new LimitedSearch(
    {
      grid: gridOf(kinds, width, length),
      copies: usableCopies(kinds, width, length),
      values: worth,
      step: 1,
      stages: limits.stages,
      floor: limits.floor,
    },
    budget,
  );
  for (let share = FIRST_SHARE; !search.over && search.value <= limits.enough; share *= 2)
    search.round(share);
  return {
    value: search.value,
    bound: Math.max(search.value, search.bound),
    part: search.parts && partOf(search.parts),
    nodes: budget.nodes,
  };
}

/** The same sheet in the words of the cut forest. Uses its own stack. */
function partOf(parts: Parts): Part {
  const top: Part[] = [];
  const waiting: { parts: Parts; into: Part[] }[] = [{ parts, into: top }];
  for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
    const { parts: from, into } = task;
    const { width, length } = from;
    if (!('parts' in from)) {
      into.push({ kind: 'piece', piece: from.kind, turned: from.turned, width, length });
      continue;
    }
    const inner: Part[] = [];
    into.push({ kind: 'join', direction: from.along ? STACKED : SIDE_BY_SIDE, parts: inner, width, length });
    for (const child of from.parts) waiting.push({ parts: child, into: inner });
  }
  return top[0]!;
}
