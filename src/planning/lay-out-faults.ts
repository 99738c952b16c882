import { isSimpleOutline } from '../geometry/outline.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Issue } from '../model/issue.ts';
import { ticks } from '../units/ticks.ts';
import { fits, widestPart } from './bed.ts';
import type { Beds } from './beds.ts';
import { fitsAcrossFold } from './fold-kinds.ts';
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

/** A piece that fits no bed in any way it may lie can never be planned; say which side is over, against the largest bed. */
export function tooLarge(kinds: readonly PieceKind[], beds: Beds, cloth: Cloth): readonly Issue[] {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const sizes = all.map((bed) => ({
    width: widestPart(bed),
    length: bed.length - 2 * bed.squaring,
  }));
  return kinds.flatMap(({ kind, copies }) => {
    const ways = kind.quarterTurn ? [kind, { width: kind.length, length: kind.width }] : [kind];
    if (sizes.some((size) => fits(kind, size)) || fitsAcrossFold(kind, cloth, all)) return [];
    const width = Math.max(0, ...sizes.map((size) => size.width));
    const overWidth = ways.every((way) => way.width > width);
    // What is wide enough is not long enough; a bolt that is too narrow may well be long.
    const wideEnough = sizes.filter((size) => ways.some((way) => way.width <= size.width));
    const usable = overWidth ? width : Math.max(0, ...wideEnough.map((size) => size.length));
    const needs = overWidth
      ? Math.min(...ways.map((way) => way.width))
      : Math.min(...ways.filter((way) => way.width <= width).map((way) => way.length));
    return [...new Set(copies.map((copy) => copy.piece))].map(
      (piece): Issue => ({
        code: 'too-wide',
        severity: 'error',
        path: ['cloths', cloth.name],
        details: {
          piece,
          cloth: cloth.name,
          needs: ticks(needs),
          usable: ticks(usable),
          side: overWidth ? 'width' : 'length',
          ...(overWidth && all.some((bed) => bed.gap) && { besideCrease: true as const }),
        },
      }),
    );
  });
}
