import type { Cloth } from '../../model/cloth.ts';
import { formatSize } from '../../units/format.ts';
import type { MarkerPiece } from '../marker.ts';
import { INK, LINES, PAPER, weaveOf } from '../theme.ts';
import { crosses, fitLabelClear } from './clear-rooms.ts';
import { weaveShapes } from './hatch.ts';
import { fitLabel, type LabelChoice, pieceChoices } from './labels.ts';
import { type Labelling, type Occupied, placesAround } from './occupied.ts';
import {
  boxOnPage,
  clipBox,
  clipLine,
  directionOnPage,
  labelledRoom,
  type Placing,
  segmentOnPage,
} from './placing.ts';
import { inset, type PageBox, type Point, type Segment, type Shape, within } from './shapes.ts';
import type { Side } from './turns.ts';

/** Pieces slimmer than this many points would be filled by their seam lines. */
const SLIMMEST_LINED = 5;

/** The ground of a piece: its weave, its seam and hem lines, its outline. */
export function pieceGround(piece: MarkerPiece, placing: Placing, id: string): Shape[] {
  const clipped = clipBox(piece.box, placing.window);
  if (!clipped) return [];
  const box = boxOnPage(placing, clipped);
  const slim = Math.min(box.width, box.height);
  return [
    { kind: 'rect', role: 'piece', id, ...box, fill: PAPER },
    ...(piece.under ? [] : weaveShapes(box, weaveOf(piece.kind.index))),
    ...(slim < SLIMMEST_LINED ? [] : lineShapes(piece, placing, clipped)),
    { kind: 'rect', role: 'outline', ...box, stroke: { ...LINES.outline, width: Math.min(0.8, slim / 9) } },
  ];
}

function lineShapes(
  piece: MarkerPiece,
  placing: Placing,
  clipped: NonNullable<ReturnType<typeof clipBox>>,
): Shape[] {
  const segments = new Map<MarkerPiece['lines'][number]['kind'], Segment[]>();
  for (const line of piece.lines) {
    const shown = clipLine(line, clipped);
    if (!shown) continue;
    const found = segments.get(line.kind) ?? [];
    segments.set(line.kind, [...found, segmentOnPage(placing, shown)]);
  }
  return [...segments].map(([kind, lines]) => ({
    kind: 'lines',
    role: kind,
    segments: lines,
    stroke: LINES[kind],
  }));
}

/**
 * The labels of the pieces that show: on each as much as has room. Of a kind that is too slim even for its letter, one
 * piece has its letter beside it, tied by a leader.
 */
export function pieceLabels(
  pieces: readonly MarkerPiece[],
  placing: Placing,
  unit: 'in' | 'cm',
  { occupied, outlines }: Labelling,
): Shape[] {
  const shapes: Shape[] = [];
  const named = new Set<string>();
  const bare: { letters: string; box: PageBox }[] = [];
  for (const piece of pieces) {
    const clipped = clipBox(piece.box, placing.window);
    if (!clipped) continue;
    const box = boxOnPage(placing, clipped);
    const letters = plyWords(piece, 'letter');
    const label = fitLabelClear(labelRoom(box), outlines, choicesFor(piece, unit), 'piece-label');
    if (!label) bare.push({ letters, box });
    else {
      named.add(letters);
      occupied.add(label.box);
      shapes.push(...label.shapes);
    }
  }
  for (const { letters, box } of bare) {
    if (named.has(letters)) continue;
    const label = letterBeside(letters, box, labelledRoom(placing), occupied);
    if (label.length > 0) named.add(letters);
    shapes.push(...label);
  }
  return shapes;
}

/** Where the two plies yield different pieces, the upper one is named first. */
const plyWords = (piece: MarkerPiece, of: 'letter' | 'name'): string =>
  [piece.kind, ...(piece.under ? [piece.under] : [])].map((kind) => kind.piece[of]).join(' / ');

function choicesFor(piece: MarkerPiece, unit: 'in' | 'cm'): LabelChoice[] {
  const { order, size } = piece.kind.piece;
  const written = formatSize(size, { unit, fractions: 'glyph', withUnit: false });
  return pieceChoices(plyWords(piece, 'letter'), plyWords(piece, 'name'), order, written);
}

function letterBeside(letters: string, box: PageBox, room: PageBox, occupied: Occupied): Shape[] {
  const middle: Point = [box.x + box.width / 2, box.y + box.height / 2];
  for (const [x, y] of placesAround(middle, 8, 90)) {
    const place = { x: x - 20, y: y - 4.5, width: 40, height: 9 };
    const label = fitLabel(place, [[{ text: letters, size: 8, weight: 'bold' }]], 'piece-label');
    if (!label || !within(label.box, room) || !occupied.isFree(label.box)) continue;
    occupied.add(label.box);
    const leader: Shape = {
      kind: 'lines',
      role: 'leader',
      segments: [[...middle, x, y]],
      stroke: LINES.rule,
    };
    return [leader, ...label.shapes];
  }
  return [];
}

