import type { MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine } from '../model/piece.ts';
import { sum, type Ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { allAround, cutSize, type Edges, hemmed, raw, seam, takenByHem } from './edges.ts';
import { coverAssembly } from './envelope-assembly.ts';
import { type EnvelopeBacks, settleBacks } from './envelope-backs.ts';
import {
  backHems,
  type Cover,
  coverMeasures,
  coverRemarks,
  measured,
  shrinkArithmetic,
} from './envelope-measures.ts';
import type { Make, PieceOfMake } from './make.ts';
import { type Measures, measuresOf } from './measures.ts';
import { hasError } from './practice.ts';

export const INTERFACINGS = ['cut to the front', 'inside the seams', 'oversize'] as const;

const spec: MakeSpec = {
  kind: 'envelope-cover',
  title: 'Envelope-back cushion cover',
  summary: 'A front and two hemmed backs that lap, so that the pad goes in without a fastening.',
  measures: {
    ...coverMeasures,
    interfacing: {
      kind: 'choice',
      choices: INTERFACINGS,
      default: { inches: 'cut to the front', metric: 'cut to the front' },
      meaning:
        'How the interfacing is cut, where a cloth is named for it: like the front, smaller by the seams, or larger, to be fused and then cut true.',
    },
    'interfacing oversize': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1' },
      meaning: 'How far oversize interfacing stands out past the front, on each side.',
    },
  },
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
  expand(order, { unit, rulerMark }) {
    const measures = measuresOf(order);
    const cover = measured(measures);
    const { backs, arithmetic, remarks } = settleBacks(cover.depth, measures, rulerMark);
    const withInterfacing = order.cloths.interfacing !== undefined;
    const pieces = [
      ...coverPieces(cover, backs),
      ...(withInterfacing ? [interfacingPiece(cover, measures)] : []),
    ];
    const allRemarks = [...coverRemarks(cover), ...(hasError(coverRemarks(cover)) ? [] : remarks)];
    const allHems = hasError(allRemarks) ? [] : backHems(cover.hem, backs);
    return {
      finished: cover.finished,
      pieces: hasError(allRemarks) ? [] : pieces,
      arithmetic: [
        ...shrinkArithmetic(cover),
        ...frontArithmetic(cover),
        ...arithmetic,
        ...backArithmetic(cover, backs),
        ...(withInterfacing ? interfacingArithmetic(cover, measures) : []),
      ],
      assembly: coverAssembly({
        ...cover,
        unit,
        interfacing: withInterfacing ? measures.choice('interfacing', INTERFACINGS) : undefined,
      }),
      cautions: [
        'rotary-cutter',
        ...(withInterfacing ? (['iron-and-fusing'] as const) : []),
        'infant-sleep',
        'flammability',
      ],
      remarks: [...allRemarks, ...allHems],
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

function interfacingPiece({ finished, allowance }: Cover, measures: Measures): PieceOfMake {
  const piece = { name: 'interfacing', part: 'interfacing', perMake: 1, finished, grain: 'either' } as const;
  switch (measures.choice('interfacing', INTERFACINGS)) {
    case 'cut to the front':
      return { ...piece, edges: allAround(seam(allowance)) };
    case 'inside the seams':
      return { ...piece, edges: allAround(raw) };
    case 'oversize':
      return {
        ...piece,
        edges: allAround(seam(sum([allowance, measures.length('interfacing oversize')]))),
      };
  }
}

function interfacingArithmetic(
  { finished, allowance }: Cover,
  measures: Measures,
): readonly ArithmeticLine[] {
  const front = cutSize(finished, allAround(seam(allowance)));
  const [across, up] = ['interfacing, across', 'interfacing, up'];
  switch (measures.choice('interfacing', INTERFACINGS)) {
    case 'cut to the front':
      return [
        line(`${across}, as the front`, finished.width, '+ 2 ×', allowance, '=', front.width),
        line(`${up}, as the front`, finished.length, '+ 2 ×', allowance, '=', front.length),
      ];
    case 'inside the seams':
      return [
        line(across, front.width, '- 2 ×', allowance, '=', finished.width),
        line(up, front.length, '- 2 ×', allowance, '=', finished.length),
      ];
    case 'oversize': {
      const over = measures.length('interfacing oversize');
      return [
        line(across, front.width, '+ 2 ×', over, '=', sum([front.width, over, over])),
        line(up, front.length, '+ 2 ×', over, '=', sum([front.length, over, over])),
      ];
    }
  }
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
