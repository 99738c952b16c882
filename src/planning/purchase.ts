import { afterWashing, beforeWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Purchase } from '../model/cut-plan.ts';
import { ceilTo, sum, type Ticks, ticks } from '../units/ticks.ts';

/** What one packed length comes to at the counter. */
export interface Bought {
  /** Before washing, squaring included. */
  readonly needed: Ticks;
  /** That, in whole shop's steps. */
  readonly bought: Ticks;
  /** As it lies on the table after washing. */
  readonly onTable: Ticks;
}

/** Works back from the length packed to the length to ask for, and forward to what then lies on the table. */
export function buyFor(cloth: Cloth, packedLength: number): Bought {
  const loss = lossBeforeCutting(cloth).along;
  const needed = beforeWashing(ticks(packedLength + endsOf(cloth)), loss);
  const bought = cloth.buy ? ceilTo(needed, cloth.buy.step) : needed;
  return { needed, bought, onTable: afterWashing(bought, loss) };
}

/** What a bought length loses before anything is packed on it: both squared ends, and the reserve for the print's start. */
function endsOf(cloth: Cloth): number {
  return 2 * cloth.squaring + (cloth.startReserve ?? 0);
}

/** Most length that can be packed on a bought length of so many ticks. */
export function packableOf(cloth: Cloth, bought: Ticks): number {
  return Math.max(0, afterWashing(bought, lossBeforeCutting(cloth).along) - endsOf(cloth));
}

/** One purchase of all the lengths bought of a cloth, at its price. */
export function purchaseOf(cloth: Cloth, lengths: readonly Bought[]): Purchase {
  const bought = sum(lengths.map((length) => length.bought));
  return {
    needed: sum(lengths.map((length) => length.needed)),
    bought,
    lengths: lengths.map(({ needed, bought }) => ({ needed, bought })),
    ...(cloth.price && { cost: costOf(cloth.price, bought) }),
  };
}

/** Hundredths, rounded half up. */
export function costOf(price: NonNullable<Cloth['price']>, length: Ticks): number {
  return Math.floor((2 * price.hundredths * length + price.per) / (2 * price.per));
}
