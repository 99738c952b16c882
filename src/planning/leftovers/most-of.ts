import type { Cloth } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { Kind, PackOptions } from '../../packing/instance.ts';
import { fewestSheets, mostFromSheet } from '../../packing/pack.ts';
import { type Bed, fits, lengthToPack, sheetOf, widestPart } from '../bed.ts';
import { bedsOf } from '../beds.ts';
import { MOST_COUNTED } from '../find-in-cupboard.ts';
import { sortIntoKinds } from '../kinds.ts';
import { hasLadder } from '../ladder-limits.ts';
import { layOutCloth } from '../lay-out.ts';
import { mostOnPrint } from './most-on-print.ts';

export interface MostOf {
  readonly count: number;
  /** No more can be had, or more than the limit would be of no use. */
  readonly proven: boolean;
}

/** More copies of a thing with joins are not looked for. */
const MOST_JOINED = 12;

/**
 * How many complete sets the lengths in hand of a cloth hold beside what is cut from them anyway: found by the engine's
 * questions, never from areas. Pieces that none of them holds whole are joined where their makes permit.
 *
 * @param set pieces of one set, with the copies of each
 * @param beside pieces that are cut from the same lengths
 */
export function mostOf(
  plan: Plan,
  cloth: Cloth,
  { set, beside = [] }: { readonly set: readonly PieceWanted[]; readonly beside?: readonly PieceWanted[] },
  limit: number,
  pack: PackOptions,
): MostOf {
  const beds = bedsOf(plan, cloth).inHand;
  const asked = { plan, cloth, beds, set, beside, limit: Math.min(limit, MOST_COUNTED), pack };
  // What hangs on the print, or on a fold of the whole cloth, is laid out as a plan would lay it.
  const asPlanned =
    cloth.lay === 'folded' ||
    !hasLadder(cloth, set) ||
    [...set, ...beside].some(({ match }) => match !== undefined);
  const whole = asPlanned ? { count: 0, proven: false } : mostWhole(asked);
  const mayJoin = set.some(({ join }) => join !== undefined);
  const most = asPlanned || mayJoin ? mostLaidOut(asked, whole, asPlanned) : whole;
  const useful = most.count >= limit && limit <= MOST_COUNTED;
  return { count: most.count, proven: most.proven || useful };
}

interface Asked {
  readonly plan: Plan;
  readonly cloth: Cloth;
  readonly beds: readonly Bed[];
  readonly set: readonly PieceWanted[];
  readonly beside: readonly PieceWanted[];
  readonly limit: number;
  readonly pack: PackOptions;
}

function mostWhole(asked: Asked): MostOf {
  const { plan, cloth, beds, set, beside, limit, pack } = asked;
  const one = sortIntoKinds(set, cloth);
  if (one.issues.length > 0) return { count: 0, proven: true };
  const rooms = beds.map((bed) => ({ width: widestPart(bed), length: lengthToPack(bed) }));
  if (!one.kinds.every(({ kind }) => rooms.some((room) => fits(kind, room))))
    return { count: 0, proven: true };
  const options: PackOptions = { ...pack, stages: plan.stages };
  const areaLimit = limitByArea(
    one.kinds.map(({ kind }) => kind),
    kindsOf(beside, cloth),
    beds,
  );
  const most = Math.min(limit, areaLimit);
  const alone =
    beside.length === 0
      ? bedByBed(
          one.kinds.map(({ kind }) => kind),
          beds,
          most,
          options,
        )
      : NOTHING;
  let { count } = alone;
  let bound = Math.min(most, alone.bound);
  while (count < bound) {
    const held = holds(beds, kindsOf([...beside, ...times(set, count + 1)], cloth), options);
    if (held === 'no') bound = count;
    if (held !== 'yes') break;
    count += 1;
  }
  return { count, proven: count === bound };
}

const NOTHING = { count: 0, bound: Number.POSITIVE_INFINITY };

/** Sets that each length holds by itself, summed; an upper limit only where no set can be shared between two. */
function bedByBed(kinds: readonly Kind[], beds: readonly Bed[], limit: number, options: PackOptions) {
  const set = kinds.map(({ copies }) => copies);
  const shared = beds.length > 1 && set.reduce((total, copies) => total + copies, 0) > 1;
  let [count, bound] = [0, 0];
  for (const bed of beds) {
    const left = limit - count;
    if (left <= 0) break;
    const limited = kinds.map((kind) => ({ ...kind, copies: kind.copies * left }));
    const result = mostFromSheet({ sheet: sheetOf(bed), kinds: limited, set }, options);
    if (result.status === 'best' || result.status === 'found') count += result.value;
    bound += result.status === 'impossible' ? 0 : result.bound;
  }
  return { count: Math.min(count, limit), bound: shared ? Number.POSITIVE_INFINITY : bound };
}

/** No more sets than the areas allow. */
export function limitByArea(set: readonly Kind[], beside: readonly Kind[], beds: readonly Bed[]): number {
  const room = beds.reduce((total, bed) => total + bed.usable * lengthToPack(bed), 0);
  return Math.floor(Math.max(0, room - areaOf(beside)) / areaOf(set));
}

function areaOf(kinds: readonly Kind[]): number {
  return kinds.reduce((total, { width, length, copies }) => total + width * length * copies, 0);
}

function holds(beds: readonly Bed[], kinds: readonly Kind[], options: PackOptions): 'yes' | 'no' | 'unknown' {
  const sheets = beds.map((bed) => ({ ...sheetOf(bed), copies: 1 }));
  const result = fewestSheets({ sheets, kinds }, options);
  if (result.status === 'best' || result.status === 'found') return 'yes';
  return result.status === 'impossible' ? 'no' : 'unknown';
}

/** One more at a time, laid out as any cloth is, with its joins and its print. */
function mostLaidOut(
  { plan, cloth, beds, set, beside, limit, pack }: Asked,
  whole: MostOf,
  asPlanned: boolean,
): MostOf {
  let { count } = whole;
  const bound = asPlanned ? mostOnPrint(cloth, beds, set) : Number.POSITIVE_INFINITY;
  const most = Math.min(limit, bound);
  while (count < (asPlanned ? most : Math.min(limit, MOST_JOINED))) {
    const pieces = [...beside, ...times(set, count + 1)];
    if (!layOutCloth(plan, cloth, pieces, { pack }).ok) break;
    count += 1;
  }
  const proven = count === bound || (count > whole.count && count === limit);
  return { count, proven };
}

function kindsOf(pieces: readonly PieceWanted[], cloth: Cloth): readonly Kind[] {
  return sortIntoKinds(pieces, cloth).kinds.map(({ kind }) => kind);
}

/** The pieces of so many sets. */
export function times(set: readonly PieceWanted[], count: number): readonly PieceWanted[] {
  return set.map((piece) => ({ ...piece, copies: piece.copies * count }));
}
