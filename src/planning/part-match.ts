import { motifInPiece } from '../cloth/repeats.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Match, PieceWanted } from '../model/piece.ts';
import { ticks } from '../units/ticks.ts';

/**
 * What a part asks of the print, so that it runs on over the joins along the length: the motif of the whole piece, seen from
 * the part, or a start so much further on. Where no motif is asked for, parts are cut across the width where they fall.
 *
 * @param from where the part begins in the upright piece
 */
export function matchOfPart(
  { match, size }: PieceWanted,
  cloth: Cloth,
  from: { readonly x: number; readonly y: number },
): Match | undefined {
  if (!match) return undefined;
  const motif = motifInPiece(match, size, 0);
  if (motif) return { kind: 'point', x: ticks(motif.x - from.x), y: ticks(motif.y - from.y) };
  const isTurned = cloth.direction !== 'plain' && cloth.printRuns === 'across';
  const further = ticks(isTurned ? from.x : from.y);
  return { kind: 'drops', ...(further > 0 && { from: further }) };
}
