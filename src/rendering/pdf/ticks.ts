import type { Block } from '../marker/row.ts';
import type { Shape } from '../marker/shapes.ts';
import { LINES, SOFT, TYPE } from '../theme.ts';
import { beside, paragraph, stack } from './flow.ts';

/** Boxes to tick, in points: large enough for a pencil. */
export const TICK = { size: 8, pitch: 11.5, most: 40 } as const;

export const tickBox = (x: number, y: number): Shape => ({
  kind: 'rect',
  role: 'tick-box',
  x,
  y,
  width: TICK.size,
  height: TICK.size,
  stroke: LINES.outline,
});

/** One thing to do, with a box to tick, its number, and smaller words below. */
export function stepBlock(number: number, todo: string, rest: string, width: number): Block {
  const box: Block = { width: 14, height: 12, shapes: [tickBox(0, 2)] };
  const words = [paragraph(todo, width - 44)];
  if (rest !== '') words.push(paragraph(rest, width - 44, { size: TYPE.small, ink: SOFT }));
  return beside(
    [
      [0, box],
      [18, paragraph(String(number), 24, { weight: 'bold' })],
      [40, stack(words, width - 44)],
    ],
    width,
  );
}
