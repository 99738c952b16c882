import type { Box } from '../../model/piece.ts';
import { formatLength, formatSize } from '../../units/format.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Marker, MarkerLength } from '../marker.ts';
import { INK, PAPER } from '../theme.ts';
import { cutFlags, cutLines } from './flags.ts';
import { flawShapes } from './flaws.ts';
import { edgeShapes, edgeWords, leftoverGround, remnantLabel } from './ground.ts';
import { joinLabels } from './join-labels.ts';
import { Occupied } from './occupied.ts';
import { arrowShapes, clothPointer, grainArrow, pieceGround, pieceLabels, upMark } from './pieces.ts';
import { boxOnPage, directionOnPage, FLAG_MARGIN, onPage, type Placing, placedSize } from './placing.ts';
import { motifShapes, outlineShapes, panelNames, panelOutlines } from './prints.ts';
import { rulerRoom, rulerShapes } from './rulers.ts';
import type { Point, Shape } from './shapes.ts';
import { wrap } from './text-width.ts';
import { toldPlace, toldRemnant } from './told.ts';

/** One stretch of one length, to be drawn in one piece. */
export interface RowRequest {
  readonly marker: Marker;
  readonly length: MarkerLength;
  /** Which stretch, in ticks along the length. */
  readonly from: Ticks;
  readonly to: Ticks;
  readonly runs: 'up' | 'right';
  readonly pointsPerTick: number;
  /** Makes ids unique on a page. */
  readonly id: string;
}

