import type { ClothPlan, CutPlan } from '../model/cut-plan.ts';
import { type ClothFigures, clothFigures } from '../planning/figures.ts';

export interface Totals {
  readonly pieces: number;
  readonly cuts: number;
  readonly folds: number;
  readonly remnants: number;
  /** In hundredths; undefined unless something is bought and all that is bought has a price. */
  readonly cost: number | undefined;
}

/** Folds made for single steps, and the one fold of each length that is laid folded. */
export function foldsOf(clothPlan: ClothPlan, figures: ClothFigures): number {
  return figures.folds + clothPlan.lengths.filter((length) => length.lay.kind === 'folded').length;
}

export function totalsOf(cutPlan: CutPlan): Totals {
  let [pieces, cuts, folds, remnants, cost] = [0, 0, 0, 0, 0];
  const purchases = cutPlan.cloths.flatMap((clothPlan) => clothPlan.purchase ?? []);
  for (const clothPlan of cutPlan.cloths) {
    const figures = clothFigures(cutPlan, clothPlan);
    for (const copies of figures.copies.values()) pieces += copies;
    cuts += figures.strokes;
    folds += foldsOf(clothPlan, figures);
    remnants += figures.remnants.length;
  }
  for (const purchase of purchases) cost += purchase.cost ?? Number.NaN;
  return { pieces, cuts, folds, remnants, cost: purchases.length > 0 && cost >= 0 ? cost : undefined };
}
