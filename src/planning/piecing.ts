import { turnsAllowed } from '../cloth/directions.ts';
import type { Cloth } from '../model/cloth.ts';
import type { JoinedPiece, JoinRule, PieceLine, PieceWanted, Size } from '../model/piece.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { partExtents, takenByJoin } from './part-extents.ts';

/** The largest rectangle that the beds of a cloth can yield, as it lies on the cloth; Infinity for a bolt's length. */
export interface LargestPart {
  readonly width: number;
  readonly length: number;
}

/** One way to join a piece, with the parts as pieces of their own. */
export interface Joining {
  readonly joined: JoinedPiece;
  readonly parts: readonly PieceWanted[];
}

/** Whether a piece can be cut whole in some way it may lie. */
export function fitsWhole(piece: PieceWanted, cloth: Cloth, largest: LargestPart): boolean {
  return lyings(piece, piece.size, cloth).some(
    (size) => size.width <= largest.width && size.length <= largest.length,
  );
}

/**
 * All ways that the piece's rule allows to join it from parts that the cloth can yield, fewest parts first. Empty when
 * the piece has no rule, or none of the ways fits.
 */
export function joinings(
  piece: PieceWanted,
  cloth: Cloth,
  largest: LargestPart,
  rulerMark: Ticks,
): readonly Joining[] {
  const rule = piece.join;
  if (!rule) return [];
  const directions = rule.lines === 'either' ? (['upright', 'level'] as const) : [rule.lines];
  return directions
    .flatMap((lines) => {
      const extent = lines === 'upright' ? piece.size.width : piece.size.length;
      const widest = Math.max(0, ...widestParts(piece, lines, cloth, largest));
      if (widest === 0) return [];
      const capped = ticks(Math.min(widest, extent));
      return partExtents(extent, capped, rule, rulerMark).map((extents) =>
        joining(piece, rule, lines, extents, rulerMark),
      );
    })
    .filter((way) => way.parts.every((part) => fitsWhole(part, cloth, largest)))
    .sort((a, b) => a.parts.length - b.parts.length);
}

/** How wide a part may be across its join lines, for each way it may lie; 0 where its other side does not fit. */
function widestParts(
  piece: PieceWanted,
  lines: 'upright' | 'level',
  cloth: Cloth,
  largest: LargestPart,
): readonly number[] {
  const allowed = turnsAllowed(piece, cloth);
  if (allowed.kind === 'against-print') return [];
  const turns = allowed.kind === 'either-way' ? ([0, 1] as const) : [allowed.turns];
  return turns.map((turn) => {
    const acrossTheWidth = (lines === 'upright') === (turn === 0);
    const along = lines === 'upright' ? piece.size.length : piece.size.width;
    const [across, other] = acrossTheWidth
      ? [largest.width, largest.length]
      : [largest.length, largest.width];
    return along <= other ? across : 0;
  });
}

function lyings(piece: PieceWanted, size: Size, cloth: Cloth): readonly Size[] {
  const allowed = turnsAllowed(piece, cloth);
  const turned = { width: size.length, length: size.width };
  if (allowed.kind === 'against-print') return [];
  if (allowed.kind === 'either-way') return [size, turned];
  return allowed.turns === 0 ? [size] : [turned];
}

function joining(
  piece: PieceWanted,
  rule: JoinRule,
  lines: 'upright' | 'level',
  extents: readonly Ticks[],
  rulerMark: Ticks,
): Joining {
  const takes = ceilTo(takenByJoin(rule), rulerMark);
  const { join: _, ...plain } = piece;
  let edge = 0;
  const parts = extents.map((extent, index): PieceWanted => {
    const size =
      lines === 'upright'
        ? { width: extent, length: piece.size.length }
        : { width: piece.size.width, length: extent };
    const from = ticks(edge);
    edge += extent - takes;
    return {
      ...plain,
      id: `${piece.id}/part ${index + 1}`,
      letter: `${piece.letter}${index + 1}`,
      name: `${piece.name}, part ${index + 1} of ${extents.length}`,
      size,
      exactSize: size,
      lines: joinEdges(lines, size, takes, { first: index === 0, last: index === extents.length - 1 }),
      partOf: { piece: piece.id, index, count: extents.length },
      ...placeInside(piece, lines, from, size),
    };
  });
  return { joined: { piece, lines, extents, parts: parts.map((part) => part.id) }, parts };
}

/** The middle of what each join takes up is where the parts meet. */
function joinEdges(
  lines: 'upright' | 'level',
  size: Size,
  takes: Ticks,
  ends: { readonly first: boolean; readonly last: boolean },
): readonly PieceLine[] {
  const half = Math.floor(takes / 2);
  const extent = lines === 'upright' ? size.width : size.length;
  const places = [...(ends.first ? [] : [half]), ...(ends.last ? [] : [extent - half])];
  return places.map((place) =>
    lines === 'upright'
      ? { kind: 'join', x0: ticks(place), y0: ticks(0), x1: ticks(place), y1: size.length }
      : { kind: 'join', x0: ticks(0), y0: ticks(place), x1: size.width, y1: ticks(place) },
  );
}

/** The finished outline of the whole piece, as far as it falls on this part. */
function placeInside(piece: PieceWanted, lines: 'upright' | 'level', from: Ticks, size: Size) {
  const { finished } = piece;
  const clip = (value: number, shift: number, most: number) =>
    ticks(Math.min(most, Math.max(0, value - shift)));
  const [dx, dy] = lines === 'upright' ? [from, 0] : [0, from];
  return {
    finished: {
      x0: clip(finished.x0, dx, size.width),
      y0: clip(finished.y0, dy, size.length),
      x1: clip(finished.x1, dx, size.width),
      y1: clip(finished.y1, dy, size.length),
    },
  };
}
