import type { ClothPlan } from '../model/cut-plan.ts';
import type { ClothFigures } from '../planning/figures.ts';
import { foldsOf } from './totals.ts';

/** `12 cuts (2 with scissors, 3 torn), 1 fold`: what is cut by no ruler is told apart. */
export function wordWork(clothPlan: ClothPlan, figures: ClothFigures): string {
  const { strokes, scissored, torn } = figures;
  const byHand = [
    ...(scissored > 0 ? [`${scissored} with scissors`] : []),
    ...(torn > 0 ? [`${torn} torn`] : []),
  ];
  const told = byHand.length > 0 ? ` (${byHand.join(', ')})` : '';
  const folds = foldsOf(clothPlan, figures);
  return `${strokes} ${strokes === 1 ? 'cut' : 'cuts'}${told}, ${folds} ${folds === 1 ? 'fold' : 'folds'}`;
}
