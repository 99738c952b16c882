import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../model/cut-plan.ts';
import { wordIssue } from '../model/messages.ts';
import type { OpeningSplit } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { wordBegin } from '../planning/begin-words.ts';
import { type ClothFigures, clothFigures, type KeptSize } from '../planning/figures.ts';
import { joinOrders, wordJoin } from '../planning/join-order.ts';
import { lengthInHand } from '../planning/length-in-hand.ts';
import { cutTogetherWith } from '../planning/stack-steps.ts';
import { stackName, wordStack } from '../planning/stack-words.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { ceilTo, type Ticks } from '../units/ticks.ts';
import { choiceProof, choiceRows } from './choice-words.ts';
import { DIRECTION_WORDS } from './direction-words.ts';
import { edgesBesides, sizesTogether } from './left-words.ts';
import { measuredLines } from './measured-words.ts';
import { mountingLines } from './mounting-words.ts';
import { panelRows } from './panel-words.ts';
import { perCentTold } from './per-cent.ts';
import { proofWords } from './proof-words.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';
import { totalsOf } from './totals.ts';
import { usesLines } from './uses.ts';
import { sizeOnShelf, washFirst, widthWords } from './wash-words.ts';
import { otherWays } from './way-words.ts';
import { wordWork } from './work-words.ts';

export interface SummaryOptions {
  /** Columns of the terminal. Default 80. */
  readonly columns?: number;
  /** Sets headings in bold by the ANSI escape of ECMA-48. Default false. */
  readonly emphasis?: boolean;
}

type Row = readonly [string, string];

const USUAL_COLUMNS = 80;
const BOLD = '\u001b[1m';
const USUAL = '\u001b[0m';
/** Leftovers named one by one before the rest are only counted. */
const MOST_LEFTOVERS_NAMED = 6;

/** What to buy, how well it is used, what is cut, what is left and what it takes, cloth by cloth. Ends without a newline. */
export function summaryText(cutPlan: CutPlan, options: SummaryOptions = {}): string {
  const columns = options.columns ?? USUAL_COLUMNS;
  const heading = (text: string) =>
    wrapWords(text, columns).map((line) => (options.emphasis === true ? `${BOLD}${line}${USUAL}` : line));
  const { plan } = cutPlan;
  const lines = [
    ...heading(plan.name),
    ...(plan.note === undefined ? [] : wrapWords(plan.note, columns)),
    ...wrapWords(rulerLine(plan), columns),
    ...cutPlan.cloths.flatMap((clothPlan) => {
      const figures = clothFigures(cutPlan, clothPlan);
      return [
        '',
        ...heading(clothHeading(figures.cloth, plan)),
        ...rowsInColumns(clothRows(cutPlan, clothPlan, figures), columns),
        '',
        ...piecesTable(cutPlan, figures, columns),
      ];
    }),
    '',
    ...choiceLines(cutPlan, columns, heading),
    ...openingLines(cutPlan, columns, heading),
    ...stackLines(cutPlan, columns, heading),
    ...joinLines(cutPlan, columns, heading),
    ...mountingLines(cutPlan, columns, heading),
    ...usesLines(cutPlan, columns, heading),
    ...heading('In all'),
    ...rowsInColumns(totalRows(cutPlan), columns),
    ...remarkLines(cutPlan, columns, heading),
  ];
  return lines.map((line) => line.trimEnd()).join('\n');
}

/** Which cloths were chosen for what the plan left open, and what is proven of the choice. */
function choiceLines(cutPlan: CutPlan, columns: number, heading: (text: string) => string[]): string[] {
  const { choice, plan } = cutPlan;
  if (choice === undefined) return [];
  const rows: Row[] = [...choiceRows(cutPlan), ['Could it be less', choiceProof(choice, plan)]];
  return [...heading('Cloths chosen'), ...rowsInColumns(rows, columns), ''];
}

/** Which way covers close that may close either way. */
function openingLines(cutPlan: CutPlan, columns: number, heading: (text: string) => string[]): string[] {
  const rows = cutPlan.makes.flatMap(({ order, openings }): readonly Row[] =>
    openings ? [[order, openingWords(openings)]] : [],
  );
  return rows.length === 0 ? [] : [...heading('Openings'), ...rowsInColumns(rows, columns), ''];
}

