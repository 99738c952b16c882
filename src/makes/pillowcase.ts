import type { Hem, MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine, Size } from '../model/piece.ts';
import { sum, type Ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { cutSize, hemmed, seam, takenByHem } from './edges.ts';
import type { Make, PieceOfMake, Remark } from './make.ts';
import { type Measures, measuresOf } from './measures.ts';
import {
  hasError,
  hemPractice,
  type Practice,
  practiceIn,
  seamPractice,
  usual,
  warning,
} from './practice.ts';
import { hemming, type Written, writtenIn } from './sewing.ts';
import { quarterTurned } from './turned.ts';

const CUTS = ['two panels', 'one piece'] as const;
const UPS = ['along the pillow', 'across the pillow'] as const;

/** What keeps a pillow in: a flap, or cloth beyond it (common practice, no published source). */
const LEAST_KEEPING = { inches: 4, millimetres: 100 };

const spec: MakeSpec = {
  kind: 'pillowcase',
  title: 'Pillowcase',
  summary: 'Front and back, open at one end, with a flap inside that holds the pillow; or without.',
  measures: {
    size: { kind: 'size', meaning: 'The pillow: its width, then its length towards the opening.' },
    // A case is about 1 in wider than its pillow (Caraga State University, Fundamentals of Garment, lesson 6).
    'wider than pillow': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1', metric: '2.5' },
      meaning: 'By how much the finished case is wider.',
    },
    'longer than pillow': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1.5' },
      meaning: 'By how much the finished case is longer. Without a flap it needs several inches.',
    },
    flap: {
      kind: 'length',
      least: 'zero',
      default: { inches: '6', metric: '15' },
      meaning: 'Finished depth of the flap inside the opening; 0 for none.',
    },
    hem: {
      kind: 'hem',
      default: { inches: '1 + 1/2', metric: '2.5 + 1' },
      meaning: 'The hem at the opening: what is seen, and what is turned under it.',
    },
    'flap hem': {
      kind: 'hem',
      default: { inches: '1/2 + 1/4', metric: '1.2 + 0.8' },
      meaning: 'The hem at the end of the flap.',
    },
    'seam allowance': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1.5' },
      meaning: 'From the seam to the cut edge.',
    },
    'cut as': {
      kind: 'choice',
      choices: CUTS,
      default: { inches: 'two panels', metric: 'two panels' },
      meaning: 'Front and back apart; or in one piece, folded at the closed end.',
    },
    // The warp runs along the pillow (McGlauflin, Handicraft for Girls, 1910).
    'print up': {
      kind: 'choice',
      choices: UPS,
      default: { inches: 'along the pillow', metric: 'along the pillow' },
      meaning:
        'Along: the warp runs along the pillow, up towards the opening. Across: a print stands upright as the pillow lies, and plain cloth may lie either way.',
    },
  },
  parts: { case: { meaning: 'The whole pillowcase.' } },
};

interface Case {
  readonly pillow: Size;
  readonly wider: Ticks;
  readonly longer: Ticks;
  readonly finished: Size;
  readonly flap: Ticks;
  readonly hem: Hem;
  /** At the end of the back: of the flap, or of the opening where there is none. */
  readonly backHem: Hem;
  readonly allowance: Ticks;
  readonly onePiece: boolean;
}

export const pillowcase: Make = {
  spec,
  expand(order, { unit }) {
    const measures = measuresOf(order);
    const sewn = measuredCase(measures);
    const along = measures.choice('print up', UPS) === 'along the pillow';
    const upright = sewn.onePiece ? [wholePiece(sewn)] : panels(sewn);
    const remarks = caseRemarks(sewn, practiceIn(unit));
    return {
      finished: along ? sewn.finished : { width: sewn.finished.length, length: sewn.finished.width },
      pieces: hasError(remarks) ? [] : along ? upright : upright.map(quarterTurned),
      arithmetic: caseArithmetic(sewn, upright),
      assembly: caseAssembly(sewn, writtenIn(unit)),
      cautions: ['rotary-cutter', 'infant-sleep', 'flammability', 'wash-and-care'],
      remarks,
    };
  },
};

function measuredCase(measures: Measures): Case {
  const pillow = measures.size('size');
  const wider = measures.length('wider than pillow');
  const longer = measures.length('longer than pillow');
  const flap = measures.length('flap');
  const hem = measures.hem('hem');
  return {
    pillow,
    wider,
    longer,
    finished: { width: sum([pillow.width, wider]), length: sum([pillow.length, longer]) },
    flap,
    hem,
    backHem: flap === 0 ? hem : measures.hem('flap hem'),
    allowance: measures.length('seam allowance'),
    onePiece: measures.choice('cut as', CUTS) === 'one piece',
  };
}

