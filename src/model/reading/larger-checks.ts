import type { Cloth } from '../cloth.ts';
import type { Issue } from '../issue.ts';
import type { Plan } from '../plan.ts';

/** What of a whole plan stands against cutting the pieces of a cloth larger for the wash to come. */
export function largerFaults(plan: Plan): readonly Issue[] {
  return plan.cloths.flatMap((cloth): readonly Issue[] => {
    if (!cloth.washing?.cutLarger) return [];
    const wanted = hindrance(cloth, plan);
    if (wanted === undefined) return [];
    const path = ['cloths', cloth.name, 'washing', 'cut larger'];
    return [{ code: 'out-of-range', severity: 'error', path, details: { found: 'yes', wanted } }];
  });
}

function hindrance(cloth: Cloth, plan: Plan): string | undefined {
  const isOpen = plan.sets !== undefined || [...plan.makes, ...plan.pieces].some(({ choices }) => choices);
  if (isOpen) {
    return 'no, or one cloth for every part and no rules: sizes would hang on which cloth is chosen';
  }
  const mounts = [
    ...plan.makes.flatMap(({ panels = {} }) => Object.values(panels)),
    ...plan.pieces.flatMap(({ panel }) => panel ?? []),
  ];
  if (mounts.some(({ mount }) => mount?.cloth === cloth.name))
    return 'no: strips and grounds are worked out from a printed panel, which cannot be cut larger';
  const washed = cloth.inHand.find((length) => length.washed);
  return (
    washed && `no, or leave "${washed.name}" out: it is washed already, so nothing cut from it would shrink`
  );
}