/** A drawing from (0, 0) to (width, height), in points. */
export interface Block {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

const HEADING = { size: 9.5, leading: 12, least: 200 } as const;

/** The size a row will take up, without drawing it. */
export function rowSize(request: RowRequest): { readonly width: number; readonly height: number } {
  const { top, cloth, width } = rowFrame(request);
  return { width, height: top + cloth.height + FLAG_MARGIN.below };
}

/**
 * Draws one row: heading, rulers along its top and left edges, the cloth, and the numbers of the cuts below and to the right.
 * Nothing reaches outside the block, and no two texts meet.
 */
export function drawRow(request: RowRequest): Block {
  const { marker, length } = request;
  const { left, top, placing, heading } = rowFrame(request);
  const { width, height } = rowSize(request);
  const occupied = new Occupied();
  const cloth = boxOnPage(placing, placing.window);
  const ruled = rulers(request, placing, top, left);
  for (const shape of ruled) if (shape.kind === 'text') occupied.addText(shape);
  const shapes: Shape[] = [...headingShapes(heading, request)];
  shapes.push({ kind: 'rect', role: 'ground', ...cloth, fill: PAPER });
  for (const leftover of length.leftovers) shapes.push(...leftoverGround(leftover, placing));
  for (const [index, piece] of length.pieces.entries()) {
    shapes.push(...pieceGround(piece, placing, `${request.id}-piece-${index + 1}`));
  }
  const outlines = panelOutlines(length.panels, placing);
  shapes.push(...outlineShapes(outlines));
  const belowLabels = shapes.length;
  shapes.push(...edgeShapes(length, placing), ...flawShapes(length.flaws, placing));
  shapes.push(...cutLines(length, placing));
  shapes.push(...pieceLabels(length.pieces, placing, marker.unit, { occupied, outlines }));
  for (const leftover of length.leftovers) {
    shapes.push(...remnantLabel(leftover, placing, marker.unit, { occupied, outlines }));
  }
  shapes.push(...cutFlags(length, placing, marker.unit, occupied));
  for (const piece of length.pieces) shapes.push(...upMark(piece, placing, occupied));
  shapes.push(...panelNames(length, placing, occupied));
  for (const piece of length.pieces) shapes.push(...joinLabels(piece, placing, occupied));
  shapes.push(...edgeWords(length, placing, occupied), ...joinMarks(request, placing, occupied));
  for (const piece of length.pieces)
    shapes.push(...grainArrow(piece, placing, marker.cloth, { occupied, outlines }));
  // Crosses lie below all that is written, and none shows through it: where they are drawn hangs on where labels found room.
  shapes.splice(belowLabels, 0, ...motifShapes(length.motifs, placing, occupied));
  shapes.push(...ruled);
  return { width, height, shapes };
}

function rowFrame(request: RowRequest) {
  const { length, from, to, runs, pointsPerTick, marker } = request;
  const window: Box = { ...length.shown, y0: from, y1: to };
  const bare: Placing = { runs, pointsPerTick, window, left: 0, top: 0 };
  const cloth = placedSize(bare);
  const downEdge = runs === 'up' ? to : ticks(window.x1 - window.x0);
  const room = rulerRoom(downEdge, marker.unit);
  const width = Math.max(room.beside + cloth.width + FLAG_MARGIN.right, HEADING.least);
  const heading = wrap(headingText(request), width - 34, HEADING.size, 'bold');
  const top = heading.length * HEADING.leading + 6 + room.above;
  return {
    left: room.beside,
    top,
    cloth,
    heading,
    width,
    placing: { ...bare, left: room.beside, top } satisfies Placing,
  };
}

function headingText({ marker, length, from, to }: RowRequest): string {
  const unit = marker.unit;
  const unbroken = (text: string) => text.replaceAll(' ', '\u00a0');
  const glyph = { unit, fractions: 'glyph' } as const;
  const { x0, x1, y0, y1 } = length.shown;
  const size = unbroken(
    formatSize({ width: toldRemnant(x1 - x0, unit), length: toldRemnant(y1 - y0, unit) }, glyph),
  );
  const name = length.source === 'bought' ? lengthToBuy(length, marker) : `In hand: ${length.name}`;
  const double = length.overTo === undefined ? '2 plies' : '2 plies up to the edge folded over, 1 ply beyond';
  const laid = length.plies === 2 ? `folded, ${double}, ${size} as it lies` : `1 ply, ${size}`;
  const { begunWithin, together } = length;
  const begun =
    begunWithin === undefined || from !== y0
      ? []
      : [
          `drawn with ${unbroken(formatLength(toldPlace(begunWithin, unit), glyph))} gone to begin the print, the most that goes`,
        ];
  const laidDown = [laid, ...(together === '' ? [] : [together]), ...begun].join(' · ');
  // Where a length goes on, its first row has said it.
  const bought = length.bought === '' || from !== y0 ? '' : ` · ${length.bought}`;
  if (from === y0 && to === y1) return `${name} · ${laidDown}${bought}`;
  const stretch = unbroken(
    `${formatLength(toldPlace(from, unit), { ...glyph, withUnit: false })} to ${formatLength(toldPlace(to, unit), glyph)}`,
  );
  return `${name} · ${laidDown} · length ${stretch}${bought}`;
}

/** Numbered only where the shop sells the cloth in more than one length. */
function lengthToBuy(length: MarkerLength, { lengths }: Marker): string {
  const bought = lengths.filter(({ source }) => source === 'bought');
  return bought.length === 1 ? 'Length to buy' : `Length ${bought.indexOf(length) + 1} to buy`;
}

function headingShapes(lines: readonly string[], request: RowRequest): Shape[] {
  const { side, bothWays } = clothPointer(request.marker.cloth);
  const way: Point = directionOnPage(request.runs, side);
  const arrow = arrowShapes([11, HEADING.leading / 2 + 1], way, way[0] === 0 ? 14 : 20, bothWays);
  const texts = lines.map(
    (text, index): Shape => ({
      kind: 'text',
      role: 'row-heading',
      text,
      x: 26,
      y: HEADING.leading * (index + 1) - 2,
      size: HEADING.size,
      weight: 'bold',
      anchor: 'start',
      ink: INK,
    }),
  );
  return [...arrow.shapes, ...texts];
}

function rulers(
  { marker, from, to, pointsPerTick, runs }: RowRequest,
  placing: Placing,
  top: number,
  left: number,
) {
  const { height } = placedSize(placing);
  const across = { from: ticks(0), to: ticks(placing.window.x1 - placing.window.x0) };
  const along = { from, to };
  const style = { pointsPerTick, unit: marker.unit };
  return runs === 'right'
    ? [
        ...rulerShapes({ ...style, ...along, x: left, y: top, runs: 'level' }),
        ...rulerShapes({ ...style, ...across, x: left, y: top, runs: 'down' }),
      ]
    : [
        ...rulerShapes({ ...style, ...across, x: left, y: top, runs: 'level' }),
        ...rulerShapes({ ...style, ...along, x: left, y: top + height, runs: 'up' }),
      ];
}

/** Lozenges on the edge where a long length is parted on paper: they meet when the rows are laid end to end. */
function joinMarks({ length, from, to }: RowRequest, placing: Placing, occupied: Occupied): Shape[] {
  const ends = [from, to].filter((at) => at !== length.shown.y0 && at !== length.shown.y1);
  const across = placing.window.x1 - placing.window.x0;
  return ends.flatMap((at) =>
    [0.25, 0.75].flatMap((share) => {
      const [x, y] = onPage(placing, placing.window.x0 + across * share, at);
      const taken = { x: x - 4, y: y - 4, width: 8, height: 8 };
      if (!occupied.isFree(taken)) return [];
      occupied.add(taken);
      return [lozenge(x, y)];
    }),
  );
}

function lozenge(x: number, y: number): Shape {
  const points: Point[] = [
    [x, y - 4],
    [x + 4, y],
    [x, y + 4],
    [x - 4, y],
  ];
  return { kind: 'polygon', role: 'match-mark', points, fill: PAPER, stroke: { width: 1, ink: INK } };
}
