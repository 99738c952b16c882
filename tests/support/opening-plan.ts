/** Cushion covers whose opening is left to the plan, for planning and for the checker. */
import type { Cloth } from '../../src/model/cloth.ts';
import type { MakeOrder, Plan } from '../../src/model/plan.ts';
import { clothOf, inches, planOf } from '../planning/build.ts';

/**
 * Every gull flies the same way, so the backs of an 18 in cover are 19 x 13 1/2 or 13 1/2 x 19 as they stand, and never
 * turned. Level, two lie side by side on 54 in; upright, four do.
 */
export const gulls: Cloth = clothOf({
  name: 'gull print',
  direction: 'one-way',
  crease: { kind: 'none' },
  buy: { step: inches(1 / 2) },
});

export function covers(
  count: number,
  measures: MakeOrder['measures'] = {},
  make = 'envelope-cover',
): MakeOrder {
  return {
    ...{ name: 'attic covers', make, count },
    cloths: make === 'wrap-cover' ? { strip: gulls.name } : { front: 'canvas', backs: gulls.name },
    measures: {
      size: { width: inches(18), length: inches(18) },
      'smaller than pad': 0,
      'seam allowance': inches(1 / 2),
      hem: { visible: inches(1), under: inches(1 / 2) },
      opening: 'either',
      'opening choice': 'whole set',
      lap: inches(5),
      ...measures,
    },
  };
}

export function coverPlan(order: MakeOrder, backs: Cloth = gulls): Plan {
  const front = clothOf({ name: 'canvas', direction: 'plain' });
  return planOf(order.make === 'wrap-cover' ? [backs] : [front, backs], [], { makes: [order] });
}
