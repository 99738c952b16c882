import { turnsAllowed } from '../cloth/directions.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Cupboard, CupboardEntry } from '../model/cupboard.ts';
import { lengthOf } from '../model/cupboard-draw.ts';
import type { Size } from '../model/piece.ts';
import type { Kind } from '../packing/instance.ts';
import { mostFromSheet } from '../packing/pack.ts';
import { ticks } from '../units/ticks.ts';
import { bedOf, sheetOf, widestPart } from './bed.ts';

export interface Wanted {
  readonly size: Size;
  /** Its length must run along the lengthwise grain, even on plain cloth. */
  readonly upright: boolean;
  /** Only in entries of this cloth. */
  readonly cloth?: string;
}

export interface Found {
  readonly entry: CupboardEntry;
  /** How many one copy of it holds, up to `MOST_COUNTED`. */
  readonly holds: number;
  /** False where more may fit: the search ended before it could tell, or so many were not counted. */
  readonly proven: boolean;
  /** What is inside its selvedges, its length along the lengthwise grain; a kept-off crease still divides it. */
  readonly usable: Size;
}

/** Search nodes an entry. */
const EFFORT = 20_000;

/** Who looks for room for more of one piece will plan it. */
export const MOST_COUNTED = 60;

/**
 * The entries that hold at least one piece of a size, the smallest first, so that the large ones stay whole. Plain cloth
 * may be turned a quarter; a print or a pile keeps its up. Washing is not reckoned with: it is the plan that knows how
 * much a cloth loses.
 */
export function findInCupboard({ entries }: Cupboard, wanted: Wanted): readonly Found[] {
  const area = ({ usable }: Found) => usable.width * usable.length;
  return entries
    .filter((entry) => wanted.cloth === undefined || entry.cloth === wanted.cloth)
    .flatMap((entry) => foundIn(entry, wanted) ?? [])
    .sort((one, other) => area(one) - area(other));
}

function foundIn(entry: CupboardEntry, { size, upright }: Wanted): Found | undefined {
  // Where the grain is not known, nothing can be cut along it.
  const needsGrain = upright || (entry.direction !== undefined && entry.direction !== 'plain');
  if (entry.grain === 'unknown' && needsGrain) return undefined;
  const cloth = clothOf(entry);
  const bed = bedOf(cloth, ticks(1), lengthOf(entry, false));
  const turns = turnsAllowed({ grain: upright ? 'lengthwise' : 'either' }, cloth);
  if (bed === undefined || turns.kind === 'against-print') return undefined;
  const turned = turns.kind === 'one-way-round' && turns.turns === 1;
  const kind = {
    width: turned ? size.length : size.width,
    length: turned ? size.width : size.length,
    copies: MOST_COUNTED,
    quarterTurn: turns.kind === 'either-way',
    value: 1,
  };
  const usable = { width: bed.usable, length: ticks(bed.length) };
  if (inRows(kind, { width: widestPart(bed), length: bed.length }) >= MOST_COUNTED)
    return { entry, holds: MOST_COUNTED, proven: false, usable };
  const result = mostFromSheet({ sheet: sheetOf(bed), kinds: [kind] }, { effort: EFFORT, seed: 1 });
  if ((result.status !== 'best' && result.status !== 'found') || result.value < 1) return undefined;
  const proven = result.status === 'best' && result.value < MOST_COUNTED;
  return { entry, holds: result.value, proven, usable };
}

/** How many lie side by side in plain rows. */
function inRows(kind: Kind, room: { readonly width: number; readonly length: number }): number {
  return Math.floor(room.width / kind.width) * Math.floor(room.length / kind.length);
}

/** The cloth that an entry is by itself: plain where it does not say. */
function clothOf(entry: CupboardEntry): Cloth {
  const own = lengthOf(entry, false);
  const written = entry.printRuns ?? 'along';
  const across = (written === 'across') !== (entry.grain === 'crosswise');
  return {
    name: entry.cloth,
    width: own.width,
    selvedge: own.selvedge,
    crease: own.crease,
    direction: entry.direction ?? 'plain',
    printRuns: across ? 'across' : 'along',
    squaring: ticks(0),
    inHand: [],
    lay: 'flat',
  };
}
