import { join } from 'node:path';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { Plan } from '../../model/plan.ts';
import { writePlanJson } from '../../rendering/plan-json.ts';
import { summaryText } from '../../rendering/tables.ts';
import { EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import { outputFolder } from '../file-names.ts';
import type { OptionValues } from '../option-records.ts';
import { earlierMarkers, isOurs, outputFiles, outputNames } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { refusalOf } from '../read-plan-text.ts';
import { type Searched, search } from '../search.ts';
import { columnsOf, mayEmphasise, say, show, type Terminal } from '../terminal.ts';
import { unprinted } from '../unprinted.ts';
import { checkTargets, writeSet } from '../write-set.ts';

/**
 * The main job:
 *
 *     text ──planOf──▶ plan ──search──▶ cut plan ──outputFiles──▶ files ──writeSet──▶ folder
 *                                          └──summaryText or writePlanJson──▶ standard output
 *
 * What could stop the writing is looked for before the search, and files come last: a fault leaves the folder as it
 * was, and a disk that fails at the very end still leaves the result on the screen.
 */
export async function runPlan(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = operands[0]!;
  const { plan: asWritten, read } = await readPlanFile(file, options, terminal);
  const plan = withPaper(asWritten, options.paper);
  const target = targetOf(file, options);
  if (target.kinds.length > 0) checkTargets(target.folder, outputNames(plan, target.kinds), isOurs);
  const { outcome, endedBy } = await search(plan, searchOptions(options), terminal);
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), exitCodeOf(outcome.issues), plan.unit);
  if (endedBy !== 'effort') say(terminal, endedEarly(endedBy));
  const files = await outputFiles(outcome.value, target.kinds);
  show(terminal, options.json === true ? writePlanJson(outcome.value) : summaryFor(outcome.value, terminal));
  if (files.length === 0) return EXIT.done;
  writeSet(target.folder, files, isOurs);
  const written = files.map(({ name }) => `Written: ${join(target.folder, name)}`).join('\n');
  if (options.json === true) say(terminal, written);
  else show(terminal, `\n${written}`);
  const boxes = target.kinds.includes('pdf') ? unprinted(plan) : [];
  if (boxes.length > 0)
    say(
      terminal,
      `The pages have no letters for ${boxes.map((name) => `"${name}"`).join(', ')}, which stand as empty boxes there; names in Latin, Greek or Cyrillic letters are printed, and the SVG drawings show all.`,
    );
  const earlier = earlierMarkers(
    target.folder,
    files.map(({ name }) => name),
  );
  if (earlier.length > 0) say(terminal, `Not of this plan, from an earlier one: ${earlier.join(', ')}`);
  return EXIT.done;
}

interface Target {
  readonly folder: string;
  readonly kinds: readonly string[];
}

function targetOf(planFile: string, options: OptionValues): Target {
  const folder = typeof options.out === 'string' ? options.out : outputFolder(planFile);
  return { folder, kinds: Array.isArray(options.write) ? options.write : [] };
}

function summaryFor(cutPlan: CutPlan, terminal: Terminal): string {
  const look = { columns: columnsOf(terminal), emphasis: mayEmphasise(terminal) };
  return summaryText(cutPlan, look);
}

function withPaper(plan: Plan, paper: OptionValues[string]): Plan {
  return paper === 'letter' || paper === 'a4' ? { ...plan, paper } : plan;
}

function searchOptions(options: OptionValues) {
  return {
    effort: Number(options.effort),
    seed: Number(options.seed),
    seconds: typeof options.seconds === 'number' ? options.seconds : undefined,
  };
}

function endedEarly(by: Exclude<Searched['endedBy'], 'effort'>): string {
  const why = by === 'seconds' ? 'Its time was up' : 'You stopped it';
  return `${why} before the search was through: this is the best plan so far, and a longer search may find a better one.`;
}
