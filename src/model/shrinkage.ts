import { ceilDiv, floorDiv, type Ticks } from '../units/ticks.ts';
import type { Fraction } from './cloth.ts';

/**
 * What is left of `length` after losing the part `loss` of it, rounded down.
 * Shrinkage is (original − final) ÷ original (W. H. Dooley, Textiles, 1914, Determination of Shrinkage).
 */
export function afterWashing(length: Ticks, loss: Fraction): Ticks {
  return floorDiv(length * (loss.denominator - loss.numerator), loss.denominator);
}

/** The same rounded up, for what is needed: a strip to be trimmed away, the far edge of a panel. */
export function upAfterWashing(length: Ticks, loss: Fraction): Ticks {
  return ceilDiv(length * (loss.denominator - loss.numerator), loss.denominator);
}

/**
 * The least length that still measures `needed` after washing: needed ÷ (1 − s), rounded up, never needed × (1 + s).
 * `afterWashing` gives exactly `needed` back, since what rounding adds is less than a tick once it has shrunk.
 */
export function beforeWashing(needed: Ticks, loss: Fraction): Ticks {
  return ceilDiv(needed * loss.denominator, loss.denominator - loss.numerator);
}

/** The greatest length that measures no more than `found` after washing; `upAfterWashing` gives exactly `found` back. */
export function mostBeforeWashing(found: Ticks, loss: Fraction): Ticks {
  return floorDiv(found * loss.denominator, loss.denominator - loss.numerator);
}

/** `3 %`, `2.5 %`; a loss that a swatch showed and that is no such number stands as the fraction it is: `7/248`. */
export function wordLoss({ numerator, denominator }: Fraction): string {
  const hundredths = (numerator * 10_000) / denominator;
  return Number.isInteger(hundredths) ? `${hundredths / 100} %` : `${numerator}/${denominator}`;
}
