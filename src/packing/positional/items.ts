import type { Box, Kind, Lattice, LatticePoints, Placement, Sheet } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import { insideBoxes } from './grid.ts';
import { nextPoint, spansBetween } from './length-bounds.ts';
import { placedCut, REMNANT, rebuilt } from './placed-tree.ts';

/**
 * What a positional search lays: the free copies of each kind, then each fixed piece of the sheet as an item of its
 * own with one copy and one place.
 */
export interface Item {
  readonly kind: number;
  readonly copies: number;
  /** Ways in which it may lie; a single one where a turn changes nothing or is not allowed, and one lattice is all. */
  readonly poses: readonly Pose[];
  readonly lattice: Lattice | undefined;
  readonly place: Placement | undefined;
  /** The only sheet it may lie in, by its place among the sheets of a search; undefined for any. */
  readonly sheet: number | undefined;
  readonly area: number;
}

export interface Pose {
  readonly turned: boolean;
  readonly width: number;
  readonly length: number;
  /** Where its near corner may lie; anywhere unless said. */
  readonly points?: LatticePoints;
}

/** The items of a question about sheets, each with its fixed pieces. */
export function itemsOf(kinds: readonly Kind[], sheets: readonly Sheet[]): readonly Item[] {
  const fixed = sheets.flatMap((sheet, index) => (sheet.fixed ?? []).map((place) => ({ place, index })));
  const free = kinds.map((kind, index): Item => {
    const { width, length, quarterTurn, lattice } = kind;
    const points = lattice ? [lattice, ...(lattice.or ? [lattice.or] : [])] : [undefined];
    const poses = points.map((own): Pose => ({ turned: false, width, length, ...(own && { points: own }) }));
    if (quarterTurn && width !== length && lattice === undefined) {
      poses.push({ turned: true, width: length, length: width });
    }
    const copies = kind.copies - fixed.filter(({ place }) => place.kind === index).length;
    return {
      kind: index,
      copies: Math.max(0, copies),
      poses,
      lattice,
      place: undefined,
      sheet: undefined,
      area: width * length,
    };
  });
  const held = fixed.map(({ place, index }): Item => {
    const { width, length } = kinds[place.kind]!;
    const { turned } = place;
    const pose = turned ? { turned, width: length, length: width } : { turned, width, length };
    return {
      kind: place.kind,
      copies: 1,
      poses: [pose],
      lattice: undefined,
      place,
      sheet: index,
      area: width * length,
    };
  });
  return [...free, ...held];
}

/** What is wrong with the fixed pieces themselves; undefined when each may lie where it is fixed. */
export function fixedFault(sheet: Sheet, kinds: readonly Kind[]): string | undefined {
  const fixed = sheet.fixed ?? [];
  const boxes = fixed.map(({ kind, x0, y0, turned }) => {
    const { width, length } = kinds[kind]!;
    return { x0, y0, x1: x0 + (turned ? length : width), y1: y0 + (turned ? width : length) };
  });
  for (const [index, box] of boxes.entries()) {
    const name = `fixed piece ${index} (kind ${fixed[index]!.kind} at ${box.x0}, ${box.y0})`;
    if (box.x0 < 0 || box.y0 < 0 || box.x1 > sheet.width || box.y1 > sheet.length)
      return `${name} lies outside the sheet`;
    if ((sheet.forbidden ?? []).some((other) => overlap(box, other)))
      return `${name} lies on a forbidden box`;
    const other = boxes.findIndex((at, before) => before < index && overlap(box, at));
    if (other >= 0) return `${name} overlaps fixed piece ${other}`;
  }
  for (const [index, { copies }] of kinds.entries()) {
    const count = fixed.filter(({ kind }) => kind === index).length;
    if (count > copies && kinds[index]!.withSheet !== true)
      return `kind ${index} is fixed ${count} times, but only ${copies} copies are asked for`;
  }
  return undefined;
}

/** Why some kind can lie nowhere across the width of any of the sheets; undefined when each can. */
export function placeFault(items: readonly Item[], sheets: readonly Sheet[]): string | undefined {
  for (const item of items) {
    if (item.copies === 0 || item.place !== undefined) continue;
    const somewhere = sheets.some((sheet) =>
      item.poses.some((pose) => {
        const { width, length } = pose;
        if (firstStart(item, pose, 'y', 0) + length > sheet.length) return false;
        const strips = insideBoxes(sheet).filter(({ y0, y1 }) => y0 <= 0 && y1 >= sheet.length);
        return spansBetween(strips, sheet.width).some(
          ({ from, to }) => firstStart(item, pose, 'x', from) + width <= to,
        );
      }),
    );
    if (somewhere) continue;
    const { width, length } = item.poses[0]!;
    const lattice = item.lattice === undefined ? '' : ' at the points of its lattice';
    return `kind ${item.kind} (${width} by ${length}) fits nowhere${lattice}`;
  }
  return undefined;
}

export function overlap(a: Box, b: Box): boolean {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

/** The first place along an axis, at or beyond `from`, where an item may begin; Infinity where there is none. */
export function firstStart(item: Item, { points }: Pose, axis: 'x' | 'y', from: number): number {
  if (item.place !== undefined) {
    const at = axis === 'x' ? item.place.x0 : item.place.y0;
    return at >= from ? at : Number.POSITIVE_INFINITY;
  }
  return nextPoint(points?.[axis], from);
}

/** The last place along an axis, at or before `to`, where an item may begin; -Infinity where there is none. */
export function lastStart(item: Item, { points }: Pose, axis: 'x' | 'y', to: number): number {
  if (item.place !== undefined) {
    const at = axis === 'x' ? item.place.x0 : item.place.y0;
    return at <= to ? at : Number.NEGATIVE_INFINITY;
  }
  const own = points?.[axis];
  if (own === undefined) return to;
  const mirrored = { period: own.period, offsets: own.offsets.map((offset) => -offset) };
  return -nextPoint(mirrored, -to);
}

/** A region with one leaf cut out of it; the leftovers around the leaf are cut off in the order asked for. */
export function extracted(leaf: SheetTree, at: Box, region: Box, crosscutFirst: boolean): SheetTree {
  const along = (tree: SheetTree) =>
    placedCut('crosscut', [
      { tree: REMNANT, size: at.y0 - region.y0 },
      { tree, size: at.y1 - at.y0 },
      { tree: REMNANT, size: region.y1 - at.y1 },
    ]);
  const across = (tree: SheetTree) =>
    placedCut('lengthwise', [
      { tree: REMNANT, size: at.x0 - region.x0 },
      { tree, size: at.x1 - at.x0 },
      { tree: REMNANT, size: region.x1 - at.x1 },
    ]);
  return crosscutFirst ? along(across(leaf)) : across(along(leaf));
}

/** The tree with kinds in the place of items on its leaves. */
export function withKinds(tree: SheetTree, box: Box, items: readonly Item[]): SheetTree {
  return rebuilt(tree, box, (part) =>
    part.kind === 'piece' ? { ...part, piece: items[part.piece]!.kind } : part,
  );
}
