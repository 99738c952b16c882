/** An exact number: a fraction in lowest terms, denominator > 0. */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

/** The fraction in lowest terms. Throws when the denominator is 0. */
export function rational(numerator: bigint, denominator: bigint = 1n): Rational {
  if (denominator === 0n) throw new RangeError('a fraction with nothing below the line');
  const sign = denominator < 0n ? -1n : 1n;
  const divisor = commonDivisor(numerator, denominator);
  return { numerator: (sign * numerator) / divisor, denominator: (sign * denominator) / divisor };
}

export function add(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function multiply(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.numerator, a.denominator * b.denominator);
}

/** Below 0 when a < b, 0 when equal, above 0 when a > b. */
export function compare(a: Rational, b: Rational): number {
  const difference = a.numerator * b.denominator - b.numerator * a.denominator;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** The nearest whole number not below (`up`) or not above (`down`). */
export function roundToWhole(value: Rational, direction: 'up' | 'down'): bigint {
  const quotient = value.numerator / value.denominator;
  const exact = quotient * value.denominator === value.numerator;
  if (exact) return quotient;
  // bigint division cuts towards zero, which is up below zero and down above it.
  if (direction === 'up') return value.numerator > 0n ? quotient + 1n : quotient;
  return value.numerator > 0n ? quotient : quotient - 1n;
}

function commonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? 1n : x;
}
