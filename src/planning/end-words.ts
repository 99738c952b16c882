import type { Cloth } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import { formatLength, type LengthStyle } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { lengthInHand } from './length-in-hand.ts';
import type { CuttingStep } from './steps.ts';

/**
 * What is to be seen to before the first cut of a length from which nothing is squared off: its near end is taken as
 * straight, since all else is measured from there. Undefined where the first step squares it.
 *
 * An end is straight where it follows one thread, square to the selvedge (straightening by a pulled thread or a woven line:
 * Open School course notes, Fabric Preparation; by a square against the selvedge: common practice, no published source).
 */
export function endToTest(cloth: Cloth, length: LengthPlan): string | undefined {
  if (cloth.squaring > 0 || length.begins) return undefined;
  const { left, right } = (lengthInHand(cloth, length) ?? cloth).selvedge;
  const edge = left > 0 || right > 0 ? 'a selvedge' : 'its long edge';
  return `The near end is taken as straight, and every length is measured from it. Test it: a square laid to ${edge} must show cloth along the whole end. Where it does not, straighten it by a thread first, and check that the length left is still enough.`;
}

/** What is done to a length before all else where its measures are told as it lies turned about; undefined for all others. */
export function turnFirst(cloth: Cloth, length: LengthPlan): string | undefined {
  if (!lengthInHand(cloth, length)?.turnedAbout) return undefined;
  return 'First turn the length about on the table, face as it lies, so that the edge it was measured from lies at the right and its near end at the far one; its crease then lies left of the middle, and every measure here is told as it lies now.';
}

/**
 * How a folded lay is folded before its first cut, and from where its settings are told; undefined where it lies flat. Of a
 * fold down the middle the edges meet, so no measure is needed for it.
 */
export function foldFirst({ lay, width }: LengthPlan, style: LengthStyle): string | undefined {
  if (lay.kind === 'flat') return undefined;
  const over = ticks(2 * lay.foldAt);
  const say = (extent: Ticks) => formatLength(extent, style);
  const meets = Math.abs(width - over) <= 1;
  const how = meets
    ? 'the left edge over onto the right one, so that both edges and the near ends lie even'
    : over < width
      ? `the left edge over to the right, so that the fold lies at ${say(lay.foldAt)} from it and it comes to lie ${say(over)} from where it lay; beyond it the cloth lies in one ply`
      : `the left edge over beyond the right one, so that the fold lies at ${say(lay.foldAt)} from it`;
  return `Before the first cut fold the length: ${how}. The fold then lies at the left, and what is cut along the length is measured from it first.`;
}

/**
 * What is to be marked before plies are cut that lie with their ends opposite: folded end to end, the upper ply of a cloth with an up
 * lies upside down. For plain rectangles that is no harm, as long as each keeps its mark (common practice, no published
 * source; why it is forbidden for shaped pieces: K. H. Watson, Textiles and Clothing, 1907). A cut along the length parts no
 * ply from the one it is folded out of, so what is folded for that alone opens out again as it lay. Undefined where no step folds so.
 */
export function upToMark({ direction }: Cloth, steps: readonly CuttingStep[]): string | undefined {
  if (direction !== 'one-way' && direction !== 'nap') return undefined;
  const endToEnd = steps.filter(
    ({ action, spread }) => action === 'crosscut' && spread.mirrorAt !== undefined,
  );
  if (endToEnd.length === 0) return undefined;
  const named = endToEnd.map(({ number }) => number);
  const which =
    named.length === 1 ? `step ${named[0]}` : `steps ${named.slice(0, -1).join(', ')} and ${named.at(-1)}`;
  return `In ${which} the cloth is folded end to end, so its upper ply lies the other way up: chalk an arrow for the top on every ply before it is folded, and turn those pieces round afterwards.`;
}
