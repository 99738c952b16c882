import { checkPlan } from '../check/check-plan.ts';
import { wordFault } from '../check/fault-words.ts';
import type { PlanFault } from '../check/plan-fault.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Outcome } from '../model/issue.ts';
import type { Plan } from '../model/plan.ts';
import { makeCutPlan, type PlanningOptions } from '../planning/plan.ts';
import { formatLength } from '../units/format.ts';

/** Proves a plan with what its leftovers could become. Throws with every fault found. */
export function provenUses(cutPlan: CutPlan): void {
  refuseFaults(cutPlan, checkPlan(cutPlan));
}

/**
 * Plans, and proves the plan before anybody sees it by the checker that shares no code with what made it.
 * Throws with every fault found: such a plan is never shown, and is a fault of this program.
 */
export function provenCutPlan(plan: Plan, options: PlanningOptions): Outcome<CutPlan> {
  const outcome = makeCutPlan(plan, options);
  if (outcome.ok) refuseFaults(outcome.value, checkPlan(outcome.value));
  return outcome;
}

function refuseFaults({ plan }: CutPlan, faults: readonly PlanFault[]): void {
  if (faults.length === 0) return;
  const words = faults.map((fault) =>
    wordFault(fault, (length) => formatLength(length, { unit: plan.unit })),
  );
  throw new Error(`the cut plan does not hold:\n${words.join('\n')}`);
}
