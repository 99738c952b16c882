import type { ClothChoice } from '../../model/collection.ts';
import type { ClothPlan } from '../../model/cut-plan.ts';
import type { JoinedPiece } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { ceilTo } from '../../units/ticks.ts';
import { costOf } from '../purchase.ts';
import type { ClothsChosen } from './choose-cloths.ts';

/**
 * The choice with the sums of the whole plan: what it really buys in the end; and as a bound, what is proven of the
 * cloths that were chosen among, and of each other cloth by itself.
 */
export function settledChoice(
  plan: Plan,
  chosen: ClothsChosen,
  cloths: readonly ClothPlan[],
  joined: readonly JoinedPiece[],
): ClothChoice {
  const { lots, measure } = chosen;
  const ofCloth = ({ purchase }: ClothPlan) => (measure === 'money' ? purchase?.cost : purchase?.bought) ?? 0;
  const total = cloths.reduce((sum, cloth) => sum + ofCloth(cloth), 0);
  const others = cloths.filter(({ cloth }) => !chosen.cloths.includes(cloth));
  const bound = others.reduce((sum, own) => {
    const before = chosen.others.find(({ cloth }) => cloth === own.cloth)?.least ?? 0;
    // With joined pieces, what is proven of their parts says nothing of other ways to join.
    const isJoined = joined.some(({ piece }) => piece.cloth === own.cloth);
    return sum + (isJoined ? before : Math.max(before, provenOf(plan, own, measure)));
  }, chosen.bound);
  return { lots, measure, total, bound: Math.min(bound, total) };
}

/** The least that a cloth by itself can come to. */
function provenOf(
  plan: Plan,
  { cloth: name, purchase, bound }: ClothPlan,
  measure: ClothChoice['measure'],
): number {
  const cloth = plan.cloths.find((own) => own.name === name)!;
  if (!purchase || !cloth.buy || bound === undefined) return 0;
  const bought = ceilTo(bound, cloth.buy.step);
  if (measure === 'length') return bought;
  return cloth.price ? costOf(cloth.price, bought) : 0;
}
