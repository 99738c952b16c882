import { Point, Polygon } from '@flatten-js/core';

/** A corner of an outline, in whole ticks. */
export interface Corner {
  readonly x: number;
  readonly y: number;
}

export interface CoverBox {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A slanted edge is followed in at most so many steps. */
const MOST_SLABS = 12;

/** Whether an outline bounds an area without crossing or touching itself. At least three corners. */
export function isSimpleOutline(outline: readonly Corner[]): boolean {
  if (outline.length < 3) return false;
  const polygon = new Polygon(outline.map(({ x, y }) => new Point(x, y)));
  return polygon.area() > 0 && polygon.isValid() && !touchesItself(outline);
}

/**
 * Whole boxes that together cover an outline: exactly, where its edges run along the axes; else in level slabs that follow
 * the slant from outside, so that what keeps off the boxes keeps off the outline. O(corners × slabs).
 */
export function coverBoxes(outline: readonly Corner[]): readonly CoverBox[] {
  const levels = slabLevels(outline);
  const boxes: CoverBox[] = [];
  for (const [index, y1] of levels.entries()) {
    const y0 = levels[index - 1];
    if (y0 === undefined) continue;
    for (const box of insideSlab(outline, y0, y1)) addBelow(boxes, box);
  }
  return boxes;
}

/** Every corner's level, and between two that a slanted edge joins as many more as there are slabs to spare. */
function slabLevels(outline: readonly Corner[]): readonly number[] {
  const corners = [...new Set(outline.map(({ y }) => y))].sort((a, b) => a - b);
  const slanted = outline.some((corner, index) => {
    const next = outline[(index + 1) % outline.length]!;
    return corner.x !== next.x && corner.y !== next.y;
  });
  if (!slanted) return corners;
  const each = Math.max(1, Math.floor(MOST_SLABS / (corners.length - 1)));
  return corners.flatMap((y, index) => {
    const next = corners[index + 1];
    if (next === undefined) return [y];
    const steps = Math.min(each, next - y);
    return Array.from({ length: steps }, (_, step) => y + Math.floor(((next - y) * step) / steps));
  });
}

/**
 * The parts of the outline between two levels with no corner between them: trapezia between its edges, taken in pairs from
 * the left, each widened to whole ticks.
 */
function insideSlab(outline: readonly Corner[], y0: number, y1: number): readonly CoverBox[] {
  const crossings: { readonly middle: number; readonly least: number; readonly most: number }[] = [];
  for (const [index, a] of outline.entries()) {
    const b = outline[(index + 1) % outline.length]!;
    const [low, high] = a.y < b.y ? [a, b] : [b, a];
    if (low.y > y0 || high.y < y1 || low.y === high.y) continue;
    const at = (y: number) => low.x + ((high.x - low.x) * (y - low.y)) / (high.y - low.y);
    const ends = [at(y0), at(y1)];
    crossings.push({ middle: (ends[0]! + ends[1]!) / 2, least: Math.min(...ends), most: Math.max(...ends) });
  }
  crossings.sort((a, b) => a.middle - b.middle);
  return crossings.flatMap((left, index) => {
    const right = crossings[index + 1];
    if (index % 2 === 1 || !right) return [];
    const x1 = Math.ceil(Math.max(left.most, right.most));
    return [{ x0: Math.floor(Math.min(left.least, right.least)), y0, x1, y1 }];
  });
}

/** Grows the box below where the new one only continues it. */
function addBelow(boxes: CoverBox[], box: CoverBox): void {
  const below = boxes.findIndex((own) => own.y1 === box.y0 && own.x0 === box.x0 && own.x1 === box.x1);
  if (below < 0) boxes.push(box);
  else boxes[below] = { ...boxes[below]!, y1: box.y1 };
}

function touchesItself(outline: readonly Corner[]): boolean {
  const places = new Set(outline.map(({ x, y }) => `${x} ${y}`));
  if (places.size < outline.length) return true;
  for (const [index, a] of outline.entries()) {
    const b = outline[(index + 1) % outline.length]!;
    for (let other = index + 2; other < outline.length; other++) {
      if (index === 0 && other === outline.length - 1) continue;
      if (meet(a, b, outline[other]!, outline[(other + 1) % outline.length]!)) return true;
    }
  }
  return false;
}

/** Whether two edges that share no corner meet, by the signs of the areas their ends span; exact on whole ticks. */
function meet(a: Corner, b: Corner, c: Corner, d: Corner): boolean {
  const side = (p: Corner, q: Corner, r: Corner) =>
    Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  const between = (p: Corner, q: Corner, r: Corner) =>
    Math.min(p.x, q.x) <= r.x &&
    r.x <= Math.max(p.x, q.x) &&
    Math.min(p.y, q.y) <= r.y &&
    r.y <= Math.max(p.y, q.y);
  const [abc, abd, cda, cdb] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  if (abc !== abd && cda !== cdb) return true;
  return (
    (abc === 0 && between(a, b, c)) ||
    (abd === 0 && between(a, b, d)) ||
    (cda === 0 && between(c, d, a)) ||
    (cdb === 0 && between(c, d, b))
  );
}

/**
 * Whether an outline and a box share an area; touching is none. By the separating axes of a box and each edge (Gottschalk
 * 1996), and by a point of the box inside the outline. Exact on whole ticks.
 */
export function overlapsBox(outline: readonly Corner[], box: CoverBox): boolean {
  const { x0, y0, x1, y1 } = box;
  const crosses = outline.some((a, index) => {
    const b = outline[(index + 1) % outline.length]!;
    if (Math.max(a.x, b.x) <= x0 || Math.min(a.x, b.x) >= x1) return false;
    if (Math.max(a.y, b.y) <= y0 || Math.min(a.y, b.y) >= y1) return false;
    const side = (x: number, y: number) => Math.sign((b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x));
    const sides = [side(x0, y0), side(x1, y0), side(x1, y1), side(x0, y1)];
    return Math.min(...sides) < 0 && Math.max(...sides) > 0;
  });
  return crosses || holdsPoint(outline, (x0 + x1) / 2, (y0 + y1) / 2);
}

/** By the edges that a level line to the right of the point meets. */
function holdsPoint(outline: readonly Corner[], x: number, y: number): boolean {
  const met = outline.filter((a, index) => {
    const b = outline[(index + 1) % outline.length]!;
    if (a.y > y === b.y > y) return false;
    return x < a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y);
  });
  return met.length % 2 === 1;
}
