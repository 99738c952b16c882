import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { lengthInHand } from '../planning/length-in-hand.ts';
import { formatLength, formatSize, isWrittenWhole, type LengthStyle } from '../units/format.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';

/**
 * `54 in wide`, or `52 3/4 in wide once washed` where the width was measured on washed cloth; of a cloth that was measured at
 * the mat, what its widest length measures.
 */
export function widthWords(cloth: Pick<Cloth, 'width' | 'washing' | 'measured'>, style: LengthStyle): string {
  const { width, washing, measured } = cloth;
  const bought = measured?.lengths.filter(({ wasInHand }) => !wasInHand) ?? [];
  if (bought.length > 0)
    return `${formatLength(ticks(Math.max(...bought.map((own) => own.width))), style)} wide as measured`;
  if (!washing?.widthFromWashed) return `${formatLength(width, style)} wide`;
  return `${formatLength(afterWashing(width, washing.across), style)} wide once washed`;
}

/**
 * What to do before anything is measured out, where the plan counts on a wash: the widths and lengths of the marker are
 * those of washed cloth. Lengths of `cut` that are washed already are left out. Undefined where nothing is washed first.
 */
export function washFirst(
  cloth: Cloth,
  plan: Plan,
  style: LengthStyle = plan,
  cut?: ClothPlan,
): string | undefined {
  const { along, across } = lossBeforeCutting(cloth);
  if (along.numerator === 0 && across.numerator === 0) return undefined;
  const lengths = cut?.lengths ?? [];
  const washed = lengths.filter((own) => lengthInHand(cloth, own)?.washed).map(({ name }) => name);
  if (washed.length > 0 && washed.length === lengths.length) return undefined;
  const but = washed.length === 0 ? '' : `, all but ${listed(washed)}, washed already`;
  if (cloth.washing?.widthFromWashed)
    return `Wash, dry and press it first, as it will be washed later${but}: it is reckoned to be ${widthWords(cloth, style)}. Measure it again before you cut.`;
  const out = floorTo(afterWashing(cloth.width, across), plan.rulerMark);
  // What was measured stands in the cloth as it would be before the wash, and no shop sells it so wide.
  const [width, so] = cloth.measured
    ? [cloth.measured.reckoned.width, ', as you measured']
    : [cloth.width, ''];
  return `Wash, dry and press it first, as it will be washed later${but}: ${formatLength(width, style)} wide is reckoned to come out ${formatLength(out, style)} wide${so}. Measure it again before you cut.`;
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** What it measures before any wash. What was taken on washed cloth is worked back, and falls between the marks of any ruler. */
export function shelfSize(own: Size, plan: Plan): Size {
  const told = (length: Ticks) => (isWrittenWhole(length, plan) ? length : floorTo(length, plan.rulerMark));
  return { width: told(own.width), length: told(own.length) };
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
  return `${formatSize(shelfSize(own, plan), plan)}, about ${washed} when washed`;
}
