import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseNumber } from '../../src/units/number.ts';
import { parseHem, parseLength, parseSize, type Reading } from '../../src/units/parse.ts';
import { rational } from '../../src/units/rational.ts';
import { TICKS_PER_INCH, TICKS_PER_MM } from '../../src/units/ticks.ts';

const inches: Reading = { unit: 'in', round: 'up' };
const centimetres: Reading = { unit: 'cm', round: 'up' };

function lengthOf(text: string, reading: Reading): number {
  const parsed = parseLength(text, reading);
  if (!parsed.ok) throw new Error(`${text} was refused: ${parsed.reason}`);
  return parsed.value;
}

describe('what people write', () => {
  // Expected values in 64ths of an inch, worked out by hand.
  test.each([
    ['17', 1088],
    ['17.25', 1104],
    ['.5', 32],
    ['17 3/8', 1112],
    ['17-3/8"', 1112],
    ['17⅜ in', 1112],
    ['17 ⅜″', 1112],
    ['17 3⁄8 inches', 1112],
    ['3/8', 24],
    ['9/8', 72],
    ['½', 32],
    ['1 yd', 2304],
    ['1 1/4 yards', 2880],
    ['1¼yds.', 2880],
    ['⅛ yd', 288],
    ['2 ft 3 in', 1728],
    ['1 yd 2 ft 3 1/2 in', 4064],
    [`5' 3"`, 4032],
    ['5’ 3½”', 4064],
    ['18 In', 1152],
    ['  18\u00a0in ', 1152],
    ['0', 0],
    ['17,5', 1120],
    ['1/3 yd', 768],
  ])('%s on an inch plan', (text, sixtyFourths) => {
    expect(lengthOf(text, inches)).toBe((sixtyFourths * TICKS_PER_INCH) / 64);
  });

  test.each([
    ['54,5 cm', 545],
    ['54.5', 545],
    ['1.5 m', 1500],
    ['380mm', 380],
    ['1 m 20 cm', 1200],
    ['0,125 m', 125],
    ['2 metres', 2000],
    ['3 centimeters', 30],
    ['1 1/2', 15],
  ])('%s on a centimetre plan', (text, millimetres) => {
    expect(lengthOf(text, centimetres)).toBe(millimetres * TICKS_PER_MM);
  });

  test('between two ticks, needs go up and what is available goes down', () => {
    // 0.1 in = 812.8 ticks; 1/3 cm = 1066.67 ticks.
    expect(lengthOf('0.1 in', { unit: 'in', round: 'up' })).toBe(813);
    expect(lengthOf('0.1 in', { unit: 'in', round: 'down' })).toBe(812);
    expect(lengthOf('1/3', { unit: 'cm', round: 'up' })).toBe(1067);
    expect(lengthOf('1/3', { unit: 'cm', round: 'down' })).toBe(1066);
  });

  test('the parts of a compound length are added before they are rounded', () => {
    // 1/3 yd + 1/3 ft = 16 in exactly; no part of it is rounded on the way.
    expect(lengthOf('1/3 yd 1/3 ft', inches)).toBe(16 * TICKS_PER_INCH);
  });
});

describe('what is refused, and why', () => {
  test.each([
    ['', 'empty', undefined],
    ['   ', 'empty', undefined],
    ['in', 'not-a-number', undefined],
    ['wide', 'not-a-number', undefined],
    ['NaN', 'not-a-number', undefined],
    ['Infinity', 'not-a-number', undefined],
    ['5.', 'not-a-number', undefined],
    ['1.5.2', 'not-a-number', undefined],
    ['+5', 'not-a-number', undefined],
    ['54 in wide', 'not-a-number', undefined],
    ['1'.repeat(70), 'not-a-number', undefined],
    ['-3', 'negative', undefined],
    ['−3 in', 'negative', undefined],
    ['1 yd -3 in', 'negative', undefined],
    ['1e3', 'exponent', undefined],
    ['2.5E-2 cm', 'exponent', undefined],
    ['1/0', 'zero-denominator', undefined],
    ['17 3/0', 'zero-denominator', undefined],
    ['17 9/8', 'improper-fraction', undefined],
    ['17 8/8', 'improper-fraction', undefined],
    ['17.3/8', 'decimal-and-fraction', undefined],
    ['17.5 3/8', 'decimal-and-fraction', undefined],
    ['17 3/8 8', 'two-numbers', undefined],
    ['17 8', 'two-numbers', undefined],
    ['3 / 8', 'two-numbers', undefined],
    ['17 - 3/8', 'two-numbers', undefined],
    ['1,234 in', 'thousands-or-decimal', '1234 or 1.234'],
    ['1 000', 'thousands-or-decimal', undefined],
    ['1,234.5', 'thousands-or-decimal', undefined],
    ['1234567890123', 'too-many-digits', undefined],
    ['54 inn', 'unknown-unit', 'in'],
    ['54 inces', 'unknown-unit', 'inches'],
    ['54 cn', 'unknown-unit', 'cm'],
    ['2 yrads', 'unknown-unit', 'yards'],
    ['2 km', 'unknown-unit', undefined],
    ['12 apples', 'unknown-unit', undefined],
    ['1_000', 'not-a-number', undefined],
    ['0x10', 'not-a-number', undefined],
    ['2 ft 3', 'missing-unit', undefined],
    ['3 in 2 ft', 'unit-order', undefined],
    ['2 in 3 in', 'unit-order', undefined],
    ['1 m 2 in', 'unit-order', undefined],
    ['1001 m', 'too-long', undefined],
    ['40000 in', 'too-long', undefined],
  ])('%j: %s', (text, reason, likely) => {
    const parsed = parseLength(text, inches);
    expect(parsed).toMatchObject({ ok: false, reason });
    expect(parsed.ok ? undefined : parsed.likely).toBe(likely);
  });

  test('a kilometre is the longest', () => {
    expect(lengthOf('1000 m', centimetres)).toBe(320_000_000);
    expect(parseLength('1000.001 m', centimetres)).toMatchObject({ ok: false, reason: 'too-long' });
  });

  test('any text at all is either taken as whole ticks in range or refused', () => {
    let takenCount = 0;
    let refusedCount = 0;
    const alphabet = fc.constantFrom(...'0123456789 ./,-"\'xinftydcm⅜½+eE_');
    fc.assert(
      fc.property(fc.string({ unit: alphabet, maxLength: 9 }), (text) => {
        const parsed = parseLength(text, centimetres);
        if (!parsed.ok) {
          refusedCount += 1;
          return;
        }
        takenCount += 1;
        expect(Number.isSafeInteger(parsed.value)).toBe(true);
        expect(parsed.value).toBeGreaterThanOrEqual(0);
        expect(parsed.value).toBeLessThanOrEqual(320_000_000);
      }),
      { numRuns: 3000, seed: 11 },
    );
    expect(takenCount).toBeGreaterThan(20);
    expect(refusedCount).toBeGreaterThan(200);
  });
});

