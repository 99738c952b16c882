import { existsSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { Plan } from '../../model/plan.ts';
import { editPlan } from '../../model/plan-edit.ts';
import { withChanges } from '../../planning/mat/changes.ts';
import { type Offer, type Refit, refit } from '../../planning/mat/refit.ts';
import { writeRefitJson } from '../../rendering/refit-json.ts';
import { refitText } from '../../rendering/refit-text.ts';
import { NO_OFFER, offerWords } from '../../rendering/refit-words.ts';
import { summaryText } from '../../rendering/tables.ts';
import { cupboardForPlan } from '../cupboard/read-cupboard.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import { outputFolder } from '../file-names.ts';
import { editsFor } from '../mat/change-edits.ts';
import { readMayShrink } from '../mat/may-shrink.ts';
import { readTake } from '../mat/take.ts';
import type { OptionValues } from '../option-records.ts';
import { isOurs, outputFiles, outputNames } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { showSteps } from '../progress.ts';
import { provenCutPlan } from '../proven-plan.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { readOutcome, refusalOf } from '../read-plan-text.ts';
import { STANDARD_INPUT, type TextRead } from '../read-text.ts';
import { columnsOf, mayEmphasise, show, type Terminal } from '../terminal.ts';
import { checkTargets, writeNew, writeSet } from '../write-set.ts';

/**
 * Plans on the cloth as it was measured. Where it no longer fits, tells the least to join, to shrink, to drop and to buy,
 * each a plan that is proven; `--take` writes one of them as a plan file of its own, with its markers.
 */
export async function runRefit(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = operands[0]!;
  if (options.take !== undefined && file === STANDARD_INPUT && options.as === undefined)
    throw new CommandProblem(
      EXIT.badInput,
      '--as: a plan from standard input needs a name for the new file, such as --as refit.yaml',
    );
  const { plan, read } = await readPlanFile(file, options, terminal);
  const take = typeof options.take === 'string' ? readTake(options.take, plan) : undefined;
  const may = typeof options['may-shrink'] === 'string' ? readMayShrink(options['may-shrink'], plan) : [];
  const target = take === undefined ? undefined : targetOf(file, plan, options);
  const effort = { effort: Number(options.effort), seed: Number(options.seed) };
  const steps = showSteps(terminal);
  steps.at('what would make it fit');
  const outcome = refit(plan, {
    ...effort,
    may,
    stop: steps.stop,
    ...(take !== undefined && { take }),
    make: (changed) => provenCutPlan(changed, { ...effort, stop: steps.stop }),
  });
  steps.clear();
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), exitCodeOf(outcome.issues), plan.unit);
  const found = outcome.value;
  if (take !== undefined && target !== undefined)
    return takeOffer(found, String(options.take), { plan, read, target, options, terminal });
  show(
    terminal,
    options.json === true ? writeRefitJson(found, plan) : refitText(found, plan, file, columnsOf(terminal)),
  );
  return found.asItIs ? EXIT.done : EXIT.noPlan;
}

interface Target {
  /** The new plan file. */
  readonly file: string;
  readonly folder: string;
  readonly kinds: readonly string[];
}

function targetOf(file: string, plan: Plan, options: OptionValues): Target {
  const stem = basename(file, extname(file));
  const named = typeof options.as === 'string' ? options.as : join(dirname(file), `${stem}-refit.yaml`);
  if (file !== STANDARD_INPUT && dirname(named) !== dirname(file) && plan.cupboard !== undefined)
    throw new CommandProblem(
      EXIT.badInput,
      `--as: found "${named}"; the cupboard is named as seen from the plan's own folder, so a name in ${dirname(file)} would work`,
    );
  if (existsSync(named))
    throw new CommandProblem(
      EXIT.badInput,
      `${named}: already there, and left as it is. Give another name with --as.`,
    );
  const folder = typeof options.out === 'string' ? options.out : outputFolder(named);
  const kinds = Array.isArray(options.write) ? options.write : [];
  if (kinds.length > 0) checkTargets(folder, outputNames(plan, kinds), isOurs);
  return { file: named, folder, kinds };
}

interface Taking {
  readonly plan: Plan;
  readonly read: TextRead;
  readonly target: Target;
  readonly options: OptionValues;
  readonly terminal: Terminal;
}

async function takeOffer(found: Refit, take: string, taking: Taking): Promise<ExitCode> {
  const { plan, read, target, options, terminal } = taking;
  if (found.asItIs)
    throw new CommandProblem(
      EXIT.badInput,
      `${read.file}: it fits as it is, so there is nothing to ${take}. Plan it with \`laywright plan\`.`,
    );
  const offer = found.offers[0];
  if (!offer) {
    const named = `this does not make everything fit on ${found.short.map((cloth) => `"${cloth}"`).join(' and ')}`;
    const why = found.none[0] === undefined ? named : NO_OFFER[found.none[0]];
    throw new CommandProblem(EXIT.noPlan, `--take ${take}: ${why}.`);
  }
  const text = textTaking(offer, taking);
  const cutPlan = { ...offer.cutPlan, plan: planOf(text, offer, taking) };
  const files = await outputFiles(cutPlan, target.kinds);
  writeNew(target.file, text);
  if (files.length > 0) writeSet(target.folder, files, isOurs);
  const written = [target.file, ...files.map(({ name }) => join(target.folder, name))];
  const json = options.json === true;
  show(
    terminal,
    json
      ? writeRefitJson({ ...found, offers: [{ ...offer, cutPlan }] }, plan)
      : summaryFor(cutPlan, terminal),
  );
  if (!json) show(terminal, ['', ...written.map((name) => `Written: ${name}`)].join('\n'));
  return EXIT.done;
}

/** The plan file as it reads with the offer taken, its note saying so. */
function textTaking(offer: Offer, { plan, read }: Taking): string {
  const told = `At the mat: ${offerWords(offer, plan)}.`;
  const note = plan.note === undefined ? told : `${plan.note} ${told}`;
  const edits = [
    ...editsFor(offer.changes, plan),
    { kind: 'set', at: [], key: 'note', value: note.slice(0, 240).trim(), behind: 'plan' } as const,
  ];
  return editPlan(read.text, edits);
}

/** Reads what is to be written, and makes sure that it is the plan that was proven. */
function planOf(text: string, offer: Offer, { plan, read, options }: Taking): Plan {
  const named = typeof options.cupboard === 'string' ? options.cupboard : undefined;
  const again = { text, file: read.file };
  const outcome = readOutcome(again, cupboardForPlan(again, named));
  if (outcome.ok) {
    const { note: _, ...found } = outcome.value;
    const { note: __, ...wanted } = withChanges(plan, offer.changes);
    if (isDeepStrictEqual(found, wanted)) return outcome.value;
  }
  const words = offerWords(offer, plan);
  const message = `${read.file}: this file is written in a way in which it cannot be changed. By hand: ${words}.`;
  throw new CommandProblem(EXIT.badInput, message);
}

function summaryFor(cutPlan: CutPlan, terminal: Terminal): string {
  return summaryText(cutPlan, { columns: columnsOf(terminal), emphasis: mayEmphasise(terminal) });
}
