import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { WidthAtRisk } from '../planning/at-risk.ts';
import type { Buy, BuysCompared } from '../planning/compare-buys.ts';
import type { OneSet } from '../planning/sets-ladder.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { floorTo, TICKS_PER_CM, TICKS_PER_INCH } from '../units/ticks.ts';

/** One buy as a row of words, in the order of `buyColumns`. */
export type BuyRow = readonly string[];

/** Headings; measures of all rows are in the one unit that stands there. */
export function buyColumns({ unit }: Pick<Plan, 'unit'>): readonly string[] {
  const area = unit === 'in' ? 'sq in' : 'cm²';
  return ['Buy', 'Sets', 'Over', 'Used', `Left, ${area}`, `Largest, ${unit}`, 'Cost', 'A set'];
}

/** A buy in words and figures. `letters` names the pieces left over. */
export function buyRow(buy: Buy, plan: Plan, letters: ReadonlyMap<string, string>): BuyRow {
  const money = (hundredths: number) => formatMoney(Math.round(hundredths), plan.currency);
  const over = buy.over.map(({ piece, copies }) => `${copies} ${letters.get(piece) ?? piece}`).join(', ');
  const { largestLeftover: largest } = buy;
  return [
    buyWord(buy.bought, plan),
    buy.sets === buy.setsAtMost ? String(buy.sets) : `${buy.sets} (or ${buy.setsAtMost})`,
    over || '-',
    `${(Math.floor(10 * buy.markerEfficiency) / 10).toFixed(1)} %`,
    buy.keepableArea === 0 ? '-' : wholeArea(buy.keepableArea, plan),
    largest ? formatSize(onMarks(largest, plan), { unit: plan.unit, withUnit: false }) : '-',
    buy.cost === undefined ? '-' : money(buy.cost),
    buy.costPerSet === undefined ? '-' : money(buy.costPerSet),
  ];
}

/** `1 1/2 yd`, or `none` where the lengths in hand are all. */
function buyWord(bought: Buy['bought'], plan: Plan): string {
  return bought === 0 ? 'none' : formatBuy(bought, plan);
}

/** Rounded down to the whole unit: in a table a figure is compared, not measured. */
function wholeArea(area: number, { unit }: Plan): string {
  const side = unit === 'in' ? TICKS_PER_INCH : TICKS_PER_CM;
  return String(Math.floor(area / (side * side)));
}

function onMarks({ width, length }: Size, { rulerMark }: Plan): Size {
  return { width: floorTo(width, rulerMark), length: floorTo(length, rulerMark) };
}

/** What one complete set is made of: `1 × A (covers/front), 2 × B (covers/back)`. */
export function wordSet(set: OneSet, letters: ReadonlyMap<string, string>): string {
  return [...set].map(([piece, copies]) => `${copies} × ${letters.get(piece) ?? ''} (${piece})`).join(', ');
}

/** Which buy is the best value and why, in words. */
export function wordBestValue({ buys, bestValue, cloth }: BuysCompared, plan: Plan): string {
  if (bestValue === undefined) {
    return cloth.price
      ? `No buy yields a complete set${buys.some(({ setsInHand }) => setsInHand > 0) ? ' beyond those in hand' : ''}.`
      : 'Without a price no buy can be called the best value.';
  }
  const best = buys[bestValue]!;
  const money = (hundredths: number) => formatMoney(Math.round(hundredths), plan.currency);
  const uses = best.leftoverUses.map(({ name, count }) => `${name}: ${count}`).join(', ');
  const counted = `, the leftover counted at ${money(best.leftoverWorth)}`;
  const worth = best.leftoverWorth > 0 ? `${counted}${uses === '' ? '' : ` (${uses})`}` : '';
  const least = buys.find((buy) => buy.costPerSet !== undefined)!;
  const against =
    least === best
      ? 'no longer buy brings a set down'
      : `${money(least.costPerSet!)} a set at ${buyWord(least.bought, plan)}, the least that yields one`;
  const added = best.sets - best.setsInHand;
  const sets = `${added === 1 ? '1 set' : `${added} sets`}${best.setsInHand > 0 ? ' more' : ''}`;
  return `Best value: ${buyWord(best.bought, plan)}, ${sets} at ${money(best.costPerSet!)} each${worth}; ${against}.`;
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
