import type { Plan } from '../model/plan.ts';
import type { WidthAtRisk } from '../planning/at-risk.ts';
import type { Buy, BuysCompared } from '../planning/compare-buys.ts';
import type { OneSet } from '../planning/sets-ladder.ts';
import { formatArea } from '../units/area.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';

/** One buy as a row of words, in the order of `BUY_COLUMNS`. */
export type BuyRow = readonly string[];

export const BUY_COLUMNS = [
  'Buy',
  'Sets',
  'Over',
  'Used',
  'Left to keep',
  'Largest',
  'Cost',
  'A set',
] as const;

/** A buy in words and figures. `letters` names the pieces left over. */
export function buyRow(buy: Buy, plan: Plan, letters: ReadonlyMap<string, string>): BuyRow {
  const money = (hundredths: number) => formatMoney(Math.round(hundredths), plan.currency);
  const over = buy.over.map(({ piece, copies }) => `${copies} ${letters.get(piece) ?? piece}`).join(', ');
  return [
    formatBuy(buy.bought, plan),
    buy.sets === buy.setsAtMost ? String(buy.sets) : `${buy.sets} (or ${buy.setsAtMost})`,
    over || '-',
    `${(Math.floor(10 * buy.markerEfficiency) / 10).toFixed(1)} %`,
    buy.keepableArea === 0 ? '-' : formatArea(buy.keepableArea, plan),
    buy.largestLeftover ? formatSize(buy.largestLeftover, plan) : '-',
    buy.cost === undefined ? '-' : money(buy.cost),
    buy.costPerSet === undefined ? '-' : money(buy.costPerSet),
  ];
}

/** What one complete set is made of: `1 × A (covers/front), 2 × B (covers/back)`. */
export function wordSet(set: OneSet, letters: ReadonlyMap<string, string>): string {
  return [...set].map(([piece, copies]) => `${copies} × ${letters.get(piece) ?? ''} (${piece})`).join(', ');
}

/** Which buy is the best value and why, in words. */
export function wordBestValue({ buys, bestValue, cloth }: BuysCompared, plan: Plan): string {
  if (bestValue === undefined) {
    return cloth.price
      ? 'No buy yields a complete set.'
      : 'Without a price no buy can be called the best value.';
  }
  const best = buys[bestValue]!;
  const money = (hundredths: number) => formatMoney(Math.round(hundredths), plan.currency);
  const worth = best.leftoverWorth > 0 ? `, the leftover counted at ${money(best.leftoverWorth)}` : '';
  const least = buys.find((buy) => buy.sets > 0)!;
  const against =
    least === best
      ? 'no longer buy brings a set down'
      : `${money(least.costPerSet!)} a set at ${formatBuy(least.bought, plan)}, the least that yields one`;
  const sets = best.sets === 1 ? '1 set' : `${best.sets} sets`;
  return `Best value: ${formatBuy(best.bought, plan)}, ${sets} at ${money(best.costPerSet!)} each${worth}; ${against}.`;
}

/** Down to which width the plan holds, as a person would say it. */
export function wordWidthAtRisk({ steps, noneBelow }: WidthAtRisk, plan: Plan): string {
  const [first, ...more] = steps;
  const length = (ticks: typeof noneBelow) => formatLength(ticks, plan);
  const said = [`holds down to ${length(first!.from)} overall`];
  let above = first!;
  for (const step of more) {
    const extra = formatBuy((step.bought - first!.bought) as typeof step.bought, plan);
    said.push(`below ${length(above.from)} buy ${extra} more`);
    above = step;
  }
  said.push(`below ${length(noneBelow)} there is no plan`);
  const open = steps.some((step) => !step.proven) ? ' Steps that are not proven may lie lower.' : '';
  return `${said.join('; ')}.${open}`;
}
