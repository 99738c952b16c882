import type { Cloth, Crease } from '../model/cloth.ts';
import type { CupboardDrawn } from '../model/cupboard.ts';
import type { ClothPlan, CutPlan } from '../model/cut-plan.ts';
import { lengthInHand } from '../planning/figures.ts';
import { leftoversOf, takenOutBy } from '../planning/put-back.ts';
import { formatLength } from '../units/format.ts';
import type { Ticks } from '../units/ticks.ts';
import type { PlanJson } from './plan-json-schema.ts';

type CupboardJson = NonNullable<PlanJson['cupboard']>;
type Say = (length: Ticks) => { ticks: number; shown: string };

/** What the plan takes out of the cupboard, and what it leaves to put back, for when the cutting is done. */
export function cupboardJson(cutPlan: CutPlan, { name, cutBefore }: CupboardDrawn): CupboardJson {
  const say: Say = (length) => ({ ticks: length, shown: formatLength(length, { unit: cutPlan.plan.unit }) });
  return {
    name,
    cutBefore,
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
    return leftoversOf(cloth, own, plan.keep).map(({ width, length, selvedge, crease }) => ({
      cloth: cloth.name,
      ...(entry !== undefined && { entry }),
      width: say(width),
      length: say(length),
      selvedge: { left: say(selvedge.left), right: say(selvedge.right) },
      crease: creaseJson(crease, say),
      direction: cloth.direction,
      printRuns: cloth.printRuns,
      washed: source?.washed === true || isWashedFirst(cloth),
    }));
  });
}

function isWashedFirst({ washing }: Cloth): boolean {
  return washing?.washed === 'before-cutting';
}

function creaseJson(crease: Crease, say: Say): CupboardJson['putBack'][number]['crease'] {
  return crease.kind === 'keep-off' ? { kind: crease.kind, each: say(crease.each) } : { kind: crease.kind };
}
