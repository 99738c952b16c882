import { formatSize } from '../../units/format.ts';
import type { MarkerLeftover, MarkerLength } from '../marker.ts';
import { INK, LINES, PAPER, QUIET, type Stroke, TINT, TYPE } from '../theme.ts';
import { fitLabelClear } from './clear-rooms.ts';
import { dotRows, wasteHatch } from './hatch.ts';
import { remnantChoices } from './labels.ts';
import type { Labelling, Occupied } from './occupied.ts';
import { boxOnPage, clipBox, FLAG_MARGIN, type Placing, segmentOnPage } from './placing.ts';
import { inset, type Shape, type TextShape } from './shapes.ts';
import { textBox } from './text-width.ts';

/** What is not cut into pieces: remnants dotted, scrap and trim hatched. */
export function leftoverGround(leftover: MarkerLeftover, placing: Placing): Shape[] {
  const clipped = clipBox(leftover.box, placing.window);
  if (!clipped) return [];
  const box = boxOnPage(placing, clipped);
  if (leftover.kind === 'remnant') {
    return [
      { kind: 'rect', role: 'remnant', ...box, fill: PAPER, stroke: LINES.hairline },
      { kind: 'dots', role: 'dots', points: dotRows(box, 7), radius: 0.42, ink: QUIET },
    ];
  }
  return [
    { kind: 'rect', role: leftover.kind, ...box, fill: TINT, stroke: LINES.hairline },
    wasteHatch(box, leftover.kind !== 'scrap'),
  ];
}

/** The size of a remnant, written in its middle where it has room. */
export function remnantLabel(
  leftover: MarkerLeftover,
  placing: Placing,
  unit: 'in' | 'cm',
  { occupied, outlines }: Labelling,
): readonly Shape[] {
  const clipped = clipBox(leftover.box, placing.window);
  if (!clipped || leftover.kind !== 'remnant' || !leftover.size) return [];
  const size = formatSize(leftover.size, { unit, fractions: 'glyph', withUnit: false });
  const room = boxOnPage(placing, clipped);
  const clear = Math.min(room.width, room.height) > 20 ? 4 : 1;
  const label = fitLabelClear(inset(room, clear), outlines, remnantChoices(size), 'remnant-label');
  if (!label) return [];
  occupied.add(label.box);
  return label.shapes;
}

/** The outer edges, the fold and the crease. */
export function edgeShapes(length: MarkerLength, placing: Placing): Shape[] {
  const { window } = placing;
  const along = (x: MarkerLength['shown']['x0'], role: string, stroke: Stroke): Shape => ({
    kind: 'lines',
    role,
    segments: [segmentOnPage(placing, { x0: x, y0: window.y0, x1: x, y1: window.y1 })],
    stroke,
  });
  const shapes: Shape[] = [
    { kind: 'rect', role: 'cloth', ...boxOnPage(placing, window), stroke: LINES.clothEdge },
  ];
  if (
    length.crease !== undefined &&
    length.fold === undefined &&
    length.crease > window.x0 &&
    length.crease < window.x1
  ) {
    shapes.push(along(length.crease, 'crease', LINES.crease));
  }
  if (length.fold !== undefined) shapes.push(along(length.fold, 'fold-edge', LINES.foldEdge));
  if (length.overTo !== undefined) shapes.push(along(length.overTo, 'edge-over', LINES.crease));
  for (const [at, end] of [
    [window.y0, length.shown.y0],
    [window.y1, length.shown.y1],
  ] as const) {
    if (at === end) continue;
    const segment = segmentOnPage(placing, { x0: window.x0, y0: at, x1: window.x1, y1: at });
    shapes.push({ kind: 'lines', role: 'broken-edge', segments: [segment], stroke: LINES.brokenEdge });
  }
  return shapes;
}

/** Words for the edges, outside the cloth at its right-hand end where nothing else stands. */
export function edgeWords(length: MarkerLength, placing: Placing, occupied: Occupied): Shape[] {
  const { window } = placing;
  const trimmed = (side: 'x0' | 'x1') =>
    length.leftovers.some(({ kind, box }) => kind === 'selvedge' && box[side] === length.shown[side]);
  const words: { text: string; at: number }[] = [];
  for (const side of ['x0', 'x1'] as const) {
    if (length.fold === window[side]) words.push({ text: 'fold', at: window[side] });
    else if (trimmed(side)) words.push({ text: 'selvedge', at: window[side] });
  }
  if (length.crease !== undefined && length.fold === undefined)
    words.push({ text: 'crease', at: length.crease });
  if (length.overTo !== undefined) words.push({ text: 'edge of the upper ply', at: length.overTo });
  return words.flatMap(({ text, at }) => edgeWord(text, at, placing, occupied));
}

function edgeWord(text: string, x: number, placing: Placing, occupied: Occupied): Shape[] {
  const box = boxOnPage(placing, placing.window);
  const offset = (x - placing.window.x0) * placing.pointsPerTick;
  const style = {
    kind: 'text',
    role: 'edge-word',
    text,
    size: TYPE.flag,
    weight: 'regular',
    ink: INK,
  } as const;
  const last = x === placing.window.x1;
  const middle = !last && x !== placing.window.x0;
  const [right, below] = [box.x + box.width, box.y + box.height];
  const aside = last ? 7 : middle ? 2.5 : -1.5;
  const places: TextShape[] =
    placing.runs === 'right'
      ? [3, 15, 27].map((out) => ({ ...style, x: right + out, y: box.y + offset + aside, anchor: 'start' }))
      : [9, 21].flatMap((out): TextShape[] => [
          { ...style, x: box.x + offset, y: below + out, anchor: last ? 'end' : middle ? 'middle' : 'start' },
          // Out of the way of a number that stands below the corner itself.
          { ...style, x: box.x + offset + (last ? 8 : -8), y: below + out, anchor: last ? 'start' : 'end' },
        ]);
  const free = places.find((place) => {
    const taken = textBox(place);
    return taken.x >= 0 && taken.x + taken.width <= right + FLAG_MARGIN.right && occupied.isFree(taken);
  });
  if (!free) return [];
  occupied.addText(free);
  return [free];
}
