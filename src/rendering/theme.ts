/**
 * The look of everything that is drawn: ink on white, told apart by line and hatch, never by colour alone.
 * All widths, dashes and sizes are points (1/72 in), on the page as it is printed.
 */
export const INK = '#111111';
export const PAPER = '#ffffff';
/** Lines that must recede behind the labels. */
export const QUIET = '#8a8a8a';
export const SOFT = '#5a5a5a';
/** The weaves inside pieces. */
export const FAINT = '#b4b4b4';
/** The one tint: waste recedes into it. Prints as a light grey. */
export const TINT = '#edf0f0';

export interface Stroke {
  readonly width: number;
  readonly ink: string;
  readonly dash?: readonly number[];
}

const line = (width: number, ink = INK, dash?: readonly number[]): Stroke =>
  dash ? { width, ink, dash } : { width, ink };

/** One line style for each meaning; the legend is drawn from the same record. */
export const LINES = {
  outline: line(0.8),
  clothEdge: line(1.1),
  /** From edge to edge of the cloth, and of a part of it. */
  cut: [line(2.4), line(1.5)],
  foldEdge: line(2.6, INK, [10, 3]),
  crease: line(0.8, INK, [12, 2, 2, 2]),
  brokenEdge: line(0.7, INK, [2, 2]),
  rule: line(0.5),
  hairline: line(0.35, QUIET),
  waste: line(0.4, QUIET),
  grain: line(0.8),
  seam: line(0.5, SOFT, [3, 2]),
  'hem-fold': line(0.6, SOFT, [7, 1.8, 1.2, 1.8]),
  'turn-under': line(0.5, SOFT, [0.8, 1.6]),
  fold: line(0.6, SOFT, [6, 2.5]),
  join: line(0.9, SOFT, [1.5, 1.5]),
  flaw: line(1.4, INK, [1, 2.2]),
  panel: line(0.7, QUIET, [5, 1.6]),
  motif: line(0.7, QUIET),
} as const;

/** A cut that no ruler guides is drawn broken, so that the hands stop before they take up the blade. */
export const BLADE_DASHES: Readonly<Record<'rotary' | 'scissors' | 'tear', readonly number[] | undefined>> = {
  rotary: undefined,
  scissors: [5, 2],
  tear: [1.5, 2],
};

/** A fine weave that tells kinds of piece apart besides their letter. */
export type Weave = 'clear' | 'level' | 'upright' | 'squared' | 'paired' | 'stitched' | 'crossed' | 'slub';

export const WEAVES: readonly Weave[] = [
  'clear',
  'level',
  'upright',
  'stitched',
  'squared',
  'paired',
  'crossed',
  'slub',
];

export const weaveOf = (kind: number): Weave => WEAVES[kind % WEAVES.length]!;

/** Type sizes on a page held at the table. */
export const TYPE = {
  title: 22,
  heading: 14,
  subheading: 11,
  body: 9.5,
  small: 8,
  ruler: 7.5,
  flag: 7.5,
} as const;

export const FONT_FAMILY = "'Source Sans 3', 'Source Sans Pro', 'Helvetica Neue', Arial, sans-serif";

/** Points in a millimetre (ISO 32000-1, 8.3.2.3: the default unit is 1/72 inch; 1 in = 25.4 mm). */
export const POINTS_PER_MM = 72 / 25.4;
