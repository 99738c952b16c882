import { phaseOf, repeatOnTable } from '../cloth/repeats.ts';
import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { Bed } from './bed.ts';
import type { Beds } from './beds.ts';
import { needsStart, type PrintPhase, printPhase } from './print-phase.ts';

/**
 * The cloth with the length kept in reserve for a print whose start is not known: the shop cuts anywhere in the repeat, so
 * the worst start takes a whole one. Pieces that only have to be like each other need it where several lengths meet.
 */
export function withStartReserve(cloth: Cloth, pieces: readonly PieceWanted[]): Cloth {
  const along = repeatOnTable(cloth)?.along;
  const lengths = cloth.inHand.reduce((count, { copies }) => count + copies, 0) + (cloth.buy ? 1 : 0);
  const matched = pieces.some(({ match }) => match);
  if (along === undefined || !matched || (!needsStart(pieces) && lengths < 2)) return cloth;
  return { ...cloth, startReserve: along };
}

/** Beds whose print starts alike in the packer's frame, and where it starts. */
export function alignPrint(
  beds: Beds,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
): { readonly beds: Beds; readonly phase?: PrintPhase } {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const [first] = all;
  if (!first) return { beds };
  const known = all.map((bed) => motifFromSquaredEnd(bed, cloth)).find((motif) => motif !== undefined);
  const phase = printPhase(cloth, pieces, { left: first.left, ...(known !== undefined && { motif: known }) });
  if (!phase) return { beds };
  const aligned = (bed: Bed) => begunWithPrint(bed, cloth, phase);
  return {
    phase,
    beds: {
      inHand: beds.inHand.map(aligned),
      ...(beds.toBuy && { toBuy: aligned(beds.toBuy) }),
    },
  };
}

function begunWithPrint(bed: Bed, cloth: Cloth, { repeat, along, across }: PrintPhase): Bed {
  const motif = motifFromSquaredEnd(bed, cloth);
  const skip =
    motif === undefined || repeat.along === undefined ? ticks(0) : phaseOf(motif - along, repeat.along);
  const right =
    repeat.across === undefined || repeat.fromEdge === undefined
      ? ticks(0)
      : phaseOf(repeat.fromEdge - bed.left - across, repeat.across);
  return { ...begunAt(bed, right), skip };
}

/** The bed without so much of its near side. */
function begunAt(bed: Bed, right: Ticks): Bed {
  if (right === 0) return bed;
  const { gap } = bed;
  const moved = gap && { x0: ticks(Math.max(0, gap.x0 - right)), x1: ticks(Math.max(0, gap.x1 - right)) };
  return {
    ...bed,
    left: ticks(bed.left + right),
    packable: ticks(Math.max(0, bed.packable - right)),
    usable: ticks(Math.max(0, bed.usable - right)),
    ...(moved && { gap: moved }),
  };
}

function motifFromSquaredEnd(bed: Bed, cloth: Cloth): number | undefined {
  const length =
    bed.source === 'in-hand' ? cloth.inHand.find((own) => own.name === bed.entryName) : undefined;
  if (length?.firstMotif === undefined) return undefined;
  return afterWashing(length.firstMotif, lossBeforeCutting(cloth, length).along) - cloth.squaring;
}
