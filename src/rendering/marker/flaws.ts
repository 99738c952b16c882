import type { MarkerFlaw } from '../marker.ts';
import { LINES } from '../theme.ts';
import { boxOnPage, type Placing } from './placing.ts';
import type { Point, Shape } from './shapes.ts';

/** The outline of a flaw, as far as it falls on the part of the cloth that shows; nothing where it does not. */
export function flawShapes(flaws: readonly MarkerFlaw[], placing: Placing): Shape[] {
  const window = boxOnPage(placing, placing.window);
  return flaws.flatMap((flaw): Shape[] => {
    const onPage = flaw.map(({ x, y }): Point => {
      const box = boxOnPage(placing, { x0: x, y0: y, x1: x, y1: y });
      return [box.x, box.y];
    });
    const points = clipped(onPage, [
      ([x]) => x - window.x,
      ([x]) => window.x + window.width - x,
      ([, y]) => y - window.y,
      ([, y]) => window.y + window.height - y,
    ]);
    return points.length < 3 ? [] : [{ kind: 'polygon', role: 'flaw', points, stroke: LINES.flaw }];
  });
}

/** Sutherland and Hodgman (1974): one side of the window after the other; each tells how far inside it a point lies. */
function clipped(outline: readonly Point[], sides: readonly ((point: Point) => number)[]): readonly Point[] {
  let points = outline;
  for (const inside of sides) {
    points = points.flatMap((point, index) => {
      const before = points.at(index - 1)!;
      const [from, to] = [inside(before), inside(point)];
      const share = from / (from - to);
      const crossing: Point = [
        before[0] + share * (point[0] - before[0]),
        before[1] + share * (point[1] - before[1]),
      ];
      if (from >= 0 === to >= 0) return to >= 0 ? [point] : [];
      return to >= 0 ? [crossing, point] : [crossing];
    });
  }
  return points;
}
