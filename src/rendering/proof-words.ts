import type { ClothPlan } from '../model/cut-plan.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';

/** Whether a cloth could be cut from less. `say` words a length as the page or the terminal writes it. */
export function proofWords(
  { answer, bound }: Pick<ClothPlan, 'answer' | 'bound'>,
  rulerMark: Ticks,
  say: (length: Ticks) => string,
): string {
  if (answer === 'best') return 'no, proven';
  // Down to a mark of the ruler: what no plan can need less than, any plan needs.
  const least = floorTo(bound ?? ticks(0), rulerMark);
  return least === 0 ? 'perhaps' : `perhaps; proven is only that it takes at least ${say(least)}`;
}
