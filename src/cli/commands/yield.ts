import { join } from 'node:path';
import type { LengthInHand } from '../../model/cloth.ts';
import type { Plan } from '../../model/plan.ts';
import { leavesClothOpen } from '../../planning/collection/wanted.ts';
import { smallestSetOf } from '../../planning/named-set.ts';
import { yieldOf } from '../../planning/yield-of.ts';
import { yieldJson, yieldText } from '../../rendering/yield.ts';
import { readHere, readSet } from '../buying-options.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import type { OptionValues } from '../option-records.ts';
import { isOurs, outputFiles, outputNames } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { showSteps } from '../progress.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { refusalOf } from '../read-plan-text.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';
import { checkTargets, writeSet } from '../write-set.ts';
import { usesOptions } from './uses.ts';

const KINDS = ['svg', 'pdf'] as const;

/** Tells how many complete sets the cloth that is here gives, and what else fits into the rest. */
export async function runYield(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const { plan: asWritten, read } = await readPlanFile(operands[0]!, options, terminal);
  if (leavesClothOpen(asWritten))
    throw new CommandProblem(
      EXIT.badInput,
      'This plan leaves the cloth of some parts open; give each part one cloth to see what a length gives.',
    );
  const plan =
    typeof options.here === 'string' ? withHere(asWritten, readHere(options.here, asWritten)) : asWritten;
  if (plan.cloths.every(({ inHand }) => inHand.length === 0)) {
    const [{ name } = { name: '' }] = plan.cloths;
    const example = `--here "${name} ${plan.unit === 'in' ? '2 yd' : '2 m'}"`;
    throw new CommandProblem(
      EXIT.badInput,
      `No length of any cloth is here; say what there is, such as ${example}.`,
    );
  }
  const set = typeof options.set === 'string' ? readSet(options.set, plan) : smallestSetOf(plan);
  const folder = typeof options.out === 'string' ? options.out : undefined;
  if (folder !== undefined) checkTargets(folder, outputNames(plan, KINDS), isOurs);
  const steps = showSteps(terminal);
  steps.at('what the cloth gives');
  const outcome = yieldOf(plan, set, Number(options.most), usesOptions(options, steps.stop));
  steps.clear();
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), exitCodeOf(outcome.issues), plan.unit);
  const found = outcome.value;
  show(
    terminal,
    options.json === true ? yieldJson(found, plan) : yieldText(found, plan, columnsOf(terminal)),
  );
  if (folder === undefined || !found.cutPlan) return EXIT.done;
  const files = await outputFiles(found.cutPlan, KINDS);
  writeSet(folder, files, isOurs);
  if (options.json !== true)
    show(terminal, `\n${files.map(({ name }) => `Written: ${join(folder, name)}`).join('\n')}`);
  return EXIT.done;
}

/** What is named is all that is here of those cloths. */
function withHere(plan: Plan, here: ReadonlyMap<string, readonly LengthInHand[]>): Plan {
  return {
    ...plan,
    cloths: plan.cloths.map((cloth) => ({ ...cloth, inHand: here.get(cloth.name) ?? cloth.inHand })),
  };
}
