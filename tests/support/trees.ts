import type { CutTree, QuarterTurns, TrimKind } from '../../src/model/cut-tree.ts';
import type { PieceId } from '../../src/model/piece.ts';
import type { Ticks } from '../../src/units/ticks.ts';

/** Short hands for cut trees written out in tests: one part more than cuts, near to far. */
export type Tree = CutTree<PieceId>;

export function crosscut(at: readonly Ticks[], ...parts: readonly Tree[]): Tree {
  return { kind: 'cut', direction: 'crosscut', at, parts };
}

export function lengthwise(at: readonly Ticks[], ...parts: readonly Tree[]): Tree {
  return { kind: 'cut', direction: 'lengthwise', at, parts };
}

export function piece(id: PieceId, quarterTurns: QuarterTurns = 0): Tree {
  return { kind: 'piece', piece: id, quarterTurns };
}

export function trim(of: TrimKind): Tree {
  return { kind: 'trim', of };
}

export const remnant: Tree = { kind: 'remnant' };
export const scrap: Tree = { kind: 'scrap' };
