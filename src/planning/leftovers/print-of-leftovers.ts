import { phaseOf, repeatOnTable } from '../../cloth/repeats.ts';
import { afterWashing, lossBeforeCutting } from '../../cloth/washing.ts';
import type { Cloth, LengthInHand, Repeat } from '../../model/cloth.ts';
import type { LengthPlan } from '../../model/cut-plan.ts';
import type { Box } from '../../model/piece.ts';
import { ticks } from '../../units/ticks.ts';
import { lengthInHand } from '../length-in-hand.ts';
import { columnsOf } from '../print-phase.ts';

/** The cloth of leftovers with the print as it lies on the table, where the cloth that they are left of has one. */
export function withPrint(left: Cloth, cloth: Cloth): Cloth {
  const repeat = repeatOnTable(cloth);
  return repeat ? { ...left, repeat } : left;
}

/**
 * Where the print of a cloth begins on what is left of one of its lengths: the first motif from the leftover's own near end
 * and from its own left edge, each where it is known. On a half drop both lie on the same column.
 */
export function printOfLeftover(
  cloth: Cloth,
  own: LengthPlan,
  box: Box,
): Pick<LengthInHand, 'firstMotif' | 'motifFromEdge'> {
  const repeat = repeatOnTable(cloth);
  if (!repeat) return {};
  const along = motifAlong(cloth, own);
  const across = motifAcross(cloth, own, repeat);
  const columns = columnsOf(repeat);
  // A column that nobody can tell from its neighbour has a height that nobody knows.
  const known = across !== undefined || columns === undefined || repeat.drop === 'straight';
  return {
    ...(along !== undefined &&
      repeat.along !== undefined &&
      known && { firstMotif: phaseOf(along - box.y0, repeat.along) }),
    ...(across !== undefined &&
      columns !== undefined && { motifFromEdge: phaseOf(across - box.x0, columns) }),
  };
}

/** From the near end of the length as it is drawn: as it was measured, as its panels have it, or where its first cut begins it. */
function motifAlong(cloth: Cloth, own: LengthPlan): number | undefined {
  const source = lengthInHand(cloth, own);
  if (source?.firstMotif !== undefined)
    return afterWashing(source.firstMotif, lossBeforeCutting(cloth, source).along);
  const { begins } = own;
  if (begins) return begins.motif === undefined ? undefined : cloth.squaring + begins.within + begins.motif;
  const beside = cloth.panels?.firstMotif;
  if (beside === undefined || source?.panels) return undefined;
  return afterWashing(ticks((source?.panelsBegin ?? 0) + beside), lossBeforeCutting(cloth).along);
}

function motifAcross(cloth: Cloth, own: LengthPlan, { fromEdge }: Repeat): number | undefined {
  return lengthInHand(cloth, own)?.motifFromEdge ?? fromEdge;
}
