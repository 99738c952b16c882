import type { Cloth, LengthInHand } from '../../model/cloth.ts';
import type { ClothPlan, CutPlan } from '../../model/cut-plan.ts';
import type { Left, LeftOfCloth } from '../../model/leftover-use.ts';
import { ticks } from '../../units/ticks.ts';
import { hasPanels } from '../panels/panel-rooms.ts';
import { panelledCloth } from '../panels/panelled-cloth.ts';
import { squaredLeftovers } from '../put-back.ts';
import { printOfLeftover, withPrint } from './print-of-leftovers.ts';

/**
 * What each cloth of a plan leaves to keep, in the plan's order. Left out are cloths that leave nothing, and those whose
 * printed panels are to stay whole.
 */
export function leftOfCloths(cutPlan: CutPlan): readonly LeftOfCloth[] {
  return cutPlan.cloths.flatMap((clothPlan) => {
    const cloth = cutPlan.plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
    if (staysWhole(cloth)) return [];
    const found = leftOf(cutPlan, cloth, clothPlan);
    return found.left.length > 0 ? [found] : [];
  });
}

function leftOf({ plan, pieces }: CutPlan, cloth: Cloth, { lengths }: ClothPlan): LeftOfCloth {
  const printed = panelledCloth(cloth, pieces);
  const found = lengths.flatMap((own) => {
    const keepable = squaredLeftovers(cloth, own, plan.keep);
    return keepable.map((left, index) => ({
      left,
      of: own.name,
      name: restName(own.source === 'bought' ? `the length ${own.name}` : own.name, index),
    }));
  });
  const inHand = found.map(({ left, of, name }): LengthInHand => {
    const { width, length, selvedge, crease, box } = left;
    const own = lengths.find((each) => each.name === of)!;
    return { name, width, length, selvedge, crease, copies: 1, ...printOfLeftover(printed, own, box) };
  });
  return {
    cloth: withPrint(leftoverCloth(cloth, inHand), cloth),
    left: found.map(({ left, of, name }): Left => {
      const { width, length, box } = left;
      return { name, from: { length: of, box }, size: { width, length } };
    }),
  };
}

/** Whether its leftovers are kept for their printed panels. */
export function staysWhole(cloth: Cloth): boolean {
  return hasPanels(cloth) && cloth.panels?.untaken !== 'use';
}

function restName(of: string, index: number): string {
  return `rest of ${of.replace(/^rest of /, '')}${index === 0 ? '' : ` no. ${index + 1}`}`;
}

/**
 * A cloth that only these lengths are left of. They are squared, and washed if the cloth is washed before it is cut. Without
 * its print, which `withPrint` adds where it is known how that lies on them.
 */
export function leftoverCloth(cloth: Cloth, inHand: readonly LengthInHand[]): Cloth {
  const { washing } = cloth;
  return {
    name: cloth.name,
    width: cloth.width,
    selvedge: cloth.selvedge,
    crease: cloth.crease,
    direction: cloth.direction,
    printRuns: cloth.printRuns,
    squaring: ticks(0),
    inHand,
    lay: 'flat',
    ...(washing?.washed === 'after-sewing' && { washing }),
  };
}
