import { expect } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { makes } from '../../src/makes/catalogue.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { wordIssue } from '../../src/model/messages.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';

/** A plan as it is written; throws with all that is wrong with it. */
export function readText(text: string): Plan {
  const read = readPlan(text, { file: 'plan.yaml', makes: makes.map(({ spec }) => spec) });
  if (!read.ok) throw new Error(read.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
  return read.value;
}

/** The same planned, and proven; throws with why it cannot be. */
export function plannedText(text: string, effort = 4_000): CutPlan {
  const plan = readText(text);
  const outcome = makeCutPlan(plan, { effort, seed: 5 });
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue, plan.unit)).join('\n'));
  expect(checkPlan(outcome.value)).toEqual([]);
  return outcome.value;
}
