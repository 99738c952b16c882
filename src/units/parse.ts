import { parseNumber, tidy } from './number.ts';
import { add, compare, multiply, type Rational, rational, roundToWhole } from './rational.ts';
import { type Parsed, type Refused, refused, taken } from './refusal.ts';
import { likelySpelling } from './spelling.ts';
import {
  TICKS_PER_CM,
  TICKS_PER_FOOT,
  TICKS_PER_INCH,
  TICKS_PER_METRE,
  TICKS_PER_MM,
  TICKS_PER_YARD,
  type Ticks,
  ticks,
} from './ticks.ts';

export type { Parsed, RefusalReason, Refused } from './refusal.ts';

export interface Reading {
  /** What a bare number means. */
  readonly unit: 'in' | 'cm';
  /** Where a length falls between two ticks: needs go up, what is available goes down. */
  readonly round: 'up' | 'down';
}

interface Unit {
  readonly name: 'in' | 'ft' | 'yd' | 'mm' | 'cm' | 'm';
  readonly system: 'inch' | 'metric';
  readonly ticks: number;
  readonly spellings: readonly string[];
}

const UNITS: readonly Unit[] = [
  { name: 'in', system: 'inch', ticks: TICKS_PER_INCH, spellings: ['in', 'inch', 'inches', '"', '″', '”'] },
  { name: 'ft', system: 'inch', ticks: TICKS_PER_FOOT, spellings: ['ft', 'foot', 'feet', "'", '′', '’'] },
  { name: 'yd', system: 'inch', ticks: TICKS_PER_YARD, spellings: ['yd', 'yds', 'yard', 'yards'] },
  { name: 'mm', system: 'metric', ticks: TICKS_PER_MM, spellings: spelledMetre('mm', 'milli') },
  { name: 'cm', system: 'metric', ticks: TICKS_PER_CM, spellings: spelledMetre('cm', 'centi') },
  { name: 'm', system: 'metric', ticks: TICKS_PER_METRE, spellings: spelledMetre('m', '') },
];

const UNIT_OF = new Map(UNITS.flatMap((unit) => unit.spellings.map((spelling) => [spelling, unit] as const)));
const UNIT_WORDS = [...UNIT_OF.keys()].filter((spelling) => /^[a-z]/.test(spelling));

/** In characters: nobody writes a longer length, and the patterns below must stay quick. */
const LONGEST_TEXT = 60;

/** Longer lengths than a kilometre are slips, and ticks must stay small enough for exact areas. */
const LONGEST = rational(BigInt(1000 * TICKS_PER_METRE));

/**
 * Reads a length as people write one: `17`, `17 3/8 in`, `17⅜"`, `1 1/4 yards`, `2 ft 3 in`, `54,5 cm`, `380mm`.
 * Returns whole ticks, zero or more, rounded as `reading` says where the length falls between two;
 * or a refusal with its reason. Never guesses.
 */
export function parseLength(text: string, reading: Reading): Parsed<Ticks> {
  const exact = exactLength(tidy(text), defaultUnit(reading));
  return exact.ok ? toTicks(exact.value, reading, text) : exact;
}

/**
 * Reads a width and a length: `18 x 24 in`, `40 × 60 cm`, `18in x 24in`, `18 by 24`. A unit behind the second counts for both.
 */
export function parseSize(
  text: string,
  reading: Reading,
): Parsed<{ readonly width: Ticks; readonly length: Ticks }> {
  const pair = splitPair(tidy(text), /\s*(?:[x×]|\bby\b)\s*/i);
  if (pair === undefined) return refused('not-two-lengths', text.trim());
  const both = parsePair(pair, reading);
  return both.ok ? taken({ width: both.value[0], length: both.value[1] }) : both;
}

/**
 * Reads a hem: the depth that is seen and what is turned under it, whose sum is the cloth it takes up.
 * `1 + 1/2`, `2.5 + 1 cm`, `1 visible + 1/2 under`.
 */
export function parseHem(
  text: string,
  reading: Reading,
): Parsed<{ readonly visible: Ticks; readonly under: Ticks }> {
  const written = tidy(text);
  const pair = splitPair(written, /\s*\+\s*/) ?? splitPair(written, /(?<=visible)\s*(?:,|\band\b)\s*/i);
  if (pair === undefined) return refused('not-a-hem', text.trim());
  const both = parsePair([without(pair[0], 'visible'), without(pair[1], '(?:turned )?under')], reading);
  return both.ok ? taken({ visible: both.value[0], under: both.value[1] }) : both;
}

function without(text: string, lastWord: string): string {
  return text.replace(new RegExp(`\\s+${lastWord}$`, 'i'), '');
}

