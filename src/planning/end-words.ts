import type { Cloth } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import { lengthInHand } from './figures.ts';

/**
 * What is to be seen to before the first cut of a length from which nothing is squared off: its near end is taken as
 * straight, since all else is measured from there. Undefined where the first step squares it.
 *
 * An end is straight where it follows one thread, square to the selvedge (straightening by a pulled thread or a woven line:
 * Open School course notes, Fabric Preparation; by a square against the selvedge: common practice, no published source).
 */
export function endToTest(cloth: Cloth, length: LengthPlan): string | undefined {
  if (cloth.squaring > 0) return undefined;
  const { left, right } = (lengthInHand(cloth, length) ?? cloth).selvedge;
  const edge = left > 0 || right > 0 ? 'a selvedge' : 'its long edge';
  return `The near end is taken as straight, and every length is measured from it. Test it: a square laid to ${edge} must show cloth along the whole end. Where it does not, straighten it by a thread first, and check that the length left is still enough.`;
}
