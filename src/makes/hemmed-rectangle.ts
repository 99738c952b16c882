import type { Hem, MeasureSpec } from '../model/measure.ts';
import type { ArithmeticLine, Size } from '../model/piece.ts';
import { line } from './arithmetic.ts';
import { allAround, cutSize, hemmed, takenByHem } from './edges.ts';
import type { PieceOfMake, Remark } from './make.ts';
import { facingHemsPractice, type Practice } from './practice.ts';
import { hemming, type Written } from './sewing.ts';

export const CORNERS = ['mitred', 'square'] as const;

/** McGlauflin's napkin has a mitred hem of 1/2 in (Handicraft for Girls, 1910); Watson turns at least 1/4 in under (1907). */
export const tableHem: MeasureSpec = {
  kind: 'hem',
  default: { inches: '1/2 + 1/4', metric: '1.2 + 0.8' },
  meaning: 'The hem all round: what is seen, and what is turned under it.',
};

export const tableCorners: MeasureSpec = {
  kind: 'choice',
  choices: CORNERS,
  default: { inches: 'mitred', metric: 'mitred' },
  meaning: 'How the hems meet at the corners; the cut size is the same.',
};

export interface RectangleToHem {
  readonly name: string;
  readonly part: string;
  readonly finished: Size;
  readonly hem: Hem;
}

export interface HemmedRectangle {
  readonly piece: PieceOfMake;
  readonly arithmetic: readonly ArithmeticLine[];
  readonly remarks: readonly Remark[];
}

/** One piece hemmed on all four sides: cut = finished + 2 × what the hem takes up. */
export function hemmedRectangle(
  { name, part, finished, hem }: RectangleToHem,
  practice: Practice,
): HemmedRectangle {
  const edges = allAround(hemmed(hem));
  const cut = cutSize(finished, edges);
  const taken = takenByHem(hem);
  return {
    piece: { name, part, perMake: 1, finished, edges, grain: 'either' },
    arithmetic: [
      line('each hem takes up', hem.visible, '+', hem.under, '=', taken),
      line(`${name}, across`, finished.width, '+ 2 ×', taken, '=', cut.width),
      line(`${name}, up`, finished.length, '+ 2 ×', taken, '=', cut.length),
    ],
    remarks: facingHemsPractice(practice, { measure: 'hem', hem, size: finished, piece: name }),
  };
}

export function hemmedAssembly(
  hem: Hem,
  corners: (typeof CORNERS)[number],
  written: Written,
): readonly string[] {
  if (corners === 'square') {
    return [
      `Hem two opposite sides: ${hemming(hem, written)}.`,
      'Hem the other two sides likewise over the first, and stitch across the corners.',
    ];
  }
  return [
    `Press both turns on all four sides: ${written(hem.under)}, then ${written(hem.visible)}.`,
    'Open the corners, fold each mitre, cut off the spare point, and fold the hems back.',
    'Stitch all round close to the inner fold.',
  ];
}
