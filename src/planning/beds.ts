import type { Cloth } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { ticks } from '../units/ticks.ts';
import { type Bed, bedOf } from './bed.ts';
import { hasPanels } from './panels/panel-rooms.ts';

/** All that one cloth can be cut from. */
export interface Beds {
  readonly inHand: readonly Bed[];
  /** Absent where the cloth cannot be bought. */
  readonly toBuy?: Bed;
}

/** The lengths in hand, one bed a copy, and the length still to be bought where the cloth can be bought. */
export function bedsOf(plan: Plan, cloth: Cloth): Beds {
  // What lies around panels is measured from them, which no ruler mark need meet.
  const mark = hasPanels(cloth) ? ticks(1) : plan.rulerMark;
  const inHand = cloth.inHand.flatMap((length) => {
    const bed = bedOf(cloth, mark, length);
    if (!bed) return [];
    return Array.from({ length: length.copies }, (_, copy) =>
      length.copies === 1 ? bed : { ...bed, name: `${bed.name} ${copy + 1}` },
    );
  });
  const toBuy = cloth.buy && bedOf(cloth, mark);
  return { inHand, ...(toBuy && { toBuy }) };
}
