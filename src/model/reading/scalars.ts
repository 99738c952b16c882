import { parseNumber } from '../../units/number.ts';
import { parseHem, parseLength, parseSize, type Refused } from '../../units/parse.ts';
import { likelySpelling } from '../../units/spelling.ts';
import type { Ticks } from '../../units/ticks.ts';
import type { Factor, Hem } from '../measure.ts';
import type { Size } from '../piece.ts';
import {
  either,
  keyed,
  problem,
  type Read,
  type ReadingContext,
  readAs,
  scalar,
  type Words,
} from './fields.ts';

/** More of one thing than anybody cuts from one plan. */
export const MOST_COUNT = 10_000;

export interface LengthRule {
  readonly meaning: string;
  /** Needs go up and what is available goes down where a length falls between ticks. Default up. */
  readonly round?: 'up' | 'down';
  /** Default: zero is allowed. */
  readonly positive?: boolean;
  readonly most?: Ticks;
  readonly mostInWords?: string;
  readonly example?: string;
}

export function lengthWords(context: ReadingContext, example?: string): Words {
  return context.unit === 'in'
    ? { wanted: 'a length such as 54, 17 3/8 in, 1 1/4 yd', example: example ?? '54' }
    : { wanted: 'a length such as 54.5, 380 mm, 1.5 m', example: example ?? '54.5' };
}

export function readLength(
  text: string,
  rule: Omit<LengthRule, 'meaning'>,
  context: ReadingContext,
): Read<Ticks> {
  const parsed = parseLength(text, { unit: context.unit, round: rule.round ?? 'up' });
  if (!parsed.ok) return refusedText(text, parsed, lengthWords(context).wanted);
  if (rule.positive === true && parsed.value === 0) return outOfRange(text, 'a length above zero');
  if (rule.most !== undefined && parsed.value > rule.most)
    return outOfRange(text, rule.mostInWords ?? 'less');
  return readAs(parsed.value);
}

export function length(rule: LengthRule, context: ReadingContext) {
  return scalar({
    ...lengthWords(context, rule.example),
    meaning: rule.meaning,
    read: (text) => readLength(text, rule, context),
  });
}

export function readSize(text: string, context: ReadingContext): Read<Size> {
  const parsed = parseSize(text, { unit: context.unit, round: 'up' });
  if (!parsed.ok) return refusedText(text, parsed, sizeWords(context).wanted);
  const empty = parsed.value.width === 0 || parsed.value.length === 0;
  return empty ? outOfRange(text, 'a width and a length above zero') : readAs(parsed.value);
}

export function sizeWords(context: ReadingContext): Words {
  return context.unit === 'in'
    ? { wanted: 'a width and a length such as 18 x 24, 17 1/2 x 14 in', example: '18 x 24' }
    : { wanted: 'a width and a length such as 40 x 60, 45.5 x 30 cm', example: '40 x 60' };
}

export function size(meaning: string, context: ReadingContext, example = sizeWords(context).example) {
  return scalar({ ...sizeWords(context), example, meaning, read: (text) => readSize(text, context) });
}

export function readHem(text: string, context: ReadingContext): Read<Hem> {
  const parsed = parseHem(text, { unit: context.unit, round: 'up' });
  return parsed.ok ? readAs(parsed.value) : refusedText(text, parsed, hemWords(context).wanted);
}

function hemWords(context: ReadingContext, own?: string): Words {
  const example = own ?? (context.unit === 'in' ? '1 + 1/2' : '2.5 + 1');
  return { wanted: `what is seen + what is turned under, such as ${example}`, example };
}

/** `1 + 1/2`, or `{ visible: 1, under: 1/2 }`. */
export function hem(meaning: string, context: ReadingContext, example?: string) {
  const words = hemWords(context, example);
  const oneLine = scalar({ ...words, meaning, read: (text) => readHem(text, context) });
  const inTwo = keyed(
    {
      visible: length({ meaning: 'Depth of the hem that is seen.' }, context),
      under: length({ meaning: 'Cloth turned under it; the hem takes up both together.' }, context),
    },
    words,
  );
  return either(oneLine, inTwo, words).meta({ description: meaning });
}

export function readCount(text: string, least: number): Read<number> {
  if (!/^(?:0|[1-9]\d*)$/.test(text.trim())) {
    return problem({
      code: 'not-understood',
      details: { found: text, wanted: 'a whole number in plain digits, such as 7' },
    });
  }
  const digits = text.trim();
  const value = digits.length > 9 ? Number.POSITIVE_INFINITY : Number(digits);
  if (value < least || value > MOST_COUNT) return outOfRange(text, `a number from ${least} to ${MOST_COUNT}`);
  return readAs(value);
}

