import { isAbsolute } from '../cloth/repeats.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { LatticePoints } from '../packing/instance.ts';
import { ticks } from '../units/ticks.ts';
import type { Bed } from './bed.ts';
import type { Beds } from './beds.ts';
import type { PieceKind } from './kinds.ts';

/**
 * Pieces around a motif that lies, wherever it comes again across the cloth, too near an edge or a kept-off crease: the cloth
 * is wide enough for them and yet yields none. Of beds whose print begins alike; nothing is told of folded ones.
 */
export function motifsNearEdge(
  kinds: readonly PieceKind[],
  { inHand, toBuy }: Beds,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
): readonly Issue[] {
  if (cloth.lay === 'folded') return [];
  const spans = [...inHand, ...(toBuy ? [toBuy] : [])].flatMap(spansOf);
  const held = new Set(pieces.flatMap(({ id, match }) => (match && isAbsolute(match) ? [id] : [])));
  return kinds.flatMap(({ kind: { width, lattice }, copies }) => {
    const columns = [lattice?.x, lattice?.or?.x].filter((axis) => axis !== undefined);
    const fits = (room: (typeof spans)[number]) => room.to - room.from >= width;
    if (columns.length === 0 || !spans.some(fits)) return [];
    if (spans.some((span) => columns.some((axis) => firstOn(axis, span.from) + width <= span.to))) return [];
    const found = [...new Set(copies.map(({ piece }) => piece))].filter((id) => held.has(id));
    return found.map((piece) => ({
      code: 'motif-near-edge' as const,
      severity: 'error' as const,
      path: ['cloths', cloth.name],
      details: { piece, cloth: cloth.name, across: ticks(width) },
    }));
  });
}

function spansOf({ packable, gap }: Bed): readonly { readonly from: number; readonly to: number }[] {
  if (!gap) return [{ from: 0, to: packable }];
  return [
    { from: 0, to: gap.x0 },
    { from: gap.x1, to: packable },
  ];
}

/** The first point of an axis at or beyond `from`. */
function firstOn({ period, offsets }: NonNullable<LatticePoints['x']>, from: number): number {
  const beyond = offsets.map((offset) => (((offset - from) % period) + period) % period);
  return from + Math.min(...beyond);
}
