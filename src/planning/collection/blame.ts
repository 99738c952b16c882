import type { ClothSet } from '../../model/collection.ts';
import type { Issue } from '../../model/issue.ts';
import type { Plan } from '../../model/plan.ts';

type NoChoice = Extract<Issue, { code: 'no-choice' }>;

/**
 * Says which sets no choice can be made for: none where there is none without any rule, else those whose own rules leave
 * none, however the others are cut; all that were named where only together they leave none.
 */
export function blamed(plan: Plan, issue: NoChoice, hasChoice: (plan: Plan) => boolean): NoChoice {
  const named = (plan.sets ?? []).filter(({ name }) => issue.details.sets.includes(name));
  if (named.length === 0) return issue;
  if (!hasChoice({ ...plan, sets: [] })) return { ...issue, details: { sets: [] } };
  const alone = named.length === 1 ? named : named.filter((set) => !hasChoice({ ...plan, sets: [set] }));
  if (alone.length === 0) return issue;
  return { ...issue, path: pathOf(plan, alone[0]!), details: { sets: alone.map(({ name }) => name) } };
}

/** Where the plan file has it: an order that names no set is one of its own. */
function pathOf({ makes }: Plan, { name, orders }: ClothSet): Issue['path'] {
  const own = makes.findIndex((make) => make.name === name);
  return own >= 0 && orders.length === 1 && orders[0] === name ? ['make', own] : ['sets', name];
}
