import { phaseOf, repeatOnTable } from '../cloth/repeats.ts';
import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { begunAhead } from './ahead.ts';
import type { Bed } from './bed.ts';
import type { Beds } from './beds.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { columnsOf, needsStart, type PrintPhase, printPhase, printStarts } from './print-phase.ts';

/**
 * The cloth with the length kept in reserve for a print whose start is not known: the shop cuts anywhere in the repeat, so
 * the worst start takes a whole one. Pieces that only have to be like each other need it where several lengths meet.
 *
 * @param several whether several lengths may be bought although one is asked for
 */
export function withStartReserve(cloth: Cloth, pieces: readonly PieceWanted[], several = false): Cloth {
  const along = repeatOnTable(cloth)?.along;
  const lengths = cloth.inHand.reduce((count, { copies }) => count + copies, 0) + (cloth.buy ? 1 : 0);
  const matched = pieces.some(({ match }) => match);
  // Beside panels a print begins where they do, or it is no matter.
  if (isPanelled(cloth, pieces)) return cloth;
  if (along === undefined || !matched || (!needsStart(pieces) && lengths < 2 && !several)) return cloth;
  return { ...cloth, startReserve: along };
}

/** Which piece the print is begun for. */
export interface Begun {
  /** One of `printStarts`, in place of what a length in hand was measured to have. */
  readonly start?: number;
  /** All other starts that may be better are tried as well. */
  readonly allTried?: true;
  /** Pieces that lie in several places of the print may use what lies before the first place for a piece as a whole. */
  readonly ahead?: true;
}

/** Beds whose print starts alike in the packer's frame, and where it starts. */
export function alignPrint(
  beds: Beds,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  begun: Begun = {},
): { readonly beds: Beds; readonly phase?: PrintPhase } {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const [first] = all;
  if (!first) return { beds };
  const measured = all.map((bed) => motifFromSquaredEnd(bed, cloth)).find((motif) => motif !== undefined);
  const starts = printStarts(pieces, cloth);
  // Where all pieces lie in the print in one way, nothing before the first place for one is of any use.
  const inOneWay = starts.all && starts.motifs.length === 1 && !cloth.panels;
  const known = begun.start === undefined && !(inOneWay && beds.toBuy) ? measured : undefined;
  const fromEdge = ownFromEdge(first, cloth);
  const phase = printPhase(cloth, pieces, {
    left: first.left,
    ...(known !== undefined && { motif: known }),
    ...(begun.start !== undefined && { start: begun.start }),
    ...(fromEdge !== undefined && { fromEdge }),
  });
  if (!phase) return { beds };
  const isExact = starts.all && (starts.motifs.length < 2 || begun.allTried === true);
  // A narrow length may have nothing left where its print begins.
  const places = { known: measured !== undefined, held: needsStart(pieces) };
  const aligned = (bed: Bed): readonly Bed[] => {
    const further = withBegin(begunWithPrint(bed, cloth, phase), phase, places);
    const { along } = phase.repeat;
    const own = begun.ahead && along !== undefined ? begunAhead(further, along) : further;
    return own.usable > 0 ? [isExact ? own : { ...own, ...elsewhereOn(own, phase) }] : [];
  };
  const [toBuy] = beds.toBuy ? aligned(beds.toBuy) : [];
  return { phase, beds: { inHand: beds.inHand.flatMap(aligned), ...(toBuy && { toBuy }) } };
}

/** A length that is begun in its print as it was measured is as it is; any other might have been begun elsewhere. */
function elsewhereOn(bed: Bed, { repeat }: PrintPhase): Pick<Bed, 'elsewhere'> {
  if (repeat.along === undefined) return {};
  const most = bed.source === 'in-hand' && !bed.begins ? bed.skip : repeat.along - 1;
  return most > 0 ? { elsewhere: most } : {};
}

function begunWithPrint(bed: Bed, cloth: Cloth, { repeat, along, across }: PrintPhase): Bed {
  const motif = motifFromSquaredEnd(bed, cloth);
  const skip =
    motif === undefined || repeat.along === undefined ? ticks(0) : phaseOf(motif - along, repeat.along);
  const fromEdge = ownFromEdge(bed, cloth) ?? repeat.fromEdge;
  const right =
    repeat.across === undefined || fromEdge === undefined
      ? ticks(0)
      : phaseOf(fromEdge - bed.left - across, columnsOf(repeat)!);
  return { ...begunAt(bed, right), skip };
}

/** Where the first motif of a length lies from its left edge, where that is not as its cloth says. */
function ownFromEdge(bed: Bed, { inHand }: Cloth): Ticks | undefined {
  return inHand.find(({ name }) => name === bed.entryName)?.motifFromEdge;
}

/** How a bed is begun whose print may start anywhere, where it matters what lies at its end. */
function withBegin(
  bed: Bed,
  { repeat, along, across }: PrintPhase,
  { known, held }: { readonly known: boolean; readonly held: boolean },
): Bed {
  if (!bed.begins) return bed;
  const alike = !held && { alike: true as const };
  if (!known && !held) return { ...bed, ...alike };
  const columns = columnsOf(repeat);
  const column =
    repeat.drop === 'half' && repeat.fromEdge !== undefined && columns !== undefined
      ? phaseOf(bed.left + across, columns)
      : undefined;
  return {
    ...bed,
    ...alike,
    begins: { ...bed.begins, motif: along, ...(column !== undefined && { column }) },
  };
}

/** The bed without so much of its near side. */
function begunAt(bed: Bed, right: Ticks): Bed {
  if (right === 0) return bed;
  const { gap, ...rest } = bed;
  const packable = ticks(Math.max(0, bed.packable - right));
  const moved = gap && { x0: ticks(gap.x0 - right), x1: ticks(gap.x1 - right) };
  // A crease strip that lies in what is left off is none to the packer.
  const own = moved && moved.x1 > 0 ? { x0: ticks(Math.max(0, moved.x0)), x1: moved.x1 } : undefined;
  const lost = own ? Math.min(own.x1, packable) - Math.min(own.x0, packable) : 0;
  return {
    ...rest,
    left: ticks(bed.left + right),
    leftOff: right,
    packable,
    usable: ticks(packable - lost),
    ...(own && { gap: own }),
    ...(moved && { strip: moved }),
  };
}

/** Where the first motif lies from the squared end: as it was measured, or as it lies beside the panels; undefined where neither is known. */
export function motifFromSquaredEnd(bed: Bed, cloth: Cloth): number | undefined {
  const length =
    bed.source === 'in-hand' ? cloth.inHand.find((own) => own.name === bed.entryName) : undefined;
  if (length?.firstMotif !== undefined)
    return afterWashing(length.firstMotif, lossBeforeCutting(cloth, length).along) - cloth.squaring;
  const motif = cloth.panels?.firstMotif;
  if (motif === undefined || length?.panels) return undefined;
  // A bought length begins with a repeat of its panels. They are told as bought, so they shrink on washed lengths too.
  const begin = length?.panelsBegin ?? 0;
  return afterWashing(ticks(begin + motif), lossBeforeCutting(cloth).along) - cloth.squaring;
}
