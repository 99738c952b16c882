import { makes } from '../makes/catalogue.ts';
import type { Cupboard } from '../model/cupboard.ts';
import type { Issue, Outcome } from '../model/issue.ts';
import { wordIssue } from '../model/messages.ts';
import type { Plan, PlanUnit } from '../model/plan.ts';
import { readPlan } from '../model/plan-file.ts';
import { CommandProblem, EXIT, type ExitCode } from './exit-codes.ts';
import type { TextRead } from './read-text.ts';
import { say, type Terminal } from './terminal.ts';

/** Reads a plan, telling its remarks. Throws a CommandProblem with every problem when it cannot be planned. */
export function planOf(read: TextRead, terminal: Terminal, cupboard?: Cupboard): Plan {
  const outcome = readOutcome(read, cupboard);
  if (!outcome.ok) throw refusalOf(outcome.issues, EXIT.badInput, unitOf(read));
  for (const issue of outcome.issues) say(terminal, issueLine(issue, outcome.value.unit));
  return outcome.value;
}

/** One sentence instead of one for every key that no plan has. */
export function refuseCupboard({ text, file }: TextRead): void {
  if (!isCupboard(text)) return;
  const message = `${file}: this is a cupboard, not a plan. Name a plan file; it may draw on this one with cupboard:.`;
  throw new CommandProblem(EXIT.badInput, message);
}

export function readOutcome(read: TextRead, cupboard?: Cupboard): Outcome<Plan> {
  const specs = makes.map((make) => make.spec);
  return readPlan(read.text, { file: read.file, makes: specs, ...(cupboard && { cupboard }) });
}

/** All the errors, one under the other. */
export function refusalOf(issues: readonly Issue[], exitCode: ExitCode, unit: PlanUnit): CommandProblem {
  const errors = issues.filter((issue) => issue.severity === 'error');
  return new CommandProblem(exitCode, errors.map((issue) => issueLine(issue, unit)).join('\n'));
}

export function issueLine(issue: Issue, unit: PlanUnit): string {
  return wordIssue(issue, unit);
}

/** The unit in which to word the problems of a text that is no plan, as far as it names one. */
export function unitOf(read: TextRead): PlanUnit {
  return /^unit:\s*["']?cm\b/m.test(read.text) ? 'cm' : 'in';
}

/** Known by its first keys, however the rest is written. */
function isCupboard(text: string): boolean {
  return /^cupboard:/m.test(text) && /^entries:/m.test(text) && !/^plan:/m.test(text);
}
