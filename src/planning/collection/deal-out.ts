import { Master } from './master.ts';
import type { MasterAnswer, MasterOptions, MasterQuestion } from './master-question.ts';

/**
 * Answers a question part by part: pools that no cloth and no limit connects are dealt out apart, and their costs and
 * bounds add up. Cloths that nothing is dealt to cost nothing here, whatever they are cut into anyway.
 */
export function dealOut(question: MasterQuestion, options: MasterOptions): MasterAnswer {
  const units: (readonly number[])[] = question.pools.map(() => []);
  let [cost, bound, nodes] = [0, 0, 0];
  let dealt = true;
  const groups = connected(question);
  for (const [index, pools] of groups.entries()) {
    // Nodes that one part leaves are for those after it.
    const share = Math.ceil((options.mostNodes - nodes) / (groups.length - index));
    const answer = new Master(partOf(question, pools), {
      ...options,
      mostNodes: Math.max(1, share),
    }).run();
    cost += answer.cost;
    bound += answer.bound;
    nodes += answer.nodes;
    dealt &&= answer.units !== undefined;
    for (const [place, pool] of pools.entries()) units[pool] = answer.units?.[place] ?? [];
  }
  return { units: dealt ? units : undefined, cost, bound, nodes };
}

/** Pools in groups that share a cloth or a limit, directly or through others. */
function connected({ pools, clashes }: MasterQuestion): readonly (readonly number[])[] {
  const groupOf = pools.map((_, pool) => pool);
  const unite = (members: readonly number[]) => {
    const least = Math.min(...members.map((pool) => groupOf[pool]!));
    const joined = new Set(members.map((pool) => groupOf[pool]!));
    for (const [pool, group] of groupOf.entries()) if (joined.has(group)) groupOf[pool] = least;
  };
  const byCloth = new Map<number, number[]>();
  for (const [pool, { cloths }] of pools.entries()) {
    for (const cloth of cloths) byCloth.set(cloth, [...(byCloth.get(cloth) ?? []), pool]);
  }
  for (const members of byCloth.values()) unite(members);
  for (const { terms } of clashes) unite(terms.map(({ pool }) => pool));
  return [...new Set(groupOf)].map((group) => [...pools.keys()].filter((pool) => groupOf[pool] === group));
}

/** The question of some pools alone, with only the cloths that they may be cut from. */
function partOf({ pools, clashes, base, costs }: MasterQuestion, members: readonly number[]): MasterQuestion {
  const cloths = [...new Set(members.flatMap((pool) => pools[pool]!.cloths))].sort(
    (one, other) => one - other,
  );
  return {
    pools: members.map((pool) => ({
      ...pools[pool]!,
      cloths: pools[pool]!.cloths.map((cloth) => cloths.indexOf(cloth)),
    })),
    clashes: clashes
      .filter(({ terms }) => terms.some(({ pool }) => members.includes(pool)))
      .map(({ terms, most }) => ({
        terms: terms.map(({ pool, weight }) => ({ pool: members.indexOf(pool), weight })),
        most,
      })),
    base: cloths.map((cloth) => base[cloth]!),
    costs: cloths.map((cloth) => costs[cloth]!),
  };
}
