import type { MeasureSpec } from '../model/measure.ts';
import type { ArithmeticLine, Size } from '../model/piece.ts';
import type { Ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { allAround, cutSize, raw, seam } from './edges.ts';
import type { PieceOfMake } from './make.ts';
import type { Written } from './sewing.ts';

export const WADDINGS = ['cut to the front', 'inside the seams'] as const;
export type Wadding = (typeof WADDINGS)[number];

export const liningAllowance: MeasureSpec = {
  kind: 'length',
  least: 'zero',
  default: { inches: '1/2', metric: '1.2' },
  meaning: 'From a seam to the cut edge, where it is lined or joined.',
};

export interface LinedRectangle {
  readonly finished: Size;
  readonly allowance: Ticks;
  /** Undefined leaves the wadding out. */
  readonly wadding?: Wadding | undefined;
}

/** Two layers sewn face to face and turned: each is cut at finished + 2 × seam allowance. Wadding as the layers, or inside the seams. */
export function linedPieces({ finished, allowance, wadding }: LinedRectangle): readonly PieceOfMake[] {
  const layer = { perMake: 1, finished, edges: allAround(seam(allowance)), grain: 'either' } as const;
  const middle: PieceOfMake = {
    ...layer,
    name: 'wadding',
    part: 'wadding',
    edges: allAround(wadding === 'inside the seams' ? raw : seam(allowance)),
  };
  return [
    { ...layer, name: 'front', part: 'front' },
    { ...layer, name: 'lining', part: 'lining' },
    ...(wadding === undefined ? [] : [middle]),
  ];
}

export function linedArithmetic({ finished, allowance, wadding }: LinedRectangle): readonly ArithmeticLine[] {
  const cut = cutSize(finished, allAround(seam(allowance)));
  const inside = [
    line('wadding, across', cut.width, '- 2 ×', allowance, '=', finished.width),
    line('wadding, up', cut.length, '- 2 ×', allowance, '=', finished.length),
  ];
  return [
    line('front and lining, across', finished.width, '+ 2 ×', allowance, '=', cut.width),
    line('front and lining, up', finished.length, '+ 2 ×', allowance, '=', cut.length),
    ...(wadding === 'inside the seams' ? inside : []),
  ];
}

export function linedAssembly({ allowance, wadding }: LinedRectangle, written: Written): readonly string[] {
  const seamed = `Stitch all round, ${written(allowance)} from the edge, and leave a gap to turn through in one side.`;
  return [
    ...(wadding === 'inside the seams'
      ? ['Tack the wadding to the wrong side of the front, inside the seam lines.']
      : []),
    'Lay the front face up, and the lining on it face down, up sides together.',
    ...(wadding === 'cut to the front'
      ? ['Lay the wadding on last.', seamed, 'Trim the wadding close to the seam.']
      : [seamed]),
    'Trim the corners, turn right side out, press, and close the gap.',
  ];
}
