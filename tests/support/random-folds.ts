/** Random plans in which cloths are folded off the middle, laid once for all cuts, or folded for a piece that asks for it. */
import fc from 'fast-check';
import type { Cloth } from '../../src/model/cloth.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { ceilTo, floorTo, type Ticks, ticks } from '../../src/units/ticks.ts';
import { randomPlan } from './random-plan.ts';

interface Chance {
  /** Per cloth: where in its left half it is folded, in hundredths; none for not at all. */
  readonly folds: readonly (number | undefined)[];
  readonly oneSpread: readonly boolean[];
  readonly onFold: readonly boolean[];
}

export function randomFolds(): fc.Arbitrary<Plan> {
  const chance: fc.Arbitrary<Chance> = fc.record({
    folds: fc.array(fc.option(fc.integer({ min: 15, max: 48 }), { nil: undefined }), {
      minLength: 4,
      maxLength: 4,
    }),
    oneSpread: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    onFold: fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }),
  });
  return fc.tuple(randomPlan(), chance).map(([plan, own]) => folded(plan, own));
}

function folded(plan: Plan, { folds, oneSpread, onFold }: Chance): Plan {
  const cloths = plan.cloths.map((cloth, index): Cloth => {
    const at = folds[index];
    const foldAt =
      at === undefined ? undefined : floorTo(ticks(Math.floor((cloth.width * at) / 100)), plan.rulerMark);
    return {
      ...cloth,
      ...(foldAt !== undefined && foldAt > cloth.selvedge.left && { lay: 'folded' as const, foldAt }),
      ...(oneSpread[index] && { oneSpread: true as const }),
    };
  });
  const pieces = plan.pieces.map((piece, index): LoosePiece => {
    if (!onFold[index] || piece.join) return piece;
    // Half of it falls on a mark, so that it can be set from a fold.
    const cloth = cloths.find(({ name }) => name === piece.cloth);
    const most = Math.floor((cloth?.width ?? piece.size.width) / 4);
    const side = (own: Ticks) => ceilTo(ticks(Math.min(own, most)), ticks(2 * plan.rulerMark));
    const size = { width: side(piece.size.width), length: side(piece.size.length) };
    return { ...piece, count: Math.min(piece.count, 3), size, onFold: true };
  });
  return { ...plan, cloths, pieces };
}
