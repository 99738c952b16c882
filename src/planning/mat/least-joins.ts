import { findMake } from '../../makes/catalogue.ts';
import { expandMakes } from '../../makes/expand.ts';
import type { Plan } from '../../model/plan.ts';
import { type PlanChange, withChanges } from './changes.ts';
import type { Judge } from './judge.ts';
import { areaOf, type Thing } from './things.ts';

/** More joins than this in one piece are no way to save it. */
const MOST_JOINS = 3;
/** Most things that are tried, those that take most cloth first: nobody joins a small piece to save cloth. */
const MOST_TRIED = 4;

/**
 * Ways to let pieces be joined so that all fits: each thing by itself whose make knows joins, or that is a loose piece,
 * with as few joins as can be; where none alone is enough, all of them. Cloth is seamed, and what is matched stays whole.
 */
export function* leastJoins(
  plan: Plan,
  things: readonly Thing[],
  judge: Judge,
): Generator<readonly PlanChange[]> {
  const byArea = [...things].sort((a, b) => areaOf(b) - areaOf(a));
  const alone = byArea.flatMap((thing) => joinsOf(plan, thing)).slice(0, MOST_TRIED);
  const fits = (changes: readonly PlanChange[]) => judge.of(withChanges(plan, changes)) === 'fits';
  let found = false;
  for (let most = 1; most <= MOST_JOINS && !found; most += 1) {
    for (const permit of alone) {
      const change = permit(most);
      if (!change || !fits([change])) continue;
      found = true;
      yield [change];
    }
  }
  if (found || alone.length < 2) return;
  const all = alone.flatMap((permit) => permit(MOST_JOINS) ?? []);
  if (fits(all)) yield all;
}

type Permit = (most: number) => PlanChange | undefined;

/** For each piece of a thing that may be joined: the change that permits so many, undefined where as many are permitted already. */
function joinsOf(plan: Plan, thing: Thing): readonly Permit[] {
  const of = { list: thing.list, index: thing.index };
  const pieces = expandMakes(plan).pieces.filter(({ order, match }) => order === thing.name && !match);
  if (pieces.length === 0) return [];
  if (of.list === 'pieces') {
    const before = plan.pieces[of.index]!.join?.mostJoins ?? 0;
    return [(most) => (most > before ? { kind: 'join', of, most } : undefined)];
  }
  const order = plan.makes[of.index]!;
  return Object.keys(findMake(order.make)!.spec.measures)
    .filter((measure) => measure.endsWith(' joins') && typeof order.measures[measure] === 'number')
    .map(
      (measure): Permit =>
        (most) =>
          most > (order.measures[measure] as number) ? { kind: 'join', of, most, measure } : undefined,
    );
}
