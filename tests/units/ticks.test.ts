import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatBuy } from '../../src/units/format.ts';
import { parseLength } from '../../src/units/parse.ts';
import { compare, rational, roundToWhole } from '../../src/units/rational.ts';
import { likelySpelling } from '../../src/units/spelling.ts';
import {
  ceilDiv,
  ceilTo,
  floorDiv,
  floorTo,
  TICKS_PER_INCH,
  TICKS_PER_METRE,
  TICKS_PER_MM,
  TICKS_PER_YARD,
  ticks,
} from '../../src/units/ticks.ts';

const read = (text: string) => {
  const parsed = parseLength(text, { unit: 'in', round: 'up' });
  if (!parsed.ok) throw new Error(parsed.reason);
  return parsed.value;
};

describe('published values', () => {
  // Federal Register, 1 July 1959, "Refinement of Values for the Yard and the Pound": 1 yd = 0.9144 m, 1 in = 25.4 mm.
  test('the yard and the inch of 1959', () => {
    expect(read('1 yd')).toBe(read('0.9144 m'));
    expect(read('1 in')).toBe(read('25.4 mm'));
    expect(TICKS_PER_YARD * 10_000).toBe(TICKS_PER_METRE * 9144);
    expect(TICKS_PER_INCH * 10).toBe(TICKS_PER_MM * 254);
  });

  // Same source: an eighth of a yard is 4.5 in = 114.3 mm.
  test('an eighth of a yard', () => {
    expect(read('1/8 yd')).toBe(read('4.5 in'));
    expect(read('1/8 yd')).toBe(read('114.3 mm'));
  });

  // Encyclopaedia article "Yard" (2015 revision): cloth is sold by halves, quarters, eighths and sixteenths;
  // the sixteenth is the nail, 2 1/4 in.
  test('the divisions of the cloth yard', () => {
    expect([read('1/2 yd'), read('1/4 yd'), read('1/8 yd'), read('1/16 yd')]).toEqual([
      read('18 in'),
      read('9 in'),
      read('4 1/2 in'),
      read('2 1/4 in'),
    ]);
  });

  // Common practice, no published source: shops cut to 1/8 yd, or to 10 cm, and a purchase is rounded up.
  test.each([
    ['36 in', '1 yd'],
    ['37 in', '1 1/8 yd'],
    ['40.5 in', '1 1/8 yd'],
    ['41 in', '1 1/4 yd'],
    ['57 in', '1 5/8 yd'],
    ['114 in', '3 1/4 yd'],
    ['176 in', '5 yd'],
    ['484 in', '13 1/2 yd'],
  ])('a need of %s is bought as %s', (need, bought) => {
    expect(formatBuy(ceilTo(read(need), read('1/8 yd')), { unit: 'in' })).toBe(bought);
  });

  test('a need of 121 cm is bought as 1.3 m', () => {
    expect(formatBuy(ceilTo(read('121 cm'), read('10 cm')), { unit: 'cm' })).toBe('1.3 m');
  });
});

test('every mark of 1/64 in and every millimetre is a whole number of ticks', () => {
  expect(Number.isInteger(TICKS_PER_INCH / 64)).toBe(true);
  expect(TICKS_PER_INCH / 64).toBe(127);
  expect(TICKS_PER_MM).toBe(320);
});

test('a usable 41 7/16 in is 41 3/8 in on a ruler of eighths, a piece of 13 13/16 in is 13 7/8 in', () => {
  const eighth = read('1/8 in');
  expect(floorTo(read('41 7/16 in'), eighth)).toBe(read('41 3/8 in'));
  expect(ceilTo(read('13 13/16 in'), eighth)).toBe(read('13 7/8 in'));
  expect(read('41 7/16 in')).toBe(3 * read('13 13/16 in'));
  expect(3 * ceilTo(read('13 13/16 in'), eighth)).toBeGreaterThan(floorTo(read('41 7/16 in'), eighth));
});

test('division rounds to whole ticks as exact arithmetic does', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -(2 ** 50), max: 2 ** 50 }),
      fc.integer({ min: 1, max: 2 ** 31 }),
      (numerator, denominator) => {
        const exact = rational(BigInt(numerator), BigInt(denominator));
        expect(BigInt(ceilDiv(numerator, denominator))).toBe(roundToWhole(exact, 'up'));
        expect(BigInt(floorDiv(numerator, denominator))).toBe(roundToWhole(exact, 'down'));
        expect(compare(rational(BigInt(floorDiv(numerator, denominator))), exact)).toBeLessThanOrEqual(0);
      },
    ),
    { seed: 6, numRuns: 500 },
  );
});

test('rounding to a mark: on the mark nothing moves, off it the nearest mark that way', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 10_000_000 }),
      fc.integer({ min: 1, max: 9000 }),
      (length, mark) => {
        const up = ceilTo(ticks(length), ticks(mark));
        const down = floorTo(ticks(length), ticks(mark));
        expect([up % mark, down % mark]).toEqual([0, 0]);
        expect(down <= length && length <= up).toBe(true);
        expect(up - down).toBe(length % mark === 0 ? 0 : mark);
      },
    ),
    { seed: 7, numRuns: 500 },
  );
});

test('what is no whole number is no number of ticks', () => {
  for (const bad of [0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53]) {
    expect(() => ticks(bad)).toThrow('not a whole number of ticks');
  }
  expect(Object.is(ticks(-0), 0)).toBe(true);
});

describe('the likely spelling', () => {
  const known = ['selvedge', 'print runs', 'squaring', 'width', 'washing'];
  test.each([
    ['selvage', 'selvedge'],
    ['selvdege', 'selvedge'],
    ['print-runs', 'print runs'],
    ['printRuns', 'print runs'],
    ['with', 'width'],
    ['WIDTH', 'width'],
    ['squareing', 'squaring'],
  ])('%s: %s', (found, likely) => {
    expect(likelySpelling(found, known)).toBe(likely);
  });

  test.each([
    '',
    'colour',
    'q',
    'a very long key that means something else altogether and goes on and on and on',
  ])('%j is near nothing', (found) => {
    expect(likelySpelling(found, known)).toBeUndefined();
  });
});
