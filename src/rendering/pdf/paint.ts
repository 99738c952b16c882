import type { Page, Shape, TextShape } from '../marker/shapes.ts';
import type { Stroke } from '../theme.ts';

type Drawing = PDFKit.PDFDocument;

/** Puts a page's shapes on the current page of a PDF, in their order. */
export function paintPage(drawing: Drawing, page: Page): void {
  for (const shape of page.shapes) paintShape(drawing, shape);
}

function paintShape(drawing: Drawing, shape: Shape): void {
  switch (shape.kind) {
    case 'rect':
      drawing.rect(...numbers(shape.x, shape.y, shape.width, shape.height));
      paint(drawing, shape.fill, shape.stroke);
      return;
    case 'lines':
      for (const [x0, y0, x1, y1] of shape.segments) {
        drawing.moveTo(...numbers(x0, y0)).lineTo(...numbers(x1, y1));
      }
      if (shape.segments.length > 0) paint(drawing, undefined, shape.stroke);
      return;
    case 'polygon':
      drawing.polygon(...shape.points.map(([x, y]) => numbers(x, y)));
      paint(drawing, shape.fill, shape.stroke);
      return;
    case 'circle':
      drawing.circle(...numbers(shape.x, shape.y, shape.radius));
      paint(drawing, shape.fill, shape.stroke);
      return;
    case 'dots':
      // A line of no length with round ends is a dot.
      for (const [x, y] of shape.points) drawing.moveTo(...numbers(x, y)).lineTo(...numbers(x, y));
      if (shape.points.length > 0) {
        drawing
          .undash()
          .lineWidth(2 * shape.radius)
          .lineCap('round')
          .strokeColor(shape.ink)
          .stroke()
          .lineCap('butt');
      }
      return;
    case 'text':
      paintText(drawing, shape);
  }
}

function paint(drawing: Drawing, fill: string | undefined, stroke: Stroke | undefined): void {
  if (stroke) {
    drawing.lineWidth(stroke.width).strokeColor(stroke.ink);
    if (stroke.dash) drawing.dash(stroke.dash as unknown as number, {});
    else drawing.undash();
  }
  if (fill) drawing.fillColor(fill);
  if (fill && stroke) drawing.fillAndStroke();
  else if (fill) drawing.fill();
  else if (stroke) drawing.stroke();
}

function paintText(drawing: Drawing, { x, y, text, size, weight, anchor, turned, ink }: TextShape): void {
  drawing.font(weight).fontSize(size).fillColor(ink);
  const width = drawing.widthOfString(text);
  const back = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width;
  if (turned) drawing.save().rotate(-90, { origin: numbers(x, y) });
  drawing.text(text, ...numbers(x - back, y), { lineBreak: false, baseline: 'alphabetic' });
  if (turned) drawing.restore();
}

/** A thousandth of a point is far below what any printer can place. */
function numbers<Coordinates extends number[]>(...values: Coordinates): Coordinates {
  return values.map((value) => Math.round(value * 1000) / 1000) as Coordinates;
}
