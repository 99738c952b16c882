import { add, type Rational, rational } from './rational.ts';
import { type Parsed, refused, taken } from './refusal.ts';

/** Vulgar fractions of Unicode (Number Forms and Latin-1) as numerator and denominator. */
const VULGAR: Readonly<Record<string, readonly [number, number]>> = {
  '¼': [1, 4],
  '½': [1, 2],
  '¾': [3, 4],
  '⅐': [1, 7],
  '⅑': [1, 9],
  '⅒': [1, 10],
  '⅓': [1, 3],
  '⅔': [2, 3],
  '⅕': [1, 5],
  '⅖': [2, 5],
  '⅗': [3, 5],
  '⅘': [4, 5],
  '⅙': [1, 6],
  '⅚': [5, 6],
  '⅛': [1, 8],
  '⅜': [3, 8],
  '⅝': [5, 8],
  '⅞': [7, 8],
};

export const VULGAR_SIGNS = Object.keys(VULGAR).join('');

/** More digits than any cloth needs; a wall of digits is a slip. */
const MOST_DIGITS = 12;

/** Makes spaces, dashes, fraction signs and primes alike, so that the rules below see one spelling of each. */
export function tidy(text: string): string {
  return text
    .replace(/[\u00a0\u2000-\u200a\u202f\u205f\u3000]/g, ' ')
    .replace(/[\u2010-\u2013]/g, '-')
    .replace(/\u2212/g, '-')
    .replace(/\u2044/g, '/')
    .replace(new RegExp(`(\\d)?([${VULGAR_SIGNS}])`, 'g'), (_, digit: string | undefined, sign: string) => {
      const [numerator, denominator] = VULGAR[sign];
      return `${digit === undefined ? '' : `${digit} `}${numerator}/${denominator}`;
    })
    .replace(/ {2,}/g, ' ')
    .trim();
}

/**
 * Reads a number as people write one: `17`, `17.25`, `17,5`, `.5`, `3/8`, `17 3/8`, `17-3/8`, `17⅜`.
 * Exact: decimals become fractions. Refuses signs, exponents, `1,234` and whatever else could be read in two ways.
 */
export function parseNumber(text: string): Parsed<Rational> {
  const written = tidy(text);
  if (written === '') return refused('empty', text);
  if (/^[-+]/.test(written)) return refused(written.startsWith('-') ? 'negative' : 'not-a-number', written);
  if (/\d[eE][-+]?\d/.test(written)) return refused('exponent', written);
  if (/\d{13,}/.test(written)) return refused('too-many-digits', written);
  const mixed = /^(\d+)[ -](\d+)\/(\d+)$/.exec(written);
  if (mixed) return mixedNumber(mixed[1], mixed[2], mixed[3], written);
  const fraction = /^(\d+)\/(\d+)$/.exec(written);
  if (fraction) return fractionOf(fraction[1], fraction[2], written);
  const decimal = /^(\d*)(?:([.,])(\d+))?$/.exec(written);
  if (decimal && written !== '') return decimalNumber(decimal[1], decimal[2], decimal[3], written);
  return refused(whyNoNumber(written), written);
}

function mixedNumber(whole: string, numerator: string, denominator: string, written: string) {
  const fraction = fractionOf(numerator, denominator, written);
  if (!fraction.ok) return fraction;
  if (fraction.value.numerator >= fraction.value.denominator) return refused('improper-fraction', written);
  return taken(add(rational(BigInt(whole)), fraction.value));
}

function fractionOf(numerator: string, denominator: string, written: string): Parsed<Rational> {
  if (/^0+$/.test(denominator)) return refused('zero-denominator', written);
  return taken(rational(BigInt(numerator), BigInt(denominator)));
}

function decimalNumber(
  whole: string,
  sign: string | undefined,
  digits: string | undefined,
  written: string,
): Parsed<Rational> {
  if (digits === undefined) return taken(rational(BigInt(whole)));
  const thousandsPossible = sign === ',' && digits.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
  if (thousandsPossible)
    return refused('thousands-or-decimal', written, `${whole}${digits} or ${whole}.${digits}`);
  if (whole.length + digits.length > MOST_DIGITS) return refused('too-many-digits', written);
  return taken(rational(BigInt(`${whole}${digits}`), 10n ** BigInt(digits.length)));
}

function whyNoNumber(written: string) {
  if (/[.,]\d*[ -]?\d*\/|\/\d*[.,]/.test(written)) return 'decimal-and-fraction';
  if (/^\d{1,3}([., ']\d{3})+([.,]\d+)?$/.test(written)) return 'thousands-or-decimal';
  if (/^[\d.,/ -]*\d[\d.,/ -]* [\d.,/ -]*\d[\d.,/ -]*$/.test(written)) return 'two-numbers';
  return 'not-a-number';
}
