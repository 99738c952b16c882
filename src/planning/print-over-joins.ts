import { phaseOf, repeatOnTable } from '../cloth/repeats.ts';
import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import { motifFromSquaredEnd } from './align-print.ts';
import type { Beds } from './beds.ts';
import { latticeOf, type PrintPhase } from './print-phase.ts';

/** Most places of the print that are tried for a start. */
const MOST_STARTS = 6;

/**
 * Where the first motif may lie from the squared end of all lengths for parts of joined pieces to reach further: as it does on
 * each length in hand, which then loses nothing before its print begins. None where no piece both matches and joins, or where
 * more can be bought.
 */
export function startsForJoins(cloth: Cloth, pieces: readonly PieceWanted[], beds: Beds): readonly number[] {
  const along = repeatOnTable(cloth)?.along;
  const isAsked = pieces.some(({ join, match }) => join && match);
  if (along === undefined || !isAsked || beds.toBuy || cloth.panels) return [];
  const motifs = beds.inHand
    .map((bed) => motifFromSquaredEnd(bed, cloth))
    .flatMap((motif) => (motif === undefined ? [] : [phaseOf(motif, along)]));
  return [...new Set(motifs)].slice(0, MOST_STARTS);
}

/**
 * How far from the begin of a length a part has to lie that starts so far on in the joined piece, so that the print runs on;
 * undefined where the piece does not ask for that.
 *
 * @param turn how the piece lies on the cloth, its join lines across the length
 */
export function startOnPrint(
  piece: PieceWanted,
  turn: 0 | 1,
  phase: PrintPhase,
): ((further: number) => number) | undefined {
  const along = latticeOf(piece, turn, phase)?.y;
  if (!along) return undefined;
  return (further) => phaseOf(along.offsets[0]! + further, along.period as PrintPhase['along']);
}
