import type { MarkerPiece } from '../marker.ts';
import { INK } from '../theme.ts';
import type { Occupied } from './occupied.ts';
import { boxOnPage, clipBox, clipLine, type Placing, segmentOnPage } from './placing.ts';
import type { PageBox, Shape, TextShape } from './shapes.ts';
import { textBox, textWidth } from './text-width.ts';

const SIZE = 6.5;
/** From the join line to the words beside it. */
const BESIDE = 2;

/** What a part meets at each of its joins, written along the join line inside the part, where there is room. */
export function joinLabels(piece: MarkerPiece, placing: Placing, occupied: Occupied): Shape[] {
  const clipped = clipBox(piece.box, placing.window);
  if (!clipped) return [];
  const box = boxOnPage(placing, clipped);
  return piece.joins.flatMap((join): Shape[] => {
    const line = clipLine(join, clipped);
    if (!line) return [];
    const [ax, ay, bx, by] = segmentOnPage(placing, line);
    const upright = ax === bx;
    const run = upright ? Math.abs(by - ay) : Math.abs(bx - ax);
    if (textWidth(join.words, SIZE) > run) return [];
    for (const share of [0.5, 0.25, 0.75]) {
      const at = { x: ax + share * (bx - ax), y: ay + share * (by - ay) };
      for (const text of upright ? besideUpright(join.words, at) : besideLevel(join.words, at)) {
        const taken = textBox(text);
        if (!holds(box, taken) || !occupied.isFree(taken)) continue;
        occupied.add(taken);
        return [text];
      }
    }
    return [];
  });
}

const styled = (text: string, x: number, y: number, turned: boolean): TextShape => ({
  kind: 'text',
  role: 'join-label',
  ...{ text, x, y, size: SIZE, weight: 'regular', anchor: 'middle', ink: INK },
  ...(turned ? { turned } : {}),
});

/** Left of the line, then right of it; the words read upwards. */
const besideUpright = (text: string, { x, y }: { x: number; y: number }): TextShape[] => [
  styled(text, x - BESIDE, y, true),
  styled(text, x + BESIDE + 0.75 * SIZE, y, true),
];

/** Above the line, then below it. */
const besideLevel = (text: string, { x, y }: { x: number; y: number }): TextShape[] => [
  styled(text, x, y - BESIDE, false),
  styled(text, x, y + BESIDE + 0.75 * SIZE, false),
];

const holds = (box: PageBox, inner: PageBox): boolean =>
  inner.x >= box.x &&
  inner.y >= box.y &&
  inner.x + inner.width <= box.x + box.width &&
  inner.y + inner.height <= box.y + box.height;
