import { formatLength } from '../../units/format.ts';
import { parseNumber } from '../../units/number.ts';
import { parseLength } from '../../units/parse.ts';
import { multiply, type Rational, rational } from '../../units/rational.ts';
import { likelySpelling } from '../../units/spelling.ts';
import type { Ticks } from '../../units/ticks.ts';
import type { Crease, Fraction, Price } from '../cloth.ts';
import { problem, type Read, type ReadingContext, readAs, scalar } from './fields.ts';
import { outOfRange, readLength, refusedText } from './scalars.ts';

/**
 * `none`, `use`, or `keep off 3/4`: nothing is cut within 3/4 of the crease on either side. A length in hand may say
 * where it lies: `keep off 3/4 at 20`, from its left outer edge.
 */
export function crease(meaning: string, context: ReadingContext, lies: 'midway' | 'anywhere' = 'midway') {
  const usual = context.unit === 'in' ? 'keep off 3/4' : 'keep off 2';
  const placed = context.unit === 'in' ? 'keep off 3/4 at 20' : 'keep off 2 at 51';
  const example = lies === 'midway' ? usual : placed;
  const wanted = `none, use, or ${example} (on either side)`;
  const read = (text: string): Read<Crease> => {
    if (text === 'none' || text === 'use') return readAs({ kind: text });
    const strip = /^keep off (?:by )?(.+?)(?: at (.+))?$/.exec(text);
    if (strip?.[2] !== undefined && lies === 'midway') {
      return outOfRange(text, `${usual}: here the crease lies midway between the outer edges`);
    }
    if (strip === null) {
      const likely = likelySpelling(text.replace(/[\d/.,].*$/, ''), ['none', 'use', 'keep off']);
      const hint = likely === undefined ? {} : { likely: likely === 'keep off' ? usual : likely };
      return problem({ code: 'not-understood', details: { found: text, wanted, ...hint } });
    }
    const each = readLength(strip[1], { positive: true }, context);
    if (!each.ok) return each;
    if (strip[2] === undefined) return readAs({ kind: 'keep-off', each: each.value });
    const at = readLength(strip[2], { positive: true, round: 'down' }, context);
    return at.ok ? readAs({ kind: 'keep-off', each: each.value, at: at.value }) : at;
  };
  return scalar({ wanted, example, meaning, read });
}

/** Dearer cloth than this is a slip of the decimal point. */
const MOST_HUNDREDTHS = 10_000_000n;

/** `14.80 per yd`, `14.80/yd`, `$14.80 per yd`, `9.50 per m`, `2.40 per 25 cm`. */
export function price(meaning: string, context: ReadingContext) {
  const { wanted, example } = priceWords(context);
  return scalar({ wanted, example, meaning, read: (text) => readPrice(text, context) });
}

function priceWords(context: ReadingContext) {
  const example = context.unit === 'in' ? '14.80 per yd' : '15.60 per m';
  return { wanted: `a price and what it is for, such as ${example}`, example };
}

export function readPrice(text: string, context: ReadingContext): Read<Price> {
  const { wanted, example } = priceWords(context);
  const notUnderstood = () => problem({ code: 'not-understood', details: { found: text, wanted } });
  const parts = /^(.+?)\s*(?:\bper\b|\/(?=\s*[a-z]))\s*(.+)$/i.exec(text);
  if (parts === null) return notUnderstood();
  const amount = parseNumber(withoutCurrency(parts[1], context.currency));
  if (!amount.ok) return refusedText(text, amount, wanted);
  const hundredths = multiply(amount.value, rational(100n));
  if (hundredths.denominator !== 1n)
    return outOfRange(text, `an amount with two decimals, such as ${example}`);
  if (hundredths.numerator > MOST_HUNDREDTHS) return outOfRange(text, 'a price up to 100000');
  const per = perLength(parts[2], context);
  if (per === undefined || per === 0) return notUnderstood();
  return readAs({ hundredths: Number(hundredths.numerator), per });
}

export function withoutCurrency(amount: string, currency: string): string {
  const written = amount.trim();
  if (currency === '') return written;
  if (written.startsWith(currency)) return written.slice(currency.length).trim();
  return written.endsWith(currency) ? written.slice(0, -currency.length).trim() : written;
}

/** `yd` is one yard; a bare number would leave open what the price is for. */
function perLength(text: string, context: ReadingContext) {
  const named = /\d/.test(text) ? text : `1 ${text}`;
  if (!/[^\d\s.,/]/.test(named)) return undefined;
  const parsed = parseLength(named, { unit: context.unit, round: 'down' });
  return parsed.ok ? parsed.value : undefined;
}

/** More than half is no washing loss but a slip. */
const MOST_LOSS = rational(1n, 2n);

/** `3 %`, as a part of the unwashed measure. */
export function percentage(meaning: string) {
  const wanted = 'a loss in per cent, such as 3 %';
  const read = (text: string): Read<Fraction> => {
    const number = /^(.+?)\s*(?:%|per ?cent)$/i.exec(text.trim());
    if (number === null) return problem({ code: 'not-understood', details: { found: text, wanted } });
    const parsed = parseNumber(number[1]);
    if (!parsed.ok) return refusedText(text, parsed, wanted);
    return lossOf(multiply(parsed.value, rational(1n, 100n)), text);
  };
  return scalar({ wanted, example: '3 %', meaning, read });
}

/** The loss that a swatch shows: what it measured before washing and after. */
export function swatchLoss(before: Ticks, after: Ticks, context: ReadingContext): Read<Fraction> {
  const found = `${formatLength(before, context)} before, ${formatLength(after, context)} after`;
  if (after > before) return outOfRange(found, 'a swatch that is no larger after washing than before');
  return lossOf(rational(BigInt(before - after), BigInt(before)), found);
}

function lossOf(loss: Rational, found: string): Read<Fraction> {
  const tooMuch = loss.numerator * MOST_LOSS.denominator > MOST_LOSS.numerator * loss.denominator;
  if (tooMuch) return outOfRange(found, 'a loss from 0 to 50 %');
  if (loss.denominator > 1_000_000n)
    return outOfRange(found, 'a loss with at most four decimals, such as 2.5 %');
  return readAs({ numerator: Number(loss.numerator), denominator: Number(loss.denominator) });
}
