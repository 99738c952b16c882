import { formatLength } from '../../units/format.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, type Ticks, ticks } from '../../units/ticks.ts';
import { INK, LINES, TYPE } from '../theme.ts';
import type { Segment, Shape, TextShape } from './shapes.ts';
import { textWidth } from './text-width.ts';

export interface RulerSteps {
  /** A short mark every `minor`, a long one with its figure every `major`; both whole numbers of the unit. */
  readonly minor: Ticks;
  readonly major: Ticks;
}

const STEPS: Readonly<Record<'in' | 'cm', readonly (readonly [minor: number, major: number])[]>> = {
  in: [
    [1, 1],
    [1, 2],
    [1, 3],
    [1, 6],
    [3, 12],
    [6, 24],
    [12, 36],
    [36, 108],
  ],
  cm: [
    [1, 1],
    [1, 2],
    [1, 5],
    [1, 10],
    [5, 20],
    [10, 50],
    [20, 100],
    [50, 200],
  ],
};

/** The finest steps at which figures stand clear of each other. */
export function rulerSteps(unit: 'in' | 'cm', pointsPerTick: number): RulerSteps {
  const perUnit = unit === 'in' ? TICKS_PER_INCH : TICKS_PER_CM;
  const clear = STEPS[unit].find(([, major]) => major * perUnit * pointsPerTick >= 24);
  const [minor, major] = clear ?? STEPS[unit].at(-1)!;
  return { minor: ticks(minor * perUnit), major: ticks(major * perUnit) };
}

export interface Ruler {
  /** Where the edge it stands on starts, and which way it runs: `level` to the right, `down` or `up`. */
  readonly x: number;
  readonly y: number;
  readonly runs: 'level' | 'down' | 'up';
  readonly from: Ticks;
  readonly to: Ticks;
  readonly pointsPerTick: number;
  readonly unit: 'in' | 'cm';
}

/** A ruler outside an edge: above it where it runs level, left of it where it runs down or up. Figures count from ruler zero. */
export function rulerShapes(ruler: Ruler): Shape[] {
  const { from, to, pointsPerTick, unit } = ruler;
  const { minor, major } = rulerSteps(unit, pointsPerTick);
  const segments: Segment[] = [];
  const figures: Shape[] = [];
  const longest = (to - from) * pointsPerTick;
  segments.push(stroke(ruler, 0, longest, 0));
  for (let at = Math.ceil(from / minor) * minor; at <= to; at += minor) {
    const along = (at - from) * pointsPerTick;
    const long = at % major === 0;
    segments.push(stroke(ruler, along, along, long ? 5 : 2.8));
    if (long) figures.push(figure(ruler, along, formatLength(ticks(at), { unit, withUnit: false })));
  }
  return [{ kind: 'lines', role: 'ruler', segments, stroke: LINES.rule }, ...figures];
}

/** The edge line itself where `reach` is 0, else a mark standing out from it. */
function stroke(ruler: Ruler, start: number, end: number, reach: number): Segment {
  const gap = 2;
  if (ruler.runs === 'level') {
    return [ruler.x + start, ruler.y - gap, ruler.x + end, ruler.y - gap - reach];
  }
  const way = ruler.runs === 'down' ? 1 : -1;
  return [ruler.x - gap, ruler.y + way * start, ruler.x - gap - reach, ruler.y + way * end];
}

function figure(ruler: Ruler, along: number, text: string): TextShape {
  const style = {
    kind: 'text',
    role: 'ruler-figure',
    text,
    size: TYPE.ruler,
    weight: 'regular',
    ink: INK,
  } as const;
  if (ruler.runs === 'level') {
    return { ...style, x: ruler.x + along, y: ruler.y - 9, anchor: 'middle' };
  }
  const way = ruler.runs === 'down' ? 1 : -1;
  return { ...style, x: ruler.x - 9, y: ruler.y + way * along + TYPE.ruler * 0.33, anchor: 'end' };
}

/** Room that the figures of a ruler take up beside its edge. */
export function rulerRoom(
  longest: Ticks,
  unit: 'in' | 'cm',
): { readonly beside: number; readonly above: number } {
  const text = formatLength(ticks(Math.floor(longest)), { unit, withUnit: false }).split(/[ .]/)[0]!;
  return { beside: 11 + textWidth(text, TYPE.ruler), above: 17 };
}
