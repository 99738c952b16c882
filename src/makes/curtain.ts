import type { Hem, MakeSpec } from '../model/measure.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { curtainArithmetic, curtainAssembly } from './curtain-sheet.ts';
import { type CurtainWidths, settleWidths } from './curtain-widths.ts';
import { type Edges, hemmed, join, takenBy, takenByHem } from './edges.ts';
import { joinedBy, joinMeasures, joinRule } from './joins.ts';
import type { Make, PieceOfMake, Remark } from './make.ts';
import { type Measures, measuresOf } from './measures.ts';
import { hasError, hemPractice, nothingLeft, type Practice, practiceIn, seamPractice } from './practice.ts';
import { writtenIn } from './sewing.ts';

const spec: MakeSpec = {
  kind: 'curtain',
  title: 'Flat unlined curtain',
  summary: 'Curtains for one window, each of one panel or of widths joined, hemmed on all sides.',
  measures: {
    'finished width': {
      kind: 'length',
      least: 'positive',
      meaning: 'What all curtains of the window cover together when hung.',
    },
    'finished length': {
      mayGive: true,
      kind: 'length',
      least: 'positive',
      meaning: 'Of the curtain when hung, from the top of its heading to its lower edge.',
    },
    fullness: {
      kind: 'factor',
      least: '1',
      most: '4',
      default: { inches: '2', metric: '2' },
      meaning: 'How many times as wide the flat curtain is as what it covers.',
    },
    curtains: {
      kind: 'count',
      least: 1,
      default: { inches: '2', metric: '2' },
      meaning: 'How many curtains share the window.',
    },
    widths: {
      kind: 'count',
      least: 1,
      optional: true,
      meaning:
        'How many widths of cloth are joined in each curtain, cut alike. Left out: one whole panel, or as many as the width of each asks for.',
    },
    'width of each': {
      kind: 'length',
      least: 'positive',
      optional: true,
      meaning:
        'What each width is cut to, such as the usable width of the cloth; the curtain comes out as full as they make it.',
    },
    heading: {
      kind: 'hem',
      default: { inches: '1 1/2 + 1/2', metric: '4 + 1' },
      meaning: 'Turned over at the top for the heading: what is seen behind, and what is turned under it.',
    },
    'side hem': {
      kind: 'hem',
      default: { inches: '1 + 1', metric: '2.5 + 2.5' },
      meaning: 'The hem of each side: what is seen, and what is turned under it.',
    },
    // A double hem adds twice its depth (pattern-making handbook extract, common practice).
    'bottom hem': {
      kind: 'hem',
      default: { inches: '4 + 4', metric: '10 + 10' },
      meaning: 'The hem below, doubled: what is seen, and as much turned under it.',
    },
    'seam allowance': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1.5' },
      meaning: 'Of each edge of a seam that joins two widths.',
    },
    ...joinMeasures('curtain', 'seam'),
  },
  parts: { curtain: { meaning: 'All curtains.' } },
};

export interface Curtain {
  readonly covers: Ticks;
  readonly thousandths: number;
  readonly curtains: number;
  readonly length: Ticks;
  readonly heading: Hem;
  readonly sideHem: Hem;
  readonly bottomHem: Hem;
  readonly allowance: Ticks;
}

/**
 * Cut width of a curtain = finished width × fullness ÷ curtains + both side hems + a seam for each join;
 * cut length = finished length + heading + bottom hem. The width of the cloth is not known here: a panel wider than the
 * cloth is cut as given `widths`, or `width of each`.
 */
export const curtain: Make = {
  spec,
  expand(order, { unit }) {
    const measures = measuresOf(order);
    const hung = measuredCurtain(measures);
    const { widths, remarks } = settleWidths(hung, measures);
    const practice = practiceIn(unit);
    const joins = joinRule(measures, { piece: 'curtain', by: 'seam', lines: 'upright' }, unit);
    const seams =
      joins.rule === undefined && widths.number === 1 ? [] : seamPractice(practice, hung.allowance);
    const all = [...remarks, ...curtainRemarks(hung, widths, practice), ...seams, ...joins.remarks];
    const pieces = curtainPieces(hung, widths).map((piece) => ({ ...piece, ...joinedBy(joins.rule) }));
    return {
      finished: { width: widths.flat, length: hung.length },
      pieces: hasError(all) ? [] : pieces,
      arithmetic: hasError(all) ? [] : curtainArithmetic(hung, widths),
      assembly: curtainAssembly(hung, widths, joins.rule !== undefined, writtenIn(unit)),
      cautions: ['rotary-cutter', 'curtain-cords', 'flammability'],
      remarks: all,
    };
  },
};

function measuredCurtain(measures: Measures): Curtain {
  return {
    covers: measures.length('finished width'),
    thousandths: measures.factor('fullness').thousandths,
    curtains: measures.count('curtains'),
    length: measures.length('finished length'),
    heading: measures.hem('heading'),
    sideHem: measures.hem('side hem'),
    bottomHem: measures.hem('bottom hem'),
    allowance: measures.length('seam allowance'),
  };
}

/** As the curtain hangs, seen from the room: left width, middle widths, right width. */
function curtainPieces(hung: Curtain, { number, each }: CurtainWidths): readonly PieceOfMake[] {
  const { curtains, length, heading, sideHem, bottomHem, allowance } = hung;
  const ends: Pick<Edges, 'top' | 'bottom'> = { top: hemmed(heading), bottom: hemmed(bottomHem) };
  const [side, joined] = [hemmed(sideHem), join(allowance)];
  const piece = (name: string, perMake: number, left: Edges['left'], right: Edges['right']): PieceOfMake => ({
    name,
    part: 'curtain',
    perMake,
    finished: { width: ticks(each - takenBy(left) - takenBy(right)), length },
    edges: { ...ends, left, right },
    grain: 'lengthwise',
  });
  if (number === 1) return [piece('curtain', curtains, side, side)];
  const middle = number === 2 ? [] : [piece('middle width', (number - 2) * curtains, joined, joined)];
  return [
    piece('left width', curtains, side, joined),
    ...middle,
    piece('right width', curtains, joined, side),
  ];
}

function curtainRemarks(
  { length, heading, sideHem, bottomHem, allowance }: Curtain,
  { number, each, flat }: CurtainWidths,
  practice: Practice,
): readonly Remark[] {
  const side = takenByHem(sideHem);
  const narrowest = number === 1 ? each - 2 * side : each - Math.max(2 * allowance, side + allowance);
  return [
    ...nothingLeft(
      'widths',
      'Widths of {each} are used up by their side hems ({side}) and seams ({allowance}): take fewer, wider ones.',
      { each, side, allowance },
      [narrowest],
    ),
    ...hemPractice(practice, { measure: 'heading', hem: heading, room: length, piece: 'curtain' }),
    ...hemPractice(practice, { measure: 'side hem', hem: sideHem, room: flat, piece: 'curtain' }),
    ...hemPractice(practice, { measure: 'bottom hem', hem: bottomHem, room: length, piece: 'curtain' }),
  ];
}
