import type { MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine } from '../model/piece.ts';
import { sum, type Ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { interfacingMeasures, interfacingOf } from './cover-interfacing.ts';
import { allAround, cutSize, type Edges, hemmed, seam, takenByHem } from './edges.ts';
import { coverAssembly } from './envelope-assembly.ts';
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

const spec: MakeSpec = {
  kind: 'envelope-cover',
  title: 'Envelope-back cushion cover',
  summary: 'A front and two hemmed backs that lap, so that the pad goes in without a fastening.',
  measures: {
    ...coverMeasures,
    ...interfacingMeasures,
  },
  needs: coverNeeds,
  parts: {
    front: { meaning: 'The front.' },
    backs: { meaning: 'Both backs.' },
    interfacing: { meaning: 'Interfacing behind the front.', optional: true },
  },
};

/**
 * Equal backs: back = (finished + lap) / 2 + seam allowance + hem, where the hem takes up what is seen and what is turned under.
 * Lap = both backs as cut - both hems - front as cut (common practice, no published source).
 */
export const envelopeCover: Make = {
  spec,
  expand(order, context) {
    const { unit } = context;
    const practice = practiceIn(unit);
    const measures = measuresOf(order);
    const cover = measured(measures);
    const { backs, arithmetic, remarks } = settleBacks(cover.depth, measures, context);
    const interfacing =
      order.cloths.interfacing === undefined ? undefined : interfacingOf(cover, measures, unit);
    const own = coverRemarks(cover, practice);
    const hems = hasError(remarks) ? [] : backHems(cover, backs, practice);
    const fit = hasError(own) ? own : [...own, ...remarks, ...hems, ...(interfacing?.remarks ?? [])];
    return {
      finished: cover.finished,
      pieces: hasError(fit) ? [] : [...coverPieces(cover, backs), ...(interfacing?.pieces ?? [])],
      arithmetic: [
        ...shrinkArithmetic(cover),
        ...frontArithmetic(cover),
        ...arithmetic,
        ...backArithmetic(cover, backs),
        ...(interfacing?.arithmetic ?? []),
      ],
      assembly: coverAssembly({ ...cover, unit, interfacing: interfacing?.cut }),
      cautions: [
        'rotary-cutter',
        ...(interfacing === undefined ? [] : (['iron-and-fusing'] as const)),
        'infant-sleep',
        'flammability',
      ],
      remarks: fit,
    };
  },
};

/**
 * The outer back is the upper one of a level opening, so that its edge hangs down over the inner one,
 * and the left one, seen from behind, of an upright opening.
 */
function coverPieces({ finished, allowance, hem, opening }: Cover, backs: EnvelopeBacks): PieceOfMake[] {
  const seamed = allAround(seam(allowance));
  const level = opening === 'level';
  const back = (name: string, depth: Ticks, hemAt: keyof Edges): PieceOfMake => ({
    name,
    part: 'backs',
    perMake: 1,
    finished: level ? { ...finished, length: depth } : { ...finished, width: depth },
    edges: { ...seamed, [hemAt]: hemmed(hem) },
    grain: 'either',
  });
  return [
    { name: 'front', part: 'front', perMake: 1, finished, edges: seamed, grain: 'either' },
    back('outer back', backs.outer, level ? 'bottom' : 'right'),
    back('inner back', backs.inner, level ? 'top' : 'left'),
  ];
}

function frontArithmetic({ finished, allowance }: Cover): readonly ArithmeticLine[] {
  const cut = cutSize(finished, allAround(seam(allowance)));
  return [
    line('front, across', finished.width, '+ 2 ×', allowance, '=', cut.width),
    line('front, up', finished.length, '+ 2 ×', allowance, '=', cut.length),
  ];
}

function backArithmetic(
  { depth, allowance, hem }: Cover,
  { outer, inner, lap }: EnvelopeBacks,
): readonly ArithmeticLine[] {
  const taken = takenByHem(hem);
  const outerCut = sum([outer, allowance, taken]);
  const innerCut = sum([inner, allowance, taken]);
  const frontCut = sum([depth, allowance, allowance]);
  return [
    line('each hem takes up', hem.visible, '+', hem.under, '=', taken),
    line('outer back, cut depth', outer, '+', allowance, '+', taken, '=', outerCut),
    line('inner back, cut depth', inner, '+', allowance, '+', taken, '=', innerCut),
    line('lap, checked', outerCut, '+', innerCut, '- 2 ×', taken, '-', frontCut, '=', lap),
  ];
}
