import { usualWishes } from '../../makes/usual-sizes.ts';
import type { Cloth, ClothName } from '../../model/cloth.ts';
import { NO_RULES } from '../../model/collection.ts';
import type { UseSource, Wish } from '../../model/leftover-use.ts';
import type { MakeOrder, Plan } from '../../model/plan.ts';

/** Something that a leftover of a cloth may be tried for. */
export interface Candidate {
  readonly wish: Wish;
  readonly source: UseSource;
}

/**
 * What to try the leftovers of a cloth for, cut from that cloth alone: the maker's own list in its order; more of what the
 * plan makes; and, where asked for, the sizes that are usual in the trade, largest first. What is matched is cut from cloth
 * with a repeat alone.
 */
export function candidatesFor(plan: Plan, cloth: Cloth, withUsual: boolean): readonly Candidate[] {
  const fromThis = (wish: Wish) => mayBeAllFrom(wish, cloth.name) && (!wish.matches || cloth.repeat);
  const listed = (plan.wishes ?? []).filter(fromThis);
  const more = withUsual ? ordersOf(plan).filter(fromThis) : [];
  const known = [...listed, ...more].map(sameness);
  const usual = withUsual ? usualWishes(plan.unit).filter((wish) => !known.includes(sameness(wish))) : [];
  return [
    ...listed.map((wish) => ({ wish, source: 'list' as const })),
    ...more.map((wish) => ({ wish, source: 'plan' as const })),
    ...usual.map((wish) => ({ wish, source: 'usual' as const })),
  ];
}

/** What to try the leftovers of several cloths for together, whose parts are not all of one cloth. */
export function candidatesAcross(plan: Plan, withPlanned: boolean): readonly Candidate[] {
  const across = ({ parts }: Wish) => new Set(Object.values(parts ?? {}).flat()).size > 1;
  const listed = (plan.wishes ?? []).filter(across);
  const more = withPlanned ? ordersOf(plan).filter(across) : [];
  return [
    ...listed.map((wish) => ({ wish, source: 'list' as const })),
    ...more.map((wish) => ({ wish, source: 'plan' as const })),
  ];
}

/** Whether one cloth may serve for every part. */
function mayBeAllFrom({ cloths, parts, rules = NO_RULES }: Wish, cloth: ClothName): boolean {
  if (!parts) return cloths?.includes(cloth) ?? true;
  const named = Object.keys(parts);
  const apart = rules.unlike.filter((part) => named.includes(part)).length > 1;
  const once = rules.noClothTwice.some((part) => named.includes(part));
  return !apart && !once && Object.values(parts).every((names) => names.includes(cloth));
}

/** More of what the plan makes, as it makes it; without printed panels, which leftovers are not asked for. */
function ordersOf({ makes, sets = [] }: Plan): readonly Wish[] {
  return makes
    .filter(({ panels }) => panels === undefined)
    .map((order): Wish => {
      const { name, make, measures, matches } = order;
      const rules = sets.find(({ orders }) => orders.includes(name))?.rules;
      return {
        ...{ name, make, measures, least: 1 },
        ...clothsOf(order),
        ...(rules && { rules }),
        ...(matches && { matches }),
      };
    });
}

/** All from one of several cloths, or part by part. */
function clothsOf({ cloths, choices = {}, whole }: MakeOrder): Pick<Wish, 'cloths' | 'parts'> {
  const parts = Object.entries(cloths).map(([part, cloth]) => [part, choices[part] ?? [cloth]] as const);
  const [, first = []] = parts[0] ?? [];
  const same = parts.every(([, names]) => JSON.stringify(names) === JSON.stringify(first));
  if (same && (whole || first.length === 1)) return { cloths: first };
  return { parts: Object.fromEntries(parts) };
}

function sameness({ make, measures }: Wish): string {
  return `${make} ${JSON.stringify(measures.size ?? measures)}`;
}
