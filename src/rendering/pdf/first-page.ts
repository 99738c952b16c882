import type { ClothPlan, CutPlan } from '../../model/cut-plan.ts';
import { wordIssue } from '../../model/messages.ts';
import { clothFigures } from '../../planning/figures.ts';
import { formatMoney } from '../../units/format.ts';
import { ceilTo } from '../../units/ticks.ts';
import { choiceProof, choiceRows } from '../choice-words.ts';
import { withGlyphs } from '../glyphs.ts';
import { edgesBesides, sizesTogether } from '../left-words.ts';
import type { Block } from '../marker/row.ts';
import { scaleCheckBlock } from '../marker/scale-check.ts';
import { measuredLines } from '../measured-words.ts';
import { beginWords, counterWords } from '../panel-words.ts';
import { proofWords } from '../proof-words.ts';
import { LINES, SOFT, TYPE } from '../theme.ts';
import { totalsOf } from '../totals.ts';
import { wordWork } from '../work-words.ts';
import { beside, type Flow, figureBlock, paragraph, stack, textAt } from './flow.ts';
import { cautions } from './make-pages.ts';
import { clothWords, costWords, counted, getWords, lengthWords, perCent, sizeWords } from './words.ts';

export interface FirstPageOptions {
  readonly withCautions: boolean;
  /** Where the marker of each cloth stands, such as `page 2`, in the order of the cut plan's cloths. */
  readonly places: readonly string[];
}

/** The first page: what the plan is, what to buy and use, how well each cloth is used, what to note, and the scale check. */
export function firstPage(flow: Flow, cutPlan: CutPlan, { withCautions, places }: FirstPageOptions): void {
  const { plan } = cutPlan;
  flow.newPage();
  flow.paragraph(plan.name, { size: TYPE.title, weight: 'bold', role: 'title' });
  flow.space(2);
  const unit = plan.unit === 'in' ? 'inches' : 'centimetres';
  flow.paragraph(
    `Cut plan. Measures in ${unit}; cut sizes rounded up to the ruler's marks of ${lengthWords(plan.rulerMark, plan)}.`,
    { ink: SOFT },
  );
  if (plan.note !== undefined) flow.paragraph(withGlyphs(plan.note), { weight: 'bold' });
  flow.heading('What to buy and use', 90);
  for (const [index, clothPlan] of cutPlan.cloths.entries()) {
    flow.add(clothBlock(clothPlan, cutPlan, places[index]!, flow.width));
    flow.space(4);
  }
  flow.add(totalBlock(cutPlan, flow.width));
  clothsChosen(flow, cutPlan);
  if (cutPlan.issues.length > 0) {
    flow.heading('Take note', 20);
    for (const issue of cutPlan.issues) flow.paragraph(withGlyphs(wordIssue(issue, plan.unit)));
  }
  if (withCautions) cautions(flow, cutPlan);
  const check = scaleCheckBlock(flow.width);
  flow.need(check.height + 12);
  flow.space(Math.max(12, flow.room - check.height));
  flow.add(check);
}

function clothBlock(clothPlan: ClothPlan, cutPlan: CutPlan, place: string, width: number): Block {
  const { plan } = cutPlan;
  const figures = clothFigures(cutPlan, clothPlan);
  const name = width * 0.36;
  const left = stack(
    [
      paragraph(figures.cloth.name, name - 14, { size: 12, weight: 'bold' }),
      paragraph(clothWords(figures.cloth, plan), name - 14, { size: TYPE.small, ink: SOFT }),
      ...getWords(clothPlan, plan).map((words) =>
        paragraph(words, name - 14, { size: 12.5, weight: 'bold' }),
      ),
      ...boughtWords(clothPlan, cutPlan).map((words) => paragraph(words, name - 14, { size: TYPE.small })),
      ...[costWords(clothPlan, plan)].flatMap((cost) =>
        cost ? [paragraph(cost, name - 14, { size: 11 })] : [],
      ),
    ],
    name,
  );
  const right = figureGrid(figureRows(clothPlan, cutPlan, place), width - name);
  const rule: Block = {
    width,
    height: 6,
    shapes: [{ kind: 'lines', segments: [[0, 0, width, 0]], stroke: LINES.hairline }],
  };
  return stack(
    [
      rule,
      beside(
        [
          [0, left],
          [name, right],
        ],
        width,
      ),
    ],
    width,
  );
}

