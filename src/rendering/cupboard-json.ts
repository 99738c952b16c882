import type { Cloth, Crease } from '../model/cloth.ts';
import type { CupboardDrawn } from '../model/cupboard.ts';
import type { ClothPlan, CutPlan } from '../model/cut-plan.ts';
import { lengthInHand } from '../planning/length-in-hand.ts';
import { hasPanels } from '../planning/panels/panel-rooms.ts';
import { type PanelTold, panelsOf } from '../planning/panels/panels-told.ts';
import { type Leftover, leftoversOf, takenOutBy } from '../planning/put-back.ts';
import { formatLength } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { PlanJson } from './plan-json-schema.ts';

type CupboardJson = NonNullable<PlanJson['cupboard']>;
type Say = (length: Ticks) => { ticks: number; shown: string };

/** What the plan takes out of the cupboard, and what it leaves to put back, for when the cutting is done. */
export function cupboardJson(cutPlan: CutPlan, { name, cutBefore, file }: CupboardDrawn): CupboardJson {
  const say: Say = (length) => ({ ticks: length, shown: formatLength(length, { unit: cutPlan.plan.unit }) });
  return {
    name,
    cutBefore,
    ...(file !== undefined && { file }),
    takenOut: takenOutBy(cutPlan).map(({ width, length, ...taken }) => ({
      ...taken,
      width: say(width),
      length: say(length),
    })),
    putBack: cutPlan.cloths.flatMap((clothPlan) => putBackJson(cutPlan, clothPlan, say)),
  };
}

function putBackJson(cutPlan: CutPlan, clothPlan: ClothPlan, say: Say): CupboardJson['putBack'] {
  const { plan } = cutPlan;
  const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
  return clothPlan.lengths.flatMap((own) => {
    const source = lengthInHand(cloth, own);
    const entry = source?.entry?.name;
    const panels = panelsOf(cutPlan, cloth, own);
    return leftoversOf(cloth, own, plan.keep).map(({ width, length, selvedge, crease, box }) => ({
      cloth: cloth.name,
      ...(entry !== undefined && { entry }),
      width: say(width),
      length: say(length),
      selvedge: { left: say(selvedge.left), right: say(selvedge.right) },
      crease: creaseJson(crease, say),
      direction: cloth.direction,
      printRuns: cloth.printRuns,
      washed: source?.washed === true || isWashedFirst(cloth),
      ...(hasPanels(cloth) && { panels: panelsOn(box, panels, say) }),
    }));
  });
}

/** The panels that lie whole on a leftover, seen from its own near left corner. */
function panelsOn(
  part: Leftover['box'],
  panels: readonly PanelTold[],
  say: Say,
): NonNullable<CupboardJson['putBack'][number]['panels']> {
  const within = panels.filter(
    ({ box }) => box.x0 >= part.x0 && box.y0 >= part.y0 && box.x1 <= part.x1 && box.y1 <= part.y1,
  );
  return within.map(({ name, box, turned }) => ({
    name,
    x: say(ticks(box.x0 - part.x0)),
    y: say(ticks(box.y0 - part.y0)),
    width: say(ticks(box.x1 - box.x0)),
    length: say(ticks(box.y1 - box.y0)),
    quarterTurns: turned,
  }));
}

function isWashedFirst({ washing }: Cloth): boolean {
  return washing?.washed === 'before-cutting';
}

function creaseJson(crease: Crease, say: Say): CupboardJson['putBack'][number]['crease'] {
  if (crease.kind !== 'keep-off') return { kind: crease.kind };
  const { kind, each, at } = crease;
  return { kind, each: say(each), ...(at !== undefined && { at: say(at) }) };
}
