import type { Plan } from '../model/plan.ts';
import type { WholeBuy, WholeCompared } from '../planning/compare-whole.ts';
import type { NamedSet } from '../planning/named-set.ts';
import { formatBuy, formatMoney } from '../units/format.ts';
import { wrapWords } from './text-columns.ts';

export const WHOLE_COLUMNS = ['Sets', 'Cost', 'A set', 'Buy'] as const;

const WIDTHS = [8, 10, 10] as const;
const INDENT = 2;

/** One row of what to buy of all cloths; the last column is wrapped. Headings where no plan is told. */
export function wholeRow(row: WholeBuy | readonly string[], columns: number, plan?: Plan): string {
  const cells = 'sets' in row ? wholeCells(row, plan!) : row;
  const left = cells.slice(0, WIDTHS.length).map((cell, index) => cell.padEnd(WIDTHS[index]!));
  const before = ' '.repeat(INDENT) + left.join(' ');
  const lines = wrapWords(cells.at(-1)!, Math.max(24, columns - before.length - 1));
  return lines.map((line, index) => `${index === 0 ? before : ' '.repeat(before.length)} ${line}`).join('\n');
}

function wholeCells(
  { sets, setsAtMost, lengths, cost, costPerSet }: WholeBuy,
  plan: Plan,
): readonly string[] {
  const money = (hundredths: number | undefined) =>
    hundredths === undefined ? '-' : formatMoney(Math.round(hundredths), plan.currency);
  const buys = lengths.map(
    ({ cloth, buy }) => `${cloth} ${buy.bought === 0 ? 'none' : formatBuy(buy.bought, plan)}`,
  );
  return [
    sets === setsAtMost ? String(sets) : `${sets}+`,
    money(cost),
    money(costPerSet),
    buys.length === 0 ? 'nothing' : buys.join(', '),
  ];
}

/** `2 window seat covers, 6 napkins`. */
export function wordNamedSet(set: NamedSet): string {
  return [...set].map(([name, each]) => `${each} ${name}`).join(', ');
}

/** Which buy is the best value and why, and which cloths set the limit, in words. */
export function wordBestWhole({ buys, bestValue, inHandOnly }: WholeCompared, plan: Plan): string {
  const money = (hundredths: number) => formatMoney(Math.round(hundredths), plan.currency);
  const limits = inHandOnly.map(
    ({ cloth, sets, proven }) =>
      `${cloth} is in hand for ${proven ? '' : 'at least '}${setsWord(sets)} and not bought`,
  );
  const open = buys.some(({ sets, setsAtMost }) => sets !== setsAtMost)
    ? ['+: that no more can be had is not proven']
    : [];
  if (bestValue === undefined) {
    const without = 'Without a price for every cloth no buy can be called the best value';
    return `${[without, ...limits, ...open].join('; ')}.`;
  }
  const best = buys[bestValue]!;
  const worth = best.leftoverWorth > 0 ? `, the leftovers counted at ${money(best.leftoverWorth)}` : '';
  const first = buys.find((buy) => buy.costPerSet !== undefined)!;
  const against =
    best === first
      ? buys.length > 1
        ? ['no larger buy brings a set down']
        : []
      : [`${money(first.costPerSet!)} a set where ${first.sets === 1 ? '1 is' : `${first.sets} are`} bought`];
  const value = `Best value: ${setsWord(best.sets)} at ${money(best.costPerSet!)} each${worth}`;
  return `${[value, ...against, ...limits, ...open].join('; ')}.`;
}

function setsWord(sets: number): string {
  return sets === 1 ? '1 set' : `${sets} sets`;
}
