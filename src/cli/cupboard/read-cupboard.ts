import { dirname, join } from 'node:path';
import type { Cupboard } from '../../model/cupboard.ts';
import { readCupboard } from '../../model/cupboard-file.ts';
import { cupboardNamedIn } from '../../model/plan-file.ts';
import { CommandProblem, EXIT } from '../exit-codes.ts';
import { refusalOf, unitOf } from '../read-plan-text.ts';
import type { TextRead } from '../read-text.ts';
import { cupboardText } from './change.ts';
import { NODE_DISK } from './disk.ts';
import { asProblem } from './problems.ts';

export const CUPBOARD_UNLESS_SAID = 'cupboard.yaml';

/** The cupboard in a file, as it stands. Throws a CommandProblem with all that is wrong with it. */
export function cupboardIn(file: string): Cupboard {
  return cupboardOf({ file, text: textIn(file) });
}

/** The cupboard that a text tells. Throws a CommandProblem with all that is wrong with it. */
export function cupboardOf(read: TextRead): Cupboard {
  if (isPlan(read.text)) {
    const message = `${read.file}: this is a plan, not a cupboard. Name the cupboard's own file.`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  const outcome = readCupboard(read.text, { file: read.file });
  if (!outcome.ok) throw refusalOf(outcome.issues, EXIT.badInput, unitOf(read));
  return outcome.value;
}

/** The cupboard of a plan: the one named on the command line, else the one that the plan names, if any. */
export function cupboardForPlan(plan: TextRead, named: string | undefined): Cupboard | undefined {
  const file = cupboardFileOf(plan, named);
  return file === undefined ? undefined : cupboardIn(file);
}

/** Its file, seen from where the command runs. */
export function cupboardFileOf(plan: TextRead, named: string | undefined): string | undefined {
  const inPlan = named === undefined ? cupboardNamedIn(plan.text) : undefined;
  return inPlan === undefined ? named : join(dirname(plan.file), inPlan);
}

function textIn(file: string): string {
  let text: string | undefined;
  try {
    text = cupboardText(file, NODE_DISK);
  } catch (problem) {
    throw asProblem(file, problem);
  }
  if (text !== undefined) return text;
  throw new CommandProblem(
    EXIT.badInput,
    `${file}: no such file. Check the name, or begin one with \`laywright cupboard add\`.`,
  );
}

/** Known by its first keys, however the rest is written. */
function isPlan(text: string): boolean {
  return /^plan:/m.test(text) && /^cloths:/m.test(text) && !/^entries:/m.test(text);
}
