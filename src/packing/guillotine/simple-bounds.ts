import type { Pieces } from './pieces.ts';
import { totalArea } from './pieces.ts';

/**
 * Least length that a strip of this width can have, by area, by the longest piece, and by pieces too wide to lie side
 * by side. Infinity where a piece does not fit the width at all. Scaled units.
 */
export function simpleLengthBound(pieces: Pieces, width: number): number {
  let longest = 0;
  let stacked = 0;
  for (let piece = 0; piece < pieces.count; piece++) {
    const across = pieces.width[piece];
    const along = pieces.length[piece];
    let least = across <= width ? along : Infinity;
    let narrowest = across;
    if (pieces.turnable[piece]) {
      if (along <= width) least = Math.min(least, across);
      narrowest = Math.min(across, along);
    }
    if (least === Infinity) return Infinity;
    longest = Math.max(longest, least);
    // Two pieces that are each wider than half the strip, however turned, lie one after the other.
    if (2 * narrowest > width) stacked += least;
  }
  return Math.max(longest, stacked, Math.ceil(totalArea(pieces) / width));
}