/** Both stand with the opening at the top; the flap goes on from the back and folds in at the opening. */
function panels({ finished, flap, hem, backHem, allowance }: Case): readonly PieceOfMake[] {
  const sides = seam(allowance);
  const closed = { bottom: sides, left: sides, right: sides };
  const panel = { part: 'case', perMake: 1, grain: 'lengthwise' } as const;
  return [
    { ...panel, name: 'front', finished, edges: { ...closed, top: hemmed(hem) } },
    {
      ...panel,
      name: flap === 0 ? 'back' : 'back and flap',
      finished: { ...finished, length: sum([finished.length, flap]) },
      edges: { ...closed, top: hemmed(backHem) },
      folds: flap === 0 ? [] : [{ edge: 'top', inside: flap }],
    },
  ];
}

/** From the front's opening at the bottom over the closed end to the back and its flap. */
function wholePiece({ finished, flap, hem, backHem, allowance }: Case): PieceOfMake {
  const sides = seam(allowance);
  return {
    name: 'front and back',
    part: 'case',
    perMake: 1,
    grain: 'lengthwise',
    finished: { ...finished, length: sum([finished.length, finished.length, flap]) },
    edges: { bottom: hemmed(hem), top: hemmed(backHem), left: sides, right: sides },
    folds: [
      { edge: 'bottom', inside: finished.length },
      ...(flap === 0 ? [] : [{ edge: 'top', inside: flap } as const]),
    ],
  };
}

function caseRemarks(
  { finished, longer, flap, hem, backHem, allowance }: Case,
  practice: Practice,
): readonly Remark[] {
  const least = usual(practice.unit, LEAST_KEEPING);
  const remarks = [
    ...seamPractice(practice, allowance),
    ...hemPractice(practice, { measure: 'hem', hem, room: finished.length, piece: 'case' }),
  ];
  if (flap > 0) {
    remarks.push(...hemPractice(practice, { measure: 'flap hem', hem: backHem, room: flap, piece: 'flap' }));
  }
  if (flap > finished.length) {
    remarks.push(
      warning('flap', 'A flap of {flap} is longer than the case of {length} that it lies in.', {
        flap,
        length: finished.length,
      }),
    );
  }
  if (flap < least && longer < least) {
    remarks.push(
      warning(
        'flap',
        'A flap of {flap} and a case {longer} longer than the pillow may let it slip out: make one of them {least} or more.',
        { flap, longer, least },
      ),
    );
  }
  return remarks;
}

function caseArithmetic(sewn: Case, pieces: readonly PieceOfMake[]): readonly ArithmeticLine[] {
  const { pillow, wider, longer, finished, flap, hem, backHem, allowance, onePiece } = sewn;
  const cuts = pieces.map((piece) => cutSize(piece.finished, piece.edges));
  const [taken, backTaken] = [takenByHem(hem), takenByHem(backHem)];
  const long = finished.length;
  const lengths = onePiece
    ? [line('cut length', '2 ×', long, '+', flap, '+', taken, '+', backTaken, '=', cuts[0].length)]
    : [
        line('front, cut length', long, '+', allowance, '+', taken, '=', cuts[0].length),
        line(
          `${pieces[1].name}, cut length`,
          long,
          '+',
          flap,
          '+',
          allowance,
          '+',
          backTaken,
          '=',
          cuts[1].length,
        ),
      ];
  return [
    line('case, width', pillow.width, '+', wider, '=', finished.width),
    line('case, length', pillow.length, '+', longer, '=', long),
    line('opening hem takes up', hem.visible, '+', hem.under, '=', taken),
    ...(flap === 0 ? [] : [line('flap hem takes up', backHem.visible, '+', backHem.under, '=', backTaken)]),
    line('cut width', finished.width, '+ 2 ×', allowance, '=', cuts[0].width),
    ...lengths,
  ];
}

function caseAssembly(
  { flap, hem, backHem, allowance, onePiece }: Case,
  written: Written,
): readonly string[] {
  const hems =
    flap === 0
      ? [`Hem the opening of front and back: ${hemming(hem, written)}.`]
      : [
          `Hem the opening of the front: ${hemming(hem, written)}.`,
          `Hem the end of the flap: ${hemming(backHem, written)}.`,
        ];
  return [
    ...hems,
    onePiece
      ? 'Fold the front over the back along the closed end, face in.'
      : 'Lay the back face up, and the front on it face down, closed ends together.',
    ...(flap === 0 ? [] : ['Fold the flap over the hemmed opening of the front, its wrong side up.']),
    `Stitch ${onePiece ? 'both long sides' : 'the closed end and both long sides'}, ${written(allowance)} from the edge.`,
    'Trim the corners and turn the case right side out.',
  ];
}