/** How the shop is to cut cloth with printed panels, and where it then begins. */
function boughtWords(clothPlan: ClothPlan, cutPlan: CutPlan): readonly string[] {
  const words = [counterWords(cutPlan, clothPlan), beginWords(cutPlan, clothPlan)];
  return words.filter((own) => own !== '').map((own) => withGlyphs(own[0]!.toUpperCase() + own.slice(1)));
}

/** As many groups of leftovers of one size as the column has room for. */
const MOST_LEFTOVERS_NAMED = 4;

function figureRows(clothPlan: ClothPlan, cutPlan: CutPlan, place: string): (readonly [string, string])[] {
  const { plan } = cutPlan;
  const figures = clothFigures(cutPlan, clothPlan);
  const copies = [...figures.copies.values()].reduce((total, count) => total + count, 0);
  const spare = clothPlan.surplus.map(({ piece, copies }) => `${copies} more ${piece}`);
  const purchase = clothPlan.purchase;
  const left = figures.remnants.map((size) => sizeWords(size, plan));
  return [
    ['Marker efficiency', perCent(figures.markerEfficiency)],
    ['Utilisation of the cloth', perCent(figures.utilisation)],
    ['Pieces', String(copies)],
    ['Work', wordWork(clothPlan, figures)],
    ...(purchase
      ? [['The cuts need', lengthWords(ceilTo(purchase.needed, plan.rulerMark), plan)] as const]
      : []),
    ['Could it be less', proofWords(clothPlan, plan.rulerMark, (least) => lengthWords(least, plan))],
    ['Its marker', place],
    ...measuredLines(figures.cloth, plan).map((line) => ['Measured', withGlyphs(line)] as const),
    [
      'Left to keep',
      left.length === 0
        ? 'nothing large enough'
        : `${sizesTogether(left, MOST_LEFTOVERS_NAMED)}${edgesBesides(figures.remnants)}`,
    ],
    ...(spare.length > 0 ? [['Spare, beyond what is wanted', spare.join('; ')] as const] : []),
  ];
}

/** Three figures abreast; the last ones, which may be long, take a whole line each. */
function figureGrid(rows: readonly (readonly [string, string])[], width: number): Block {
  const column = width / 3;
  const isLong = ([, value]: readonly [string, string]) => value.length > 22;
  const short = rows.filter((row) => !isLong(row));
  const lines: Block[] = [];
  for (let index = 0; index < short.length; index += 3) {
    const cells = short.slice(index, index + 3);
    lines.push(
      beside(
        cells.map(([name, value], at) => [at * column, figureBlock(name, value, column)]),
        width,
      ),
    );
  }
  for (const [name, value] of rows.filter(isLong)) lines.push(figureBlock(name, value, width));
  return stack(lines, width, 3);
}

/** Which cloths were chosen for what the plan left open, and what is proven of the choice. */
function clothsChosen(flow: Flow, cutPlan: CutPlan): void {
  const { choice, plan } = cutPlan;
  if (choice === undefined) return;
  flow.heading('Cloths chosen', 30);
  const name = flow.width * 0.28;
  for (const [order, words] of choiceRows(cutPlan)) {
    flow.add(
      beside(
        [
          [0, paragraph(order, name - 10, { weight: 'bold' })],
          [name, paragraph(withGlyphs(words), flow.width - name)],
        ],
        flow.width,
      ),
    );
  }
  flow.paragraph(`Could it be less: ${choiceProof(choice, plan)}.`, { ink: SOFT });
}

function totalBlock(cutPlan: CutPlan, width: number): Block {
  const { pieces, cuts, folds, cost } = totalsOf(cutPlan);
  const pay = cost === undefined ? [] : [`${formatMoney(cost, cutPlan.plan.currency)} to pay`];
  const words = [...pay, counted(pieces, 'piece'), counted(cuts, 'cut'), counted(folds, 'fold')].join(', ');
  return {
    width,
    height: 22,
    shapes: [
      { kind: 'lines', segments: [[0, 2, width, 2]], stroke: LINES.hairline },
      textAt(0, 16, `In all: ${words}.`, { weight: 'bold', size: 10.5 }),
    ],
  };
}
