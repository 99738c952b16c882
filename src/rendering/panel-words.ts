import type { ClothPlan, CutPlan } from '../model/cut-plan.ts';
import { countPanels } from '../planning/panels/panels-told.ts';
import { formatLength } from '../units/format.ts';

/** Which printed panels are taken and which are left whole, and how the shop is to cut them. */
export function panelRows(cutPlan: CutPlan, clothPlan: ClothPlan): (readonly [string, string])[] {
  const { plan } = cutPlan;
  const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
  const { taken, left } = countPanels(cutPlan, cloth, clothPlan);
  if (taken.size === 0 && left.size === 0) return [];
  const { panels } = cloth;
  const bought = clothPlan.purchase?.bought;
  const every = panels?.every;
  const repeats =
    bought === undefined || every === undefined
      ? ''
      : panels?.sold === 'anywhere'
        ? `; a repeat more than the panels take is bought, since the shop may cut anywhere: square the end where the first begins`
        : `; ask for ${bought / every === 1 ? 'one whole repeat' : `${bought / every} whole repeats`} of ${formatLength(every, plan)}, cut where the panels begin`;
  return [
    ['Panels', `${taken.size === 0 ? 'none taken' : `cut around ${listed(taken)}`}${repeats}`],
    ...(left.size === 0 ? [] : [['Panels left', `whole in what is left: ${listed(left)}`] as const]),
  ];
}

function listed(names: ReadonlyMap<string, number>): string {
  return [...names].map(([name, count]) => `${count} × ${name}`).join(', ');
}
