import { formatLength } from '../../units/format.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { MarkerCut, MarkerLength } from '../marker.ts';
import { BLADE_DASHES, INK, LINES, PAPER, TYPE } from '../theme.ts';
import { type Occupied, placesAround } from './occupied.ts';
import { clipLine, labelledRoom, type Placing, segmentOnPage } from './placing.ts';
import {
  inset,
  type PageBox,
  type Point,
  type Segment,
  type Shape,
  type TextShape,
  within,
} from './shapes.ts';
import { CAP_HEIGHT, textBox } from './text-width.ts';
import { toldPlace } from './told.ts';

/** The cuts as they show in a window; those from edge to edge of the cloth thickest. */
export function cutLines(length: MarkerLength, placing: Placing): Shape[] {
  const { x0, y0, x1, y1 } = length.shown;
  const fine = fineness(length, placing);
  return length.cuts.toReversed().flatMap((cut): Shape[] => {
    const shown = clipLine(cut, placing.window);
    if (!shown) return [];
    const share =
      cut.direction === 'crosscut' ? (cut.x1 - cut.x0) / (x1 - x0) : (cut.y1 - cut.y0) / (y1 - y0);
    const { ink, width } = share > 0.85 ? LINES.cut[0] : LINES.cut[1];
    const dash = BLADE_DASHES[cut.blade];
    const stroke = { ink, width: width * fine, ...(dash && { dash }) };
    return [{ kind: 'lines', role: 'cut', segments: [segmentOnPage(placing, shown)], stroke }];
  });
}

/** Cuts between small pieces are drawn finer, so that the pieces stay clear of ink. */
function fineness({ pieces }: MarkerLength, { pointsPerTick }: Placing): number {
  const sides = pieces.map(({ box }) => Math.min(box.x1 - box.x0, box.y1 - box.y0)).sort((a, b) => a - b);
  const usual = (sides[Math.floor(sides.length / 2)] ?? 0) * pointsPerTick;
  return Math.max(0.2, Math.min(1, usual / 28));
}

/**
 * Numbers for the cuts of a window. A cut that reaches the lower or the right-hand edge of the drawing is numbered
 * outside that edge, with its distance from ruler zero; any other on its own line, clear of all labels. Alike cuts
 * share the number of their step: each bears it where there is room, and no step is left without one.
 */
export function cutFlags(
  length: MarkerLength,
  placing: Placing,
  unit: 'in' | 'cm',
  occupied: Occupied,
): Shape[] {
  const shapes: Shape[] = [];
  const trims = trimmedEdges(length, placing);
  const outside: number[] = [];
  const inside: { cut: MarkerCut; segment: Segment }[] = [];
  for (const cut of length.cuts) {
    const shown = clipLine(cut, placing.window);
    if (!shown) continue;
    const segment = segmentOnPage(placing, shown);
    const flag = outsideFlag(cut, segment, { placing, trims, unit, occupied });
    if (flag) outside.push(cut.step);
    if (flag) shapes.push(...flag);
    else inside.push({ cut, segment });
  }
  const room = labelledRoom(placing);
  const numbered = new Set<number>(outside);
  for (const least of [LEAST_RADIUS, 0]) {
    for (const { cut, segment } of inside) {
      if (least === 0 && numbered.has(cut.step)) continue;
      const flag = insideFlag(cut.step, segment, least, { occupied, room });
      if (flag.length > 0) numbered.add(cut.step);
      shapes.push(...flag);
    }
  }
  return shapes;
}

interface Margin {
  readonly placing: Placing;
  /** How deep the trim lies along the lower and the right-hand edge, in points: a cut that ends at it counts as at the edge. */
  readonly trims: { readonly below: number; readonly right: number };
  readonly unit: 'in' | 'cm';
  readonly occupied: Occupied;
}

function trimmedEdges(length: MarkerLength, { runs, window, pointsPerTick }: Placing): Margin['trims'] {
  let [selvedge, start, end] = [0, 0, 0];
  for (const { kind, box } of length.leftovers) {
    if (kind === 'selvedge' && box.x1 === window.x1) selvedge = Math.max(selvedge, box.x1 - box.x0);
    if (kind === 'squaring' && box.y0 === window.y0) start = Math.max(start, box.y1 - box.y0);
    if (kind === 'squaring' && box.y1 === window.y1) end = Math.max(end, box.y1 - box.y0);
  }
  return runs === 'up'
    ? { below: start * pointsPerTick, right: selvedge * pointsPerTick }
    : { below: selvedge * pointsPerTick, right: end * pointsPerTick };
}

