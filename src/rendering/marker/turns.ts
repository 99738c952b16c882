import type { QuarterTurns } from '../../model/cut-tree.ts';
import type { Box, Size } from '../../model/piece.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';

/** A side of a box on the cloth: `near` faces the start of the length, `far` its end. */
export type Side = 'far' | 'left' | 'near' | 'right';

/** How a piece of an upright size lies on the cloth: turned counter-clockwise, its box's lower left corner at `at`. */
export interface Turn {
  readonly size: Size;
  readonly quarterTurns: QuarterTurns;
  readonly at: { readonly x0: Ticks; readonly y0: Ticks };
}

/** Where a piece's top comes to lie. */
export const upSide = (turns: QuarterTurns): Side => (['far', 'left', 'near', 'right'] as const)[turns];

/** A box in the upright frame of a piece, as it lies on the cloth. */
export function turnBox(box: Box, turn: Turn): Box {
  const [ax, ay] = turnPoint(box.x0, box.y0, turn);
  const [bx, by] = turnPoint(box.x1, box.y1, turn);
  return {
    x0: ticks(Math.min(ax, bx)),
    y0: ticks(Math.min(ay, by)),
    x1: ticks(Math.max(ax, bx)),
    y1: ticks(Math.max(ay, by)),
  };
}

/** A line in the upright frame of a piece, as it lies on the cloth; its ends stay in order. */
export function turnSegment(line: Box, turn: Turn): Box {
  const [x0, y0] = turnPoint(line.x0, line.y0, turn);
  const [x1, y1] = turnPoint(line.x1, line.y1, turn);
  return { x0, y0, x1, y1 };
}

function turnPoint(x: Ticks, y: Ticks, { size, quarterTurns, at }: Turn): [Ticks, Ticks] {
  const turned = [
    [x, y],
    [size.length - y, x],
    [size.width - x, size.length - y],
    [y, size.width - x],
  ] as const;
  const [across, along] = turned[quarterTurns];
  return [ticks(at.x0 + across), ticks(at.y0 + along)];
}
