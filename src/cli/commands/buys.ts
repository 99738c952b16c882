import { join } from 'node:path';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { widthAtRisk } from '../../planning/at-risk.ts';
import { type Buy, type CompareOptions, compareBuys } from '../../planning/compare-buys.ts';
import { compareWholePlan, type WholeBuy, type WholeCompared } from '../../planning/compare-whole.ts';
import { lossAtRisk } from '../../planning/loss-at-risk.ts';
import { type NamedSet, piecesOfSet, smallestSetOf, wantedOf } from '../../planning/named-set.ts';
import { isPanelled } from '../../planning/panels/panel-rooms.ts';
import { makeCutPlan } from '../../planning/plan.ts';
import { type OneSet, oneSetOf } from '../../planning/sets-ladder.ts';
import {
  buyColumns,
  buyNotes,
  buyRow,
  NO_WIDTH_OF_PANELS,
  widthRows,
  wordBestValue,
  wordSet,
  wordWidthAtRisk,
} from '../../rendering/buys.ts';
import { drawBuysChart } from '../../rendering/buys-chart.ts';
import { type ClothBuys, writeBuysJson } from '../../rendering/buys-json.ts';
import { NO_LOSS_OF_PRINT, wordLosses } from '../../rendering/losses.ts';
import { rowsInColumns, wrapWords } from '../../rendering/text-columns.ts';
import { WHOLE_COLUMNS, wholeRow, wordBestWhole, wordNamedSet } from '../../rendering/whole-buys.ts';
import { formatLength } from '../../units/format.ts';
import { readSet, readWorthOption } from '../buying-options.ts';
import { clothNamed } from '../cloth-named.ts';
import { EFFORT_UNLESS_SET } from '../command-records.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { exitCodeOf } from '../exit-of-issues.ts';
import { markerFileNames } from '../file-names.ts';
import { type NamedLength, readLengths, wordRounded } from '../named-lengths.ts';
import type { OptionValues } from '../option-records.ts';
import { isOurs, readFonts } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { type StepsLine, showSteps } from '../progress.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { refusalOf } from '../read-plan-text.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';
import { checkTargets, type OutputFile, writeSet } from '../write-set.ts';

/**
 * Compares what different buys of each cloth would yield, rows as they are found, then what all cloths together allow;
 * charts where a folder is named.
 */
export async function runBuys(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const { plan: asWritten, read } = await readPlanFile(operands[0]!, options, terminal);
  const { wishes, ...plan } = asWritten;
  const steps = showSteps(terminal);
  const lengths = lengthsOf(asWritten, options);
  const compare = compareOptions(asWritten, options, steps, lengths);
  const set = typeof options.set === 'string' ? readSet(options.set, asWritten) : undefined;
  const folder = typeof options.out === 'string' ? options.out : undefined;
  if (folder !== undefined) checkTargets(folder, chartNames(plan).flat(), isOurs);
  const { effort, seed } = compare.pack;
  steps.at('the plan');
  const outcome = makeCutPlan(plan, { effort: Math.ceil(effort / 4), seed, stop: steps.stop });
  steps.clear();
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), exitCodeOf(outcome.issues), plan.unit);
  // What the maker would like counts in a buy's favour; its uses are not planned here.
  const cutPlan = { ...outcome.value, plan: { ...outcome.value.plan, ...(wishes && { wishes }) } };
  const asJson = options.json === true;
  const shown = {
    terminal: asJson ? undefined : terminal,
    steps,
    everyWidth: options['every-width'] === true,
    lengths: lengths ?? [],
  };
  const found: ClothBuys[] = [];
  for (const name of clothNamed(
    cutPlan.cloths.map(({ cloth }) => cloth),
    options.cloth,
  )) {
    const buys = buysOf(cutPlan, name, set, compare, shown);
    if (buys) found.push(buys);
  }
  if (found.length === 0) throw nothingBought(plan, options.cloth);
  const whole = typeof options.cloth === 'string' ? undefined : wholeOf(cutPlan, set, compare, shown);
  steps.clear();
  if (asJson) show(terminal, writeBuysJson(plan, found, whole));
  if (folder === undefined) return EXIT.done;
  const files = await charts(found, cutPlan.plan);
  writeSet(folder, files, isOurs);
  if (!asJson) show(terminal, `Written: ${files.map(({ name }) => join(folder, name)).join(', ')}`);
  return EXIT.done;
}

