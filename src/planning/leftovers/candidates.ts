import { usualWishes } from '../../makes/usual-sizes.ts';
import type { ClothName } from '../../model/cloth.ts';
import type { UseSource, Wish } from '../../model/leftover-use.ts';
import type { Plan } from '../../model/plan.ts';
import { orderFor } from './use-plan.ts';

/** Something that a leftover of a cloth may be tried for. */
export interface Candidate {
  readonly wish: Wish;
  readonly source: UseSource;
}

/**
 * What to try the leftovers of a cloth for: the maker's own list in its order; more of what the plan makes from that cloth
 * alone; and, where asked for, the sizes that are usual in the trade, largest first.
 */
export function candidatesFor(plan: Plan, cloth: ClothName, withUsual: boolean): readonly Candidate[] {
  const listed = (plan.wishes ?? []).filter(({ cloths }) => cloths?.includes(cloth) ?? true);
  const more = withUsual ? ordersOf(plan, cloth) : [];
  const known = [...listed, ...more].map(sameness);
  const usual = withUsual ? usualWishes(plan.unit).filter((wish) => !known.includes(sameness(wish))) : [];
  return [
    ...listed.map((wish) => ({ wish, source: 'list' as const })),
    ...more.map((wish) => ({ wish, source: 'plan' as const })),
    ...usual.map((wish) => ({ wish, source: 'usual' as const })),
  ];
}

/** Orders cut from this cloth alone that ask nothing of its print. */
function ordersOf({ makes }: Plan, cloth: ClothName): readonly Wish[] {
  return makes
    .filter(({ cloths, choices, matches }) => {
      const own = Object.values(cloths);
      return own.every((name) => name === cloth) && choices === undefined && matches === undefined;
    })
    .map(({ name, make, measures }): Wish => ({ name, make, measures, least: 1 }))
    .filter((wish) => Object.keys(orderFor({ wish, count: 1 }, cloth).cloths).length > 0);
}

function sameness({ make, measures }: Wish): string {
  return `${make} ${JSON.stringify(measures.size ?? measures)}`;
}