function parsePair(pair: readonly [string, string], reading: Reading): Parsed<readonly [Ticks, Ticks]> {
  const [first, second] = pair;
  const firstBare = isBare(first);
  const secondBare = isBare(second);
  if (!firstBare && secondBare) return refused('missing-unit', second, `${second} ${unitNameOf(first)}`);
  const shared = firstBare && !secondBare ? onlyUnitOf(second) : defaultUnit(reading);
  if (shared === undefined) return refused('missing-unit', first);
  const lengths: Ticks[] = [];
  for (const text of pair) {
    const exact = exactLength(text, shared);
    if (!exact.ok) return exact;
    const whole = toTicks(exact.value, reading, text);
    if (!whole.ok) return whole;
    lengths.push(whole.value);
  }
  return taken([lengths[0], lengths[1]] as const);
}

function splitPair(text: string, at: RegExp): readonly [string, string] | undefined {
  const parts = text.split(at);
  return parts.length === 2 && parts[0] !== '' && parts[1] !== '' ? [parts[0], parts[1]] : undefined;
}

/** In ticks, exactly. The text is a number with no unit, or numbers each followed by a unit, from large to small. */
function exactLength(text: string, bareUnit: Unit): Parsed<Rational> {
  if (text === '') return refused('empty', text);
  if (text.length > LONGEST_TEXT) return refused('not-a-number', `${text.slice(0, LONGEST_TEXT)}...`);
  if (isBare(text)) {
    const number = parseNumber(text);
    return number.ok ? taken(multiply(number.value, rational(BigInt(bareUnit.ticks)))) : number;
  }
  const terms = splitTerms(text);
  if (terms === undefined) return refused('not-a-number', text);
  return sumOfTerms(terms, text);
}

interface Term {
  readonly number: string;
  readonly unit: string;
}

function sumOfTerms(terms: readonly Term[], text: string): Parsed<Rational> {
  let total = rational(0n);
  let previous: Unit | undefined;
  for (const term of terms) {
    const number = parseNumber(term.number);
    if (!number.ok) return number.reason === 'empty' ? refused('not-a-number', text) : number;
    if (term.unit === '') return refused('missing-unit', term.number);
    const unit = UNIT_OF.get(term.unit);
    if (unit === undefined) return unknownUnit(term.unit, text);
    const falls = previous === undefined || (unit.system === previous.system && unit.ticks < previous.ticks);
    if (!falls) return refused('unit-order', text);
    total = add(total, multiply(number.value, rational(BigInt(unit.ticks))));
    previous = unit;
  }
  return taken(total);
}

function unknownUnit(unit: string, text: string): Refused {
  // `0x10` and `1_000` are a programmer's numbers, not lengths in odd units.
  if (unit === 'x' || !/^\p{L}/u.test(unit)) return refused('not-a-number', text);
  return refused('unknown-unit', unit, likelySpelling(unit, UNIT_WORDS));
}

/** `2 ft 3 in` as numbers with what follows each; undefined where the text does not begin with a number. */
function splitTerms(text: string): readonly Term[] | undefined {
  const terms: Term[] = [];
  const pattern = /\s*([-+.,/\d\s]*\d[.,\d]*(?:[eE][-+]?\d+)?)\s*([^\d\s.,/+-]*)\.?\s*/y;
  while (pattern.lastIndex < text.length) {
    const match = pattern.exec(text);
    if (match === null) return undefined;
    terms.push({ number: match[1].trim(), unit: match[2].toLowerCase() });
  }
  return terms;
}

/** Whether the text holds no unit at all: digits and the signs of numbers only. */
function isBare(text: string): boolean {
  return /^[-+.,/\d\s]*(?:\d[eE][-+]?\d+)?$/.test(text);
}

/** The unit of a length written with one unit, as `24 in`; undefined for `1 ft 3 in`. */
function onlyUnitOf(text: string): Unit | undefined {
  const terms = splitTerms(text) ?? [];
  if (terms.length > 1) return undefined;
  // Text that is no length is reported when it is read itself; any unit will do until then.
  return UNIT_OF.get(terms[0]?.unit) ?? UNITS[0];
}

function unitNameOf(text: string): string {
  return onlyUnitOf(text)?.name ?? 'in';
}

function toTicks(exact: Rational, reading: Reading, text: string): Parsed<Ticks> {
  if (compare(exact, LONGEST) > 0) return refused('too-long', text.trim());
  return taken(ticks(Number(roundToWhole(exact, reading.round))));
}

function defaultUnit(reading: Reading): Unit {
  return UNIT_OF.get(reading.unit)!;
}

function spelledMetre(short: string, prefix: string): readonly string[] {
  return [short, `${prefix}metre`, `${prefix}metres`, `${prefix}meter`, `${prefix}meters`];
}
