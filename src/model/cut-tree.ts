import type { Ticks } from '../units/ticks.ts';

/** Counter-clockwise quarter turns of a piece from how it stands upright. */
export type QuarterTurns = 0 | 1 | 2 | 3;

export type CutDirection = 'crosscut' | 'lengthwise';

export type TrimKind = 'selvedge' | 'crease' | 'squaring' | 'cut-to-size';

/**
 * A rectangle of cloth as a tree of straight edge-to-edge cuts: the one truth of every plan.
 *
 * x runs across the width, y along the length, both from the lower left. A `crosscut` runs across the width, so its
 * `at` are distances along y; a `lengthwise` cut runs along the length, so its `at` are distances along x.
 * `at` is measured from the part's own near edge, rises strictly, and has one entry fewer than `parts`.
 * No leaf carries a position: `walk` derives them all from the size of the root.
 */
export type CutTree<Piece = string, Length extends number = Ticks> =
  | CutNode<Piece, Length>
  | { readonly kind: 'piece'; readonly piece: Piece; readonly quarterTurns: QuarterTurns }
  | { readonly kind: 'remnant' }
  | { readonly kind: 'scrap' }
  | { readonly kind: 'trim'; readonly of: TrimKind };

export interface CutNode<Piece = string, Length extends number = Ticks> {
  readonly kind: 'cut';
  readonly direction: CutDirection;
  readonly at: readonly Length[];
  readonly parts: readonly CutTree<Piece, Length>[];
}

export type CutLeaf<Piece = string, Length extends number = Ticks> = Exclude<
  CutTree<Piece, Length>,
  { kind: 'cut' }
>;
