import type { CutPlan } from '../model/cut-plan.ts';
import type { Outcome } from '../model/issue.ts';
import type { Plan } from '../model/plan.ts';

export interface PlanningOptions {
  /** Search nodes per cloth; the same effort gives the same plan on every machine. */
  readonly effort: number;
  readonly seed: number;
  /** Asked often while searching; true ends it with the best plan so far. */
  readonly stop?: () => boolean;
  /** Told which cloth is being planned and the best length found so far. */
  readonly onProgress?: (progress: PlanningProgress) => void;
}

export interface PlanningProgress {
  readonly cloth: string;
  readonly nodes: number;
}

export const DEFAULT_EFFORT = 400_000;

/** The whole pipeline from a validated plan to a checked cut plan. */
export function makeCutPlan(_plan: Plan, _options: PlanningOptions): Outcome<CutPlan> {
  throw new Error('not written yet');
}
