import type { Cloth } from '../model/cloth.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { Report } from './plan-fault.ts';

/** A length that was measured at the mat is cut as it was measured: not a tick wider or longer, whatever was reckoned with before. */
export function checkMeasured(own: LengthPlan, { measured }: Cloth, report: Report): void {
  const facts =
    own.source === 'in-hand' ? measured?.lengths.find(({ name }) => name === own.name) : undefined;
  if (!facts || (own.width === facts.width && own.length === facts.length)) return;
  const found = { width: own.width, length: own.length };
  report('length-not-as-measured', { found, measured: { width: facts.width, length: facts.length } });
}
