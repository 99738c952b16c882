import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { WidthAtRisk, WidthStep } from '../planning/at-risk.ts';
import type { Buy, BuysCompared } from '../planning/compare-buys.ts';
import { MOST_RUNGS } from '../planning/rungs.ts';
import type { OneSet } from '../planning/sets-ladder.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { ceilTo, floorTo, TICKS_PER_CM, TICKS_PER_INCH, ticks } from '../units/ticks.ts';
import { perCentTold } from './per-cent.ts';

/** One buy as a row of words, in the order of `buyColumns`. */
export type BuyRow = readonly string[];

/** Headings; measures of all rows are in the one unit that stands there. */
export function buyColumns({ unit }: Pick<Plan, 'unit'>): readonly string[] {
  const area = unit === 'in' ? 'sq in' : 'cm²';
  return ['Buy', 'Sets', 'Used', `Left, ${area}`, `Largest, ${unit}`, 'Cost', 'A set', 'Rest'];
}

/** A buy in words and figures. `letters` names the pieces left over. */
export function buyRow(buy: Buy, plan: Plan, letters: ReadonlyMap<string, string>): BuyRow {
  const money = (hundredths: number) => formatMoney(Math.round(hundredths), plan.currency);
  const over = buy.over.map(({ piece, copies }) => `${copies} ${letters.get(piece) ?? piece}`).join(', ');
  const { largestLeftover: largest } = buy;
  return [
    buyWord(buy.bought, plan),
    buy.sets === buy.setsAtMost ? String(buy.sets) : `${buy.sets} to ${buy.setsAtMost}`,
    buy.sets === 0 ? '-' : `${perCentTold(buy.markerEfficiency)} %`,
    buy.keepableArea === 0 ? '-' : wholeArea(buy.keepableArea, plan),
    largest ? formatSize(onMarks(largest, plan), { unit: plan.unit, withUnit: false }) : '-',
    buy.cost === undefined ? '-' : money(buy.cost),
    buy.costPerSet === undefined ? '-' : money(buy.costPerSet),
    over || '-',
  ];
}

/** What the table does not say by itself, a sentence each. */
export function buyNotes({ buys, between }: BuysCompared): readonly string[] {
  const open = buys.find((buy) => buy.sets !== buy.setsAtMost);
  return [
    ...(buys.some((buy) => buy.over.length > 0)
      ? ['Left: what the sets leave. Rest: the single pieces that it would still give.']
      : []),
    ...(open
      ? [
          `Sets, ${open.sets} to ${open.setsAtMost}: so many were found, and more than the last are proven impossible; --effort searches longer.`,
        ]
      : []),
    ...(between > 0 ? [wordBetween(between, buys.length + between)] : []),
  ];
}

function wordBetween(between: number, all: number): string {
  const [some, are] = between === 1 ? ['One', 'is'] : [String(between), 'are'];
  const every = all <= MOST_RUNGS ? `; --rungs ${all} lists every one` : '';
  return `${some} of the shop's steps between these ${are} not listed${every}.`;
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
export function wordBestValue(compared: BuysCompared, plan: Plan): string {
  const { buys, bestValue } = compared;
  if (bestValue === undefined) {
    if (buys.some(({ sets, setsInHand }) => sets > setsInHand))
      return 'Without a price no buy can be called the best value.';
    const beyond = buys.some(({ setsInHand }) => setsInHand > 0) ? ' beyond those in hand' : '';
    return `None of these yields a complete set${beyond}; ${wordLeastForOne(compared, plan)}.`;
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

/** `the least that was found to yield one is 3 5/8 yd, for $59.45`. */
export function wordLeastForOne({ leastForOne, buys }: BuysCompared, plan: Plan): string {
  const { bought, cost } = leastForOne;
  const one = buys.some(({ setsInHand }) => setsInHand > 0) ? 'one more' : 'one';
  const price = cost === undefined ? '' : `, for ${formatMoney(cost, plan.currency)}`;
  return `the least that was found to yield ${one} is ${buyWord(bought, plan)}${price}`;
}

/** Steps that are told in a sentence; a bolt is seldom narrower than the first few tell. */
const STEPS_TOLD = 3;

/** Said where the width at risk of a cloth is not worked out: its panels stay where they are printed, whatever the bolt measures. */
export const NO_WIDTH_OF_PANELS =
  'Width: what a narrower bolt would need is not worked out for a cloth that is cut around printed panels; measure it, and plan again with its own width.';

/** Down to which width the plan holds, as a person would say it: the first few steps, and how many more there are. */
export function wordWidthAtRisk({ steps, noneBelow }: WidthAtRisk, plan: Plan): string {
  const [first, ...more] = steps;
  const length = (ticks: typeof noneBelow) => wordLeastWidth(ticks, plan);
  const told = more.slice(0, more.length === STEPS_TOLD + 1 ? STEPS_TOLD + 1 : STEPS_TOLD);
  const said = told.map((step, index) => {
    const below = index === 0 ? 'below that' : `below ${length(steps[index]!.from)}`;
    return `${below} buy ${moreWords(first!, step, plan)}`;
  });
  const rest = more.length - told.length;
  const hidden =
    rest > 0 ? [`below ${length(told.at(-1)!.from)} ${rest} more steps, which --every-width lists`] : [];
  const open = openWords(steps, length);
  const none = more.length === 0 ? 'below that' : `below ${length(noneBelow)}`;
  return `${[`holds down to ${length(first!.from)} overall`, ...said, ...hidden, `${none} there is no plan`].join('; ')}.${open}`;
}

/** Of cloth yet to be washed, a width that just holds may lie between two marks: then the upper one. */
function wordLeastWidth(width: WidthStep['from'], plan: Plan): string {
  return formatLength(ceilTo(width, plan.rulerMark), plan);
}

/** What of it is proven: all, or down to where, and that the rest was only found. */
function openWords(steps: readonly WidthStep[], length: (ticks: WidthStep['from']) => string): string {
  const first = steps.findIndex((step) => !step.proven || !step.ends);
  if (first < 0) return ' All of it is proven.';
  const { proven, from } = steps[first]!;
  if (first === 0 && !proven) return ' Found, not proven: it may hold lower, and less may do.';
  const sure = proven
    ? `That much is proven down to ${length(from)}`
    : `Proven down to ${length(steps[first - 1]!.from)}`;
  return ` ${sure}; what is below was found, and may hold lower.`;
}

/** Every step of it, a row each: down to which width, and what is to be bought then. */
export function widthRows(
  { steps, noneBelow }: WidthAtRisk,
  plan: Plan,
): readonly (readonly [string, string])[] {
  const [first] = steps;
  return [
    ...steps.map((step, index): readonly [string, string] => {
      const more = index === 0 ? '' : `, ${moreWords(first!, step, plan)}`;
      return [
        `down to ${wordLeastWidth(step.from, plan)}`,
        `${buyWord(step.bought, plan)}${more}${provenWords(step)}`,
      ];
    }),
    [`below ${wordLeastWidth(noneBelow, plan)}`, 'no plan'],
  ];
}

function provenWords({ proven, ends }: WidthStep): string {
  if (!proven) return ' (found, not proven)';
  return ends ? '' : ' (proven; it may hold lower)';
}

/** `1/8 yd more`. */
export function moreWords(
  first: Pick<WidthStep, 'bought'>,
  step: Pick<WidthStep, 'bought'>,
  plan: Plan,
): string {
  return `${formatBuy(ticks(step.bought - first.bought), plan)} more`;
}
