import { join } from 'node:path';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { shrinkageAtRisk, widthAtRisk } from '../../planning/at-risk.ts';
import { type Buy, type CompareOptions, compareBuys } from '../../planning/compare-buys.ts';
import { makeCutPlan } from '../../planning/plan.ts';
import { oneSetOf, SetsLadder } from '../../planning/sets-ladder.ts';
import { BUY_COLUMNS, buyRow, wordBestValue, wordSet, wordWidthAtRisk } from '../../rendering/buys.ts';
import { drawBuysChart } from '../../rendering/buys-chart.ts';
import { type ClothBuys, writeBuysJson } from '../../rendering/buys-json.ts';
import { wrapWords } from '../../rendering/text-columns.ts';
import { parseLength } from '../../units/parse.ts';
import type { Ticks } from '../../units/ticks.ts';
import { clothNamed } from '../cloth-named.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { fileWord } from '../file-names.ts';
import type { OptionValues } from '../option-records.ts';
import { isOurs, readFonts } from '../outputs.ts';
import { placeIssues } from '../place-issues.ts';
import { readPlanFile } from '../read-plan-file.ts';
import { refusalOf } from '../read-plan-text.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';
import { type OutputFile, writeSet } from '../write-set.ts';

/** Compares what different buys of each cloth would yield, rows as they are found; charts where a folder is named. */
export async function runBuys(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const { plan, read } = await readPlanFile(operands[0]!, options, terminal);
  const compare = compareOptions(plan, options);
  const { effort, seed } = compare.pack;
  const outcome = makeCutPlan(plan, { effort: Math.ceil(effort / 4), seed });
  if (!outcome.ok) throw refusalOf(placeIssues(outcome.issues, read), EXIT.noPlan, plan.unit);
  const asJson = options.json === true;
  const found: ClothBuys[] = [];
  for (const name of clothNamed(
    outcome.value.cloths.map(({ cloth }) => cloth),
    options.cloth,
  )) {
    const buys = buysOf(outcome.value, name, compare, asJson ? undefined : terminal);
    if (buys) found.push(buys);
  }
  if (found.length === 0)
    throw new CommandProblem(
      EXIT.noPlan,
      'No cloth of this plan is bought, so there are no buys to compare.',
    );
  if (asJson) show(terminal, writeBuysJson(plan, found));
  if (typeof options.out === 'string') {
    writeSet(options.out, await charts(found, plan), isOurs);
    if (!asJson)
      show(
        terminal,
        `Written: ${found.flatMap(({ compared }) => ['svg', 'pdf'].map((ending) => join(options.out as string, chartName(compared.cloth.name, ending)))).join(', ')}`,
      );
  }
  return EXIT.done;
}

function compareOptions(plan: Plan, options: OptionValues): CompareOptions {
  const { lengths, worth } = options;
  return {
    pack: { effort: Number(options.effort), seed: Number(options.seed) },
    rungs: Number(options.rungs),
    ...(typeof lengths === 'string' && { lengths: readLengths(lengths, plan) }),
    ...(typeof worth === 'number' && { leftoverWorth: worth }),
  };
}

function readLengths(text: string, plan: Plan): readonly Ticks[] {
  return text.split(/[,;]/).map((part) => {
    const read = parseLength(part.trim(), { unit: plan.unit, round: 'down' });
    if (read.ok && read.value > 0) return read.value;
    throw new CommandProblem(
      EXIT.badInput,
      `--lengths: "${part.trim()}" is no length; "1 yd, 2 yd" or "1 m, 1.5 m" would work`,
    );
  });
}

function buysOf(
  cutPlan: CutPlan,
  name: string,
  options: CompareOptions,
  terminal: Terminal | undefined,
): ClothBuys | undefined {
  const { plan } = cutPlan;
  const cloth = plan.cloths.find((own) => own.name === name)!;
  if (!cloth.buy) return undefined;
  const pieces = cutPlan.pieces.filter((piece) => piece.cloth === name);
  const letters = new Map(pieces.map((piece) => [piece.id, piece.letter] as const));
  if (terminal) {
    show(terminal, `${name}: one set is ${wordSet(oneSetOf(pieces), letters)}`);
    if (cloth.inHand.length > 0) show(terminal, 'Lengths in hand are left out of this comparison.');
    show(terminal, tableRow(BUY_COLUMNS));
  }
  // Each row is shown as soon as it is known.
  const onBuy = (buy: Buy) => terminal && show(terminal, tableRow(buyRow(buy, plan, letters)));
  const compared = compareBuys(plan, cloth, pieces, { ...options, onBuy });
  if (!compared) return undefined;
  const width = widthAtRisk(plan, cloth, pieces, options.pack);
  const shrinkage = shrinkageAtRisk(cloth, packedLength(plan, cloth, pieces, options), 4);
  if (terminal) {
    const columns = columnsOf(terminal);
    show(terminal, wrapWords(wordBestValue(compared, plan), columns).join('\n'));
    if (width)
      show(terminal, wrapWords(`Width: the plan ${wordWidthAtRisk(width, plan)}`, columns).join('\n'));
    show(terminal, '');
  }
  return { compared, width, shrinkage };
}

/** Length that the whole of what is wanted from the cloth takes between its squared ends. */
function packedLength(
  plan: Plan,
  cloth: Plan['cloths'][number],
  pieces: readonly PieceWanted[],
  options: CompareOptions,
): number {
  const set = new Map(pieces.map((piece) => [piece.id, piece.copies] as const));
  const ladder = SetsLadder.of({ plan, cloth, pieces, set, options: options.pack });
  return ladder?.packed(1)?.length ?? 0;
}

/** Columns of fixed width, so that a row need not wait for those after it. */
const WIDTHS = [10, 8, 14, 7, 14, 17, 10, 9] as const;

function tableRow(cells: readonly string[]): string {
  return `  ${cells.map((cell, index) => cell.padEnd(WIDTHS[index]!)).join(' ')}`.trimEnd();
}

async function charts(found: readonly ClothBuys[], plan: Plan): Promise<readonly OutputFile[]> {
  const { createSVGWindow } = await import('svgdom');
  const { writePageSvg } = await import('../../rendering/svg.ts');
  const { writePages } = await import('../../rendering/pdf.ts');
  const files: OutputFile[] = [];
  for (const { compared } of found) {
    const page = drawBuysChart(compared, plan);
    const title = `Buys of ${compared.cloth.name}`;
    files.push({
      name: chartName(compared.cloth.name, 'svg'),
      content: writePageSvg(page, title, createSVGWindow().document),
    });
    files.push({
      name: chartName(compared.cloth.name, 'pdf'),
      content: await writePages([page], title, { fonts: readFonts() }),
    });
  }
  return files;
}

function chartName(cloth: string, ending: string): string {
  return `buys-${fileWord(cloth)}.${ending}`;
}
