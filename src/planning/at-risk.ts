import { beforeWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import type { Ticks } from '../units/ticks.ts';
import { changingWidths } from './changing-widths.ts';
import { stepsAtRisk } from './steps-at-risk.ts';

/** From this overall width upwards (to the step before it) so much has to be bought. */
export interface WidthStep {
  readonly from: Ticks;
  readonly bought: Ticks;
  /** Whether it is proven that no plan buys less anywhere on the step, from its upper end down to `from`. */
  readonly proven: boolean;
  /** Whether it is proven that no plan buys so little at any width below `from`, however near. */
  readonly ends: boolean;
}

export interface WidthAtRisk {
  /** From the cloth's own width downwards, each step the least width at which its buy still holds. */
  readonly steps: readonly WidthStep[];
  /** At any width below this there is no plan. */
  readonly noneBelow: Ticks;
}

/**
 * How much must be bought as the bolt turns out narrower than its label: an exact step function, since usable widths change
 * only where a span passes a ruler mark. Lengths in hand stay as wide as they are known to be.
 *
 * Undefined where the cloth is not bought or no plan exists at its own width.
 */
export function widthAtRisk(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  options: PackOptions,
): WidthAtRisk | undefined {
  const { across } = lossBeforeCutting(cloth);
  const below = changingWidths(plan, cloth, cloth).map((width) => beforeWashing(width, across));
  const widths = [...below.filter((width) => width < cloth.width), cloth.width];
  const at = (index: number): Cloth => ({ ...cloth, width: widths[index]! });
  const found = stepsAtRisk({ plan, pieces, count: widths.length, at }, options);
  if (!found) return undefined;
  const steps = found.steps.map(({ lowest, ...step }) => ({ from: widths[lowest]!, ...step }));
  return { steps, noneBelow: steps.at(-1)!.from };
}
