import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, CutPlan } from '../model/cut-plan.ts';
import type { Panels } from '../model/panel.ts';
import { isPanelled } from '../planning/panels/panel-rooms.ts';
import { countPanels } from '../planning/panels/panels-told.ts';
import { formatLength, type LengthStyle } from '../units/format.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';

/** Which printed panels are taken, which are left whole, and where a length begins that the shop may cut anywhere. */
export function panelRows(cutPlan: CutPlan, clothPlan: ClothPlan): (readonly [string, string])[] {
  const cloth = clothOf(cutPlan, clothPlan);
  const { taken, left } = countPanels(cutPlan, cloth, clothPlan);
  const asked = counterWords(cutPlan, clothPlan);
  const begins = beginWords(cutPlan, clothPlan);
  return [
    ...(asked === '' ? [] : [['At the counter', asked] as const]),
    ...(taken.size + left.size === 0
      ? []
      : [['Panels', taken.size === 0 ? 'none taken' : `cut around ${listed(taken)}`] as const]),
    ...(left.size === 0 ? [] : [['Panels left', `whole in what is left: ${listed(left)}`] as const]),
    ...(begins === '' ? [] : [['Panels begin', begins] as const]),
  ];
}

/**
 * How the shop is to cut what is bought of a cloth whose panels come again: `ask for 2 whole repeats of 40 in, cut where the
 * panels begin, 3 in before the lighthouse`. Empty where nothing is to be said.
 *
 * @param bought all lengths bought, unless only some of them are meant
 */
export function counterWords(
  cutPlan: CutPlan,
  clothPlan: ClothPlan,
  bought: readonly Ticks[] = (clothPlan.purchase?.lengths ?? []).map((length) => length.bought),
): string {
  const { plan } = cutPlan;
  const cloth = clothOf(cutPlan, clothPlan);
  const { panels } = cloth;
  if (panels?.every === undefined || panels.areas.length === 0 || bought.length === 0) return '';
  const every = formatLength(panels.every, plan);
  const isHeld = holdsPanels(cutPlan, cloth);
  if (panels.sold === 'anywhere') {
    const each = bought.length === 1 ? '' : ', in each length';
    return isHeld ? `may be cut anywhere: a whole repeat of ${every} is reckoned in for that${each}` : '';
  }
  const counts = bought.map((length) => String(length / panels.every!));
  const asked =
    counts.length > 1
      ? `lengths of ${counts.slice(0, -1).join(', ')} and ${counts.at(-1)} whole repeats`
      : counts[0] === '1'
        ? 'one whole repeat'
        : `${counts[0]} whole repeats`;
  const where = isHeld ? `, cut where the panels begin${firstPanel(panels.areas, (y) => y, plan)}` : '';
  return `ask for ${asked} of ${every}${where}`;
}

function holdsPanels({ pieces }: CutPlan, cloth: Cloth): boolean {
  return isPanelled(
    cloth,
    pieces.filter((piece) => piece.cloth === cloth.name),
  );
}

/**
 * Where the near end of a bought length comes to lie that the shop may have cut anywhere, on cloth as it lies on the table.
 * Empty where it begins as it was bought.
 */
export function beginWords(
  cutPlan: CutPlan,
  clothPlan: ClothPlan,
  style: LengthStyle = cutPlan.plan,
): string {
  const cloth = clothOf(cutPlan, clothPlan);
  const { panels } = cloth;
  if (!clothPlan.purchase || panels?.every === undefined || panels.sold !== 'anywhere') return '';
  if (!holdsPanels(cutPlan, cloth)) return '';
  const { along } = lossBeforeCutting(cloth);
  const washed = (y: Ticks) => ticks(floorTo(afterWashing(y, along), cutPlan.plan.rulerMark));
  return `the near end is where the first whole repeat begins${firstPanel(panels.areas, washed, style)}; cut off what lies before it`;
}

/** `, 3 in before the lighthouse`: by the panel that comes first, of several alike the one on the left. */
function firstPanel(areas: Panels['areas'], seen: (y: Ticks) => Ticks, style: LengthStyle): string {
  const [first] = [...areas].sort((a, b) => a.y - b.y || a.x - b.x);
  const before = seen(first!.y);
  return before === 0
    ? ` with the ${first!.name}`
    : `, ${formatLength(before, style)} before the ${first!.name}`;
}

function clothOf({ plan }: CutPlan, clothPlan: ClothPlan): Cloth {
  return plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
}

function listed(names: ReadonlyMap<string, number>): string {
  return [...names].map(([name, count]) => `${count} × ${name}`).join(', ');
}
