import { isSimpleOutline } from '../geometry/outline.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceId } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, fits, roomAtFold, singlePly, widestPart } from './bed.ts';
import type { Beds } from './beds.ts';
import { fitsAcrossFold, foldIsUsable } from './fold-kinds.ts';
import type { PieceKind } from './kinds.ts';

/** Flaws whose outline bounds nothing certain. */
export function crossingOutlines(cloth: Cloth): readonly Issue[] {
  return cloth.inHand.flatMap(({ name, flaws = [] }, index) =>
    flaws.flatMap(({ outline }, flaw): readonly Issue[] =>
      isSimpleOutline(outline)
        ? []
        : [
            {
              code: 'outline-crosses',
              severity: 'error',
              path: ['cloths', cloth.name, 'lengths', index, 'flaws', flaw],
              details: { length: name, flaw: flaw + 1 },
            },
          ],
    ),
  );
}

export function noWayAround(cloth: Cloth, panel: string | undefined): Issue {
  const named = panel ?? cloth.panels?.areas[0]?.name ?? '';
  const details = { fault: 'no-way' as const, cloth: cloth.name, panel: named };
  return { code: 'panel-fault', severity: 'error', path: ['cloths', cloth.name], details };
}

export function foldTakesStage(cloth: Cloth): Issue {
  const path = ['cloths', cloth.name, 'fold at'];
  return { code: 'fold-takes-stage', severity: 'error', path, details: { cloth: cloth.name } };
}

interface Room {
  readonly width: number;
  readonly length: number;
}

/**
 * A piece that fits no bed in any way it may lie can never be planned; say which side is over, against the most that any bed
 * yields it: in one ply, in both, or across the fold where it may lie there.
 */
export function tooLarge(
  kinds: readonly PieceKind[],
  beds: Beds,
  cloth: Cloth,
  rulerMark: Ticks,
): readonly Issue[] {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const inPlies = all.flatMap((bed) =>
    [bed, ...(bed.beside ? [singlePly(bed, bed.beside)] : [])].map((own) => roomOf(own, widestPart(own))),
  );
  const across = acrossFold(cloth, all);
  return kinds.flatMap(({ kind, copies, onFold }) => {
    const issues = (of: (piece: PieceId) => Issue) => [...new Set(copies.map((copy) => copy.piece))].map(of);
    // On a lay whose fold is kept off nothing lies across it, whatever its size.
    if (onFold && cloth.lay === 'folded' && across.length === 0) return [];
    const ways = kind.quarterTurn ? [kind, { width: kind.length, length: kind.width }] : [kind];
    const rooms =
      onFold && cloth.lay === 'folded' ? across : [...inPlies, ...(kind.lattice?.x ? [] : across)];
    if (rooms.some((room) => fits(kind, room))) {
      const isHeld = onFold || inPlies.some((room) => fits(kind, room)) || fitsAcrossFold(kind, cloth, all);
      return isHeld ? [] : issues((piece) => offMarks(piece, kind, cloth, rulerMark));
    }
    const width = Math.max(0, ...rooms.map((room) => room.width));
    const overWidth = ways.every((way) => way.width > width);
    // What is wide enough is not long enough; a bolt that is too narrow may well be long.
    const wideEnough = rooms.filter((room) => ways.some((way) => way.width <= room.width));
    const usable = overWidth ? width : Math.max(0, ...wideEnough.map((room) => room.length));
    const needs = overWidth
      ? Math.min(...ways.map((way) => way.width))
      : Math.min(...ways.filter((way) => way.width <= width).map((way) => way.length));
    const beside = overWidth && cloth.lay === 'flat' && all.some((bed) => bed.gap);
    const isAcross = overWidth && across.some((room) => room.width === usable);
    return issues((piece) => ({
      code: 'too-wide',
      severity: 'error',
      path: ['cloths', cloth.name],
      details: {
        piece,
        cloth: cloth.name,
        needs: ticks(needs),
        usable: ticks(usable),
        side: overWidth ? 'width' : 'length',
        ...(beside && { besideCrease: true as const }),
        ...(overWidth && !isAcross && cloth.foldAt !== undefined && { foldAt: cloth.foldAt }),
        ...(isAcross && {
          acrossFold: cloth.foldAt === undefined ? ('middle' as const) : ('off-middle' as const),
        }),
      },
    }));
  });
}

/** What beds yield a piece that lies across their fold: twice what lies double. */
function acrossFold(cloth: Cloth, all: readonly Bed[]): readonly Room[] {
  if (cloth.lay !== 'folded' || !foldIsUsable(all)) return [];
  return all.map((bed) => roomOf(bed, 2 * roomAtFold(bed)));
}

function roomOf(bed: Bed, width: number): Room {
  return { width, length: bed.length - 2 * bed.squaring };
}

/** Neither ply holds it, and its half cannot be set from the fold. */
function offMarks(piece: PieceId, kind: Room, cloth: Cloth, mark: Ticks): Issue {
  return {
    code: 'cannot-lie-on-fold',
    severity: 'error',
    path: ['cloths', cloth.name],
    details: { piece, cloth: cloth.name, across: ticks(kind.width), mark, why: 'not-halved', unasked: true },
  };
}
