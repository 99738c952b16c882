import { motifInPiece, repeatOnTable } from '../../cloth/repeats.ts';
import { walk } from '../../geometry/walk.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { CutPlan, LengthPlan } from '../../model/cut-plan.ts';
import { begun } from '../../planning/begin.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { MarkerLength } from '../marker.ts';
import { LINES, PAPER, SOFT } from '../theme.ts';
import type { Occupied } from './occupied.ts';
import { boxOnPage, clipBox, onPage, type Placing } from './placing.ts';
import { inset, type PageBox, type Segment, type Shape, within } from './shapes.ts';
import { CAP_HEIGHT, textWidth } from './text-width.ts';

/** A place of the cloth, in ticks. */
export interface MotifPlace {
  readonly x: Ticks;
  readonly y: Ticks;
}

/** More motifs than this would be a pattern of their own on the drawing. */
const MOST_MOTIFS = 400;

/**
 * Where the motifs of a matched print lie on a length: those that matched pieces hold, and all that repeat from them as far
 * as the print is known to repeat. None where pieces are only alike, since then no one needs to know.
 */
export function motifPlaces({ pieces }: CutPlan, cloth: Cloth, length: LengthPlan): readonly MotifPlace[] {
  const repeat = repeatOnTable(cloth);
  if (!repeat || length.lay.kind !== 'flat') return [];
  const wanted = new Map(pieces.map((piece) => [piece.id, piece]));
  const held = walk(length.tree, length.width, length.length).leaves.flatMap(({ leaf, box }) => {
    const piece = leaf.kind === 'piece' ? wanted.get(leaf.piece) : undefined;
    if (leaf.kind !== 'piece' || !piece?.match) return [];
    const point = motifInPiece(piece.match, piece.size, leaf.quarterTurns);
    return point ? [{ x: ticks(box.x0 + point.x), y: ticks(box.y0 + point.y) }] : [];
  });
  const [first] = held;
  if (!first) return [];
  const { along, across, drop } = repeat;
  if (along === undefined || across === undefined) return held;
  // Before the print is begun no one knows where they lie.
  const from = begun(length).box.y0;
  const places: MotifPlace[] = [];
  for (let column = -Math.floor(first.x / across); first.x + column * across <= length.width; column++) {
    const x = first.x + column * across;
    const half = drop === 'half' && column % 2 !== 0 ? Math.floor(along / 2) : 0;
    for (let y = from + ((first.y + half - from) % along); y <= length.length; y += along)
      places.push({ x: ticks(x), y: ticks(y) });
  }
  return places.length > MOST_MOTIFS ? held : places;
}

/** Light crosses at the motifs that show, but for those that would run into something written. */
export function motifShapes(motifs: readonly MotifPlace[], placing: Placing, occupied: Occupied): Shape[] {
  const { window } = placing;
  const segments = motifs
    .filter(({ x, y }) => x > window.x0 && x < window.x1 && y > window.y0 && y < window.y1)
    .flatMap(({ x, y }): Segment[] => {
      const [left, top] = onPage(placing, x, y);
      if (!occupied.isFree({ x: left - 3, y: top - 3, width: 6, height: 6 })) return [];
      return [
        [left - 3, top, left + 3, top],
        [left, top - 3, left, top + 3],
      ];
    });
  return segments.length === 0 ? [] : [{ kind: 'lines', role: 'motif', segments, stroke: LINES.motif }];
}

/** The outlines of printed panels as far as they show. */
export function panelOutlines(panels: MarkerLength['panels'], placing: Placing): readonly PageBox[] {
  return panels.flatMap(({ box }) => {
    const clipped = clipBox(box, placing.window);
    return clipped ? [boxOnPage(placing, clipped)] : [];
  });
}

export function outlineShapes(outlines: readonly PageBox[]): Shape[] {
  return outlines.map((box) => ({ kind: 'rect', role: 'panel', ...box, stroke: LINES.panel }));
}

const NAME_SIZES = [7.5, 6.5, 5.5];

/**
 * The names of printed panels, each near an edge inside its outline and inside one part of the cloth, where there is room for
 * all of it clear of what is written already.
 */
export function panelNames(length: MarkerLength, placing: Placing, occupied: Occupied): Shape[] {
  const parts = [...length.pieces, ...length.leftovers].flatMap(({ box }) => {
    const clipped = clipBox(box, placing.window);
    return clipped ? [boxOnPage(placing, clipped)] : [];
  });
  return length.panels.flatMap(({ box, name }): Shape[] => {
    const clipped = clipBox(box, placing.window);
    if (!clipped) return [];
    const room = inset(boxOnPage(placing, clipped), 2);
    for (const size of NAME_SIZES) {
      for (const place of namePlaces(room, textWidth(name, size) + 4, size + 2)) {
        const clear = parts.some((part) => within(place, inset(part, 1)));
        if (!clear || !within(place, room) || !occupied.isFree(place)) continue;
        occupied.add(place);
        const at = { x: place.x + 2, y: place.y + 2 + CAP_HEIGHT * size };
        const text = { kind: 'text', role: 'panel-name', ...at, text: name, size } as const;
        return [
          { kind: 'rect', role: 'halo', ...place, fill: PAPER },
          { ...text, weight: 'regular', anchor: 'start', ink: SOFT },
        ];
      }
    }
    return [];
  });
}

/** In the corners, those at the top first, then in the middle of each edge. */
function namePlaces(room: PageBox, width: number, height: number): readonly PageBox[] {
  const [left, middle, right] = [0, 0.5, 1].map((share) => room.x + share * (room.width - width)) as Three;
  const [top, centre, low] = [0, 0.5, 1].map((share) => room.y + share * (room.height - height)) as Three;
  const corners = [top, low].flatMap((y) => [left, right].map((x) => ({ x, y })));
  const edges = [
    { x: middle, y: top },
    { x: middle, y: low },
    { x: left, y: centre },
    { x: right, y: centre },
  ];
  return [...corners, ...edges].map((at) => ({ ...at, width, height }));
}

type Three = [number, number, number];
