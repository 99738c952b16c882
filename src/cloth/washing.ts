import type { Cloth, Fraction, LengthInHand } from '../model/cloth.ts';
import { ceilDiv, floorDiv, type Ticks } from '../units/ticks.ts';

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

/**
 * What is left of `length` after losing the part `loss` of it, rounded down.
 * Shrinkage is (original − final) ÷ original (W. H. Dooley, Textiles, 1914, Determination of Shrinkage).
 */
export function afterWashing(length: Ticks, loss: Fraction): Ticks {
  return floorDiv(length * (loss.denominator - loss.numerator), loss.denominator);
}

/** The least length that still measures `needed` after washing: needed ÷ (1 − s), rounded up, never needed × (1 + s). */
export function beforeWashing(needed: Ticks, loss: Fraction): Ticks {
  return ceilDiv(needed * loss.denominator, loss.denominator - loss.numerator);
}
