import type { Plan } from '../model/plan.ts';
import { smallestSetOf } from '../planning/named-set.ts';
import type { Yielded } from '../planning/yield-of.ts';
import { formatBuy, formatMoney } from '../units/format.ts';
import { writeJson } from './json-text.ts';
import { counterWords } from './panel-words.ts';
import { planJson } from './plan-json.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';
import { usesText } from './uses.ts';
import { usesJson } from './uses-json.ts';
import { wordNamedSet } from './whole-buys.ts';

/** How many complete sets what is here gives, cloth by cloth, and what else fits into the rest. Ends without a newline. */
export function yieldText(found: Yielded, plan: Plan, columns: number): string {
  const { set, sets, proven, cloths, uses } = found;
  const all = [...set].map(([name, each]) => [name, each * sets] as const);
  const count = `${proven ? '' : 'At least '}${sets === 1 ? '1 set' : `${sets} sets`}`;
  const made = sets === 0 ? '' : `: ${wordNamedSet(new Map(all))}`;
  const heading = isWhole(plan, set) && sets === 1 ? `${count}, the whole plan${made}` : `${count}${made}`;
  const rest = usesText(uses, plan, columns);
  return [
    ...wrapWords(`One set is ${wordNamedSet(set)}.`, columns),
    ...wrapWords(`${heading}.`, columns),
    ...rowsInColumns(clothRows(found, plan), columns),
    ...(cloths.length === 0 || rest === '' ? [] : ['', 'What else fits into the rest', '', rest]),
  ].join('\n');
}

function isWhole(plan: Plan, set: Yielded['set']): boolean {
  return JSON.stringify([...smallestSetOf(plan)]) === JSON.stringify([...set]);
}

function clothRows({ cloths, sets, cutPlan }: Yielded, plan: Plan): readonly (readonly [string, string])[] {
  return cloths.map(({ cloth, sets: own, proven }) => {
    if (own === undefined) {
      const found = cutPlan?.cloths.find((each) => each.cloth === cloth);
      const purchase = found?.purchase;
      if (!cutPlan || !purchase) return [cloth, 'none is here'];
      const counter = counterWords(cutPlan, found);
      const cost = purchase.cost === undefined ? '' : ` for ${formatMoney(purchase.cost, plan.currency)}`;
      return [
        cloth,
        `none is here; buy ${purchase.lengths.map(({ bought }) => formatBuy(bought, plan)).join(' and ')}${cost}${counter === '' ? '' : `; ${counter}`}`,
      ];
    }
    const holds = `holds ${proven ? '' : 'at least '}${own === 1 ? '1 set' : `${own} sets`}`;
    return [cloth, own === sets ? `${holds}, and no more can be had of it` : holds];
  });
}

/** The same with the plan that cuts the sets, and those of the uses in figures. */
export function yieldJson({ set, sets, proven, cloths, cutPlan, uses }: Yielded, plan: Plan): string {
  return writeJson({
    format: 'laywright yield',
    version: 1,
    of: plan.name,
    set: Object.fromEntries(set),
    sets,
    proven,
    cloths: cloths.map(({ cloth, sets: own, proven: known }) => ({
      cloth,
      sets: own ?? null,
      proven: known,
    })),
    ...(cutPlan && { plan: planJson(cutPlan) }),
    uses: usesJson(uses, plan),
  });
}
