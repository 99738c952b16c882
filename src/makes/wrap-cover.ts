import type { MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine } from '../model/piece.ts';
import { sum } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { cutSize, type Edges, hemmed, seam, takenByHem } from './edges.ts';
import { type EnvelopeBacks, settleBacks } from './envelope-backs.ts';
import {
  backHems,
  type Cover,
  coverMeasures,
  coverNeeds,
  coverRemarks,
  measured,
  shrinkArithmetic,
} from './envelope-measures.ts';
import type { Make, PieceOfMake } from './make.ts';
import { measuresOf } from './measures.ts';
import { hasError, practiceIn } from './practice.ts';
import { hemming, writtenIn } from './sewing.ts';

const spec: MakeSpec = {
  kind: 'wrap-cover',
  title: 'Envelope cushion cover from one strip',
  summary:
    'Front and backs in one hemmed strip that wraps the pad. With a level opening the backs stand upside down: not for a one-way print.',
  measures: coverMeasures,
  needs: coverNeeds,
  parts: { strip: { meaning: 'The whole cover.' } },
};

/** Strip = 2 × finished + lap + both hems; across: finished + 2 × seam allowance (common practice, no published source). */
export const wrapCover: Make = {
  spec,
  expand(order, context) {
    const { unit } = context;
    const practice = practiceIn(unit);
    const measures = measuresOf(order);
    const cover = measured(measures);
    const { backs, arithmetic, remarks } = settleBacks(cover.depth, measures, context);
    const own = coverRemarks(cover, practice);
    const all = hasError(own) ? own : [...own, ...remarks];
    const written = writtenIn(unit);
    const piece = strip(cover, backs);
    return {
      finished: cover.finished,
      pieces: hasError(all) ? [] : [piece],
      arithmetic: [...shrinkArithmetic(cover), ...arithmetic, ...stripArithmetic(cover, backs, piece)],
      assembly: [
        `Hem the two ends: ${hemming(cover.hem, written)}.`,
        'Lay the strip face up. Fold the outer back over the front first, along its fold line.',
        'Fold the inner back over it last, along its fold line.',
        `Stitch the two open sides, ${written(cover.allowance)} from the edge, back and forth where the hems cross the seam.`,
        'Trim the corners, turn the cover right side out through the opening, and put in the pad.',
      ],
      cautions: ['rotary-cutter', 'infant-sleep', 'flammability'],
      remarks: hasError(all) ? all : [...all, ...backHems(cover, backs, practice)],
    };
  },
};

/** The front stands in the middle; the outer back folds over from its top, or from its right side as seen from the front. */
function strip({ finished, allowance, hem, opening, depth }: Cover, backs: EnvelopeBacks): PieceOfMake {
  const whole = sum([backs.outer, depth, backs.inner]);
  const piece = { name: 'strip', part: 'strip', perMake: 1, grain: 'either' } as const;
  const [hems, seams] = [hemmed(hem), seam(allowance)];
  if (opening === 'level') {
    return {
      ...piece,
      bothWaysUp: true,
      finished: { width: finished.width, length: whole },
      edges: { top: hems, bottom: hems, left: seams, right: seams },
      folds: [
        { edge: 'top', inside: backs.outer },
        { edge: 'bottom', inside: backs.inner },
      ],
    };
  }
  return {
    ...piece,
    finished: { width: whole, length: finished.length },
    edges: { top: seams, bottom: seams, left: hems, right: hems },
    folds: [
      { edge: 'right', inside: backs.outer },
      { edge: 'left', inside: backs.inner },
    ],
  };
}

function stripArithmetic(
  cover: Cover,
  { outer, inner }: EnvelopeBacks,
  piece: PieceOfMake,
): ArithmeticLine[] {
  const { finished, allowance, hem, opening, depth } = cover;
  const cut = cutSize(piece.finished, piece.edges satisfies Edges);
  const taken = takenByHem(hem);
  const [along, across, over] =
    opening === 'level' ? [cut.length, cut.width, finished.width] : [cut.width, cut.length, finished.length];
  return [
    line('each hem takes up', hem.visible, '+', hem.under, '=', taken),
    line('strip, hem to hem', outer, '+', depth, '+', inner, '+ 2 ×', taken, '=', along),
    line('strip, seam to seam', over, '+ 2 ×', allowance, '=', across),
  ];
}
