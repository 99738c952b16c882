import type { Page, PageBox, Shape, TextShape } from '../../src/rendering/marker/shapes.ts';
import { textBox } from '../../src/rendering/marker/text-width.ts';

/** Points by which a box may reach over without being seen. */
const SLACK = 0.05;

/** What a person would find wrong with a page: something outside it, or two texts on top of each other. */
export function pageFaults(page: Page): string[] {
  const paper = { x: 0, y: 0, width: page.width, height: page.height };
  const outside = page.shapes
    .filter((shape) => !inside(boundsOf(shape), paper))
    .map((shape) => `outside the page: ${describe(shape)}`);
  const texts = page.shapes.filter((shape) => shape.kind === 'text');
  const boxes = texts.map(textBox);
  const over: string[] = [];
  for (let first = 0; first < texts.length; first++) {
    for (let second = first + 1; second < texts.length; second++) {
      if (meet(boxes[first]!, boxes[second]!)) {
        over.push(`"${texts[first]!.text}" and "${texts[second]!.text}" overlap`);
      }
    }
  }
  return [...outside, ...over];
}

export function boundsOf(shape: Shape): PageBox {
  switch (shape.kind) {
    case 'rect':
      return shape;
    case 'text':
      return textBox(shape);
    case 'circle':
      return {
        x: shape.x - shape.radius,
        y: shape.y - shape.radius,
        width: 2 * shape.radius,
        height: 2 * shape.radius,
      };
    case 'lines':
      return around(shape.segments.flatMap(([a, b, c, d]) => [[a, b] as const, [c, d] as const]));
    default:
      return around(shape.points);
  }
}

function around(points: readonly (readonly [number, number])[]): PageBox {
  if (points.length === 0) return { x: 1, y: 1, width: 0, height: 0 };
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

const inside = (inner: PageBox, outer: PageBox): boolean =>
  inner.x >= outer.x - SLACK &&
  inner.y >= outer.y - SLACK &&
  inner.x + inner.width <= outer.x + outer.width + SLACK &&
  inner.y + inner.height <= outer.y + outer.height + SLACK;

const meet = (a: PageBox, b: PageBox): boolean =>
  a.x + SLACK < b.x + b.width &&
  b.x + SLACK < a.x + a.width &&
  a.y + SLACK < b.y + b.height &&
  b.y + SLACK < a.y + a.height;

const describe = (shape: Shape): string =>
  `${shape.kind} ${shape.role ?? ''} ${shape.kind === 'text' ? shape.text : ''} ${JSON.stringify(boundsOf(shape))}`;

export const textsOf = (page: Page, role?: string): TextShape[] =>
  page.shapes.filter((shape): shape is TextShape => shape.kind === 'text' && (!role || shape.role === role));
