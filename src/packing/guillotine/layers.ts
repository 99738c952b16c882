import type { Pieces } from './pieces.ts';

/** One piece as it lies in a layer. */
export interface LaidPiece {
  readonly piece: number;
  readonly width: number;
  readonly length: number;
}

/** How turnable pieces lie. */
export type Lying = 'longer side along' | 'shorter side along';

/** Pieces looked at for one layer, by falling length. */
const WINDOW = 160;
/** How many pieces at the end of a full layer are given up for a better closing. */
const GIVEN_UP = 3;

/**
 * Layers across a strip, longest pieces first: each is filled with the next longest, and its last few are then given up
 * for the one or two pieces that close it with least waste. Meant for many pieces, where some pair nearly always fills
 * the width; thousands of different pieces waste about one per cent. Turnable pieces lie with the
 * asked side along the strip where that fits, and both are worth trying. Time O(pieces + layers × window²), memory O(pieces).
 */
export function packLayers(pieces: Pieces, width: number, lying: Lying): LaidPiece[][] {
  const left = Array.from({ length: pieces.count }, (_, piece) => layDown(pieces, piece, width, lying));
  left.sort((a, b) => b.length - a.length || b.width - a.width || a.piece - b.piece);
  const layers: LaidPiece[][] = [];
  let window: LaidPiece[] = [];
  let following = 0;
  while (following < left.length || window.length > 0) {
    while (window.length < WINDOW && following < left.length) window.push(left[following++]);
    const layer = bestLayer(window, width);
    const chosen = new Set(layer);
    window = window.filter((entry) => !chosen.has(entry));
    layers.push(layer);
  }
  return layers;
}

function layDown(pieces: Pieces, piece: number, width: number, lying: Lying): LaidPiece {
  const across = pieces.width[piece];
  const along = pieces.length[piece];
  const wished = lying === 'longer side along' ? across > along : along > across;
  const turns = pieces.turnable[piece] === 1 && (across > width || (along <= width && wished));
  return turns ? { piece, width: along, length: across } : { piece, width: across, length: along };
}

/** The layer that begins with the first of the window and covers most area. */
function bestLayer(window: readonly LaidPiece[], width: number): LaidPiece[] {
  const leading: LaidPiece[] = [];
  let rest = width;
  for (const entry of window) {
    if (entry.width > rest) continue;
    leading.push(entry);
    rest -= entry.width;
  }
  let best = leading;
  let most = coveredBy(leading);
  for (let kept = leading.length - 1; kept >= Math.max(1, leading.length - GIVEN_UP); kept--) {
    const start = leading.slice(0, kept);
    const room = width - start.reduce((sum, entry) => sum + entry.width, 0);
    const closing = bestClosing(
      window.filter((entry) => !start.includes(entry) && entry.width <= room),
      room,
    );
    const covered = coveredBy(start) + coveredBy(closing);
    if (covered <= most) continue;
    most = covered;
    best = [...start, ...closing];
  }
  return best;
}

/** The one or two pieces that cover most area within `room`. */
function bestClosing(offered: readonly LaidPiece[], room: number): LaidPiece[] {
  let best: LaidPiece[] = [];
  let most = 0;
  for (let i = 0; i < offered.length; i++) {
    const one = offered[i];
    const area = one.width * one.length;
    if (area > most) {
      most = area;
      best = [one];
    }
    for (let j = i + 1; j < offered.length; j++) {
      const other = offered[j];
      if (one.width + other.width > room) continue;
      const both = area + other.width * other.length;
      if (both <= most) continue;
      most = both;
      best = [one, other];
    }
  }
  return best;
}

function coveredBy(entries: readonly LaidPiece[]): number {
  return entries.reduce((sum, { width, length }) => sum + width * length, 0);
}
