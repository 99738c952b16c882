import { afterWashing } from '../cloth/washing.ts';
import type { Cloth, MeasuredLength } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { formatLength, formatSize, type LengthStyle } from '../units/format.ts';
import { floorTo, ticks } from '../units/ticks.ts';

/** One line a measured length: its size, what it really shrank, and how its width differs from what was reckoned with. */
export function measuredLines(cloth: Cloth, plan: Plan, style: LengthStyle = plan): readonly string[] {
  const { measured } = cloth;
  if (!measured) return [];
  return measured.lengths.map((own) => {
    const remarks = [shrankWords(own, cloth, style), widthWords(own, cloth, plan, style)].flatMap((words) =>
      words === undefined ? [] : [words],
    );
    return [`${own.name}, ${formatSize(own, style)}`, ...remarks].join('; ');
  });
}

function shrankWords(own: MeasuredLength, cloth: Cloth, style: LengthStyle): string | undefined {
  const { before, length } = own;
  if (before === undefined) return undefined;
  const { washing } = cloth.measured!.reckoned;
  const along = washing?.washed === 'before-cutting' ? washing.along : undefined;
  const planned = along && perCentRounded(along.numerator, along.denominator);
  if (length > before) return `${formatLength(ticks(length - before), style)} longer than before washing`;
  const found = perCentRounded(before - length, before);
  if (planned === undefined) return `it shrank ${found} along, and no washing was reckoned with`;
  return found === planned
    ? `it shrank ${found} along, as planned`
    : `it shrank ${found} along, you planned ${planned}`;
}

function widthWords(own: MeasuredLength, cloth: Cloth, plan: Plan, style: LengthStyle): string | undefined {
  if (own.wasInHand) return undefined;
  const { width, washing } = cloth.measured!.reckoned;
  const reckoned = washing?.washed === 'before-cutting' ? afterWashing(width, washing.across) : width;
  const differs = Math.abs(reckoned - own.width);
  // Less than a mark is nothing that a ruler shows.
  const marks = floorTo(ticks(differs), plan.rulerMark);
  if (marks === 0) return undefined;
  return `${formatLength(marks, style)} ${own.width < reckoned ? 'narrower' : 'wider'} than reckoned`;
}

/** To the nearest tenth, as a person would say it: `4.5 %`, `3 %`. */
export function perCentRounded(part: number, whole: number): string {
  const tenths = Math.round((part * 1000) / whole);
  return `${tenths % 10 === 0 ? tenths / 10 : (tenths / 10).toFixed(1)}\u00a0%`;
}
