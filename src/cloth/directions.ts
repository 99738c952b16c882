import type { Cloth } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { PieceWanted } from '../model/piece.ts';

/**
 * How a piece may lie on a cloth: the turns that keep its print upright and its grain as wanted.
 * A plain rectangle turned end for end is the same rectangle, so half turns are always left out: whoever cuts a
 * one-way cloth marks the up and turns the piece afterwards.
 */
export type TurnsAllowed =
  | { readonly kind: 'either-way' }
  | { readonly kind: 'one-way-round'; readonly turns: Extract<QuarterTurns, 0 | 1> }
  /** The grain asked for would lay the print on its side. */
  | { readonly kind: 'against-print' };

/**
 * Two-way and one-way prints and naps forbid quarter turns (The New Dressmaker, 1921, p. 35: every piece cut alike;
 * Watson 1907, Placing Patterns). Plain cloth leaves the turn to the piece's grain.
 */
export function turnsAllowed(piece: Pick<PieceWanted, 'grain'>, cloth: Cloth): TurnsAllowed {
  const byGrain = { lengthwise: 0, crosswise: 1, either: undefined } as const;
  const grain = byGrain[piece.grain];
  if (cloth.direction === 'plain') {
    return grain === undefined ? { kind: 'either-way' } : { kind: 'one-way-round', turns: grain };
  }
  const print = cloth.printRuns === 'along' ? 0 : 1;
  if (grain !== undefined && grain !== print) return { kind: 'against-print' };
  return { kind: 'one-way-round', turns: print };
}
