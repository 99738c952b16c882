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
  /** Of a `join`: what meets there, and whether this part is seamed to it, lies over it or under it. */
  readonly meets?: { readonly part: PieceId; readonly side: 'seam' | 'over' | 'under' };
}

/** How a piece that is larger than its cloth may be joined from parts. */
export interface JoinRule {
  /** Cloth is seamed; fusible interfacing is lapped and fused, never seamed. */
  readonly by: 'seam' | 'lap';
  /** Seam: the allowance on each of the two edges. Lap: how far one part lies over the other. */
  readonly allowance: Ticks;
  /** How the join lines may run in the upright piece; `either` permits both at once where one way is not enough. */
  readonly lines: 'upright' | 'level' | 'either';
  /** Join lines in all. */
  readonly mostJoins: number;
  /** No part is cut narrower than this, measured across its join lines. */
  readonly narrowest: Ticks;
  /** No join through the middle: the middle line is clear of all that a join takes up. */
  readonly clearMiddle: boolean;
}

/**
 * What a piece asks of the print. `centre` and `point`: a motif lies there (a point is measured from the lower left of the
 * upright cut size). `alike`: every copy takes the same place in the repeat. `drops`: every copy starts at the same height
 * of the repeat, as curtain drops do; the last needs no whole repeat. A part of a joined piece starts `from` further on in the
 * print than the piece itself, so that the print runs on over the join.
 */
export type Match =
  | { readonly kind: 'centre' }
  | { readonly kind: 'point'; readonly x: Ticks; readonly y: Ticks }
  | { readonly kind: 'alike' }
  | { readonly kind: 'drops'; readonly from?: Ticks };

/** The printed panel that lies in the middle of a piece. */
export interface PanelInPiece {
  readonly name: string;
  /** Of the make; empty for a loose piece. */
  readonly part: string;
  /** Name of the piece that it is cut for, which several panels may be dealt to. */
  readonly front: string;
}

/** What a piece does in mounting a panel to the size of its front. */
export interface InMount {
  readonly as: 'panel' | 'side strip' | 'end strip' | 'ground';
  readonly panel: string;
  readonly part: string;
  readonly front: string;
  /** Cut size of the front that they make together. */
  readonly makes: Size;
}

/** The place of a part in the piece it is joined into. */
export interface PartOf {
  /** Id of the piece as the make asks for it. */
  readonly piece: PieceId;
  /** Row by row from the lower left, from 0. */
  readonly index: number;
  readonly count: number;
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
  /** Part of the make it belongs to; told where the cloth of the order was left open. */
  readonly part?: string;
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
  /** Present where it is cut larger for a wash to come: what `finished` then comes to, at least. */
  readonly washesTo?: Size;
  /** Present where the plan permits joining it, should it be larger than the cloth. */
  readonly join?: JoinRule;
  /** Which way its cover closes, where the order leaves that to the plan and the piece hangs on it. */
  readonly opening?: 'level' | 'upright';
  /** Whether a part of it stands upside down when sewn, so that it is not for a print or a nap with an up. */
  readonly bothWaysUp?: true;
  /** What it asks of the print; only on a cloth with a repeat. */
  readonly match?: Match;
  /** The printed panel it is cut around; only on a cloth with panels. */
  readonly panel?: PanelInPiece;
  /** Present on a panel that is mounted, and on what it is mounted with. */
  readonly mount?: InMount;
  /** Cut across a fold of the cloth, its middle line on the fold: half of it is set from there. */
  readonly onFold?: true;
  /** Present on a part of a joined piece. */
  readonly partOf?: PartOf;
}

/**
 * Copies of a piece that had to be joined, and the parts each is joined from; other copies of it may be joined otherwise. Each extent lies on the ruler's marks; together they
 * are the piece plus what the joins between them take up. A piece that is joined one way only has one column or one row.
 */
export interface JoinedPiece {
  /** As it is wanted, all its copies counted. */
  readonly piece: PieceWanted;
  /** How many of them are joined so. */
  readonly copies: number;
  /** Widths of the parts, left to right. */
  readonly columns: readonly Ticks[];
  /** Lengths of the parts, bottom to top. */
  readonly rows: readonly Ticks[];
  /** Row by row from the lower left. */
  readonly parts: readonly PieceId[];
}

/** One line of arithmetic that a person can check: `18 + 2 × 1/2 = 19`. */
export interface ArithmeticLine {
  readonly what: string;
  /** Terms in reading order: words and signs as text, lengths as ticks. */
  readonly terms: readonly (string | { readonly ticks: Ticks })[];
}

/** How many covers of an order close which way. */
export interface OpeningSplit {
  readonly level: number;
  readonly upright: number;
}

/** All that one order of a make comes to, besides its pieces. */
export interface MakeSheet {
  readonly order: string;
  readonly make: string;
  readonly count: number;
  readonly title: string;
  /** Of what is no make but a loose piece made up of several: its cut size. */
  readonly finished: Size;
  /** No make: a loose piece whose panel is mounted. */
  readonly loose?: true;
  /** Of `arithmetic` and `assembly`, what mounts its panels; absent where none is mounted. */
  readonly mounting?: Pick<MakeSheet, 'arithmetic' | 'assembly'>;
  /** Present where the order leaves to the plan which way its covers close. */
  readonly openings?: OpeningSplit;
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
