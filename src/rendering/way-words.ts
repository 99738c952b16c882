import type { ClothPlan, LayWay } from '../model/cut-plan.ts';
import type { Plan } from '../model/plan.ts';
import { formatBuy, formatMoney } from '../units/format.ts';
import { ticks } from '../units/ticks.ts';

/** Each further way to lay a cloth, told by what it takes more or less than the chosen one. */
export function otherWays({ ways = [] }: ClothPlan, plan: Plan): readonly string[] {
  const chosen = ways.find((way) => way.chosen);
  return chosen ? ways.filter((way) => !way.chosen).map((way) => otherWay(way, chosen, plan)) : [];
}

function otherWay(way: LayWay, chosen: LayWay, plan: Plan): string {
  const money =
    way.cost === undefined || chosen.cost === undefined || way.cost === chosen.cost
      ? ''
      : ` (${formatMoney(Math.abs(way.cost - chosen.cost), plan.currency)})`;
  const buy = way.bought - chosen.bought;
  const said = [
    buy === 0
      ? 'the same cloth, its leftovers less whole'
      : `${formatBuy(ticks(Math.abs(buy)), plan)} ${buy > 0 ? 'more' : 'less'} to buy${money}`,
    ...difference(way.strokes - chosen.strokes, 'cut'),
    ...difference(way.folds - chosen.folds, 'fold'),
    ...difference(way.spare - chosen.spare, 'spare piece'),
  ];
  const lay =
    way.lay === 'folded'
      ? 'folded throughout'
      : way.lay === 'part-folded'
        ? 'folded over on one side'
        : chosen.lay === 'flat'
          ? 'flat, cut otherwise'
          : 'flat';
  return `${lay}: ${said.join(', ')}`;
}

function difference(by: number, what: string): readonly string[] {
  if (by === 0) return [];
  const count = Math.abs(by);
  return [`${count} ${what}${count === 1 ? '' : 's'} ${by > 0 ? 'more' : 'fewer'}`];
}
