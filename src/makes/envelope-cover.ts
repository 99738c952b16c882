import type { Hem, MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine, Size } from '../model/piece.ts';
import { sum, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { allAround, cutSize, type Edges, hemmed, raw, seam, takenByHem } from './edges.ts';
import { coverAssembly } from './envelope-assembly.ts';
import { type EnvelopeBacks, settleBacks } from './envelope-backs.ts';
import type { Make, PieceOfMake, Remark } from './make.ts';
import { type Measures, measuresOf } from './measures.ts';
import { hasError, hemPractice, nothingLeft, seamPractice } from './practice.ts';

export const OPENINGS = ['level', 'upright'] as const;
export const INTERFACINGS = ['cut to the front', 'inside the seams', 'oversize'] as const;

const spec: MakeSpec = {
  kind: 'envelope-cover',
  title: 'Envelope-back cushion cover',
  summary: 'A front and two hemmed backs that lap, so that the pad goes in without a fastening.',
  measures: {
    size: { kind: 'size', meaning: 'The pad, across and up as it stands.' },
    'smaller than pad': {
      kind: 'length',
      least: 'zero',
      default: { inches: '0', metric: '0' },
      meaning:
        'How much smaller the finished cover is than the pad, each way. Often 1 in for a fibre pad and 2 in for feather; 0 where the size is that of the cover.',
    },
    'seam allowance': {
      kind: 'length',
      least: 'zero',
      default: { inches: '1/2', metric: '1.5' },
      meaning: 'From the seam to the cut edge.',
    },
    hem: {
      kind: 'hem',
      default: { inches: '1 + 1/2', metric: '2.5 + 1' },
      meaning: 'The hem of each back: what is seen, and what is turned under it.',
    },
    opening: {
      kind: 'choice',
      choices: OPENINGS,
      default: { inches: 'level', metric: 'level' },
      meaning: 'Which way the opening runs as the cover stands.',
    },
    lap: {
      kind: 'length',
      least: 'positive',
      optional: true,
      meaning:
        'By how much the finished backs lie over each other. Left out, it follows from both back depths, or is a quarter of the cover.',
    },
    'outer back depth': {
      kind: 'length',
      least: 'positive',
      optional: true,
      meaning: 'From the seam of the back that lies outside to its folded edge. Left out, it follows.',
    },
    'inner back depth': {
      kind: 'length',
      least: 'positive',
      optional: true,
      meaning: 'From the seam of the back that lies inside to its folded edge. Left out, it follows.',
    },
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

export interface Cover {
  readonly pad: Size;
  readonly smaller: Ticks;
  readonly finished: Size;
  readonly allowance: Ticks;
  readonly hem: Hem;
  readonly opening: (typeof OPENINGS)[number];
  /** Finished measure across the opening: up the cover for a level one. */
  readonly depth: Ticks;
}

/** The measures that every envelope-back cover shares. */
export function measured(measures: Measures): Cover {
  const pad = measures.size('size');
  const smaller = measures.length('smaller than pad');
  const opening = measures.choice('opening', OPENINGS);
  const finished = { width: ticks(pad.width - smaller), length: ticks(pad.length - smaller) };
  return {
    pad,
    smaller,
    finished,
    allowance: measures.length('seam allowance'),
    hem: measures.hem('hem'),
    opening,
    depth: opening === 'level' ? finished.length : finished.width,
  };
}

export function coverRemarks({ pad, smaller, finished, allowance }: Cover): readonly Remark[] {
  return [
    ...nothingLeft(
      'smaller than pad',
      'A pad of {width} by {length} leaves no cover when that is {smaller} smaller: make the difference less.',
      { width: pad.width, length: pad.length, smaller },
      [finished.width, finished.length],
    ),
    ...seamPractice(allowance),
  ];
}

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
      return [line(across, front.width, '=', front.width), line(up, front.length, '=', front.length)];
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

export function frontArithmetic({ pad, smaller, finished, allowance }: Cover): readonly ArithmeticLine[] {
  const cut = cutSize(finished, allAround(seam(allowance)));
  const shrunk = [
    line('cover, across', pad.width, '-', smaller, '=', finished.width),
    line('cover, up', pad.length, '-', smaller, '=', finished.length),
  ];
  return [
    ...(smaller === 0 ? [] : shrunk),
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

function backHems(hem: Hem, { outer, inner }: EnvelopeBacks): readonly Remark[] {
  return outer < inner
    ? hemPractice('hem', hem, outer, 'outer back')
    : hemPractice('hem', hem, inner, 'inner back');
}
