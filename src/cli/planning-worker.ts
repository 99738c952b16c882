import { parentPort, workerData } from 'node:worker_threads';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Outcome } from '../model/issue.ts';
import type { Plan } from '../model/plan.ts';
import type { PlanningProgress } from '../planning/plan.ts';
import { paceSearch } from './pace.ts';
import { provenCutPlan } from './proven-plan.ts';

export interface WorkerTask {
  readonly plan: Plan;
  readonly effort: number;
  readonly seed: number;
  readonly seconds: number | undefined;
  /** One whole number, shared with the main thread: 1 asks for the best plan so far. */
  readonly stopped: Int32Array;
  readonly wantsProgress: boolean;
}

export type WorkerReport =
  | { readonly kind: 'progress'; readonly progress: PlanningProgress }
  | { readonly kind: 'answer'; readonly outcome: Outcome<CutPlan>; readonly ranOut: boolean };

const LEAST_MILLISECONDS_BETWEEN = 100;

/** Plans in a thread of its own, so that the main one stays free to hear Ctrl-C. */
function work(task: WorkerTask, report: (report: WorkerReport) => void): void {
  const pace = paceSearch({
    cloths: task.plan.cloths.map(({ name }) => name),
    seconds: task.seconds,
    isInterrupted: () => Atomics.load(task.stopped, 0) === 1,
    clock: () => performance.now(),
  });
  const isDue = everySoOften(LEAST_MILLISECONDS_BETWEEN);
  const outcome = provenCutPlan(task.plan, {
    effort: task.effort,
    seed: task.seed,
    stop: pace.stop,
    ...(task.wantsProgress && {
      onProgress: (progress: PlanningProgress) => {
        if (isDue()) report({ kind: 'progress', progress });
      },
    }),
  });
  report({ kind: 'answer', outcome, ranOut: pace.ranOut() });
}

/** True at most once in so many milliseconds. */
function everySoOften(milliseconds: number): () => boolean {
  let last = Number.NEGATIVE_INFINITY;
  return () => {
    const now = performance.now();
    if (now - last < milliseconds) return false;
    last = now;
    return true;
  };
}

work(workerData as WorkerTask, (report) => parentPort?.postMessage(report));
