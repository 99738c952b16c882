import type { Block } from '../marker/row.ts';
import { moved, type Page, type Shape, type TextShape } from '../marker/shapes.ts';
import { textWidth, wrap } from '../marker/text-width.ts';
import { INK, LINES, SOFT, TYPE } from '../theme.ts';

/** A sheet of paper in points, upright. */
export interface Paper {
  readonly width: number;
  readonly height: number;
}

/**
 * US Letter is 8.5 × 11 in (ANSI/ASME Y14.1, size A); A4 is 210 × 297 mm (ISO 216). 1 in = 72 points, 1 mm = 72/25.4.
 */
export const PAPERS: Readonly<Record<'letter' | 'a4', Paper>> = {
  letter: { width: 612, height: 792 },
  a4: { width: (210 * 72) / 25.4, height: (297 * 72) / 25.4 },
};

/** Half an inch all round, which common printers reach, and room for the footer below. */
export const MARGIN = 36;
export const FOOTER_ROOM = 20;

export interface TextStyle {
  readonly size?: number;
  readonly weight?: 'regular' | 'bold';
  readonly ink?: string;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly role?: string;
}

export function textAt(x: number, y: number, text: string, style: TextStyle = {}): TextShape {
  return {
    kind: 'text',
    x,
    y,
    text,
    size: style.size ?? TYPE.body,
    weight: style.weight ?? 'regular',
    anchor: style.anchor ?? 'start',
    ink: style.ink ?? INK,
    ...(style.role ? { role: style.role } : {}),
  };
}

/** Wrapped lines from a top edge; `y` of the first baseline is one ascent below it. */
export function paragraph(text: string, width: number, style: TextStyle = {}): Block {
  const size = style.size ?? TYPE.body;
  const leading = size * 1.32;
  const lines = wrap(text, width, size, style.weight ?? 'regular');
  return {
    width,
    height: lines.length * leading,
    shapes: lines.map((line, index) => textAt(0, size * 0.95 + index * leading, line, style)),
  };
}

/** Upright pages that are filled from the top; a block that does not fit goes on to the next page. */
export class Flow {
  readonly pages: Shape[][] = [];
  readonly paper: Paper;
  readonly width: number;
  #y = Number.POSITIVE_INFINITY;
  #under: string | undefined;

  constructor(paper: Paper) {
    this.paper = paper;
    this.width = paper.width - 2 * MARGIN;
  }

  get bottom(): number {
    return this.paper.height - MARGIN - FOOTER_ROOM;
  }

  /** What is left on this page, in points. */
  get room(): number {
    return Math.max(0, this.bottom - this.#y);
  }

  newPage(): void {
    this.pages.push([]);
    this.#y = MARGIN;
  }

  space(points: number): void {
    this.#y += points;
  }

  /** Starts a page unless `height` still fits on this one. */
  need(height: number): void {
    if (this.#y + height <= this.bottom + 1e-6) return;
    this.newPage();
    const title = this.#under;
    if (title === undefined) return;
    this.#under = undefined;
    this.paragraph(`${title}, continued`, { weight: 'bold', ink: SOFT, role: 'continued' });
    this.space(3);
    this.#under = title;
  }

  /** What is set by `fill` belongs under a title, which is told again on every further page that it needs. */
  under(title: string, fill: () => void): void {
    this.#under = title;
    fill();
    this.#under = undefined;
  }

  /** Sets a block at the left margin, `indent` points in. */
  add(block: Block, indent = 0): void {
    this.need(block.height);
    const page = this.pages.at(-1)!;
    for (const shape of block.shapes) page.push(moved(shape, MARGIN + indent, this.#y));
    this.#y += block.height;
  }

  /** A heading with a rule above it, never left alone at the foot of a page: `follow` points must fit below it. */
  heading(text: string, follow = 40): void {
    this.need(34 + follow);
    if (this.#y > MARGIN) this.space(12);
    const segments = [[0, 0, this.width, 0]] as const;
    this.add({
      width: this.width,
      height: 22,
      shapes: [
        { kind: 'lines', segments, stroke: LINES.clothEdge },
        textAt(0, 16, text, { size: TYPE.heading, weight: 'bold', role: 'heading' }),
      ],
    });
  }

  subheading(text: string, follow = 24): void {
    const block = paragraph(text, this.width, { size: TYPE.subheading, weight: 'bold', role: 'subheading' });
    this.need(block.height + 6 + follow);
    this.space(6);
    this.add(block);
    this.space(2);
  }

  paragraph(text: string, style: TextStyle = {}, indent = 0): void {
    for (const shape of paragraph(text, this.width - indent, style).shapes) {
      const leading = (style.size ?? TYPE.body) * 1.32;
      const line = shape as TextShape;
      this.add(
        { width: this.width, height: leading, shapes: [{ ...line, y: (style.size ?? TYPE.body) * 0.95 }] },
        indent,
      );
    }
  }

  finish(): Page[] {
    return this.pages.map((shapes) => ({ ...this.paper, shapes }));
  }
}

/** A value under its name, as in a table without lines. Width and height in points. */
export function figureBlock(name: string, value: string, width: number): Block {
  const label = textAt(0, 8, name, { size: 7.5, ink: SOFT, role: 'figure-name' });
  const words = paragraph(value, width - 8, { role: 'figure' });
  return {
    width,
    height: 11 + words.height,
    shapes: [label, ...words.shapes.map((shape) => moved(shape, 0, 11))],
  };
}

/** The least width of text in a style, for columns. */
export const widthOf = (text: string, style: TextStyle = {}): number =>
  textWidth(text, style.size ?? TYPE.body, style.weight ?? 'regular');

/** Blocks beside each other at given left edges; as high as the highest. */
export function beside(parts: readonly (readonly [x: number, block: Block])[], width: number): Block {
  return {
    width,
    height: Math.max(0, ...parts.map(([, block]) => block.height)),
    shapes: parts.flatMap(([x, block]) => block.shapes.map((shape) => moved(shape, x, 0))),
  };
}

/** Blocks below each other, `gap` points apart. */
export function stack(blocks: readonly Block[], width: number, gap = 0): Block {
  const shapes: Shape[] = [];
  let y = 0;
  for (const [index, block] of blocks.entries()) {
    if (index > 0) y += gap;
    for (const shape of block.shapes) shapes.push(moved(shape, 0, y));
    y += block.height;
  }
  return { width, height: y, shapes };
}
