import { walk } from '../geometry/walk.ts';
import type { Cloth, Worth } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Bed } from './bed.ts';
import { isKeepable } from './leftover.ts';
import { lengthInHand } from './length-in-hand.ts';

/** Whether using lengths in hand is to be weighed in money against buying: for that both must have a price. */
export function isWeighed(cloth: Cloth): boolean {
  return cloth.price !== undefined && cloth.buy !== undefined && cloth.inHand.some((own) => own.worth);
}

/**
 * Which lengths in hand may be used, one list a try: all of them, then ever fewer as the dearest by area are left whole,
 * at last those that are worth nothing in particular. What costs nothing to use is never left out.
 */
export function handsToTry(beds: readonly Bed[]): readonly (readonly Bed[])[] {
  const rates = [...new Set(beds.flatMap((bed) => (bed.worth ? [rateOf(bed.worth)] : [])))];
  const dearestFirst = rates.sort((one, other) => other - one);
  const without = (rate: number) => beds.filter((bed) => !bed.worth || rateOf(bed.worth) < rate);
  return [beds, ...dearestFirst.map(without)];
}

/** What a length is used up to: as far as its cuts reach across the whole width, and all of it where the rest is no remnant. */
export interface UsedUp extends Size {
  /** From its near end to where the last piece ends, both squared ends included. */
  readonly reach: number;
  readonly keep: Size;
}

/** What using that much is worth, in hundredths, rounded half up. */
export function worthOfUse({ hundredths, per }: Worth, { width, length, reach, keep }: UsedUp): number {
  const used = isKeepable(width, length - reach, keep) ? reach : length;
  const twice = 2n * BigInt(hundredths) * BigInt(width) * BigInt(used);
  return Number((twice + BigInt(per)) / (2n * BigInt(per)));
}

/** What a plan of one cloth comes to in money, in hundredths: what is bought, and what use of the lengths in hand is worth. */
export function moneyOf(plan: Plan, cloth: Cloth, { lengths, purchase }: ClothPlan): number {
  return lengths.reduce((total, own) => {
    const worth = lengthInHand(cloth, own)?.worth;
    if (worth === undefined) return total;
    const { leaves } = walk(own.tree, own.width, own.length);
    const far = Math.max(0, ...leaves.map(({ leaf, box }) => (leaf.kind === 'piece' ? box.y1 : 0)));
    const { width, length } = own;
    return total + worthOfUse(worth, { width, length, reach: far + cloth.squaring, keep: plan.keep });
  }, purchase?.cost ?? 0);
}

/** Hundredths per square tick; only compared. */
function rateOf({ hundredths, per }: Worth): number {
  return hundredths / per;
}
