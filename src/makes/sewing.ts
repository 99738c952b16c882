import type { Hem } from '../model/measure.ts';
import type { PlanUnit } from '../model/plan.ts';
import { formatLength } from '../units/format.ts';
import type { Ticks } from '../units/ticks.ts';

/** Writes lengths of one plan into sentences: `1/2 in`, `1.5 cm`. */
export type Written = (length: Ticks) => string;

export function writtenIn(unit: PlanUnit): Written {
  return (length) => formatLength(length, { unit });
}

/** `turn under 1/2 in, turn again 1 in, press and stitch`. */
export function hemming({ visible, under }: Hem, written: Written): string {
  const turns =
    under === 0 ? `turn ${written(visible)}` : `turn under ${written(under)}, turn again ${written(visible)}`;
  return `${turns}, press and stitch`;
}
