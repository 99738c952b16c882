import { makes } from '../../src/makes/catalogue.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';

/** A plan from its text, or a thrown list of its problems. */
export function planOfText(text: string): Plan {
  const read = readPlan(text, { file: 'test', makes: makes.map((make) => make.spec) });
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

/** Its cut plan, or a thrown list of its problems. */
export function cutPlanOf(plan: Plan, effort = 40_000): CutPlan {
  const outcome = makeCutPlan(plan, { effort, seed: 3 });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/**
 * Two rooms of mats and loose ties, all of them open: in one set the fronts come from one cloth and differ from their
 * linings, in the other no cloth serves twice.
 */
export const COLLECTION = `
plan: Two rooms
unit: in
cloths:
  gull grey: { width: 50, selvedge: 0, buy: { step: 9 }, price: 16 per yd, groups: [faces] }
  kelp: { width: 46, selvedge: 0, buy: { step: 9 }, price: 18 per yd, groups: [faces] }
  foam: { width: 41, selvedge: 0, buy: { step: 9 }, price: 12 per yd, groups: [faces] }
sets:
  lookout: { one cloth: [front], unlike: [front, lining] }
make:
  - name: lookout mats
    kind: place-mat
    count: 5
    size: 12 x 17
    set: lookout
    cloth: { front: group faces, lining: [kelp, foam] }
  - name: porch mats
    kind: place-mat
    count: 2
    size: 14 x 19
    rules: { no cloth twice: [front] }
    cloth: { front: [gull grey, foam] }
  - name: hall mats
    kind: place-mat
    count: 3
    size: 11 x 15
    rules: { alike: [front, lining] }
    cloth: { front: [gull grey, kelp], lining: [gull grey, kelp] }
pieces:
  - { name: tie, count: 7, size: 3 x 14, cloth: [gull grey, kelp] }
`;

/** That plan, cut. */
export function collectionPlan(): CutPlan {
  return cutPlanOf(planOfText(COLLECTION));
}
