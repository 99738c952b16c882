import type { Box } from '../../model/piece.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { PageBox, Point, Segment } from './shapes.ts';
import type { Side } from './turns.ts';

/**
 * How cloth lies on a page: its length runs up the page or to the right of it, never mirrored.
 *
 *     runs up            runs right
 *     far                left selvedge
 *    l┌──┐r             ┌────────┐
 *     │  │          near│        │far
 *     └──┘              └────────┘
 *     near               right selvedge
 */
export interface Placing {
  readonly runs: 'up' | 'right';
  readonly pointsPerTick: number;
  /** The stretch of cloth that shows, in ticks, and where its upper left corner on the page is, in points. */
  readonly window: Box;
  readonly left: number;
  readonly top: number;
}

export function placedSize({ runs, pointsPerTick, window }: Placing): { width: number; height: number } {
  const across = (window.x1 - window.x0) * pointsPerTick;
  const along = (window.y1 - window.y0) * pointsPerTick;
  return runs === 'up' ? { width: across, height: along } : { width: along, height: across };
}

export function onPage(placing: Placing, x: number, y: number): Point {
  const { runs, pointsPerTick, window, left, top } = placing;
  return runs === 'up'
    ? [left + (x - window.x0) * pointsPerTick, top + (window.y1 - y) * pointsPerTick]
    : [left + (y - window.y0) * pointsPerTick, top + (x - window.x0) * pointsPerTick];
}

export function boxOnPage(placing: Placing, box: Box): PageBox {
  const [ax, ay] = onPage(placing, box.x0, box.y0);
  const [bx, by] = onPage(placing, box.x1, box.y1);
  return { x: Math.min(ax, bx), y: Math.min(ay, by), width: Math.abs(bx - ax), height: Math.abs(by - ay) };
}

export function segmentOnPage(placing: Placing, line: Box): Segment {
  return [...onPage(placing, line.x0, line.y0), ...onPage(placing, line.x1, line.y1)] as unknown as Segment;
}

/** Width of the margins right of and below the cloth that hold the numbers of the cuts that reach its edge. */
export const FLAG_MARGIN = { right: 46, below: 33 } as const;

/** The cloth and the margins beside and below it; rulers stand on the other two sides. */
export function labelledRoom(placing: Placing): PageBox {
  const cloth = boxOnPage(placing, placing.window);
  const [width, height] = [cloth.width + FLAG_MARGIN.right, cloth.height + FLAG_MARGIN.below];
  return { x: cloth.x, y: cloth.y, width, height };
}

/** The way on the page towards a side of the cloth, as a unit step. */
export function directionOnPage(runs: Placing['runs'], side: Side): Point {
  const up = { far: [0, -1], left: [-1, 0], near: [0, 1], right: [1, 0] } as const;
  const right = { far: [1, 0], left: [0, -1], near: [-1, 0], right: [0, 1] } as const;
  return (runs === 'up' ? up : right)[side];
}

/** The part of a box inside a window; undefined where they do not meet. */
export function clipBox(box: Box, window: Box): Box | undefined {
  const shared = intersection(box, window);
  return shared.x0 < shared.x1 && shared.y0 < shared.y1 ? shared : undefined;
}

/** The part of a level or upright line inside a window, ends in rising order; undefined where they do not meet. */
export function clipLine(line: Box, window: Box): Box | undefined {
  const rising = {
    x0: lesser(line.x0, line.x1),
    y0: lesser(line.y0, line.y1),
    x1: greater(line.x0, line.x1),
    y1: greater(line.y0, line.y1),
  };
  const shared = intersection(rising, window);
  const meets = shared.x0 <= shared.x1 && shared.y0 <= shared.y1;
  return meets && (shared.x0 < shared.x1 || shared.y0 < shared.y1) ? shared : undefined;
}

const lesser = (a: Ticks, b: Ticks): Ticks => ticks(Math.min(a, b));
const greater = (a: Ticks, b: Ticks): Ticks => ticks(Math.max(a, b));

const intersection = (a: Box, b: Box): Box => ({
  x0: greater(a.x0, b.x0),
  y0: greater(a.y0, b.y0),
  x1: lesser(a.x1, b.x1),
  y1: lesser(a.y1, b.y1),
});
