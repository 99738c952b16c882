import type { Cloth } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Kind } from '../../packing/instance.ts';
import { alignPrint } from '../align-print.ts';
import { type Bed, lengthToPack } from '../bed.ts';
import { sortIntoKinds } from '../kinds.ts';

type Axis = NonNullable<NonNullable<Kind['lattice']>['x']>;

/**
 * No more complete sets than this lie on some lengths, each matched piece at its own places of the print: boxes of one size
 * on a lattice lie in full rows and columns best, so those are counted for each kind by itself. O(lengths × kinds).
 * Infinite on a half drop, whose columns of two heights go together in other ways, and where nothing is matched.
 */
export function mostOnPrint(cloth: Cloth, beds: readonly Bed[], set: readonly PieceWanted[]): number {
  const matched = set.filter(({ match, join, onFold }) => match && !join && !onFold);
  if (cloth.repeat?.drop === 'half' || cloth.lay === 'folded') return Number.POSITIVE_INFINITY;
  return matched.reduce((least, piece) => {
    const places = beds.reduce((total, bed) => total + placesOn(cloth, bed, piece), 0);
    return Math.min(least, Math.floor(places / piece.copies));
  }, Number.POSITIVE_INFINITY);
}

/** Copies of one piece that lie on one length without touching, held to its print alone. */
function placesOn(cloth: Cloth, bed: Bed, piece: PieceWanted): number {
  const { beds, phase } = alignPrint({ inHand: [bed] }, cloth, [piece]);
  const [own] = beds.inHand;
  const [found] = sortIntoKinds([piece], cloth, phase).kinds;
  if (!own || !found) return 0;
  const { width, length, lattice } = found.kind;
  return inRow(width, own.packable, lattice?.x) * inRow(length, lengthToPack(own), lattice?.y);
}

function inRow(extent: number, room: number, axis: Axis | undefined): number {
  if (extent > room) return 0;
  if (!axis) return Math.floor(room / extent);
  const first = Math.min(...axis.offsets);
  if (first + extent > room) return 0;
  const places = Math.floor((room - extent - first) / axis.period) + 1;
  return Math.ceil(places / Math.ceil(extent / axis.period));
}
