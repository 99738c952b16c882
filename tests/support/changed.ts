/** Ways to spoil a plan one figure at a time. */
import type { CutPlan } from '../../src/model/cut-plan.ts';

/** A copy of a plan with the value at `path` changed; a path is keys and list positions from the plan down. */
export function changed(
  cutPlan: CutPlan,
  path: readonly (string | number)[],
  change: (value: never) => unknown,
): CutPlan {
  return changeAt(cutPlan, path, change) as CutPlan;
}

/** The same with a whole number moved by so many ticks. */
export function moved(cutPlan: CutPlan, path: readonly (string | number)[], by: number): CutPlan {
  return changed(cutPlan, path, (value: number) => value + by);
}

function changeAt(
  value: unknown,
  path: readonly (string | number)[],
  change: (value: never) => unknown,
): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return change(value as never);
  if (value === null || typeof value !== 'object') throw new Error(`nothing lies at ${path.join('.')}`);
  const copy = (Array.isArray(value) ? [...value] : { ...value }) as Record<string | number, unknown>;
  const next = changeAt(copy[key], rest, change);
  if (next === undefined) delete copy[key];
  else copy[key] = next;
  return copy;
}