/** Clear of the numbers of the cuts around it, where there is room to be. */
function labelRoom(box: PageBox): PageBox {
  const narrow = Math.min(box.width, box.height);
  return inset(box, narrow > 40 ? 8 : narrow > 26 ? 5 : 0.4);
}

/** A notch of ink inside the side that is the piece's top: in its middle, or where there is room. */
export function upMark(piece: MarkerPiece, placing: Placing, occupied: Occupied): Shape[] {
  const clipped = clipBox(piece.box, placing.window);
  if (!clipped || !showsSide(piece, clipped)) return [];
  const box = boxOnPage(placing, clipped);
  const way = directionOnPage(placing.runs, piece.up);
  const size = Math.min(6, 0.17 * Math.min(box.width, box.height));
  if (size < 1.8) return [];
  for (const share of [0.5, 0.3, 0.7, 0.15, 0.85]) {
    const points = notch(box, way, size, share);
    const taken = boundsOf(points);
    if (!occupied.isFree(taken)) continue;
    occupied.add(taken);
    return [{ kind: 'polygon', role: 'up', points, fill: INK }];
  }
  return [];
}

/** A triangle whose tip touches the side of a box that a way leads to, so far along that side. */
function notch(box: PageBox, [dx, dy]: Point, size: number, share: number): Point[] {
  const along = dx === 0 ? (share - 0.5) * box.width : (share - 0.5) * box.height;
  const tip: Point = [
    box.x + box.width / 2 + dx * (box.width / 2 - 1.2) + Math.abs(dy) * along,
    box.y + box.height / 2 + dy * (box.height / 2 - 1.2) + Math.abs(dx) * along,
  ];
  const foot: Point = [tip[0] - dx * size, tip[1] - dy * size];
  const half = size * 0.62;
  return [tip, [foot[0] + dy * half, foot[1] + dx * half], [foot[0] - dy * half, foot[1] - dx * half]];
}

const showsSide = (piece: MarkerPiece, clipped: MarkerPiece['box']): boolean =>
  (piece.up !== 'far' || clipped.y1 === piece.box.y1) && (piece.up !== 'near' || clipped.y0 === piece.box.y0);

/** Which way the cloth itself points: the print's or the nap's up, or the grain both ways. */
export function clothPointer(cloth: Cloth): { readonly side: Side; readonly bothWays: boolean } {
  const directed = cloth.direction === 'one-way' || cloth.direction === 'nap';
  if (!directed) return { side: 'far', bothWays: true };
  return { side: cloth.printRuns === 'along' ? 'far' : 'left', bothWays: false };
}

/** The grain line of a piece that has room for one, beside its label: two heads for grain, one for a print's up. */
export function grainArrow(
  piece: MarkerPiece,
  placing: Placing,
  cloth: Cloth,
  { occupied, outlines }: Labelling,
): Shape[] {
  const clipped = clipBox(piece.box, placing.window);
  if (!clipped) return [];
  const box = boxOnPage(placing, clipped);
  const { side, bothWays } = clothPointer(cloth);
  const [dx, dy] = directionOnPage(placing.runs, side);
  const run = dx !== 0 ? box.width : box.height;
  const beside = dx !== 0 ? box.height : box.width;
  if (run < 46 || beside < 40) return [];
  const length = Math.min(0.46 * run, 70);
  for (const share of [0.2, 0.8, 0.14, 0.86]) {
    const middle: Point =
      dx !== 0
        ? [box.x + box.width / 2, box.y + box.height * (1 - share)]
        : [box.x + box.width * share, box.y + box.height / 2];
    const arrow = arrowShapes(middle, [dx, dy], length, bothWays);
    if (!occupied.isFree(arrow.box) || outlines.some((outline) => crosses(arrow.box, outline))) continue;
    occupied.add(arrow.box);
    return [...arrow.shapes];
  }
  return [];
}

/** A straight arrow about its middle, with one head or two. */
export function arrowShapes(
  middle: Point,
  [dx, dy]: Point,
  length: number,
  bothWays: boolean,
): { readonly shapes: readonly Shape[]; readonly box: PageBox } {
  const tip: Point = [middle[0] + (dx * length) / 2, middle[1] + (dy * length) / 2];
  const tail: Point = [middle[0] - (dx * length) / 2, middle[1] - (dy * length) / 2];
  const head = (at: Point, way: number): Shape => {
    const back: Point = [at[0] - way * dx * 5.5, at[1] - way * dy * 5.5];
    const points: Point[] = [
      at,
      [back[0] + dy * 2.3, back[1] + dx * 2.3],
      [back[0] - dy * 2.3, back[1] - dx * 2.3],
    ];
    return { kind: 'polygon', role: 'arrow-head', points, fill: INK };
  };
  const shaft: Shape = {
    kind: 'lines',
    role: bothWays ? 'grain' : 'print-up',
    segments: [[tail[0], tail[1], tip[0] - dx * 4, tip[1] - dy * 4]],
    stroke: LINES.grain,
  };
  const shapes = bothWays ? [shaft, head(tip, 1), head(tail, -1)] : [shaft, head(tip, 1)];
  return { shapes, box: inset(boundsOf([tip, tail]), -2.6) };
}

function boundsOf(points: readonly Point[]): PageBox {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}
