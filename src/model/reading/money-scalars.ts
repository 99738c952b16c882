import { parseNumber } from '../../units/number.ts';
import { multiply, rational } from '../../units/rational.ts';
import { withoutCurrency } from './cloth-scalars.ts';
import { type Read, type ReadingContext, readAs, scalar } from './fields.ts';
import { outOfRange, refusedText } from './scalars.ts';

/** A dearer thing than this is a slip of the decimal point. */
const MOST_HUNDREDTHS = 10_000_000n;

/** `2.50`, `$2.50`, `2.50 each`: an amount in hundredths. */
export function readMoney(text: string, context: ReadingContext): Read<number> {
  const wanted = 'an amount such as 2.50';
  const amount = parseNumber(withoutCurrency(text.replace(/\s+each$/i, ''), context.currency));
  if (!amount.ok) return refusedText(text, amount, wanted);
  const hundredths = multiply(amount.value, rational(100n));
  if (hundredths.denominator !== 1n)
    return outOfRange(text, 'an amount with at most two decimals, such as 2.50');
  if (hundredths.numerator > MOST_HUNDREDTHS) return outOfRange(text, 'an amount up to 100000');
  return readAs(Number(hundredths.numerator));
}

export function money(meaning: string, context: ReadingContext) {
  return scalar({
    wanted: 'an amount such as 2.50',
    example: '2.50',
    meaning,
    read: (text) => readMoney(text, context),
  });
}
