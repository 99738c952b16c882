/** What the lists of spoiled plans share: the sound plans, and paths into them. */
import type { FaultCode } from '../../src/check/plan-fault.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { joinedPlan } from '../support/joined-plan.ts';
import { foldedPlan, freshFoldPlan, smallPlan, twoLengthsPlan } from '../support/plans.ts';

export interface Spoiled {
  readonly what: string;
  readonly cutPlan: CutPlan;
  readonly codes: readonly FaultCode[];
}

export type Path = readonly (string | number)[];

export const bench = smallPlan();
export const folded = foldedPlan();
export const fresh = freshFoldPlan();
export const twice = twoLengthsPlan();
export const joined = joinedPlan();

/** Paths into the plans: the first length's tree, its first section of pieces, and parts of it. */
export const tree: Path = ['cloths', 0, 'lengths', 0, 'tree'];
export const section: Path = [...tree, 'parts', 1];
export const part = (index: number): Path => [...section, 'parts', index];
export const oddment: Path = ['cloths', 1, 'lengths', 0, 'tree'];
export const cloth = (index: number): Path => ['plan', 'cloths', index];
export const to = (value: unknown) => () => value;

export const spoiled = (what: string, cutPlan: CutPlan, ...codes: readonly FaultCode[]): Spoiled => ({
  what,
  cutPlan,
  codes,
});
