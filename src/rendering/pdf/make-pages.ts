import { CAUTIONS } from '../../model/cautions.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { ArithmeticLine, CautionName, MakeSheet } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { formatLength } from '../../units/format.ts';
import { wordLots } from '../choice-words.ts';
import { withGlyphs } from '../glyphs.ts';
import { joinTerms } from '../plan-json.ts';
import { SOFT, TYPE } from '../theme.ts';
import { beside, type Flow, paragraph } from './flow.ts';
import { sizeWords, styleOf } from './words.ts';

/** How each make was worked out and is put together. */
export function makePages(flow: Flow, cutPlan: CutPlan): void {
  for (const sheet of cutPlan.makes) {
    flow.heading(sheet.order, 60);
    const size = `${sheet.loose ? 'made up to' : 'finished'} ${sizeWords(sheet.finished, cutPlan.plan)}`;
    const many = `${sheet.title}, ${howMany(sheet)}, ${size}.`;
    flow.paragraph(many, { ink: SOFT });
    if (sheet.openings) {
      const { level, upright } = sheet.openings;
      const closes = (count: number, way: string) => (count === 0 ? [] : [`${count} ${way}`]);
      flow.paragraph(`Closing: ${[...closes(level, 'level'), ...closes(upright, 'upright')].join(', ')}.`);
    }
    const lots = cutPlan.choice?.lots.filter(({ order }) => order === sheet.order) ?? [];
    if (lots.length > 0) flow.paragraph(`Cloths: ${withGlyphs(wordLots(lots, cutPlan.plan))}.`);
    arithmetic(flow, sheet, cutPlan.plan);
    assembly(flow, sheet);
  }
}

/** Curtains are ordered by the window: two of them for one are one thing. */
function howMany({ make, count }: MakeSheet): string {
  if (make === 'curtain') return count === 1 ? 'for one window' : `for ${count} windows`;
  return `${count} to sew`;
}

function arithmetic(flow: Flow, sheet: MakeSheet, plan: Plan): void {
  if (sheet.arithmetic.length === 0) return;
  flow.subheading('The sums', 20);
  const name = flow.width * 0.36;
  for (const line of sheet.arithmetic) {
    const row = beside(
      [
        [0, paragraph(line.what, name - 10)],
        [name, paragraph(arithmeticWords(line, plan), flow.width - name)],
      ],
      flow.width,
    );
    flow.add(row);
  }
}

/** Lengths without their unit, which the first page names. */
export function arithmeticWords({ terms }: ArithmeticLine, plan: Plan): string {
  const minus = (term: string) => term.replace(/(?<=^|\s)-(?=\s|$)/g, '−');
  return joinTerms(
    terms.map((term) =>
      typeof term === 'string'
        ? minus(term)
        : formatLength(term.ticks, { ...styleOf(plan), withUnit: false }),
    ),
  );
}

function assembly(flow: Flow, sheet: MakeSheet): void {
  if (sheet.assembly.length === 0) return;
  flow.subheading('Putting it together', 20);
  for (const [index, sentence] of sheet.assembly.entries()) {
    flow.add(
      beside(
        [
          [0, paragraph(`${index + 1}`, 20, { weight: 'bold' })],
          [20, paragraph(withGlyphs(sentence), flow.width - 20)],
        ],
        flow.width,
      ),
    );
    flow.space(2);
  }
}

/** Cloth is always cut and pressed, and nobody knows from a plan who will use what is made. */
const ALWAYS: readonly CautionName[] = ['rotary-cutter', 'iron-and-fusing', 'flammability'];

/** In this order whatever the makes name. */
const CAUTION_ORDER: readonly CautionName[] = [
  'rotary-cutter',
  'iron-and-fusing',
  'infant-sleep',
  'curtain-cords',
  'flammability',
  'wash-and-care',
];

/** The cautions that a plan calls for. */
export function cautions(flow: Flow, cutPlan: CutPlan): void {
  const named = new Set<CautionName>([...ALWAYS, ...cutPlan.makes.flatMap(({ cautions }) => cautions)]);
  flow.heading('Take care', 50);
  for (const name of CAUTION_ORDER.filter((one) => named.has(one))) {
    const { title, text } = CAUTIONS[name];
    const row = beside(
      [
        [0, paragraph(title, 96, { weight: 'bold' })],
        [104, paragraph(text, flow.width - 104, { size: TYPE.body })],
      ],
      flow.width,
    );
    flow.add(row);
    flow.space(5);
  }
}
