import type { PlainBox } from '../geometry/walk.ts';
import type { CutTree } from '../model/cut-tree.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { joined, partsOf } from './joined.ts';

/**
 * The part of a lengthwise folded tree that lies on top: everything from the fold to the far edge. Its root is
 * `width − foldAt` wide. A leaf that lies across the fold is halved.
 */
export function upperPly<Piece>(
  tree: CutTree<Piece>,
  width: Ticks,
  length: Ticks,
  foldAt: Ticks,
): CutTree<Piece> {
  const visit = (part: CutTree<Piece>, box: PlainBox<Ticks>): CutTree<Piece> => {
    if (part.kind !== 'cut' || box.x0 >= foldAt) return part;
    const kept = partsOf(part, box).filter((own) => own.box.x1 > foldAt);
    return joined(
      part.direction,
      kept.map((own) => ({
        extent:
          part.direction === 'lengthwise'
            ? ticks(own.box.x1 - Math.max(own.box.x0, foldAt))
            : ticks(own.box.y1 - own.box.y0),
        tree: visit(own.tree, own.box),
      })),
    );
  };
  return visit(tree, { x0: ticks(0), y0: ticks(0), x1: width, y1: length });
}
