import { commonDivisor, scaleOf } from '../guillotine/pieces.ts';
import type { MostQuestion } from '../instance.ts';
import { gridOf, usableCopies } from '../value/grid.ts';
import { PriceSearch } from '../value/prices.ts';

const rounds = 40;

/**
 * A total value that one sheet cannot exceed with any straight cuts, forbidden boxes or not; with a `set`, a number of
 * complete sets.
 *
 * The best with unlimited copies, each copy priced so that the limits tell (value/prices.ts), after a fixed number of
 * subgradient steps, or as soon as they have taken so many operations: fewer steps say less, and nothing wrong.
 */
export function valueBound(question: MostQuestion, mostOperations = Number.POSITIVE_INFINITY): number {
  const { sheet, kinds, set } = question;
  if (set) return setsBound(question, set);
  const worth = kinds.map(({ value, width, length }) => value ?? width * length);
  const wanted = kinds.map((kind, index) => ({ ...kind, copies: worth[index]! > 0 ? kind.copies : 0 }));
  const scale = scaleOf(wanted);
  const scaled = wanted.map((kind) => ({
    ...kind,
    width: kind.width / scale.unitX,
    length: kind.length / scale.unitY,
  }));
  const width = Math.floor(sheet.width / scale.unitX);
  const length = Math.floor(sheet.length / scale.unitY);
  const copies = usableCopies(scaled, width, length);
  const values = Float64Array.from(worth);
  const total = values.reduce((sum, value, kind) => sum + value * copies[kind]!, 0);
  const unit = worth.reduce(
    (step, value, kind) => (copies[kind]! > 0 ? commonDivisor(step, value) : step),
    0,
  );
  if (unit === 0) return 0;
  const prices = new PriceSearch({ grid: gridOf(scaled, width, length), copies, values });
  let operations = 0;
  const spend = (more: number) => {
    operations += more;
    return operations > mostOperations;
  };
  while (prices.rounds < rounds && !prices.settled) {
    if (!prices.step(0.97 * prices.bound, spend, () => {})) break;
  }
  return Math.min(total, Math.floor(prices.bound / unit) * unit);
}

/** Sets by the copies at hand, and by the value of the pieces of one set, whichever is less. */
function setsBound(question: MostQuestion, set: readonly number[]): number {
  const { kinds } = question;
  const byCopies = Math.min(
    ...set.map((each, kind) => (each > 0 ? Math.floor(kinds[kind]!.copies / each) : Infinity)),
  );
  const inSet = kinds.map((kind, index) => ({ ...kind, copies: set[index]! > 0 ? kind.copies : 0 }));
  const { set: _, ...plain } = question;
  const each = inSet.reduce(
    (sum, { value, width, length }, index) => sum + set[index]! * (value ?? width * length),
    0,
  );
  return each === 0 ? 0 : Math.min(byCopies, Math.floor(valueBound({ ...plain, kinds: inSet }) / each));
}
