import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { areaOf, formatArea, formatPercent } from '../../src/units/area.ts';
import {
  formatBuy,
  formatHem,
  formatLength,
  formatMoney,
  formatSize,
  type LengthStyle,
} from '../../src/units/format.ts';
import { parseHem, parseLength, parseSize } from '../../src/units/parse.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_MM, TICKS_PER_YARD, ticks } from '../../src/units/ticks.ts';

const sixtyFourths = (count: number) => ticks((count * TICKS_PER_INCH) / 64);
const millimetres = (count: number) => ticks(count * TICKS_PER_MM);

describe('lengths as they are written back', () => {
  test.each([
    [1112, '17 3/8 in', '17⅜ in'],
    [24, '3/8 in', '⅜ in'],
    [1088, '17 in', '17 in'],
    [0, '0 in', '0 in'],
    [1124, '17 9/16 in', '17 9/16 in'],
    [1111, '17 23/64 in', '17 23/64 in'],
    [1090, '17 1/32 in', '17 1/32 in'],
  ])('%i/64 in', (count, plain, glyph) => {
    expect(formatLength(sixtyFourths(count), { unit: 'in' })).toBe(plain);
    expect(formatLength(sixtyFourths(count), { unit: 'in', fractions: 'glyph' })).toBe(glyph);
  });

  test.each([
    [545, '54.5 cm'],
    [40, '4 cm'],
    [7, '0.7 cm'],
    [0, '0 cm'],
  ])('%i mm', (count, written) => {
    expect(formatLength(millimetres(count), { unit: 'cm' })).toBe(written);
  });

  test('a length between the finest marks is never passed off as the mark', () => {
    expect(formatLength(ticks(17 * TICKS_PER_INCH + 1), { unit: 'in' })).toBe('just over 17 in');
    expect(formatLength(ticks(17 * TICKS_PER_INCH - 1), { unit: 'in' })).toBe('just over 16 63/64 in');
    expect(formatLength(ticks(40 * TICKS_PER_CM + 1), { unit: 'cm' })).toBe('just over 40 cm');
    expect(formatLength(ticks(40 * TICKS_PER_CM + 64), { unit: 'cm' })).toBe('40.02 cm');
  });

  test('negative lengths keep their sign', () => {
    expect(formatLength(sixtyFourths(-88), { unit: 'in' })).toBe('-1 3/8 in');
  });

  test('sizes and hems name the unit once', () => {
    const size = { width: sixtyFourths(1120), length: sixtyFourths(888) };
    expect(formatSize(size, { unit: 'in' })).toBe('17 1/2 x 13 7/8 in');
    expect(formatSize(size, { unit: 'in', fractions: 'glyph', withUnit: false })).toBe('17½ × 13⅞');
    expect(formatHem({ visible: millimetres(25), under: millimetres(8) }, { unit: 'cm' })).toBe(
      '2.5 + 0.8 cm',
    );
  });
});

describe('lengths as they are asked for at the counter', () => {
  test.each([
    [49.5, '1 3/8 yd'],
    [72, '2 yd'],
    [27, '3/4 yd'],
    [12, '1/3 yd'],
    [2.25, '1/16 yd'],
    [50, '1 yd 14 in'],
    [37.5, '1 yd 1 1/2 in'],
    [1, '1 in'],
  ])('%d in', (count, written) => {
    expect(formatBuy(sixtyFourths(count * 64), { unit: 'in' })).toBe(written);
  });

  test.each([
    [1300, '1.3 m'],
    [2000, '2 m'],
    [1250, '1.25 m'],
    [90, '0.09 m'],
    [1255, '125.5 cm'],
  ])('%d mm', (count, written) => {
    expect(formatBuy(millimetres(count), { unit: 'cm' })).toBe(written);
  });
});

test('money', () => {
  expect(formatMoney(1480, '$')).toBe('$14.80');
  expect(formatMoney(305, '€')).toBe('€3.05');
  expect(formatMoney(1480, 'EUR')).toBe('EUR 14.80');
  expect(formatMoney(7, '')).toBe('0.07');
});

test('areas', () => {
  const inch = (count: number) => ticks(count * TICKS_PER_INCH);
  expect(formatArea(areaOf({ width: inch(18), length: inch(17.5) }), { unit: 'in' })).toBe('315 sq in');
  expect(formatArea(areaOf({ width: inch(54), length: inch(90) }), { unit: 'in' })).toBe('3.75 sq yd');
  expect(formatArea(areaOf({ width: millimetres(400), length: millimetres(605) }), { unit: 'cm' })).toBe(
    '2420 cm²',
  );
  expect(formatArea(areaOf({ width: millimetres(1400), length: millimetres(2500) }), { unit: 'cm' })).toBe(
    '3.5 m²',
  );
  expect(() => areaOf({ width: ticks(2 ** 40), length: ticks(2 ** 20) })).toThrow('square ticks');
});

test('only the whole of it is 100 %', () => {
  expect(formatPercent(7, 8)).toBe('87.5 %');
  expect(formatPercent(999_999, 1_000_000)).toBe('99.9 %');
  expect(formatPercent(3, 3)).toBe('100.0 %');
  expect(() => formatPercent(1, 0)).toThrow('no whole');
});

describe('what is written reads back as the same length', () => {
  const styles: readonly LengthStyle[] = [
    { unit: 'in' },
    { unit: 'in', fractions: 'glyph' },
    { unit: 'in', withUnit: false },
    { unit: 'cm' },
    { unit: 'cm', withUnit: false },
  ];
  const marks = fc.integer({ min: 0, max: 64 * 400 });

  test('lengths, on every mark, in every style', () => {
    fc.assert(
      fc.property(marks, fc.constantFrom(...styles), fc.constantFrom('up', 'down'), (count, style, round) => {
        const length = style.unit === 'in' ? sixtyFourths(count) : ticks(count * 32);
        const text = formatLength(length, style);
        expect(parseLength(text, { unit: style.unit, round })).toEqual({ ok: true, value: length });
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  test('buys: yards and inches, metres and centimetres', () => {
    fc.assert(
      fc.property(
        marks,
        fc.constantFrom(...styles.filter((style) => style.withUnit !== false)),
        (count, style) => {
          const length = style.unit === 'in' ? ticks(count * (TICKS_PER_YARD / 64)) : ticks(count * 32);
          const text = formatBuy(length, style);
          fc.pre(!text.includes('just over'));
          expect(parseLength(text, { unit: style.unit, round: 'up' })).toEqual({ ok: true, value: length });
        },
      ),
      { seed: 4, numRuns: 500 },
    );
  });

  test('sizes and hems', () => {
    fc.assert(
      fc.property(marks, marks, fc.constantFrom(...styles), (first, second, style) => {
        const of = (count: number) => (style.unit === 'in' ? sixtyFourths(count) : ticks(count * 32));
        const reading = { unit: style.unit, round: 'up' } as const;
        const size = { width: of(first), length: of(second) };
        const hem = { visible: of(first), under: of(second) };
        expect(parseSize(formatSize(size, style), reading)).toEqual({ ok: true, value: size });
        expect(parseHem(formatHem(hem, style), reading)).toEqual({ ok: true, value: hem });
      }),
      { seed: 5, numRuns: 500 },
    );
  });
});
