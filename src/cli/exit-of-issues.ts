import type { Issue } from '../model/issue.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';

/** Problems that no change of wording cures: the cloth does not hold what is wanted. */
const NO_PLAN: readonly Issue['code'][] = [
  ...(['too-wide', 'cannot-join', 'not-enough-cloth', 'longer-than-sold', 'motif-near-edge'] as const),
  ...(['no-cloth-holds', 'no-choice'] as const),
];

/** The one rule for all commands: 3 where the cloth alone stands in the way, 2 where anything else does. */
export function exitCodeOf(issues: readonly Issue[]): ExitCode {
  const errors = issues.filter((issue) => issue.severity === 'error');
  return errors.every((issue) => NO_PLAN.includes(issue.code)) ? EXIT.noPlan : EXIT.badInput;
}