describe('sizes', () => {
  test.each([
    ['18 x 24 in', 18, 24],
    ['18in x 24in', 18, 24],
    ['18 X 24', 18, 24],
    ['18 by 24"', 18, 24],
    ['17 1/2 × 14 in', 17.5, 14],
    ['1 ft 3 in x 14 in', 15, 14],
    ['1/2 yd x 14 in', 18, 14],
    ['1/4 x 1/2 yd', 9, 18],
  ])('%s', (text, width, length) => {
    expect(parseSize(text, inches)).toEqual({
      ok: true,
      value: { width: width * TICKS_PER_INCH, length: length * TICKS_PER_INCH },
    });
  });

  test('the unit behind the second counts for both, whatever the plan is in', () => {
    const wanted = { ok: true, value: { width: 400 * TICKS_PER_MM, length: 600 * TICKS_PER_MM } };
    expect(parseSize('40 × 60 cm', inches)).toEqual(wanted);
    expect(parseSize('40×60cm', centimetres)).toEqual(wanted);
    expect(parseSize('40 x 60', centimetres)).toEqual(wanted);
  });

  test.each([
    ['18', 'not-two-lengths', undefined],
    ['18 x', 'not-two-lengths', undefined],
    ['1 x 2 x 3', 'not-two-lengths', undefined],
    ['18 * 24', 'not-two-lengths', undefined],
    ['18 in x 24', 'missing-unit', '24 in'],
    ['3 x 1 ft 2 in', 'missing-unit', undefined],
    ['3 x 4 inn', 'unknown-unit', 'in'],
    ['3 x -4', 'negative', undefined],
    ['3 x 4/0', 'zero-denominator', undefined],
  ])('%j: %s', (text, reason, likely) => {
    const parsed = parseSize(text, inches);
    expect(parsed).toMatchObject({ ok: false, reason });
    expect(parsed.ok ? undefined : parsed.likely).toBe(likely);
  });
});

describe('hems: seen + turned under', () => {
  test.each([
    '1 + 1/2',
    '1 + 1/2 in',
    '1 in + 1/2 in',
    '1 visible, 1/2 under',
    '1 visible + 1/2 turned under',
  ])('%s', (text) => {
    expect(parseHem(text, inches)).toEqual({
      ok: true,
      value: { visible: TICKS_PER_INCH, under: TICKS_PER_INCH / 2 },
    });
  });

  test('a comma may be the decimal sign of either depth', () => {
    expect(parseHem('2,5 + 1,5 cm', inches)).toEqual({
      ok: true,
      value: { visible: 25 * TICKS_PER_MM, under: 15 * TICKS_PER_MM },
    });
  });

  test.each([
    ['3/4', 'not-a-hem'],
    ['1, 1/2', 'not-a-hem'],
    ['1 + 1 + 1', 'not-a-hem'],
    ['1 in + 2', 'missing-unit'],
    ['1 + wide', 'not-a-number'],
  ])('%j: %s', (text, reason) => {
    expect(parseHem(text, inches)).toMatchObject({ ok: false, reason });
  });
});

test('numbers are exact fractions', () => {
  expect(parseNumber('2.25')).toEqual({ ok: true, value: rational(9n, 4n) });
  expect(parseNumber('0.1')).toEqual({ ok: true, value: rational(1n, 10n) });
  expect(parseNumber('2 1/3')).toEqual({ ok: true, value: rational(7n, 3n) });
});
