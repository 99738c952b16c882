/**
 * Most value from one sheet when copies are limited: bound and answer are brought together in rounds.
 *
 * ```
 * prices ──▶ bound, and sheets with surplus pieces left out
 *    │
 *    ├─────▶ builds within the bound, few at first, twice as many each round ──▶ better sheets, or a proof
 *    └─────▶ the best sheet, area by area cut anew                           ──▶ better sheets
 * ruin and recreate, by worth                                               ──▶ better sheets
 * ```
 */
import type { Kind, Stages } from '../instance.ts';
import type { Budget } from '../search/budget.ts';
import { seededRandom } from '../search/random.ts';
import { gridOf, operationsOf, roughGridOf, usableCopies } from './grid.ts';
import { type LimitedQuestion, LimitedSearch, operationsPerNode, type ValueAnswer } from './limited.ts';
import { PriceSearch } from './prices.ts';
import { Rework } from './rework.ts';
import { ValueRuin } from './ruin.ts';

export interface ValueQuestion {
  readonly kinds: readonly Kind[];
  readonly width: number;
  readonly length: number;
  readonly values: Float64Array;
  /** Worths of whole sheets are multiples of this. */
  readonly step: number;
  readonly stages: Stages;
  readonly seed: number;
}

/** Tables of more operations than this are first pictured roughly. */
const roughOperations = 1e6;
const roughRounds = 100;
const leastShare = 20_000;
/** Nodes up to which a table is small. */
const smallTable = 4000;
const reworkEffort = 60_000;
/** Setting up one attempt; it counts even where the bound settles it at once. */
const nodesPerAttempt = 300;

/**
 * The most valuable sheet that is found within the budget, and a bound.
 *
 * Rounds of doubling effort; in each the builds come first, then pieces singly and areas, once from the best sheet and
 * once from a fresh start, since each start has its own ways out.
 */
export function mostValue(question: ValueQuestion, budget: Budget): ValueAnswer {
  const { kinds, width, length, seed } = question;
  const copies = usableCopies(kinds, width, length);
  const grid = gridOf(kinds, width, length);
  const table = operationsOf(grid) / operationsPerNode;
  const looked = firstLook({ ...question, grid, copies, floor: 0 }, budget);
  const { search } = looked;
  let { ruin } = looked;
  const rework = new Rework({ ...question, copies, random: seededRandom(seed) });
  let round = 0;
  for (let share = Math.max(leastShare, 2 * table); !search.over; share *= 2) {
    search.improvePrices(share);
    search.searchBuilds(share);
    // Where a table costs next to nothing, builds most often prove the best at once.
    const proofLikely = search.near || (table < smallTable && share < 4 * leastShare);
    const effort = proofLikely ? share / 4 : 3 * share;
    if (ruin) anneal(ruin, search, budget, effort);
    if (question.stages !== 'any') continue;
    if (search.parts) rework.take(search.value, search.parts);
    reworkAreas(rework, search, budget, effort);
    if (!ruin || proofLikely || search.over) continue;
    round += 1;
    ruin = ValueRuin.of({ ...question, copies, seed: seed + round })!;
    anneal(ruin, search, budget, effort);
    const other = new Rework({ ...question, copies, random: seededRandom(seed + round) });
    if (ruin.parts) other.take(ruin.value, ruin.parts);
    reworkAreas(other, search, budget, effort);
  }
  return search.answer;
}

/** A plain sheet at once, then a bound by area and by unlimited copies, and prices that are about right. */
function firstLook(
  question: ValueQuestion & LimitedQuestion,
  budget: Budget,
): { search: LimitedSearch; ruin: ValueRuin | undefined } {
  const { copies, grid } = question;
  const ruin = ValueRuin.of(question);
  ruin?.start();
  const first = new LimitedSearch(question, budget);
  first.bound = Math.min(first.bound, areaBound(question, copies));
  if (ruin) first.take(ruin.value, ruin.parts);
  const table = operationsOf(grid) / operationsPerNode;
  const large = table >= smallTable;
  if (ruin && large) anneal(ruin, first, budget, leastShare);
  if (!first.over) first.improvePrices(1);
  if (ruin && large) anneal(ruin, first, budget, Math.max(leastShare, table));
  const prices = first.over ? undefined : roughPrices(question, copies, budget);
  if (!prices) return { search: first, ruin };
  const search = new LimitedSearch({ ...question, prices }, budget);
  search.take(first.value, first.parts);
  search.bound = first.bound;
  return { search, ruin };
}

/** Most value by area alone: the pieces worth most for their area first, the last one in part. */
function areaBound({ kinds, width, length, values, step }: ValueQuestion, copies: Int32Array): number {
  const area = (kind: number): number => kinds[kind]!.width * kinds[kind]!.length;
  const order = kinds.map((_, kind) => kind).filter((kind) => copies[kind]! > 0);
  order.sort((a, b) => values[b]! * area(a) - values[a]! * area(b));
  let left = width * length;
  let value = 0;
  for (const kind of order) {
    const many = Math.min(copies[kind]!, left / area(kind));
    value += many * values[kind]!;
    left -= many * area(kind);
  }
  // A hair above, since a part of a piece may have been rounded down.
  return Math.floor((value * (1 + 1e-12)) / step) * step;
}

/** Reworks the best sheet, wherever it was found, area by area. */
function reworkAreas(rework: Rework, search: LimitedSearch, budget: Budget, effort: number): void {
  const until = budget.nodes + effort;
  while (!search.over && budget.nodes < until) {
    const spent = rework.attempt(reworkEffort, search.prices.prices, () => budget.spendMany(0));
    budget.spendMany(nodesPerAttempt + spent);
    search.take(rework.value, rework.parts);
  }
}

function anneal(ruin: ValueRuin, search: LimitedSearch, budget: Budget, share: number): void {
  if (search.over) return;
  const until = budget.nodes + share;
  ruin.run((nodes) => {
    search.take(ruin.value, ruin.parts);
    return budget.spendMany(nodes) || search.over || budget.nodes >= until;
  });
  search.take(ruin.value, ruin.parts);
}

/** Prices that are about right, from a rough picture of the sheet; undefined where the true one is as cheap. */
function roughPrices(
  { kinds, width, length, values }: ValueQuestion,
  copies: Int32Array,
  budget: Budget,
): Float64Array | undefined {
  const grid = roughGridOf(kinds, width, length, roughOperations);
  if (!grid) return undefined;
  const rough = new PriceSearch({ grid, copies, values });
  let operations = 0;
  const spend = (more: number): boolean => {
    operations += more;
    const nodes = Math.floor(operations / operationsPerNode);
    operations -= nodes * operationsPerNode;
    return budget.spendMany(nodes);
  };
  while (rough.rounds < roughRounds && !rough.settled) {
    if (!rough.step(0.98 * rough.bound, spend, () => {})) break;
  }
  return rough.prices;
}
