import type { Cloth } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { type Bed, bedOf } from './bed.ts';

/** All that one cloth can be cut from. */
export interface Beds {
  readonly inHand: readonly Bed[];
  /** Absent where the cloth cannot be bought. */
  readonly toBuy?: Bed;
}

/** The lengths in hand, one bed a copy, and the length still to be bought where the cloth can be bought. */
export function bedsOf(plan: Plan, cloth: Cloth): Beds {
  const inHand = cloth.inHand.flatMap((length) => {
    const bed = bedOf(cloth, plan.rulerMark, length);
    if (!bed) return [];
    return Array.from({ length: length.copies }, (_, copy) =>
      length.copies === 1 ? bed : { ...bed, name: `${bed.name} ${copy + 1}` },
    );
  });
  const toBuy = cloth.buy && bedOf(cloth, plan.rulerMark);
  return { inHand, ...(toBuy && { toBuy }) };
}
