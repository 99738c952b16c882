import type { CutTree } from '../model/cut-tree.ts';

/** Kind index on each piece leaf, plain whole numbers as lengths; `quarterTurns` is 0 or 1. */
export type SheetTree = CutTree<number, number>;

export interface PackedSheet {
  /** Index into `sheets` of the question (0 where there is one sheet). */
  readonly sheet: number;
  readonly width: number;
  /** Length cut from: the sheet's own, or the answer's length for a strip. */
  readonly length: number;
  readonly tree: SheetTree;
}

/**
 * `best`: value meets the proven bound. `found`: feasible, the gap to `bound` is open.
 * `impossible`: proven that no answer exists. `unknown`: stopped before an answer was found.
 * For a least-something question `bound` is at most the best value, for a most-something question at least.
 */
export type PackResult =
  | {
      readonly status: 'best' | 'found';
      readonly value: number;
      readonly bound: number;
      readonly sheets: readonly PackedSheet[];
      readonly nodes: number;
    }
  | { readonly status: 'impossible'; readonly reason: string; readonly nodes: number }
  | { readonly status: 'unknown'; readonly bound: number; readonly nodes: number };
