import type { EdgeName } from './edges.ts';
import type { PieceOfMake } from './make.ts';

const CLOCKWISE: Readonly<Record<EdgeName, EdgeName>> = {
  top: 'right',
  right: 'bottom',
  bottom: 'left',
  left: 'top',
};

/** The same piece lying a quarter turn clockwise, so that what was at the top is at the right; either grain will do. */
export function quarterTurned(piece: PieceOfMake): PieceOfMake {
  const { finished, edges, folds } = piece;
  const turned = {
    ...piece,
    grain: 'either',
    finished: { width: finished.length, length: finished.width },
    edges: { right: edges.top, bottom: edges.right, left: edges.bottom, top: edges.left },
  } as const;
  if (folds === undefined) return turned;
  return { ...turned, folds: folds.map((fold) => ({ ...fold, edge: CLOCKWISE[fold.edge] })) };
}
