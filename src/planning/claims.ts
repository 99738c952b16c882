import { expandMakes } from '../makes/expand.ts';
import { leavesOpening } from '../makes/openings.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { OpeningSplit, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { ticks } from '../units/ticks.ts';
import { lengthToPack } from './bed.ts';
import { bedsOf } from './beds.ts';
import { buyFor } from './purchase.ts';

/**
 * A plan of one cloth that claims no more than is known. What the packer proves holds for the pieces it was given; where
 * those were chosen (a way of joining, a way to close), other choices may need less, and only their area is proven.
 *
 * @param leastArea that the pieces take, whatever is chosen, in square ticks
 */
export function claimedByArea(plan: Plan, cloth: Cloth, found: ClothPlan, leastArea: number): ClothPlan {
  const { purchase } = found;
  const { inHand, toBuy } = bedsOf(plan, cloth);
  if (!purchase || !toBuy) return { ...found, answer: 'found' };
  const held = inHand.reduce((total, bed) => total + bed.usable * lengthToPack(bed), 0);
  const packed = Math.max(0, Math.ceil((leastArea - held) / toBuy.usable));
  const least = buyFor(cloth, packed);
  const bound = ticks(Math.min(found.bound ?? least.needed, least.needed));
  return { ...found, bound, answer: least.bought === purchase.bought ? found.answer : 'found' };
}

/** Area of whole pieces: joined from parts they take no less. */
export function areaOf(pieces: readonly PieceWanted[]): number {
  return pieces.reduce((total, { size, copies }) => total + size.width * size.length * copies, 0);
}

/**
 * For each cloth, by how much less area its pieces could take if covers closed otherwise: the smaller of all level and
 * all upright for each order, since a mixture lies between the two.
 */
export function spareOfOpenings(plan: Plan, chosen: readonly PieceWanted[]): ReadonlyMap<string, number> {
  const orders = plan.makes.filter(leavesOpening);
  if (orders.length === 0) return new Map();
  const split = (of: (count: number) => OpeningSplit) =>
    expandMakes(plan, new Map(orders.map(({ name, count }) => [name, of(count)]))).pieces;
  const ways = [
    split((count) => ({ level: count, upright: 0 })),
    split((count) => ({ level: 0, upright: count })),
  ];
  const spare = new Map<string, number>();
  for (const { name } of orders) {
    const own = chosen.filter(({ order }) => order === name);
    for (const cloth of new Set(own.filter(({ opening }) => opening).map((piece) => piece.cloth))) {
      const areaIn = (pieces: readonly PieceWanted[]) =>
        areaOf(pieces.filter((piece) => piece.order === name && piece.cloth === cloth));
      const least = Math.min(...ways.map(areaIn).filter((area) => area > 0));
      spare.set(cloth, (spare.get(cloth) ?? 0) + Math.max(0, areaIn(own) - least));
    }
  }
  return spare;
}
