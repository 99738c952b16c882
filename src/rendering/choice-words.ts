import type { ClothChoice, ClothedLot } from '../model/collection.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Plan } from '../model/plan.ts';
import { formatLength, formatMoney } from '../units/format.ts';
import { ticks } from '../units/ticks.ts';

/**
 * Which thing gets which cloths, one row for each order: `all 4`, or where they differ `1 to 3` and `4`, as they are
 * counted when they are sewn. Empty where the plan left no cloth open.
 */
export function choiceRows({ plan, choice }: CutPlan): readonly (readonly [string, string])[] {
  const orders = [...new Set(choice?.lots.map(({ order }) => order))];
  return orders.map((order) => [
    order,
    wordLots(
      choice!.lots.filter((lot) => lot.order === order),
      plan,
    ),
  ]);
}

/** The lots of one order in words. */
export function wordLots(lots: readonly ClothedLot[], plan: Plan): string {
  const count = lots.reduce((total, lot) => total + lot.count, 0);
  let before = 0;
  const words = lots.map((lot) => {
    const first = before + 1;
    before += lot.count;
    const which = lot.count === 1 ? `${first}` : `${first} to ${before}`;
    return `${lots.length === 1 ? (count === 1 ? 'the only one' : `all ${count}`) : which}: ${clothsOf(lot, plan)}`;
  });
  return words.join('; ');
}

/** A loose piece has no parts to name; what all parts are cut from is told once. */
function clothsOf({ order, cloths }: ClothedLot, plan: Plan): string {
  const names = new Set(Object.values(cloths));
  const isLoose = !plan.makes.some(({ name }) => name === order);
  if (isLoose || (names.size === 1 && Object.keys(cloths).length > 1)) return [...names].join('');
  return Object.entries(cloths)
    .map(([part, cloth]) => `${part} ${cloth}`)
    .join(', ');
}

/** What the choice comes to, and how far below it any other could lie. */
export function choiceProof({ measure, total, bound }: ClothChoice, plan: Plan): string {
  const say = (amount: number) =>
    measure === 'money' ? formatMoney(amount, plan.currency) : formatLength(ticks(amount), plan);
  const takes = measure === 'money' ? 'costs' : 'buys';
  if (bound === total) return `no other choice ${takes} less than ${say(total)}, proven`;
  // The bound is on what is paid; a plan may rightly pay more and leave a length whole that has a worth.
  const weighed = measure === 'money' && plan.cloths.some(({ inHand }) => inHand.some(({ worth }) => worth));
  const free = weighed ? ', with lengths in hand taken as free even where they have a worth' : '';
  return `no choice ${takes} less than ${say(bound)}${free}; this one is within ${perCentUp(total, bound)} % of that`;
}

/** Whether a reader may take the choice for the best there is. */
export function choiceAnswer({ total, bound }: ClothChoice): 'best' | 'found' {
  return bound === total ? 'best' : 'found';
}

/** By how much the total is above the bound, in tenths of a per cent, rounded up. */
export function perCentUp(total: number, bound: number): string {
  return bound === 0 ? '100.0' : (Math.ceil((1000 * (total - bound)) / bound) / 10).toFixed(1);
}