function openingWords({ level, upright }: OpeningSplit): string {
  const ways = [
    ...(level > 0 ? [`${level} ${level === 1 ? 'closes' : 'close'} level`] : []),
    ...(upright > 0 ? [`${upright} ${upright === 1 ? 'closes' : 'close'} upright`] : []),
  ];
  return ways.join(', ');
}

/** Which cloths are cut as one, or could be, what that saves and what it costs. */
function stackLines(cutPlan: CutPlan, columns: number, heading: (text: string) => string[]): string[] {
  const stacks = cutPlan.stacks ?? [];
  if (stacks.length === 0) return [];
  const rows = stacks.map((stack): Row => [stackName(cutPlan, stack), wordStack(cutPlan, stack)]);
  return [...heading('Stacks'), ...rowsInColumns(rows, columns), ''];
}

/** What joins to what, in order, piece by piece. */
function joinLines(cutPlan: CutPlan, columns: number, heading: (text: string) => string[]): string[] {
  const orders = joinOrders(cutPlan);
  if (orders.length === 0) return [];
  const rows = orders.flatMap(({ piece, copies, steps }) => {
    const of = `${counted(copies, 'copy', 'copies')} of ${piece.letter} (${piece.id}), ${formatSize(piece.size, cutPlan.plan)}`;
    return [
      ...wrapWords(of, columns - 2).map((line) => `  ${line}`),
      ...rowsInColumns(
        steps.map((step, index): Row => [`  ${index + 1}`, `${wordJoin(step, cutPlan.plan)}.`]),
        columns,
      ),
    ];
  });
  return [...heading('Joins'), ...rows, ''];
}

function rulerLine(plan: Plan): string {
  const unit = plan.unit === 'in' ? 'inches' : 'centimetres';
  return `In ${unit}, cut sizes on the ruler's marks of ${length(plan.rulerMark, plan)}; width x length.`;
}

function clothHeading(cloth: Cloth, plan: Plan): string {
  return `${cloth.name}: ${widthWords(cloth, plan)}, ${DIRECTION_WORDS[cloth.direction]}`;
}

function clothRows(cutPlan: CutPlan, clothPlan: ClothPlan, figures: ClothFigures): Row[] {
  const { plan } = cutPlan;
  const cut = [...figures.copies.values()].reduce((total, copies) => total + copies, 0);
  const wash = washFirst(figures.cloth, plan, plan, clothPlan);
  return [
    ...buyRows(clothPlan, plan),
    ...measuredLines(figures.cloth, plan).map((line): Row => ['Measured', line]),
    ...useRows(clothPlan, plan),
    ...(wash === undefined ? [] : [['First', wash] as const]),
    ['Marker efficiency', `${perCentTold(figures.markerEfficiency)} % of the usable length cut into`],
    ['Utilisation', `${perCentTold(figures.utilisation)} % of all the cloth, edges and leftovers counted`],
    ['Pieces', String(cut)],
    ...clothPlan.surplus.map(
      ({ piece, copies }): Row => ['Spare', `${copies} more of ${piece} than wanted, from the folded lay`],
    ),
    ['Left to keep', leftovers(figures.remnants, plan)],
    ['Work', workWords(cutPlan, clothPlan, figures)],
    ['Could it be less', proofWords(clothPlan, plan.rulerMark, (least) => length(least, plan))],
    ...matchingRows(clothPlan, plan),
    ...beginRows(figures.cloth, clothPlan, plan),
    ...panelRows(cutPlan, clothPlan),
    ...otherWays(clothPlan, plan).map((way): Row => ['Or lay it', way]),
  ];
}

/** The work of a stack is told with its first layer. */
function workWords(cutPlan: CutPlan, clothPlan: ClothPlan, figures: ClothFigures): string {
  const work = wordWork(clothPlan, figures);
  const others = clothPlan.lengths.flatMap(({ name }) => cutTogetherWith(cutPlan, clothPlan.cloth, name));
  if (others.length === 0) return work;
  return figures.strokes === 0
    ? `cut together with ${others.join(', ')}`
    : `${work}, together with ${others.join(', ')}`;
}

/** What it costs in cloth that the print is matched. */
function matchingRows({ matchingCosts }: ClothPlan, plan: Plan): Row[] {
  if (matchingCosts === undefined) return [];
  const cost = matchingCosts === 0 ? 'no cloth' : `${formatBuy(matchingCosts, plan)} of what is bought`;
  return [['Matching takes', cost]];
}

