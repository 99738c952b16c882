import type { Fraction } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { wordLoss } from '../model/shrinkage.ts';
import type { LossAtRisk } from '../planning/loss-at-risk.ts';
import { moreWords } from './buys.ts';

/** Steps beyond the first that are told in a sentence; a wash seldom takes more than twice what was reckoned. */
const STEPS_TOLD = 2;

/** What the wash may take before more has to be bought, a sentence for each way that is worked out. */
export function wordLosses(
  { along, across }: { readonly along: LossAtRisk | undefined; readonly across: LossAtRisk | undefined },
  plan: Plan,
): readonly string[] {
  return [
    ...(along ? [`Shrinkage along the length: ${wordLossAtRisk(along, plan)}`] : []),
    ...(across ? [`Shrinkage across the width: ${wordLossAtRisk(across, plan)}`] : []),
  ];
}

/** Said where a print is matched, and the cloth washed before it is cut. */
export const NO_LOSS_OF_PRINT =
  'Shrinkage: what a larger loss would need is not worked out for a print that is matched, since it shrinks with the cloth; measure it once it is washed, and plan again.';

/** To a hundredth of a per cent, down, so that the plan still holds at what is told. */
function wordUpTo(loss: Fraction): string {
  return wordLoss({
    numerator: Math.floor((loss.numerator * 10_000) / loss.denominator),
    denominator: 10_000,
  });
}

/** `the plan, which reckons 5 %, holds up to 8.33 %; above that buy 1/8 yd more; above 30.1 % there is no plan.` */
function wordLossAtRisk({ reckoned, steps, noneAbove }: LossAtRisk, plan: Plan): string {
  const [first, ...more] = steps;
  const told = more.slice(0, STEPS_TOLD);
  const above = (index: number) => (index === 0 ? 'above that' : `above ${wordUpTo(steps[index]!.upTo)}`);
  const said = told.map((step, index) => `${above(index)} buy ${moreWords(first!, step, plan)}`);
  const none = noneAbove && told.length === more.length ? [`${above(told.length)} there is no plan`] : [];
  const isProven = steps.slice(0, told.length + 1).every(({ proven, ends }) => proven && ends);
  const proven = isProven ? '' : ' Found, not proven: it may hold higher, and less may do.';
  const held = `the plan, which reckons ${wordLoss(reckoned)}, holds up to ${first!.upTo === reckoned ? 'that' : wordUpTo(first!.upTo)}`;
  return `${[held, ...said, ...none].join('; ')}.${proven}`;
}
