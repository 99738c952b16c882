import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { formatLength, formatSize, type LengthStyle } from '../units/format.ts';
import { floorTo } from '../units/ticks.ts';

/**
 * What to do before anything is measured out, where the plan counts on a wash: the widths and lengths of the marker are
 * those of washed cloth. Undefined where nothing is washed first.
 */
export function washFirst(cloth: Cloth, plan: Plan, style: LengthStyle = plan): string | undefined {
  const { along, across } = lossBeforeCutting(cloth);
  if (along.numerator === 0 && across.numerator === 0) return undefined;
  const out = floorTo(afterWashing(cloth.width, across), plan.rulerMark);
  return `Wash, dry and press it first, as it will be washed later: ${formatLength(cloth.width, style)} wide is reckoned to come out ${formatLength(out, style)} wide. Measure it again before you cut.`;
}

/** A length in hand as it was measured, by which it is known on the shelf, and as it lies washed where that differs. */
export function sizeOnShelf(
  own: LengthInHand | undefined,
  onTable: { readonly width: LengthInHand['width']; readonly length: LengthInHand['length'] },
  plan: Plan,
): string {
  const mark = plan.rulerMark;
  const washed = formatSize(
    { width: floorTo(onTable.width, mark), length: floorTo(onTable.length, mark) },
    plan,
  );
  if (!own || (own.width === onTable.width && own.length === onTable.length)) return washed;
  return `${formatSize(own, plan)}, about ${washed} when washed`;
}
