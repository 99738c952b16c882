import type { CutPlan } from '../../model/cut-plan.ts';
import type { LeftOfCloth } from '../../model/leftover-use.ts';
import type { PieceWanted, Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { type Candidate, candidatesFor } from './candidates.ts';
import { expandWish } from './use-plan.ts';

export interface UsesOptions {
  /** Search nodes a question. */
  readonly effort: number;
  readonly seed: number;
  readonly stop?: () => boolean;
  /** Whether the plan's own orders and the usual sizes of the trade are tried beside the maker's list. */
  readonly withUsual: boolean;
  /** Plans a use; `makeCutPlan`, handed in since that plans the uses of a plan with wishes. */
  readonly planned: (plan: Plan) => CutPlan | undefined;
}

/** A candidate with what one of it takes. */
export interface Tried extends Candidate {
  readonly set: readonly PieceWanted[];
  readonly finished: Size;
}

/** Everything that may be had of a cloth and can be made at all. */
export function triedOn(plan: Plan, { cloth }: LeftOfCloth, { withUsual }: UsesOptions): readonly Tried[] {
  return candidatesFor(plan, cloth, withUsual).flatMap((candidate): readonly Tried[] => {
    const made = expandWish(plan, cloth, candidate.wish);
    return made ? [{ ...candidate, set: made.pieces, finished: made.finished }] : [];
  });
}

export function packOf({ effort, seed, stop }: UsesOptions) {
  return { effort, seed, ...(stop && { stop }) };
}
