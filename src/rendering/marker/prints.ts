import { motifInPiece, repeatOnTable } from '../../cloth/repeats.ts';
import { walk } from '../../geometry/walk.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { CutPlan, LengthPlan } from '../../model/cut-plan.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { MarkerLength } from '../marker.ts';
import { LINES, PAPER, SOFT } from '../theme.ts';
import { boxOnPage, clipBox, onPage, type Placing } from './placing.ts';
import type { Segment, Shape } from './shapes.ts';
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
  const places: MotifPlace[] = [];
  for (let column = -Math.floor(first.x / across); first.x + column * across <= length.width; column++) {
    const x = first.x + column * across;
    const half = drop === 'half' && column % 2 !== 0 ? Math.floor(along / 2) : 0;
    for (let y = (first.y + half) % along; y <= length.length; y += along)
      places.push({ x: ticks(x), y: ticks(y) });
  }
  return places.length > MOST_MOTIFS ? held : places;
}

/** Light crosses at the motifs that show. */
export function motifShapes(motifs: readonly MotifPlace[], placing: Placing): Shape[] {
  const { window } = placing;
  const segments = motifs
    .filter(({ x, y }) => x > window.x0 && x < window.x1 && y > window.y0 && y < window.y1)
    .flatMap(({ x, y }): Segment[] => {
      const [left, top] = onPage(placing, x, y);
      return [
        [left - 3, top, left + 3, top],
        [left, top - 3, left, top + 3],
      ];
    });
  return segments.length === 0 ? [] : [{ kind: 'lines', role: 'motif', segments, stroke: LINES.motif }];
}

/** The outlines of printed panels, with their names where they have room inside. */
export function panelShapes(panels: MarkerLength['panels'], placing: Placing): Shape[] {
  return panels.flatMap(({ box, name }): Shape[] => {
    const clipped = clipBox(box, placing.window);
    if (!clipped) return [];
    const page = boxOnPage(placing, clipped);
    const size = Math.min(7.5, page.height / 5);
    const fits = size >= 5 && textWidth(name, size) + 8 <= page.width;
    return [
      { kind: 'rect', role: 'panel', ...page, stroke: LINES.panel },
      ...(fits
        ? [
            {
              kind: 'rect' as const,
              role: 'halo',
              x: page.x + 2,
              y: page.y + 2,
              width: textWidth(name, size) + 4,
              height: size + 2,
              fill: PAPER,
            },
            {
              kind: 'text' as const,
              role: 'panel-name',
              x: page.x + 4,
              y: page.y + 4 + CAP_HEIGHT * size,
              text: name,
              size,
              weight: 'regular' as const,
              anchor: 'start' as const,
              ink: SOFT,
            },
          ]
        : []),
    ];
  });
}
