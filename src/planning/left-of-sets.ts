import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId, PieceWanted, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';
import { layOutCloth } from './lay-out.ts';
import { squaredLeftovers, usableSize } from './put-back.ts';

export interface SetsAsked {
  readonly plan: Plan;
  /** As the plan has it, without any reserve. */
  readonly cloth: Cloth;
  /** With the copies of all the sets. */
  readonly pieces: readonly PieceWanted[];
}

/** So many sets laid out on the lengths in hand and the least to buy for them. */
export interface LaidSets extends SetsAsked {
  readonly laid: ClothPlan;
}

/** Sets laid out as a plan of them would be, so that a buy tells the leftovers that its plan does; undefined where there is none. */
export function layOutSets(asked: SetsAsked, pack: PackOptions): LaidSets | undefined {
  const { plan, cloth, pieces } = asked;
  const outcome = layOutCloth({ ...plan, cloths: [cloth] }, cloth, pieces, { pack });
  return outcome.ok ? { ...asked, laid: outcome.value.plan } : undefined;
}

/**
 * What they leave to keep of a buy that may be longer: usable sizes as the summary of a plan tells them, down to the ruler's
 * marks. `cut` is whether any of what is bought is cut. Undefined where they were laid out on more than that.
 */
export function leftOfBuy(
  { plan, cloth, laid }: LaidSets,
  bought: Ticks,
): { readonly kept: readonly Size[]; readonly cut: boolean } | undefined {
  const least = laid.purchase?.bought ?? ticks(0);
  if (least > bought) return undefined;
  const loss = lossBeforeCutting(cloth).along;
  const more = ticks(afterWashing(bought, loss) - afterWashing(least, loss));
  const kept = laid.lengths.flatMap((length) => {
    const own = length.source === 'bought' && more > 0 ? longer(length, more) : length;
    return squaredLeftovers(cloth, own, plan.keep).map(usableSize);
  });
  const onMarks = (extent: Ticks) => floorTo(extent, plan.rulerMark);
  return {
    kept: kept.map(({ width, length }) => ({ width: onMarks(width), length: onMarks(length) })),
    cut: laid.purchase !== undefined,
  };
}

/** The same cuts on a length that goes on at its far end, with what lies there to keep. */
function longer(length: LengthPlan, more: Ticks): LengthPlan {
  const { tree } = length;
  const isCrosscut = tree.kind === 'cut' && tree.direction === 'crosscut';
  const [at, parts] = isCrosscut ? [tree.at, tree.parts] : [[], [tree]];
  const on: CutTree<PieceId> = {
    kind: 'cut',
    direction: 'crosscut',
    at: [...at, length.length],
    parts: [...parts, { kind: 'remnant' }],
  };
  return { ...length, length: ticks(length.length + more), tree: on };
}
