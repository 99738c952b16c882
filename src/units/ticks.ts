/**
 * The one length of the project: a whole number of ticks, 1/320 mm.
 *
 * 1 mm = 320 ticks and 1/64 in = 127 ticks exactly, since 1 in = 25.4 mm exactly
 * (Federal Register, 1 July 1959, "Refinement of Values for the Yard and the Pound").
 * Products of two lengths stay exact in a double up to 87 000 m².
 */
export type Ticks = number & { readonly __unit: 'tick' };

export const TICKS_PER_MM = 320;
export const TICKS_PER_INCH = 8128;
export const TICKS_PER_FOOT = 12 * TICKS_PER_INCH;
export const TICKS_PER_YARD = 36 * TICKS_PER_INCH;
export const TICKS_PER_CM = 10 * TICKS_PER_MM;
export const TICKS_PER_METRE = 1000 * TICKS_PER_MM;

/** Brands a whole number as ticks. Throws with the value when it is not a safe whole number. */
export function ticks(count: number): Ticks {
  if (!Number.isSafeInteger(count)) throw new RangeError(`not a whole number of ticks: ${count}`);
  return (count === 0 ? 0 : count) as Ticks;
}

/** `numerator / denominator` ticks, rounded up: for what is needed. Whole numbers in, denominator > 0. */
export function ceilDiv(numerator: number, denominator: number): Ticks {
  return ticks(Math.ceil(exactQuotient(numerator, denominator)));
}

/** `numerator / denominator` ticks, rounded down: for what is available. Whole numbers in, denominator > 0. */
export function floorDiv(numerator: number, denominator: number): Ticks {
  return ticks(Math.floor(exactQuotient(numerator, denominator)));
}

/** The least multiple of `mark` that is not below `length`. `mark` > 0. */
export function ceilTo(length: Ticks, mark: Ticks): Ticks {
  return ticks(length - modulo(length, mark) + (modulo(length, mark) === 0 ? 0 : mark));
}

/** The greatest multiple of `mark` that is not above `length`. `mark` > 0. */
export function floorTo(length: Ticks, mark: Ticks): Ticks {
  return ticks(length - modulo(length, mark));
}

export function sum(lengths: Iterable<number>): Ticks {
  let total = 0;
  for (const length of lengths) total += length;
  return ticks(total);
}

export function greatestCommonDivisor(a: number, b: number): number {
  let [x, y] = [Math.abs(a), Math.abs(b)];
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** Whole part plus a proper fraction, so that rounding of the quotient cannot cross a whole number. */
function exactQuotient(numerator: number, denominator: number): number {
  const rest = modulo(numerator, denominator);
  const whole = (numerator - rest) / denominator;
  return rest === 0 ? whole : whole + 0.5;
}

function modulo(value: number, by: number): number {
  if (!(by > 0)) throw new RangeError(`not a positive divisor: ${by}`);
  return ((value % by) + by) % by;
}
