import type { Hem } from '../model/measure.ts';
import type { Box, PieceLine, Size } from '../model/piece.ts';
import { sum, type Ticks, ticks } from '../units/ticks.ts';

/**
 * What becomes of one edge of a piece, from the finished edge outward.
 * `seam`: sewn to another piece. `join`: sewn to its like, to make a larger whole. `hem`: folded back twice. `raw`: left as cut.
 */
export type Edge =
  | { readonly kind: 'seam' | 'join'; readonly allowance: Ticks }
  | { readonly kind: 'hem'; readonly hem: Hem }
  | { readonly kind: 'raw' };

export type EdgeName = 'bottom' | 'top' | 'left' | 'right';

export type Edges = Readonly<Record<EdgeName, Edge>>;

/** A fold across the whole piece, parallel to `edge` and `inside` the finished edge there. */
export interface FoldLine {
  readonly edge: EdgeName;
  readonly inside: Ticks;
}

export interface CutRectangle {
  readonly size: Size;
  readonly finished: Box;
  readonly lines: readonly PieceLine[];
}

export const raw: Edge = { kind: 'raw' };

export function seam(allowance: Ticks): Edge {
  return { kind: 'seam', allowance };
}

export function join(allowance: Ticks): Edge {
  return { kind: 'join', allowance };
}

export function hemmed(hem: Hem): Edge {
  return { kind: 'hem', hem };
}

export function allAround(edge: Edge): Edges {
  return { bottom: edge, top: edge, left: edge, right: edge };
}

/** The cloth that a hem takes up: what is seen and what is turned under it. */
export function takenByHem(hem: Hem): Ticks {
  return sum([hem.visible, hem.under]);
}

/** The cloth beyond the finished edge. */
export function takenBy(edge: Edge): Ticks {
  if (edge.kind === 'raw') return ticks(0);
  return edge.kind === 'hem' ? takenByHem(edge.hem) : edge.allowance;
}

/** Cut size of a piece: its finished size and what each edge takes up. */
export function cutSize(finished: Size, edges: Edges): Size {
  return {
    width: sum([takenBy(edges.left), finished.width, takenBy(edges.right)]),
    length: sum([takenBy(edges.bottom), finished.length, takenBy(edges.top)]),
  };
}

/**
 * The cut rectangle with its finished outline and lines, all from its lower left corner.
 *
 * ```
 *   ┌──────────────┐ cut edge
 *   │┄┄┄┄┄┄┄┄┄┄┄┄┄┄│ turn-under   ┐ visible + under
 *   │┌────────────┐│ hem-fold     ┘
 *   ││  finished  ││
 *   │└────────────┘│ seam         ┐ allowance
 *   └──────────────┘ cut edge     ┘
 * ```
 */
export function cutRectangle(
  finishedSize: Size,
  edges: Edges,
  folds: readonly FoldLine[] = [],
): CutRectangle {
  const size = cutSize(finishedSize, edges);
  const x0 = takenBy(edges.left);
  const y0 = takenBy(edges.bottom);
  const finished: Box = {
    x0,
    y0,
    x1: sum([x0, finishedSize.width]),
    y1: sum([y0, finishedSize.length]),
  };
  const lines = EDGE_NAMES.flatMap((name) => linesAlong(name, edges[name], finished, size));
  const foldLines = folds.map((fold) => across('fold', fold.edge, fold.inside, { finished, size }));
  return { size, finished, lines: [...lines, ...foldLines] };
}

const EDGE_NAMES = ['bottom', 'right', 'top', 'left'] as const;

function linesAlong(name: EdgeName, edge: Edge, finished: Box, size: Size): readonly PieceLine[] {
  const frame = { finished, size };
  switch (edge.kind) {
    case 'raw':
      return [];
    case 'hem': {
      // With nothing turned under there is one fold only.
      const turned = edge.hem.under === 0 ? [] : [across('turn-under', name, -edge.hem.visible, frame)];
      return takenByHem(edge.hem) === 0 ? [] : [across('hem-fold', name, 0, frame), ...turned];
    }
    default:
      return edge.allowance === 0 ? [] : [alongFinished(edge.kind, name, finished)];
  }
}

/** Seams run from corner to corner of the finished outline. */
function alongFinished(kind: PieceLine['kind'], edge: EdgeName, { x0, y0, x1, y1 }: Box): PieceLine {
  switch (edge) {
    case 'bottom':
      return { kind, x0, y0, x1, y1: y0 };
    case 'top':
      return { kind, x0, y0: y1, x1, y1 };
    case 'left':
      return { kind, x0, y0, x1: x0, y1 };
    case 'right':
      return { kind, x0: x1, y0, x1, y1 };
  }
}

/** Folds run across the whole cut piece: they are pressed before anything is sewn. `inside` < 0 lies outside the finished edge. */
function across(
  kind: PieceLine['kind'],
  edge: EdgeName,
  inside: number,
  { finished, size }: { readonly finished: Box; readonly size: Size },
): PieceLine {
  const zero = ticks(0);
  switch (edge) {
    case 'bottom':
    case 'top': {
      const y = ticks(edge === 'bottom' ? finished.y0 + inside : finished.y1 - inside);
      return { kind, x0: zero, y0: y, x1: size.width, y1: y };
    }
    case 'left':
    case 'right': {
      const x = ticks(edge === 'left' ? finished.x0 + inside : finished.x1 - inside);
      return { kind, x0: x, y0: zero, x1: x, y1: size.length };
    }
  }
}
