/** Napkins of one size in several cloths, for planning in stacks and for the checker. */
import type { Cloth } from '../../src/model/cloth.ts';
import type { Plan, StackRule } from '../../src/model/plan.ts';
import { clothOf, inches, loose, planOf } from '../planning/build.ts';

/** A cloth with selvedges of so many inches left and right; widths and edges all differ. */
export function napkinCloth(
  name: string,
  width: number,
  [left, right]: readonly [number, number],
  changes: Partial<Cloth> = {},
): Cloth {
  return clothOf({
    name,
    width: inches(width),
    selvedge: { left: inches(left), right: inches(right) },
    ...changes,
  });
}

export const tern = napkinCloth('tern check', 55, [1 / 2, 5 / 8]);
export const samphire = napkinCloth('samphire plain', 55.25, [3 / 8, 1 / 2], {
  crease: { kind: 'keep-off', each: inches(1 / 4) },
});
export const limpet = napkinCloth('limpet dot', 56, [1 / 2, 3 / 4], { direction: 'one-way' });

/** Eleven napkins of 13 x 12 in from each cloth. */
export function stackPlan(cloths: readonly Cloth[], stacks: StackRule, changes: Partial<Plan> = {}): Plan {
  const pieces = cloths.map(({ name }) => loose(`${name} napkin`, 13, 12, 11, name));
  return planOf(cloths, pieces, { stacks, ...changes });
}
