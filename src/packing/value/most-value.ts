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
import { LimitedSearch, operationsPerNode, type ValueAnswer } from './limited.ts';
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
const reworkEffort = 60_000;

export function mostValue(question: ValueQuestion, budget: Budget): ValueAnswer {
  const { kinds, width, length, stages } = question;
  const copies = usableCopies(kinds, width, length);
  const ruin = ValueRuin.of({ ...question, copies });
  ruin?.start();
  const grid = gridOf(kinds, width, length);
  const limited = { ...question, grid, copies, floor: 0 };
  const first = new LimitedSearch(limited, budget);
  if (ruin) first.take(ruin.value, ruin.parts);
  first.improvePrices(1);
  if (first.over) return first.answer;
  const prices = roughPrices(question, copies, budget);
  const search = prices ? new LimitedSearch({ ...limited, prices }, budget) : first;
  search.take(first.value, first.parts);
  search.bound = Math.min(search.bound, first.bound);
  const random = seededRandom(question.seed);
  const table = operationsOf(grid) / operationsPerNode;
  for (let share = Math.max(leastShare, 6 * table); !search.over; share *= 2) {
    search.round(share);
    if (search.over) break;
    const effort = search.near ? share / 2 : 2 * share;
    if (ruin) anneal(ruin, search, budget, effort);
    if (stages !== 'any' || !search.parts) continue;
    const rework = new Rework({ ...question, copies, random }, search.parts, search.value);
    const until = budget.nodes + effort;
    while (!search.over && budget.nodes < until) {
      budget.spendMany(rework.attempt(reworkEffort, search.prices.prices, () => budget.spendMany(0)));
      search.take(rework.value, rework.parts);
    }
  }
  return search.answer;
}

function anneal(ruin: ValueRuin, search: LimitedSearch, budget: Budget, share: number): void {
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