function nothingBought({ cloths }: Pick<Plan, 'cloths'>, wanted: OptionValues[string]): CommandProblem {
  const bought = cloths.filter(({ buy }) => buy).map(({ name }) => `"${name}"`);
  const isInHand = cloths.some(({ name, buy }) => name === wanted && !buy);
  const message =
    isInHand && bought.length > 0
      ? `--cloth: "${wanted}" is in hand and not bought, so there are no buys to compare; ${bought.join(' or ')} would work`
      : 'No cloth of this plan is bought by length alone, so there are no buys to compare.';
  return new CommandProblem(EXIT.noPlan, message);
}

function lengthsOf(plan: Plan, { lengths, cloth }: OptionValues): readonly NamedLength[] | undefined {
  if (typeof lengths !== 'string') return undefined;
  return readLengths(
    lengths,
    plan,
    plan.cloths.filter(({ name }) => cloth === undefined || name === cloth),
  );
}

function compareOptions(
  plan: Plan,
  options: OptionValues,
  { stop }: StepsLine,
  lengths: readonly NamedLength[] | undefined,
): CompareOptions {
  const { worth } = options;
  return {
    pack: { effort: Number(options.effort), seed: Number(options.seed), stop },
    layOut: { effort: Math.max(Number(options.effort), EFFORT_UNLESS_SET), seed: Number(options.seed), stop },
    rungs: Number(options.rungs),
    ...(lengths && { lengths: lengths.map(({ length }) => length) }),
    ...(typeof worth === 'string' && { leftoverWorth: readWorthOption(worth, plan) }),
  };
}

interface Shown {
  /** Where rows go as soon as they are known; nowhere where all is told as JSON. */
  readonly terminal: Terminal | undefined;
  readonly steps: StepsLine;
  readonly everyWidth: boolean;
  readonly lengths: readonly NamedLength[];
}

function buysOf(
  cutPlan: CutPlan,
  name: string,
  named: NamedSet | undefined,
  options: CompareOptions,
  { terminal, steps, everyWidth, lengths }: Shown,
): ClothBuys | undefined {
  const { plan } = cutPlan;
  const cloth = plan.cloths.find((own) => own.name === name)!;
  if (!cloth.buy) return undefined;
  const pieces = cutPlan.pieces.filter((piece) => piece.cloth === name);
  const set = setOf(plan, pieces, named);
  if (set.size === 0) return undefined;
  const letters = new Map(pieces.map((piece) => [piece.id, piece.letter] as const));
  // Repeats of panels come to yards and inches.
  const first = cloth.panels?.every === undefined ? WIDTHS[0] : WIDTHS[0] + 1;
  if (terminal) {
    show(terminal, wrapWords(`${name}: one set is ${wordSet(set, letters)}`, columnsOf(terminal)).join('\n'));
    const { every, sold } = cloth.panels ?? {};
    if (every !== undefined && sold === 'in-repeats')
      show(terminal, `Each buy is so many whole repeats of ${formatLength(every, plan)}.`);
    if (cloth.inHand.length > 0)
      show(terminal, 'What is in hand is used first; a set costs what a set more than those in hand does.');
    const rounded = wordRounded(lengths, cloth, plan);
    if (rounded) show(terminal, wrapWords(rounded, columnsOf(terminal)).join('\n'));
    show(terminal, tableRow(buyColumns(plan), columnsOf(terminal), first));
  }
  // Each row is shown as soon as it is known.
  const onBuy = (buy: Buy) => {
    steps.clear();
    if (terminal) show(terminal, tableRow(buyRow(buy, plan, letters), columnsOf(terminal), first));
  };
  steps.at(`buys of "${name}"`);
  const reach = cutPlan.cloths.find((own) => own.cloth === name)?.purchase?.bought;
  const compared = compareBuys(plan, cloth, pieces, { ...options, set, ...(reach && { reach }), onBuy });
  if (!compared) return undefined;
  const width = widthAtRisk(plan, cloth, pieces, options.pack);
  const [along, across] = (['along', 'across'] as const).map((way) =>
    lossAtRisk(plan, cloth, pieces, way, options.pack),
  );
  steps.clear();
  if (terminal) {
    const columns = columnsOf(terminal);
    for (const words of [...buyNotes(compared), wordBestValue(compared, plan)])
      show(terminal, wrapWords(words, columns).join('\n'));
    if (width && everyWidth) {
      show(terminal, 'Width of the bolt, and what to buy then:');
      show(terminal, rowsInColumns(widthRows(width, plan), columns).join('\n'));
    } else if (width)
      show(terminal, wrapWords(`Width: the plan ${wordWidthAtRisk(width, plan)}`, columns).join('\n'));
    else if (isPanelled(cloth, pieces)) show(terminal, wrapWords(NO_WIDTH_OF_PANELS, columns).join('\n'));
    for (const words of wordLosses({ along, across }, plan))
      show(terminal, wrapWords(words, columns).join('\n'));
    if (cloth.washing?.washed === 'before-cutting' && pieces.some(({ match }) => match))
      show(terminal, wrapWords(NO_LOSS_OF_PRINT, columns).join('\n'));
    show(terminal, '');
  }
  return { compared, width, along, across };
}

