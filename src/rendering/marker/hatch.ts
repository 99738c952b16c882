import { FAINT, LINES, type Stroke, type Weave } from '../theme.ts';
import type { PageBox, Point, Segment, Shape } from './shapes.ts';

/** Lines across a box, `pitch` points apart, at 0, 45, 90 or 135 degrees; clipped to the box by arithmetic. */
export function hatchLines(box: PageBox, degrees: 0 | 45 | 90 | 135, pitch: number): Segment[] {
  const { x, y, width, height } = box;
  const lines: Segment[] = [];
  if (degrees === 0) {
    for (let at = pitch / 2; at < height; at += pitch) lines.push([x, y + at, x + width, y + at]);
    return lines;
  }
  if (degrees === 90) {
    for (let at = pitch / 2; at < width; at += pitch) lines.push([x + at, y, x + at, y + height]);
    return lines;
  }
  const step = pitch * Math.SQRT2;
  for (let at = step / 2; at < width + height; at += step) {
    const enter: Point = at <= height ? [0, at] : [at - height, height];
    const leave: Point = at <= width ? [at, 0] : [width, at - width];
    const flip = (across: number) => (degrees === 45 ? across : width - across);
    lines.push([x + flip(enter[0]), y + enter[1], x + flip(leave[0]), y + leave[1]]);
  }
  return lines;
}

/** Dots in staggered rows, none nearer to an edge than half the pitch. */
export function dotRows(box: PageBox, pitch: number): Point[] {
  const points: Point[] = [];
  let row = 0;
  for (let y = pitch / 2; y <= box.height - pitch / 4; y += pitch * 0.75, row++) {
    const start = row % 2 === 0 ? pitch / 2 : pitch;
    for (let x = start; x <= box.width - pitch / 4; x += pitch) points.push([box.x + x, box.y + y]);
  }
  return points;
}

const FINE: Stroke = { width: 0.3, ink: FAINT };

/** Pieces slimmer than this many points stay clear: a weave would drown their letter. */
const SLIMMEST_WOVEN = 24;

/** The fine weave inside a piece, by which one kind is told from another besides its letter. */
export function weaveShapes(box: PageBox, weave: Weave): Shape[] {
  return Math.min(box.width, box.height) < SLIMMEST_WOVEN ? [] : swatchWeave(box, weave);
}

/** The same weave however small the box: for keys and lists. */
export function swatchWeave(box: PageBox, weave: Weave): Shape[] {
  const lines = (segments: readonly Segment[], stroke: Stroke = FINE): Shape => ({
    kind: 'lines',
    segments,
    stroke,
    role: 'weave',
  });
  // Wider on large pieces, so that they stay as light as small ones.
  const spread = Math.max(1, Math.min(2.2, Math.min(box.width, box.height) / 90));
  const level = (pitch: number) => hatchLines(box, 0, spread * pitch);
  const upright = (pitch: number) => hatchLines(box, 90, spread * pitch);
  switch (weave) {
    case 'clear':
      return [];
    case 'level':
      return [lines(level(6))];
    case 'upright':
      return [lines(upright(6))];
    case 'squared':
      return [lines([...level(9), ...upright(9)])];
    case 'paired':
      return [
        lines(
          [...level(12), ...level(12).map(([a, b, c, d]): Segment => [a, b + 2, c, d + 2])].filter(
            (line) => line[1] < box.y + box.height,
          ),
        ),
      ];
    case 'stitched':
      return [lines(level(7), { ...FINE, width: 0.5, dash: [3, 5] })];
    case 'crossed':
      return [lines([...hatchLines(box, 45, spread * 12), ...hatchLines(box, 135, spread * 12)])];
    case 'slub':
      return [lines(upright(8), { ...FINE, width: 0.5, dash: [1.5, 4] })];
  }
}

/** Cloth that is cut away: close slanting lines, the other way for what is trimmed from edges and crease. */
export function wasteHatch(box: PageBox, trim: boolean): Shape {
  const segments = hatchLines(box, trim ? 135 : 45, trim ? 2.4 : 4.2);
  return { kind: 'lines', role: 'hatch', segments, stroke: LINES.waste };
}
