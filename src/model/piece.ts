import type { Ticks } from '../units/ticks.ts';
import type { ClothName } from './cloth.ts';

export type PieceId = string;

export interface Size {
  /** Across the piece as it stands upright. */
  readonly width: Ticks;
  /** Up the piece as it stands upright. */
  readonly length: Ticks;
}

/** A box in whole ticks, x across and y up, both from a lower left corner. */
export interface Box {
  readonly x0: Ticks;
  readonly y0: Ticks;
  readonly x1: Ticks;
  readonly y1: Ticks;
}

/** A straight line inside a piece, in the piece's own upright frame. */
export interface PieceLine {
  readonly kind: 'seam' | 'hem-fold' | 'turn-under' | 'fold' | 'join';
  readonly x0: Ticks;
  readonly y0: Ticks;
  readonly x1: Ticks;
  readonly y1: Ticks;
}

/**
 * One rectangle to cut, as the makes ask for it.
 * All lines and the finished outline lie in the upright frame: x across, y up, from the lower left corner of the cut size.
 */
export interface PieceWanted {
  /** Unique in the plan, from the order and the part: `window seat covers/outer back`. */
  readonly id: PieceId;
  /** Short mark on the marker: A, B, ... Z, AA. */
  readonly letter: string;
  /** Tells its place in the thing sewn: `front`, `outer back`. */
  readonly name: string;
  /** The order it belongs to, by name. */
  readonly order: string;
  readonly cloth: ClothName;
  /** Cut size: already rounded up to the ruler's marks. */
  readonly size: Size;
  /** Before that rounding. */
  readonly exactSize: Size;
  readonly copies: number;
  /** Which way the piece's own upright must run on the cloth; `either` leaves it to the cloth's direction. */
  readonly grain: 'lengthwise' | 'crosswise' | 'either';
  /** What is seen after sewing, inside the cut size. */
  readonly finished: Box;
  readonly lines: readonly PieceLine[];
}

/** One line of arithmetic that a person can check: `18 + 2 × 1/2 = 19`. */
export interface ArithmeticLine {
  readonly what: string;
  /** Terms in reading order: words and signs as text, lengths as ticks. */
  readonly terms: readonly (string | { readonly ticks: Ticks })[];
}

/** All that one order of a make comes to, besides its pieces. */
export interface MakeSheet {
  readonly order: string;
  readonly make: string;
  readonly count: number;
  readonly title: string;
  readonly finished: Size;
  readonly arithmetic: readonly ArithmeticLine[];
  /** In the order of the hands, one plain sentence each. */
  readonly assembly: readonly string[];
  /** Cautions that this make calls for, by name; their wording lives in one place. */
  readonly cautions: readonly CautionName[];
}

export type CautionName =
  | 'rotary-cutter'
  | 'iron-and-fusing'
  | 'infant-sleep'
  | 'curtain-cords'
  | 'flammability'
  | 'wash-and-care';
