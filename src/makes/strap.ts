import type { MeasureSpec } from '../model/measure.ts';
import type { ArithmeticLine } from '../model/piece.ts';
import { sum, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import { cutSize, raw, seam } from './edges.ts';
import type { PieceOfMake } from './make.ts';
import type { Written } from './sewing.ts';

export const STRAP_FOLDS = ['folded in four', 'turned through'] as const;

/** A narrow strip, cut upright: its length runs up. */
export interface Strap {
  readonly name: string;
  readonly part: string;
  readonly perMake: number;
  readonly length: Ticks;
  readonly width: Ticks;
  /** Beyond the length, at each end: held in a seam or under a hem, or turned in. */
  readonly end: Ticks;
  readonly fold: (typeof STRAP_FOLDS)[number];
  /** Of a strap that is turned through. */
  readonly allowance: Ticks;
}

export const strapFold: MeasureSpec = {
  kind: 'choice',
  choices: STRAP_FOLDS,
  default: { inches: 'folded in four', metric: 'folded in four' },
  meaning:
    'Folded in four: edges to the middle, folded again and stitched, cut four times as wide. Turned through: sewn face to face and turned, cut twice as wide with seams.',
};

/** Cut width: 4 × finished when folded in four, 2 × (finished + seam allowance) when turned through. Cut length: finished + 2 × end. */
export function strapPiece(strap: Strap): PieceOfMake {
  const { name, part, perMake, length, width, end, fold, allowance } = strap;
  const ends = end === 0 ? raw : seam(end);
  const sides = fold === 'folded in four' ? raw : seam(allowance);
  const layers = fold === 'folded in four' ? 4 : 2;
  return {
    name,
    part,
    perMake,
    finished: { width: ticks(layers * width), length },
    edges: { left: sides, right: sides, bottom: ends, top: ends },
    folds: Array.from({ length: layers - 1 }, (_, index) => ({
      edge: 'left' as const,
      inside: ticks((index + 1) * width),
    })),
    grain: 'either',
  };
}

export function strapArithmetic(strap: Strap): readonly ArithmeticLine[] {
  const { name, length, width, end, fold, allowance } = strap;
  const piece = strapPiece(strap);
  const cut = cutSize(piece.finished, piece.edges);
  const what = `${name}, cut width`;
  return [
    fold === 'folded in four'
      ? line(what, '4 ×', width, '=', cut.width)
      : line(what, '2 ×', width, '+ 2 ×', allowance, '=', cut.width),
    line(`${name}, cut length`, length, '+ 2 ×', end, '=', sum([length, end, end])),
  ];
}

export function strapAssembly({ name, fold, allowance }: Strap, written: Written): readonly string[] {
  if (fold === 'folded in four') {
    return [
      `Press each ${name} in half along its length, open it, press both edges to the middle, fold it again, and stitch both sides.`,
    ];
  }
  return [
    `Fold each ${name} along its length, face in, stitch ${written(allowance)} from the long edge, turn it and press it.`,
  ];
}