function outsideFlag(cut: MarkerCut, segment: Segment, margin: Margin): Shape[] | undefined {
  const { placing, trims, occupied } = margin;

  const { window, runs, left, top } = placing;
  const across = (window.x1 - window.x0) * placing.pointsPerTick;
  const along = (window.y1 - window.y0) * placing.pointsPerTick;
  const [right, bottom] = runs === 'up' ? [left + across, top + along] : [left + along, top + across];
  const upright = Math.abs(segment[0] - segment[2]) < 1e-6;
  const reach = upright ? Math.max(segment[1], segment[3]) : Math.max(segment[0], segment[2]);
  if (reach < (upright ? bottom - trims.below : right - trims.right) - 1e-6) return undefined;
  const measured = cut.direction === 'crosscut' ? cut.y0 : ticks(cut.x0 - window.x0);
  for (const away of upright ? [9] : [9, 21]) {
    const [x, y] = upright ? [segment[0], bottom + away] : [right + away, segment[1]];
    const flag = flagShapes(cut.step, x, y, 5.4);
    if (!occupied.isFree(flag.box)) continue;
    occupied.add(flag.box);
    const leader: Segment = upright ? [x, reach, x, y - 5] : [reach, y, x - 5, y];
    const measure = measureText(measured, [x, y], upright, margin);
    return [
      { kind: 'lines', role: 'leader', segments: [leader], stroke: LINES.rule },
      ...measure,
      ...flag.shapes,
    ];
  }
  return undefined;
}

/** A distance that is too long to write in the margin is left to the list of steps. */
function measureText(length: Ticks, [x, y]: Point, upright: boolean, margin: Margin): Shape[] {
  const { unit, occupied, placing } = margin;

  const style = {
    kind: 'text',
    role: 'cut-measure',
    text: formatLength(toldPlace(length, unit), { unit, fractions: 'glyph', withUnit: false }),
    size: TYPE.flag,
    weight: 'regular',
    ink: INK,
  } as const;
  const places: TextShape[] = upright
    ? [13, 21].map((down) => ({ ...style, x, y: y + down, anchor: 'middle' }))
    : [{ ...style, x: x + 7.5, y: y + 2.6, anchor: 'start' }];
  const room = inset(labelledRoom(placing), -TYPE.flag);
  const free = places.find((place) => {
    const box = textBox(place);
    return occupied.isFree(inset(box, -1)) && within(box, room);
  });
  if (!free) return [];
  occupied.addText(free);
  return [free];
}

/** The least radius at which a number is read at arm's length. */
const LEAST_RADIUS = 4.4;

/**
 * Tries places along the line from its start, then smaller numbers, down to a least radius in points. With no least
 * radius a line always gets its number, in the end beside it.
 */
function insideFlag(
  step: number,
  segment: Segment,
  least: number,
  { occupied, room }: { readonly occupied: Occupied; readonly room: PageBox },
): Shape[] {
  const [x0, y0, x1, y1] = segment;
  const length = Math.hypot(x1 - x0, y1 - y0);
  const at = (share: number): [number, number] => [x0 + (x1 - x0) * share, y0 + (y1 - y0) * share];
  for (const radius of [5.4, LEAST_RADIUS, 3.8, 3.1].filter((one) => one >= least)) {
    for (let along = radius + 2; along <= length - radius - 1; along += 2.5) {
      const flag = flagShapes(step, ...at(along / length), radius);
      if (!occupied.isFree(flag.box)) continue;
      occupied.add(flag.box);
      return [...flag.shapes];
    }
  }
  return least > 0 ? [] : flagNearby(step, at(0.5), occupied, room);
}

/** A number beside a line too short or too crowded to bear one, tied to it by a leader; over the line if all else fails. */
function flagNearby(step: number, [x, y]: Point, occupied: Occupied, room: PageBox): Shape[] {
  for (const radius of [LEAST_RADIUS, 3.4]) {
    for (const [toX, toY] of placesAround([x, y], radius + 2, 90)) {
      const flag = flagShapes(step, toX, toY, radius);
      if (!within(flag.box, room) || !occupied.isFree(flag.box)) continue;
      occupied.add(flag.box);
      const leader: Segment = [x, y, toX, toY];
      return [{ kind: 'lines', role: 'leader', segments: [leader], stroke: LINES.rule }, ...flag.shapes];
    }
  }
  const flag = flagShapes(step, x, y, 2.8);
  occupied.add(flag.box);
  return [...flag.shapes];
}

function flagShapes(
  number: number,
  x: number,
  y: number,
  radius: number,
): { readonly shapes: readonly Shape[]; readonly box: PageBox } {
  const text = String(number);
  const size = radius * (text.length > 2 ? 1.0 : text.length > 1 ? 1.28 : 1.5);
  return {
    box: { x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius },
    shapes: [
      { kind: 'circle', role: 'flag', x, y, radius, fill: INK, stroke: { width: 0.6, ink: PAPER } },
      {
        kind: 'text',
        role: 'cut-number',
        text,
        x,
        y: y + (CAP_HEIGHT * size) / 2,
        size,
        weight: 'bold',
        anchor: 'middle',
        ink: PAPER,
      },
    ],
  };
}
