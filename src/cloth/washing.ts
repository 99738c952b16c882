import type { Cloth, Fraction, LengthInHand } from '../model/cloth.ts';
import { afterWashing } from '../model/shrinkage.ts';
import type { Ticks } from '../units/ticks.ts';

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

/** The outlines of a length's flaws as it lies on the table, washed where it is washed first; none on a bought one. */
export function flawsAsTheyLie(
  cloth: Cloth,
  length: LengthInHand | undefined,
): readonly (readonly { readonly x: Ticks; readonly y: Ticks }[])[] {
  const { along, across } = lossBeforeCutting(cloth, length);
  return (length?.flaws ?? []).map(({ outline }) =>
    outline.map(({ x, y }) => ({ x: afterWashing(x, across), y: afterWashing(y, along) })),
  );
}
