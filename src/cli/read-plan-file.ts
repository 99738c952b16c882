import type { Plan } from '../model/plan.ts';
import { cupboardFileOf, cupboardForPlan } from './cupboard/read-cupboard.ts';
import type { OptionValues } from './option-records.ts';
import { planOf, refuseCupboard } from './read-plan-text.ts';
import { readText, type TextRead } from './read-text.ts';
import type { Terminal } from './terminal.ts';

/**
 * Reads the plan that a command is to plan, with the cupboard that it or `--cupboard` names. Remarks are told; throws a
 * CommandProblem with every problem where it cannot be planned.
 */
export async function readPlanFile(
  file: string,
  options: OptionValues,
  terminal: Terminal,
): Promise<{ readonly plan: Plan; readonly read: TextRead }> {
  const read = await readText(file, terminal);
  refuseCupboard(read);
  const named = typeof options.cupboard === 'string' ? options.cupboard : undefined;
  const plan = planOf(read, terminal, cupboardForPlan(read, named));
  const from = cupboardFileOf(read, named);
  // So that a plan that is cut later finds the cupboard that it drew on.
  if (!plan.cupboard || from === undefined) return { plan, read };
  return { plan: { ...plan, cupboard: { ...plan.cupboard, file: from } }, read };
}
