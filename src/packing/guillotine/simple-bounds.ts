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

/** A sheet in scaled units, with what it costs and how many there are. */
export interface BoundSheet {
  readonly width: number;
  readonly length: number;
  readonly cost: number;
  readonly copies: number;
}

/**
 * Least total cost of sheets that can hold the pieces, by area (the cheapest area first) and, where all sheets cost
 * the same, by pieces of which no two fit one sheet. Infinity where all sheets together are too small.
 */
export function simpleCostBound(pieces: Pieces, sheets: readonly BoundSheet[]): number {
  const byRate = [...sheets].sort((a, b) => a.cost / (a.width * a.length) - b.cost / (b.width * b.length));
  let area = totalArea(pieces);
  if (sheets.reduce((sum, sheet) => sum + sheet.width * sheet.length * sheet.copies, 0) < area)
    return Infinity;
  let cost = 0;
  for (const sheet of byRate) {
    const each = sheet.width * sheet.length;
    if (each === 0) continue;
    const count = Math.min(sheet.copies, area / each);
    cost += count * sheet.cost;
    area = count < sheet.copies ? 0 : area - count * each;
  }
  const whole = sheets.every((sheet) => Number.isInteger(sheet.cost));
  const byArea = whole ? Math.ceil(cost - 1e-9 * (1 + cost)) : cost;
  const cheapest = Math.min(...sheets.map((sheet) => sheet.cost));
  const dearest = Math.max(...sheets.map((sheet) => sheet.cost));
  if (cheapest !== dearest) return Math.max(byArea, cheapest);
  const count = Math.max(lonelyPieces(pieces, sheets), cheapest > 0 ? Math.ceil(byArea / cheapest) : 1);
  return count * cheapest;
}

/** How many pieces are, however turned, more than half of every sheet in both directions. */
function lonelyPieces(pieces: Pieces, sheets: readonly BoundSheet[]): number {
  const width = Math.max(...sheets.map((sheet) => sheet.width));
  const length = Math.max(...sheets.map((sheet) => sheet.length));
  let count = 0;
  for (let piece = 0; piece < pieces.count; piece++) {
    const side = Math.min(pieces.width[piece], pieces.length[piece]);
    const across = pieces.turnable[piece] ? side : pieces.width[piece];
    const along = pieces.turnable[piece] ? side : pieces.length[piece];
    if (2 * across > width && 2 * along > length) count++;
  }
  return count;
}
