import type { Cloth } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { formatBuy } from '../units/format.ts';
import { parseLength } from '../units/parse.ts';
import { ceilTo, type Ticks } from '../units/ticks.ts';
import { partsOf, refused } from './buying-options.ts';

/** A buy that the maker names, as written and as a length. */
export interface NamedLength {
  readonly text: string;
  readonly length: Ticks;
}

/**
 * `1 yd, 1 1/2 yd`: the buys to compare. Throws a CommandProblem where one is no length, or longer than a cloth that is
 * compared is sold in one piece.
 */
export function readLengths(text: string, plan: Plan, compared: readonly Cloth[]): readonly NamedLength[] {
  const named = partsOf(text).map((part) => ({ text: part, length: readLength(part, plan) }));
  for (const { name, buy } of compared) {
    const over = named.find(({ length }) => buy?.longest !== undefined && length > buy.longest);
    if (over)
      throw refused(
        'lengths',
        `"${over.text}" is more than the longest that "${name}" is sold in, ${formatBuy(buy!.longest!, plan)}; name shorter ones, or other cloths with --cloth`,
      );
  }
  return named;
}

function readLength(part: string, { unit }: Plan): Ticks {
  const read = parseLength(part, { unit, round: 'down' });
  if (read.ok && read.value > 0) return read.value;
  if (read.ok) throw refused('lengths', `"${part}" buys nothing; leave it out`);
  if (read.reason === 'too-long') throw refused('lengths', `"${part}" is longer than a kilometre`);
  throw refused('lengths', `"${part}" is no length; "1 yd, 2 yd" or "1 m, 1.5 m" would work`);
}

/** Which of them a shop cannot cut, since it sells in steps, and what stands for each. */
export function wordRounded(named: readonly NamedLength[], { buy }: Cloth, plan: Plan): string | undefined {
  const words = named.flatMap(({ text, length }) => {
    const bought = buy ? ceilTo(length, buy.step) : length;
    return bought === length ? [] : [`"${text}" is asked for as ${formatBuy(bought, plan)}`];
  });
  return words.length === 0 ? undefined : `In the shop's steps ${words.join(', ')}.`;
}
