import type { CutLeaf, CutNode, CutTree } from '../model/cut-tree.ts';

/** x across the width, y along the length, both from the lower left. */
export interface PlainBox<Length extends number> {
  readonly x0: Length;
  readonly y0: Length;
  readonly x1: Length;
  readonly y1: Length;
}

export interface PlacedLeaf<Piece, Length extends number> {
  readonly leaf: CutLeaf<Piece, Length>;
  readonly box: PlainBox<Length>;
}

export interface PlacedCut<Piece, Length extends number> {
  readonly cut: CutNode<Piece, Length>;
  /** The part that is cut up; its cuts lie at `box` near edge + `cut.at`. */
  readonly box: PlainBox<Length>;
  /** Number of cut nodes above it. */
  readonly depth: number;
}

export interface Walked<Piece, Length extends number> {
  /** Both in the order of the tree: a cut before what it yields, near parts before far ones. */
  readonly leaves: readonly PlacedLeaf<Piece, Length>[];
  readonly cuts: readonly PlacedCut<Piece, Length>[];
}

/**
 * Derives every position in a tree from the size of its root. O(nodes), without recursion.
 * Assumes a tree whose `at` rise inside their part; the checker is what proves that.
 */
export function walk<Piece, Length extends number>(
  tree: CutTree<Piece, Length>,
  width: Length,
  length: Length,
): Walked<Piece, Length> {
  const leaves: PlacedLeaf<Piece, Length>[] = [];
  const cuts: PlacedCut<Piece, Length>[] = [];
  const root = { x0: 0, y0: 0, x1: width, y1: length } as PlainBox<Length>;
  const waiting = [{ tree, box: root, depth: 0 }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.tree.kind !== 'cut') {
      leaves.push({ leaf: next.tree, box: next.box });
      continue;
    }
    cuts.push({ cut: next.tree, box: next.box, depth: next.depth });
    const boxes = partBoxes(next.tree, next.box);
    for (let part = boxes.length - 1; part >= 0; part--) {
      waiting.push({ tree: next.tree.parts[part]!, box: boxes[part]!, depth: next.depth + 1 });
    }
  }
  return { leaves, cuts };
}

/** The boxes of a cut's parts, near to far. */
export function partBoxes<Piece, Length extends number>(
  cut: CutNode<Piece, Length>,
  box: PlainBox<Length>,
): readonly PlainBox<Length>[] {
  const across = cut.direction === 'lengthwise';
  const near = across ? box.x0 : box.y0;
  const far = across ? box.x1 : box.y1;
  const edges = [near, ...cut.at.map((at) => (near + at) as Length), far];
  return cut.parts.map((_, part) =>
    across
      ? { x0: edges[part]!, y0: box.y0, x1: edges[part + 1]!, y1: box.y1 }
      : { x0: box.x0, y0: edges[part]!, x1: box.x1, y1: edges[part + 1]! },
  );
}
