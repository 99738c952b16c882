import type { Hem, MakeSpec } from '../model/measure.ts';
import type { Size } from '../model/piece.ts';
import { ceilDiv, sum, type Ticks } from '../units/ticks.ts';
import { type Edge, hemmed, seam } from './edges.ts';
import type { Make, PieceOfMake, Remark } from './make.ts';
import { type Measures, measuresOf } from './measures.ts';
import { hasError, hemPractice, type Practice, practiceIn, seamPractice, warning } from './practice.ts';
import { writtenIn } from './sewing.ts';
import { STRAP_FOLDS, type Strap, strapArithmetic, strapFold, strapPiece } from './strap.ts';
import { toteArithmetic, toteAssembly } from './tote-sheet.ts';

const BODIES = ['two panels', 'one piece'] as const;

const spec: MakeSpec = {
  kind: 'tote',
  title: 'Tote bag',
  summary:
    'A bag with two handles, flat or with a boxed bottom; lined where a cloth is named for the lining.',
  measures: {
    size: {
      mayGive: true,
      kind: 'size',
      meaning: 'The finished bag as it stands: across its front, and up.',
    },
    depth: {
      kind: 'length',
      least: 'zero',
      default: { inches: '0', metric: '0' },
      meaning: 'Of the boxed bottom, from front to back; 0 for a flat bag.',
    },
    body: {
      kind: 'choice',
      choices: BODIES,
      default: { inches: 'two panels', metric: 'two panels' },
      meaning:
        'Two panels with a seam below; or one piece, on which a one-way print stands upside down behind.',
    },
    'seam allowance': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1.2' },
      meaning: 'From the seam to the cut edge.',
    },
    'top hem': {
      kind: 'hem',
      default: { inches: '1 + 1/2', metric: '2.5 + 1.2' },
      meaning: 'The hem at the top of a bag without lining: what is seen, and what is turned under it.',
    },
    'handle length': {
      kind: 'length',
      least: 'positive',
      default: { inches: '22', metric: '56' },
      meaning: 'Of each handle outside the bag, end to end.',
    },
    'handle width': {
      kind: 'length',
      least: 'positive',
      default: { inches: '1', metric: '2.5' },
      meaning: 'Finished.',
    },
    'handle ends': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1', metric: '2.5' },
      meaning: 'How far each end of a handle reaches into the top seam or under the hem.',
    },
    'handle fold': strapFold,
    // A school bag of 1910 has its handles 4 in apart (McGlauflin, Handicraft for Girls, A Book Bag).
    'handle gap': {
      kind: 'length',
      least: 'zero',
      default: { inches: '4', metric: '10' },
      meaning: 'Between the two ends of one handle.',
    },
  },
  parts: {
    body: { meaning: 'The outside of the bag.' },
    handles: { meaning: 'Both handles.' },
    lining: { meaning: 'The inside. Left out, the top is hemmed.', optional: true },
  },
};

/** Everything about one bag that its pieces and its sheet are worked out from. */
export interface Tote {
  readonly finished: Size;
  readonly depth: Ticks;
  /** Half the depth, up to a whole tick: what each panel gives to a side or to the bottom. */
  readonly halfDepth: Ticks;
  readonly onePiece: boolean;
  readonly lined: boolean;
  readonly allowance: Ticks;
  readonly topHem: Hem;
  readonly handle: Strap;
  readonly handleGap: Ticks;
}

export const tote: Make = {
  spec,
  expand(order, { unit }) {
    const bag = measuredTote(measuresOf(order), order.cloths.lining !== undefined);
    const body = bodyPiece(bag, { name: 'body', part: 'body' });
    const lining = bodyPiece(bag, { name: 'lining', part: 'lining' });
    const remarks = toteRemarks(bag, practiceIn(unit));
    return {
      finished: bag.finished,
      pieces: hasError(remarks) ? [] : [body, ...(bag.lined ? [lining] : []), strapPiece(bag.handle)],
      arithmetic: [...toteArithmetic(bag, body), ...strapArithmetic(bag.handle)],
      assembly: toteAssembly(bag, writtenIn(unit)),
      cautions: ['rotary-cutter', 'wash-and-care'],
      remarks,
    };
  },
};

function measuredTote(measures: Measures, lined: boolean): Tote {
  const depth = measures.length('depth');
  const allowance = measures.length('seam allowance');
  return {
    finished: measures.size('size'),
    depth,
    halfDepth: ceilDiv(depth, 2),
    onePiece: measures.choice('body', BODIES) === 'one piece',
    lined,
    allowance,
    topHem: measures.hem('top hem'),
    handle: {
      name: 'handle',
      part: 'handles',
      perMake: 2,
      length: measures.length('handle length'),
      width: measures.length('handle width'),
      end: measures.length('handle ends'),
      fold: measures.choice('handle fold', STRAP_FOLDS),
      allowance,
    },
    handleGap: measures.length('handle gap'),
  };
}

/**
 * Two panels, or one piece that turns under the bottom. A boxed bottom takes half its depth from each side and each panel:
 *
 * ```
 *   ┌─┬─────────┬─┐ top
 *   │ ┊  front  ┊ │
 *   ├┄┼┄┄┄┄┄┄┄┄┄┼┄┤ ┐ half the depth
 *   └─┴─────────┴─┘ ┘ (bottom seam)
 * ```
 */
function bodyPiece(bag: Tote, names: { readonly name: string; readonly part: string }): PieceOfMake {
  const { finished, depth, halfDepth, onePiece, allowance } = bag;
  const top: Edge = bag.lined ? seam(allowance) : hemmed(bag.topHem);
  const sides = seam(allowance);
  const width = sum([finished.width, halfDepth, halfDepth]);
  const up = finished.length;
  const boxed = depth > 0;
  const sideFolds = boxed
    ? ([
        { edge: 'left', inside: halfDepth },
        { edge: 'right', inside: halfDepth },
      ] as const)
    : [];
  if (onePiece) {
    return {
      ...names,
      perMake: 1,
      finished: { width, length: sum([up, depth, up]) },
      edges: { top, bottom: top, left: sides, right: sides },
      folds: [
        ...sideFolds,
        { edge: 'top', inside: up },
        ...(boxed ? [{ edge: 'bottom', inside: up } as const] : []),
      ],
      grain: 'either',
    };
  }
  return {
    ...names,
    name: `${names.name} panel`,
    perMake: 2,
    finished: { width, length: sum([up, halfDepth]) },
    edges: { top, bottom: sides, left: sides, right: sides },
    folds: [...sideFolds, ...(boxed ? [{ edge: 'bottom', inside: halfDepth } as const] : [])],
    grain: 'either',
  };
}

function toteRemarks(
  { finished, lined, allowance, topHem, handle, handleGap }: Tote,
  practice: Practice,
): readonly Remark[] {
  const taken = sum([handle.width, handleGap, handle.width]);
  const tooWide =
    taken <= finished.width
      ? []
      : [
          warning(
            'handle gap',
            'Handles of {handle} with {gap} between take {taken}, more than the bag of {width}: bring them nearer.',
            { handle: handle.width, gap: handleGap, taken, width: finished.width },
          ),
        ];
  return [
    ...seamPractice(practice, allowance),
    ...(lined
      ? []
      : hemPractice(practice, { measure: 'top hem', hem: topHem, room: finished.length, piece: 'bag' })),
    ...tooWide,
  ];
}
