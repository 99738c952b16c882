import type { Cloth, Fraction, LengthInHand } from '../model/cloth.ts';

export { afterWashing, beforeWashing } from '../model/shrinkage.ts';

const NO_LOSS: Fraction = { numerator: 0, denominator: 1 };

/** The losses that happen before the cloth is cut; none where it is not washed first, or `length` has been washed already. */
export function lossBeforeCutting(
  cloth: Cloth,
  length?: Pick<LengthInHand, 'washed'>,
): { readonly along: Fraction; readonly across: Fraction } {
  if (cloth.washing?.washed !== 'before-cutting' || length?.washed === true)
    return { along: NO_LOSS, across: NO_LOSS };
  return cloth.washing;
}
