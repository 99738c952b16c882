import { Worker } from 'node:worker_threads';
import type { CutPlan } from '../model/cut-plan.ts';
import type { Outcome } from '../model/issue.ts';
import type { Plan } from '../model/plan.ts';
import { CommandProblem, EXIT } from './exit-codes.ts';
import type { WorkerReport, WorkerTask } from './planning-worker.ts';
import { showProgress } from './progress.ts';
import { say, type Terminal } from './terminal.ts';

export interface SearchOptions {
  readonly effort: number;
  readonly seed: number;
  readonly seconds: number | undefined;
}

export interface Searched {
  readonly outcome: Outcome<CutPlan>;
  /** Why the search ended before its effort was spent, if it did. */
  readonly endedBy: 'effort' | 'seconds' | 'ctrl-c';
}

/**
 * Searches in a thread of its own. The first Ctrl-C, or the end of the seconds, asks it for the best plan so far; the
 * second Ctrl-C ends it with nothing.
 */
export async function search(plan: Plan, options: SearchOptions, terminal: Terminal): Promise<Searched> {
  const stopped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const wantsProgress = terminal.errors.isTTY === true;
  const task: WorkerTask = { plan, ...options, stopped, wantsProgress };
  const worker = new Worker(new URL('./planning-worker.js', import.meta.url), { workerData: task });
  const progress = showProgress(terminal);
  let interrupted = false;
  let giveUp: (problem: CommandProblem) => void = () => {};
  const givenUp = new Promise<never>((_, reject) => {
    giveUp = reject;
  });
  const interrupt = () => {
    progress.clear();
    if (interrupted) giveUp(new CommandProblem(EXIT.interrupted, 'Ended. Nothing was written.'));
    else say(terminal, 'Stopping with the best plan so far. Ctrl-C again ends without a plan.');
    interrupted = true;
    Atomics.store(stopped, 0, 1);
  };
  const onProgress: typeof progress.show = (report) => {
    if (!interrupted) progress.show(report);
  };
  process.on('SIGINT', interrupt);
  try {
    const { outcome, ranOut } = await Promise.race([answerOf(worker, onProgress), givenUp]);
    return { outcome, endedBy: interrupted ? 'ctrl-c' : ranOut ? 'seconds' : 'effort' };
  } finally {
    process.off('SIGINT', interrupt);
    progress.clear();
    await worker.terminate();
  }
}

type Answer = WorkerReport & { readonly kind: 'answer' };

function answerOf(
  worker: Worker,
  onProgress: (report: WorkerReport & { kind: 'progress' }) => void,
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    worker.on('message', (report: WorkerReport) => {
      if (report.kind === 'answer') resolve(report);
      else onProgress(report);
    });
    worker.on('error', reject);
    worker.on('exit', (code) =>
      reject(new Error(`the planning thread ended with ${code} before it answered`)),
    );
  });
}
