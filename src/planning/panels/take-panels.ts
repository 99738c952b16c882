import { aroundPanel, type PanelPlace } from '../../geometry/panels.ts';
import type { Box, PieceId, PieceWanted } from '../../model/piece.ts';
import { boxesOverlap, type InTheWay, inTheWayOf, type PanelRoom } from './panel-rooms.ts';

/** Pieces that are each to be cut around a panel of one name. */
export interface PanelWanted {
  readonly piece: PieceWanted;
  /** Index of its kind. */
  readonly kind: number;
  readonly panel: string;
}

/** One piece around one panel. */
export interface Taken {
  readonly kind: number;
  readonly piece: PieceId;
  /** Index among the rooms. */
  readonly room: number;
  readonly place: PanelPlace;
  /** On the flat cloth. */
  readonly box: Box;
}

/** Why a panel cannot be taken for a piece. */
export type Refused = { readonly by: InTheWay } | { readonly cutsInto: string };

/** Most steps in looking for panels that can be taken together. */
const MOST_STEPS = 20_000;

/** Orders in which panels are tried, so that what is left lies together. */
const ORDERS: readonly ((a: Taken, b: Taken) => number)[] = [
  (a, b) => a.room - b.room || a.box.y0 - b.box.y0 || a.box.x0 - b.box.x0,
  (a, b) => a.room - b.room || b.box.y0 - a.box.y0 || a.box.x0 - b.box.x0,
  (a, b) => a.room - b.room || a.box.x0 - b.box.x0 || a.box.y0 - b.box.y0,
];

/**
 * Different ways to take panels for all pieces, so that none lies over another and none cuts into a panel that is to stay
 * whole. Empty and `sure` where that is proven impossible.
 */
export function waysToTake(
  rooms: readonly PanelRoom[],
  wanted: readonly PanelWanted[],
  keeps: boolean,
): { readonly ways: readonly (readonly Taken[])[]; readonly sure: boolean; readonly only: boolean } {
  const ways = new Map<string, readonly Taken[]>();
  let sure = true;
  const can = wanted.map((own) => takeable(rooms, own, keeps));
  for (const order of ORDERS) {
    const sorted = can.map((own) => [...own].sort(order));
    const found = takeAll(sorted, wanted);
    if (found === 'unknown') sure = false;
    else if (found === 'none') return { ways: [], sure: true, only: true };
    else
      ways.set(
        found
          .map(({ room, box, kind }) => [room, kind, box.x0, box.y0].join(' '))
          .sort()
          .join(),
        found,
      );
  }
  const only = wanted.every(({ piece }, index) => can[index]!.length === piece.copies);
  return { ways: [...ways.values()], sure, only };
}

function takeable(rooms: readonly PanelRoom[], wanted: PanelWanted, keeps: boolean): readonly Taken[] {
  return rooms.flatMap((room, index) =>
    room.places
      .filter(({ name }) => name === wanted.panel)
      .map((place) => taken(place, index, wanted))
      .filter((own) => !refused(room, own, keeps)),
  );
}

function taken(place: PanelPlace, room: number, { piece, kind }: PanelWanted): Taken {
  const { width, length } = piece.size;
  const lies = place.turned % 2 === 0 ? { width, length } : { width: length, length: width };
  return { kind, piece: piece.id, room, place, box: aroundPanel(place, lies) };
}

function refused(
  { bed, places, whole }: PanelRoom,
  { place, box }: Taken,
  keeps: boolean,
): Refused | undefined {
  const by = inTheWayOf(bed, box);
  if (by) return { by };
  const other = keeps
    ? places.find((own) => own !== place && whole.has(own) && boxesOverlap(own.box, box))
    : undefined;
  return other && { cutsInto: other.name };
}

/** Why no panel of a name can be taken for a piece; undefined where one can. */
export function whyRefused(
  rooms: readonly PanelRoom[],
  wanted: PanelWanted,
  keeps: boolean,
): Refused | undefined {
  const all = rooms.flatMap((room, index) =>
    room.places
      .filter(({ name }) => name === wanted.panel)
      .map((place) => refused(room, taken(place, index, wanted), keeps)),
  );
  return all.every((own) => own !== undefined) ? all[0] : undefined;
}

/** Depth first, those with least to choose from first. */
function takeAll(
  can: readonly (readonly Taken[])[],
  wanted: readonly PanelWanted[],
): readonly Taken[] | 'none' | 'unknown' {
  const order = [...wanted.keys()].sort(
    (a, b) => can[a]!.length - wanted[a]!.piece.copies - (can[b]!.length - wanted[b]!.piece.copies) || a - b,
  );
  const found: Taken[] = [];
  let steps = 0;
  const take = (at: number, from: number, left: number): boolean => {
    const index = order[at];
    if (index === undefined) return true;
    if (left === 0) return take(at + 1, 0, wanted[order[at + 1] ?? -1]?.piece.copies ?? 0);
    const own = can[index]!;
    for (let next = from; next + left <= own.length; next++) {
      if (steps++ >= MOST_STEPS) return false;
      const one = own[next]!;
      if (found.some((other) => other.room === one.room && boxesOverlap(other.box, one.box))) continue;
      found.push(one);
      if (take(at, next + 1, left - 1)) return true;
      found.pop();
    }
    return false;
  };
  const first = order[0];
  if (first === undefined || take(0, 0, wanted[first]!.piece.copies)) return [...found];
  return steps >= MOST_STEPS ? 'unknown' : 'none';
}