/** Copies of the pieces of one cloth in a set. Throws a CommandProblem where they cannot be shared out. */
function setOf(plan: Plan, pieces: readonly PieceWanted[], named: NamedSet | undefined): OneSet {
  if (!named) return oneSetOf(pieces);
  const set = piecesOfSet(plan, pieces, named);
  if (set) return set;
  throw new CommandProblem(
    EXIT.badInput,
    '--set: the pieces cannot be shared out among such sets, since they are not all cut alike; name a set of which the plan makes whole multiples',
  );
}

function wholeOf(
  cutPlan: CutPlan,
  named: NamedSet | undefined,
  { pack, rungs, leftoverWorth }: CompareOptions,
  { terminal, steps }: Shown,
): WholeCompared | undefined {
  const { plan, cloths } = cutPlan;
  const smallest = named ?? smallestSetOf(plan);
  // Where cloths or openings differ within an order, only the whole of it can be shared out.
  const set = named || piecesOfSet(plan, cutPlan.pieces, smallest) ? smallest : wantedOf(plan);
  if (cloths.length < 2 && !named) return undefined;
  let begun = false;
  steps.at('all cloths together');
  const onBuy = (buy: WholeBuy) => {
    steps.clear();
    if (!terminal) return;
    const columns = columnsOf(terminal);
    if (!begun) {
      show(terminal, wrapWords(`All cloths together: one set is ${wordNamedSet(set)}`, columns).join('\n'));
      show(terminal, wholeRow(WHOLE_COLUMNS, columns));
    }
    begun = true;
    show(terminal, wholeRow(buy, columns, plan));
  };
  const whole = compareWholePlan(cutPlan, set, {
    pack,
    ...(rungs !== undefined && { rungs }),
    ...(leftoverWorth && { leftoverWorth }),
    onBuy,
  });
  if (terminal && whole)
    show(terminal, wrapWords(wordBestWhole(whole, plan), columnsOf(terminal)).join('\n'));
  return whole;
}

/** Columns of fixed width, so that a row need not wait for those after it; the last is wrapped. */
const LEAST_LAST = 6;
const WIDTHS = [10, 6, 6, 11, 16, 8, 8] as const;

function tableRow(cells: readonly string[], columns: number, first: number): string {
  const widths = [first, ...WIDTHS.slice(1)];
  const before = `  ${widths.map((width, index) => cells[index]!.padEnd(width)).join(' ')}`;
  const last = wrapWords(cells.at(-1)!, Math.max(LEAST_LAST, columns - before.length - 1));
  return last.map((line, index) => `${index === 0 ? before : ' '.repeat(before.length)} ${line}`).join('\n');
}

async function charts(found: readonly ClothBuys[], plan: Plan): Promise<readonly OutputFile[]> {
  const { createSVGWindow } = await import('svgdom');
  const { writePageSvg } = await import('../../rendering/svg.ts');
  const { writePages } = await import('../../rendering/pdf.ts');
  const files: OutputFile[] = [];
  for (const { compared } of found) {
    const page = drawBuysChart(compared, plan);
    const title = `Buys of ${compared.cloth.name}`;
    const [svg, pdf] = chartNames(plan)[plan.cloths.findIndex(({ name }) => name === compared.cloth.name)]!;
    files.push(
      { name: svg, content: writePageSvg(page, title, createSVGWindow().document) },
      { name: pdf, content: await writePages([page], title, { fonts: readFonts() }) },
    );
  }
  return files;
}

/** One name of a drawing and of a page a cloth, in the plan's order. */
function chartNames({ cloths }: Plan): readonly (readonly [svg: string, pdf: string])[] {
  return markerFileNames(cloths.map(({ name }) => name)).map((name) => {
    const svg = name.replace(/^marker/, 'buys');
    return [svg, svg.replace(/svg$/, 'pdf')];
  });
}