/** How each length is begun whose print may start anywhere; alike ones together. */
function beginRows({ squaring }: Cloth, { lengths }: ClothPlan, plan: Plan): Row[] {
  const named = new Map<string, string[]>();
  for (const { begins, name, source } of lengths) {
    if (!begins) continue;
    const words = `${wordBegin(begins, squaring, (own) => length(own, plan))}; up to ${length(begins.within, plan)} may go for that, so what is left is told as the least`;
    named.set(words, [...(named.get(words) ?? []), source === 'bought' ? `the length ${name}` : name]);
  }
  return [...named].map(([words, names]): Row => {
    const which = lengths.length === 1 ? '' : `${names.join(', ')}: `;
    return ['Begin', `${which}${words}`];
  });
}

function buyRows(clothPlan: ClothPlan, plan: Plan): Row[] {
  const { purchase } = clothPlan;
  if (purchase === undefined) return [];
  const asked = purchase.lengths.map((own) => formatBuy(own.bought, plan)).join(' and ');
  const cost = purchase.cost === undefined ? '' : ` for ${formatMoney(purchase.cost, plan.currency)}`;
  return [
    ['Buy', `${asked}${cost} (the cuts need ${length(ceilTo(purchase.needed, plan.rulerMark), plan)})`],
  ];
}

function useRows(clothPlan: ClothPlan, plan: Plan): Row[] {
  const inHand = clothPlan.lengths.filter((own) => own.source === 'in-hand');
  const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
  const lies = (own: LengthPlan) => {
    const entry = lengthInHand(cloth, own)?.entry;
    return entry === undefined ? '' : ` (cupboard${entry.where === undefined ? '' : `, ${entry.where}`})`;
  };
  const named = (own: LengthPlan) =>
    `${own.name}, ${sizeOnShelf(lengthInHand(cloth, own), own, plan)}${lies(own)}`;
  return inHand.map((own): Row => ['Use', named(own)]);
}

function leftovers(remnants: readonly KeptSize[], plan: Plan): string {
  if (remnants.length === 0) return 'nothing large enough';
  const sizes = remnants.map((size) => formatSize(size, plan));
  return `${sizesTogether(sizes, MOST_LEFTOVERS_NAMED)}${edgesBesides(remnants)}`;
}

/** One row a kind of piece; under one another where the terminal is too narrow for a table. */
function piecesTable(cutPlan: CutPlan, figures: ClothFigures, columns: number): string[] {
  const { plan } = cutPlan;
  const cells = cutPlan.pieces
    .filter((piece) => figures.copies.has(piece.id))
    .map((piece) => [
      piece.letter,
      piece.id,
      formatSize(piece.size, plan),
      String(figures.copies.get(piece.id)),
    ]);
  const head = ['', 'Piece', 'Cut size', 'Copies'];
  const widths = head.map((name, column) =>
    Math.max(name.length, ...cells.map((row) => row[column]!.length)),
  );
  if (widths.reduce((total, width) => total + width + 2, 0) > columns) {
    return cells.flatMap(([letter, id, size, copies]) =>
      rowsInColumns([[letter!, `${id}: ${size}, ${counted(Number(copies), 'copy', 'copies')}`]], columns),
    );
  }
  return [head, ...cells].map((row) => {
    const padded = row.map((cell, column) =>
      column < 2 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
    );
    return `  ${padded.join('  ')}`;
  });
}

function totalRows(cutPlan: CutPlan): Row[] {
  const { plan } = cutPlan;
  const { pieces, cuts, folds, remnants, cost } = totalsOf(cutPlan);
  return [
    ...(cost === undefined ? [] : [['To pay', formatMoney(cost, plan.currency)] as const]),
    ['Pieces', String(pieces)],
    ['Left to keep', remnants === 0 ? 'nothing large enough' : counted(remnants, 'remnant')],
    ['Work', `${counted(cuts, 'cut')}, ${counted(folds, 'fold')}`],
  ];
}

function remarkLines(cutPlan: CutPlan, columns: number, heading: (text: string) => string[]): string[] {
  if (cutPlan.issues.length === 0) return [];
  const remarks = cutPlan.issues.map((issue): Row => ['-', wordIssue(issue, cutPlan.plan.unit)]);
  return ['', ...heading('Take note'), ...rowsInColumns(remarks, columns)];
}

function length(value: Ticks, plan: Plan): string {
  return formatLength(value, plan);
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
