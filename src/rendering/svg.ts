import { type Container, getWindow, registerWindow, SVG, withWindow } from '@svgdotjs/svg.js';
import { TICKS_PER_MM } from '../units/ticks.ts';
import type { Page, Shape } from './marker/shapes.ts';
import { markerSheet, type SheetScale } from './marker/sheet.ts';
import { textWidth } from './marker/text-width.ts';
import type { Marker } from './marker.ts';
import type { SvgDocument } from './svg/svg-document.ts';
import { FONT_FAMILY, PAPER, POINTS_PER_MM, type Stroke } from './theme.ts';

/** Words by which a drawing is known for ours. */
export const SVG_MARK = 'drawn by Laywright';

/**
 * Draws one cloth's marker as an SVG document, true to scale: one unit of its `viewBox` is one millimetre of cloth, and
 * its physical width and height are that size at the stated scale (CSS Values 4, 6.2: 1in = 2.54cm = 96px).
 * @param document an SVG document of the place it runs in, made for this drawing: svgdom's in Node; in a page what
 *   `document.implementation.createDocument('http://www.w3.org/2000/svg', 'svg', null)` gives. What is in it is replaced.
 */
export function writeSvg(marker: Marker, document: SvgDocument): string {
  // A document that is only made, not shown, has no window of its own; the place it runs in has one.
  const window = (document.defaultView ?? getWindow()) as never;
  return withWindow(window, () => {
    registerWindow(window, document as never);
    return drawSvg(marker, document);
  });
}

/** Draws one page as an SVG document: one unit of its `viewBox` is one point, and its physical size is the page's. */
export function writePageSvg(page: Page, title: string, document: SvgDocument): string {
  const window = (document.defaultView ?? getWindow()) as never;
  return withWindow(window, () => {
    registerWindow(window, document as never);
    return drawRoot(page, document, { units: 1, title: `${title}, ${SVG_MARK}` });
  });
}

function drawSvg(marker: Marker, document: SvgDocument): string {
  const { page, scale } = markerSheet(marker);
  const title = `Marker of ${marker.cloth.name}, one to ${scale.oneTo}, ${SVG_MARK}`;
  return drawRoot(page, document, { units: unitsPerPoint(scale), title, scale: `1:${scale.oneTo}` });
}

function drawRoot(
  page: Page,
  document: SvgDocument,
  { units, title, scale }: { readonly units: number; readonly title: string; readonly scale?: string },
): string {
  const root = SVG(document.documentElement as never) as unknown as Container;
  root.clear();
  const [width, height] = [page.width * units, page.height * units].map(round) as [number, number];
  root.attr({
    xmlns: 'http://www.w3.org/2000/svg',
    width: `${round(page.width / POINTS_PER_MM)}mm`,
    height: `${round(page.height / POINTS_PER_MM)}mm`,
    viewBox: `0 0 ${width} ${height}`,
    'font-family': FONT_FAMILY,
    role: 'img',
    ...(scale && { 'data-scale': scale }),
  });
  root.element('title').node.textContent = title;
  root.rect(width, height).attr({ fill: PAPER });
  drawPage(root, page, units);
  return root.svg();
}

/** How many millimetres of cloth a point of the drawing stands for. */
const unitsPerPoint = (scale: SheetScale): number => 1 / (scale.pointsPerTick * TICKS_PER_MM);

function drawPage(root: Container, page: Page, units: number): void {
  for (const shape of page.shapes) drawShape(root, shape, (points) => round(points * units));
}

type Scaled = (points: number) => number;

function drawShape(root: Container, shape: Shape, scaled: Scaled): void {
  const name = { ...(shape.role ? { class: shape.role } : {}), ...(shape.id ? { id: shape.id } : {}) };
  switch (shape.kind) {
    case 'rect': {
      const [x, y] = [scaled(shape.x), scaled(shape.y)];
      const size = [scaled(shape.width), scaled(shape.height)] as const;
      root
        .rect(...size)
        .attr({ x, y, ...name, fill: shape.fill ?? 'none', ...strokeOf(shape.stroke, scaled) });
      return;
    }
    case 'lines': {
      const moves = shape.segments.map(
        ([a, b, c, d]) => `M${scaled(a)} ${scaled(b)}L${scaled(c)} ${scaled(d)}`,
      );
      root.path(moves.join('')).attr({ ...name, fill: 'none', ...strokeOf(shape.stroke, scaled) });
      return;
    }
    case 'polygon': {
      const points = shape.points.map(([x, y]) => `${scaled(x)},${scaled(y)}`).join(' ');
      root.polygon(points).attr({ ...name, fill: shape.fill ?? 'none', ...strokeOf(shape.stroke, scaled) });
      return;
    }
    case 'circle': {
      const at = { cx: scaled(shape.x), cy: scaled(shape.y), r: scaled(shape.radius) };
      root.circle().attr({ ...at, ...name, fill: shape.fill ?? 'none', ...strokeOf(shape.stroke, scaled) });
      return;
    }
    case 'dots': {
      // A line of no length with round ends is a dot: one path instead of hundreds of circles.
      const moves = shape.points.map(([x, y]) => `M${scaled(x)} ${scaled(y)}h0`);
      const stroke = {
        stroke: shape.ink,
        'stroke-width': scaled(2 * shape.radius),
        'stroke-linecap': 'round',
      };
      root.path(moves.join('')).attr({ ...name, fill: 'none', ...stroke });
      return;
    }
    case 'text': {
      const [x, y] = [scaled(shape.x), scaled(shape.y)];
      // The set length keeps a label in its place when another typeface has to stand in.
      const length = scaled(textWidth(shape.text, shape.size, shape.weight));
      const text = root.plain(shape.text).attr({
        x,
        y,
        ...name,
        'font-size': scaled(shape.size),
        'font-weight': shape.weight === 'bold' ? 600 : 400,
        'text-anchor': shape.anchor,
        fill: shape.ink,
        textLength: length,
        lengthAdjust: 'spacingAndGlyphs',
      });
      if (shape.turned) text.attr({ transform: `rotate(-90 ${x} ${y})` });
    }
  }
}

function strokeOf(stroke: Stroke | undefined, scaled: Scaled): Record<string, string | number> {
  if (!stroke) return {};
  const line = { stroke: stroke.ink, 'stroke-width': scaled(stroke.width) };
  return stroke.dash ? { ...line, 'stroke-dasharray': stroke.dash.map(scaled).join(' ') } : line;
}

/** A hundredth of a millimetre of cloth is less than half the finest line. */
const round = (value: number): number => Math.round(value * 1000) / 1000;
