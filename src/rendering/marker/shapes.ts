import type { Stroke } from '../theme.ts';

/** A rectangle on a page, in points, x to the right and y down from the top left. */
export interface PageBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What a shape stands for, so that drawings can be read back. */
interface Meaning {
  /** `piece`, `remnant`, `cut` and the like. */
  readonly role?: string;
  /** Unique on its page where given. */
  readonly id?: string;
}

export type Point = readonly [x: number, y: number];
export type Segment = readonly [x0: number, y0: number, x1: number, y1: number];

export interface TextShape extends Meaning {
  readonly kind: 'text';
  /** Anchor point on the baseline. */
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly weight: 'regular' | 'bold';
  readonly anchor: 'start' | 'middle' | 'end';
  /** Reads upwards: turned a quarter counter-clockwise about the anchor point. */
  readonly turned?: boolean;
  readonly ink: string;
}

/** All that a device has to be able to draw. Points on the page, y down. */
export type Shape =
  | (PageBox & Meaning & { readonly kind: 'rect'; readonly fill?: string; readonly stroke?: Stroke })
  | (Meaning & { readonly kind: 'lines'; readonly segments: readonly Segment[]; readonly stroke: Stroke })
  | (Meaning & {
      readonly kind: 'polygon';
      readonly points: readonly Point[];
      readonly fill?: string;
      readonly stroke?: Stroke;
    })
  | (Meaning & {
      readonly kind: 'circle';
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      readonly fill?: string;
      readonly stroke?: Stroke;
    })
  | (Meaning & {
      readonly kind: 'dots';
      readonly points: readonly Point[];
      readonly radius: number;
      readonly ink: string;
    })
  | TextShape;

/** One page, or one whole drawing. */
export interface Page {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

export function moved(shape: Shape, dx: number, dy: number): Shape {
  switch (shape.kind) {
    case 'lines':
      return { ...shape, segments: shape.segments.map(([a, b, c, d]) => [a + dx, b + dy, c + dx, d + dy]) };
    case 'polygon':
    case 'dots':
      return { ...shape, points: shape.points.map(([x, y]) => [x + dx, y + dy] as const) };
    default:
      return { ...shape, x: shape.x + dx, y: shape.y + dy };
  }
}

export const inset = (box: PageBox, by: number): PageBox => ({
  x: box.x + by,
  y: box.y + by,
  width: box.width - 2 * by,
  height: box.height - 2 * by,
});

export const overlaps = (a: PageBox, b: PageBox): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

export const within = (inner: PageBox, outer: PageBox): boolean =>
  inner.x >= outer.x &&
  inner.y >= outer.y &&
  inner.x + inner.width <= outer.x + outer.width &&
  inner.y + inner.height <= outer.y + outer.height;
