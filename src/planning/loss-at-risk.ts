import { lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth, Fraction } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { type StepAtRisk, stepsAtRisk } from './steps-at-risk.ts';

/** Up to this loss in the wash (from the step before it) so much has to be bought. */
export interface LossStep extends Omit<StepAtRisk, 'lowest'> {
  readonly upTo: Fraction;
}

export interface LossAtRisk {
  /** What the plan reckons with. */
  readonly reckoned: Fraction;
  /** From the loss reckoned upwards, each step the largest loss at which its buy still holds. */
  readonly steps: readonly LossStep[];
  /** Above this loss there is no plan; absent where that is not known. */
  readonly noneAbove?: Fraction;
}

/** Losses are looked at to a hundredth of a per cent, finer than any swatch shows, and up to half of the cloth. */
const PARTS = 10_000;
const MOST = PARTS / 2;

/** The first steps are what matters; along the length there is one for every step of the shop. */
const STEPS = 4;

/**
 * How much must be bought as the wash takes more than was reckoned, along the length or across the width, the other way as
 * reckoned. Lengths in hand that are yet to be washed lose as much.
 *
 * Undefined where the cloth is not bought, is not washed before it is cut, or is cut by a print, which shrinks with it, so
 * that a larger loss may need less; across also where its width was measured on washed cloth.
 */
export function lossAtRisk(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  way: 'along' | 'across',
  options: PackOptions,
): LossAtRisk | undefined {
  const { washing } = cloth;
  if (washing?.washed !== 'before-cutting' || pieces.some(({ match, panel }) => match || panel))
    return undefined;
  if (way === 'across' && washing.widthFromWashed) return undefined;
  const reckoned = lossBeforeCutting(cloth)[way];
  const first = Math.floor((reckoned.numerator * PARTS) / reckoned.denominator) + 1;
  const count = Math.max(0, MOST - first + 1) + 1;
  const lossOf = (index: number): Fraction =>
    index === count - 1 ? reckoned : { numerator: MOST - index, denominator: PARTS };
  const at = (index: number): Cloth => ({ ...cloth, washing: { ...washing, [way]: lossOf(index) } });
  const found = stepsAtRisk({ plan, pieces, count, at }, options, STEPS);
  if (!found) return undefined;
  const steps = found.steps.map(({ lowest, ...step }) => ({ upTo: lossOf(lowest), ...step }));
  const lowest = found.steps.at(-1)!.lowest;
  return { reckoned, steps, ...(found.all && lowest > 0 && { noneAbove: lossOf(lowest) }) };
}
