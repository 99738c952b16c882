import { INK, LINES, POINTS_PER_MM } from '../theme.ts';
import type { Block } from './row.ts';
import type { Segment, Shape } from './shapes.ts';
import { wrap } from './text-width.ts';

const MM = POINTS_PER_MM;
const INCH = 72;

/**
 * A square of 50 mm, a square of 2 in and a rule of 100 mm, all true on paper printed at full size.
 * 1 in = 25.4 mm = 72 points (ISO 32000-1, 8.3.2.3).
 */
export function scaleCheckBlock(width: number): Block {
  const top = 16;
  const second = 50 * MM + 17;
  const beside = second + 2 * INCH + 18;
  const square = (role: string, x: number, side: number): Shape => ({
    kind: 'rect',
    role,
    x,
    y: top,
    width: side,
    height: side,
    stroke: LINES.rule,
  });
  const explained = wrap(EXPLAINED, width - beside, 8.5);
  return {
    width,
    height: top + 2 * INCH + 36,
    shapes: [
      words(0, 9, 'Scale check', 'start', 'bold'),
      square('scale-50-mm', 1, 50 * MM),
      words(1 + 25 * MM, top + 25 * MM + 3, '50 mm', 'middle'),
      square('scale-2-in', second, 2 * INCH),
      words(second + INCH, top + INCH + 3, '2 in', 'middle'),
      ...ruleShapes(1, top + 2 * INCH + 22),
      ...explained.map((line, index) => words(beside, top + 9 + index * 11.5, line, 'start')),
    ],
  };
}

const EXPLAINED =
  'Lay a ruler on the squares and the rule. They are true when the page was printed at full size, 100 %, without fitting it to the paper. ' +
  'Where they are not, every size and measure that is written down still holds; only the drawings are larger or smaller.';

/** The rule alone, for a drawing that has a stated scale of its own. */
export function scaleRuleBlock(): Block {
  const note = 'This rule is true where the drawing is printed at full size.';
  return {
    width: 100 * MM + 2,
    height: 38,
    shapes: [...ruleShapes(1, 12), words(1, 36, note, 'start')],
  };
}

const words = (
  x: number,
  y: number,
  text: string,
  anchor: 'start' | 'middle' | 'end',
  weight: 'regular' | 'bold' = 'regular',
): Shape => ({
  kind: 'text',
  role: 'scale-words',
  x,
  y,
  text,
  size: weight === 'bold' ? 9.5 : 8.5,
  weight,
  anchor,
  ink: INK,
});

function ruleShapes(x: number, y: number): Shape[] {
  const marks: Segment[] = [];
  for (let mm = 0; mm <= 100; mm += 5) {
    marks.push([x + mm * MM, y, x + mm * MM, y - (mm % 10 === 0 ? 9 : 5)]);
  }
  const figures = [
    words(x, y + 10, '0', 'start'),
    words(x + 50 * MM, y + 10, '50', 'middle'),
    words(x + 100 * MM, y + 10, '100 mm', 'end'),
  ];
  return [
    { kind: 'lines', role: 'scale-100-mm', segments: [[x, y, x + 100 * MM, y]], stroke: LINES.outline },
    { kind: 'lines', role: 'scale-marks', segments: marks, stroke: LINES.rule },
    ...figures,
  ];
}
