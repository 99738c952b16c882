import type { Wish } from '../model/leftover-use.ts';
import type { Size } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { filledMeasures } from '../model/reading/make-fields.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, ticks } from '../units/ticks.ts';
import { findMake } from './catalogue.ts';

type Pair = readonly [width: number, length: number];

interface Usual {
  readonly kind: string;
  readonly name: string;
  readonly in: readonly Pair[];
  readonly cm: readonly Pair[];
}

const square = (side: number): Pair => [side, side];

/**
 * Finished sizes that are usual in the trade, of makes that are told by one size. Napkins of 18, 22 and 24 in: The
 * Complete Home (ed. C. E. Laughlin, 1906), on linen; 16 in and the metric ones are common practice, no published
 * source. Pads, pillows, mats and bags: trade sizes, from memory.
 */
const USUAL: readonly Usual[] = [
  {
    kind: 'envelope-cover',
    name: 'cushion covers',
    in: [...[24, 22, 20, 18, 16, 14, 12].map(square), [20, 14], [18, 12], [16, 12]],
    cm: [...[60, 50, 45, 40].map(square), [50, 30]],
  },
  { kind: 'pillowcase', name: 'pillowcases', in: [[20, 26]], cm: [[50, 75]] },
  { kind: 'tote', name: 'totes', in: [[14, 16]], cm: [[36, 40]] },
  { kind: 'place-mat', name: 'place mats', in: [[18, 12]], cm: [[45, 30]] },
  { kind: 'napkin', name: 'napkins', in: [24, 22, 18, 16].map(square), cm: [50, 45, 40].map(square) },
];

/** One wish for each usual size of each make, with the make's own defaults for all other measures. */
export function usualWishes(unit: PlanUnit): readonly Wish[] {
  const each = unit === 'in' ? TICKS_PER_INCH : TICKS_PER_CM;
  const context = { unit, currency: '' };
  return USUAL.flatMap(({ kind, name, [unit]: sizes }) =>
    sizes.map(([width, length]): Wish => {
      const size: Size = { width: ticks(width * each), length: ticks(length * each) };
      const { spec } = findMake(kind)!;
      return { name, make: kind, measures: filledMeasures({ size }, spec, context), least: 1 };
    }),
  );
}
