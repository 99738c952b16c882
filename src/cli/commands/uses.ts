import { join } from 'node:path';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { ClothUses, UseAcross } from '../../model/leftover-use.ts';
import type { Plan } from '../../model/plan.ts';
import { usesAcross } from '../../planning/leftovers/uses-across.ts';
import { usesOfLeftovers } from '../../planning/leftovers/uses-of.ts';
import { makeCutPlan } from '../../planning/plan.ts';
import { usesText } from '../../rendering/uses.ts';
import { writeUsesJson } from '../../rendering/uses-json.ts';
import { bestUsePlan } from '../../rendering/uses-words.ts';
import { clothNamed } from '../cloth-named.ts';
import { EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import { markerFileNames } from '../file-names.ts';
import type { OptionValues } from '../option-records.ts';
import { isOurs, outputFiles } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { showSteps } from '../progress.ts';
import { provenUses } from '../proven-plan.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { refusalOf } from '../read-plan-text.ts';
import { search } from '../search.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';
import { checkTargets, type OutputFile, writeSet } from '../write-set.ts';

/** Tells what the leftovers of a plan could become, and what a little more cloth would give. */
export async function runUses(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const { plan: asWritten, read } = await readPlanFile(operands[0]!, options, terminal);
  const folder = typeof options.out === 'string' ? options.out : undefined;
  if (folder !== undefined)
    checkTargets(
      folder,
      [...fileNames(asWritten.cloths.map(({ name }) => name)).flat(), ACROSS_FILE],
      isOurs,
    );
  // The uses are asked for here, so they are not planned on the way as well.
  const { wishes, ...plan } = asWritten;
  const effort = { effort: Number(options.effort), seed: Number(options.seed), seconds: undefined };
  const { outcome } = await search(plan, effort, terminal);
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), exitCodeOf(outcome.issues), plan.unit);
  const wished: CutPlan = { ...outcome.value, plan: { ...outcome.value.plan, ...(wishes && { wishes }) } };
  const only = clothNamed(
    wished.cloths.map(({ cloth }) => cloth),
    options.cloth,
  );
  const steps = showSteps(terminal);
  const uses = ofCloths(wished, only).cloths.flatMap(({ cloth }) => {
    steps.at(`what is left of "${cloth}"`);
    return usesOfLeftovers(ofCloths(wished, [cloth]), usesOptions(options, steps.stop));
  });
  steps.at('what is left of several cloths');
  // Asked for one cloth, the others are left alone.
  const across = usesAcross(wished.plan, uses, usesOptions(options, steps.stop));
  steps.clear();
  provenUses({ ...wished, uses, usesAcross: across });
  if (options.json === true) show(terminal, writeUsesJson(plan.name, uses, plan, across));
  else show(terminal, usesText(uses, plan, columnsOf(terminal), across));
  if (folder === undefined) return EXIT.done;
  const files = await drawn(uses, asWritten, across);
  writeSet(folder, files, isOurs);
  if (options.json !== true)
    show(terminal, `\n${files.map(({ name }) => `Written: ${join(folder, name)}`).join('\n')}`);
  return EXIT.done;
}

/** The cut plan, to be asked only of some of its cloths. */
function ofCloths(cutPlan: CutPlan, only: readonly string[]): CutPlan {
  return { ...cutPlan, cloths: cutPlan.cloths.filter(({ cloth }) => only.includes(cloth)) };
}

/** A question is asked of one make on a few leftovers, so it takes a small part of the effort of a whole cloth. */
export function usesOptions(options: OptionValues, stop: () => boolean = () => false) {
  const own = { effort: Math.ceil(Number(options.effort) / 20), seed: Number(options.seed), stop };
  const planned = (plan: Plan) => {
    const outcome = makeCutPlan(plan, own);
    return outcome.ok ? outcome.value : undefined;
  };
  return { ...own, withUsual: options.listed !== true, planned };
}

/** One drawing and one set of pages a cloth, named after it as markers are. */
function fileNames(cloths: readonly string[]): readonly (readonly [svg: string, pdf: string])[] {
  return markerFileNames(cloths).map((name) => {
    const svg = name.replace(/^marker/, 'use-of');
    return [svg, svg.replace(/svg$/, 'pdf')];
  });
}

/** The best use of several cloths together, all of them in one set of pages. */
const ACROSS_FILE = 'use-of-several-cloths.pdf';

/** The best use of each cloth's leftovers, drawn to be cut by. */
export async function drawn(
  uses: readonly ClothUses[],
  { cloths }: Pick<Plan, 'cloths'>,
  across: readonly UseAcross[] = [],
): Promise<readonly OutputFile[]> {
  const files: OutputFile[] = [];
  const names = fileNames(cloths.map(({ name }) => name));
  for (const own of uses) {
    const plan = bestUsePlan(own);
    if (!plan) continue;
    const [svg, pdf] = await outputFiles(plan, ['svg', 'pdf']);
    const [svgName, pdfName] = names[cloths.findIndex(({ name }) => name === own.cloth.name)]!;
    files.push({ ...svg!, name: svgName }, { ...pdf!, name: pdfName });
  }
  const [best] = across;
  if (best) files.push({ ...(await outputFiles(best.plan, ['pdf']))[0]!, name: ACROSS_FILE });
  return files;
}
