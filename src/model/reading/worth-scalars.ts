import { parseNumber } from '../../units/number.ts';
import { multiply, rational } from '../../units/rational.ts';
import { likelySpelling } from '../../units/spelling.ts';
import {
  TICKS_PER_CM,
  TICKS_PER_FOOT,
  TICKS_PER_INCH,
  TICKS_PER_METRE,
  TICKS_PER_YARD,
} from '../../units/ticks.ts';
import type { Worth } from '../cloth.ts';
import { withoutCurrency } from './cloth-scalars.ts';
import { problem, type Read, type ReadingContext, readAs, scalar } from './fields.ts';
import { outOfRange, refusedText } from './scalars.ts';

/** Square ticks of each unit of area, by its spellings. */
const AREAS: readonly (readonly [spellings: readonly string[], side: number])[] = [
  [['sq in', 'square inch', 'in²'], TICKS_PER_INCH],
  [['sq ft', 'square foot', 'ft²'], TICKS_PER_FOOT],
  [['sq yd', 'square yard', 'yd²'], TICKS_PER_YARD],
  [['sq cm', 'square centimetre', 'square centimeter', 'cm²'], TICKS_PER_CM],
  [['sq m', 'square metre', 'square meter', 'm²'], TICKS_PER_METRE],
];

const AREA_OF = new Map(AREAS.flatMap(([spellings, side]) => spellings.map((word) => [word, side * side])));

/** Dearer cloth than this is a slip of the decimal point. */
const MOST_HUNDREDTHS = 10_000_000n;

/** `6.50 per sq yd`, `$6.50 per sq yd`, `7.20/m²`: what using a length is worth. */
export function worth(meaning: string, context: ReadingContext) {
  const { wanted, example } = worthWords(context);
  return scalar({ wanted, example, meaning, read: (text) => readWorth(text, context) });
}

function worthWords(context: ReadingContext) {
  const example = context.unit === 'in' ? '6.50 per sq yd' : '7.20 per sq m';
  return { wanted: `an amount and the area it is for, such as ${example}`, example };
}

export function readWorth(text: string, context: ReadingContext): Read<Worth> {
  const { wanted, example } = worthWords(context);
  const refuse = (found: string, likely?: string) =>
    problem({
      code: 'not-understood',
      details: { found, wanted, ...(likely === undefined ? {} : { likely }) },
    });
  const parts = /^(.+?)\s*(?:\bper\b|\/(?=\s*[a-z]))\s*(.+)$/i.exec(text);
  if (parts === null) return refuse(text);
  const amount = parseNumber(withoutCurrency(parts[1], context.currency));
  if (!amount.ok) return refusedText(text, amount, wanted);
  const hundredths = multiply(amount.value, rational(100n));
  if (hundredths.denominator !== 1n)
    return outOfRange(text, `an amount with two decimals, such as ${example}`);
  if (hundredths.numerator > MOST_HUNDREDTHS) return outOfRange(text, 'an amount up to 100000');
  const area = parts[2].trim().toLowerCase();
  const per = AREA_OF.get(area);
  if (per === undefined) return refuse(text, likelyArea(parts[1], area));
  return readAs({ hundredths: Number(hundredths.numerator), per });
}

/** `yd` alone is a length; its square was meant. */
function likelyArea(amount: string, area: string): string | undefined {
  const square = `sq ${area}`;
  const likely = AREA_OF.has(square) ? square : likelySpelling(area, [...AREA_OF.keys()]);
  return likely === undefined ? undefined : `${amount} per ${likely}`;
}