export function count(meaning: string, least = 1, example = '7') {
  return scalar({
    wanted: `a whole number in plain digits, such as ${example}`,
    example,
    meaning,
    read: (text) => readCount(text, least),
  });
}

/** A factor in whole thousandths, within the limits that are written as a person would (`1`, `3.5`). */
export function readFactor(
  text: string,
  limits: { readonly least: string; readonly most: string },
): Read<Factor> {
  const wanted = `a factor such as 2, 2.25, 2 1/2`;
  const parsed = parseNumber(text);
  if (!parsed.ok) return refusedText(text, parsed, wanted);
  const scaled = 1000n * parsed.value.numerator;
  if (scaled % parsed.value.denominator !== 0n)
    return outOfRange(text, 'a factor in whole thousandths, such as 2.25');
  const thousandths = Number(scaled / parsed.value.denominator);
  const [least, most] = [thousandthsOf(limits.least), thousandthsOf(limits.most)];
  if (thousandths < least || thousandths > most) {
    return outOfRange(text, `a factor from ${limits.least} to ${limits.most}`);
  }
  return readAs({ thousandths });
}

function thousandthsOf(limit: string): number {
  const parsed = parseNumber(limit);
  if (!parsed.ok) throw new RangeError(`a make's own limit is no number: ${limit}`);
  return Number((1000n * parsed.value.numerator) / parsed.value.denominator);
}

export function readChoice<Choice extends string>(text: string, choices: readonly Choice[]): Read<Choice> {
  const chosen = choices.find((choice) => choice === text);
  if (chosen !== undefined) return readAs(chosen);
  const likely = likelySpelling(text, choices);
  const details = { found: text, wanted: inWords(choices), ...(likely === undefined ? {} : { likely }) };
  return problem({ code: 'not-understood', details });
}

export function choice<Choice extends string>(
  meaning: string,
  choices: readonly Choice[],
  example: Choice = choices[0],
) {
  return scalar<Choice>({
    wanted: inWords(choices),
    example,
    known: choices,
    meaning,
    writtenAs: { choices },
    read: (text) => readChoice(text, choices),
  });
}

export function readYesNo(text: string): Read<boolean> {
  const read = readChoice(text, ['yes', 'no']);
  return read.ok ? readAs(read.value === 'yes') : read;
}

export function yesNo(meaning: string) {
  return scalar({ wanted: 'yes or no', example: 'yes', meaning, writtenAs: 'yes-no', read: readYesNo });
}

const LONGEST_NAME = 60;

/** A name on one line. Orders and pieces take no `/`, which parts an order from its pieces. */
export function name(meaning: string, example: string, signs: 'any' | 'no-slash' = 'no-slash') {
  const read = (text: string): Read<string> => {
    const wanted = `a name of 1 to ${LONGEST_NAME} letters on one line${signs === 'any' ? '' : ', without /'}`;
    const fits = text.trim() === text && text !== '' && text.length <= LONGEST_NAME && !/[\n\r\t]/.test(text);
    return fits && (signs === 'any' || !text.includes('/')) ? readAs(text) : outOfRange(text, wanted);
  };
  return scalar({ wanted: `a name, such as ${example}`, example, meaning, read });
}

const LONGEST_REMARK = 240;

/** A remark on one line. */
export function remark(meaning: string, example: string) {
  const read = (text: string): Read<string> => {
    const fits =
      text.trim() === text && text !== '' && text.length <= LONGEST_REMARK && !/[\n\r\t]/.test(text);
    return fits ? readAs(text) : outOfRange(text, `a remark of 1 to ${LONGEST_REMARK} letters on one line`);
  };
  return scalar({ wanted: `a remark, such as ${example}`, example, meaning, read });
}

export function readClothName(text: string, { clothNames: known }: ReadingContext): Read<string> {
  if (known === undefined || known.includes(text)) return readAs(text);
  const likely = likelySpelling(text, known);
  const details = { found: text, known, ...(likely === undefined ? {} : { likely }) };
  return problem({ code: 'unknown-cloth', details });
}

export function refusedText(text: string, refusal: Refused, wanted: string) {
  return problem({
    code: 'not-understood',
    details: {
      found: text,
      wanted,
      reason: refusal.reason,
      part: refusal.found,
      ...(refusal.likely === undefined ? {} : { likely: refusal.likely }),
    },
  });
}

export function outOfRange(found: string, wanted: string) {
  return problem({ code: 'out-of-range', details: { found, wanted } });
}

/** `plain, two-way or nap`. */
export function inWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}
