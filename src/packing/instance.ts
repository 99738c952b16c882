/**
 * What the packing engine is asked. Integers and rectangles only: no cloth, no inches.
 *
 * `width` runs along x, `length` along y. Every number is a whole number unless its comment says otherwise.
 */
export interface Kind {
  readonly width: number;
  readonly length: number;
  /** How many are wanted (strip and sheets), or at most usable (value from a sheet; Infinity for no limit). */
  readonly copies: number;
  /** May be laid a quarter turn round. */
  readonly quarterTurn: boolean;
  /** Worth of one copy; only *most from this sheet* reads it. Defaults to the area. */
  readonly value?: number;
  /**
   * Where the near corner of an unturned copy may lie, for matched prints: x ≡ one of `x.offsets` (mod `x.period`), and
   * likewise y, in the coordinates of the sheet. A kind with a lattice takes no quarter turn.
   */
  readonly lattice?: Lattice;
  /**
   * What belongs to a sheet and is neither asked for nor worth anything: it is left whole where a sheet that has it fixed
   * is opened, and no sheet is opened for it. `copies` is 0, `value` 0.
   */
  readonly withSheet?: true;
}

export interface Lattice extends LatticePoints {
  /** Points that serve as well, on their own x and y together: the second columns of a half drop. Same periods. */
  readonly or?: LatticePoints;
}

export interface LatticePoints {
  readonly x?: { readonly period: number; readonly offsets: readonly number[] };
  readonly y?: { readonly period: number; readonly offsets: readonly number[] };
}

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A piece placed beforehand; it takes one of the copies of its kind. */
export interface Placement {
  readonly kind: number;
  readonly x0: number;
  readonly y0: number;
  readonly turned: boolean;
}

export interface Sheet {
  readonly width: number;
  /** Infinity for a strip of open length (only in `shortestLength`, which then minimises it). */
  readonly length: number;
  /** Boxes that no piece may overlap. A strip over the whole length or width is a box like any other. */
  readonly forbidden?: readonly Box[];
  readonly fixed?: readonly Placement[];
  /** Everything is cut twice, mirrored at this x: `width` is the opened width, the answer's tree likewise. */
  readonly mirrorAt?: number;
  /** How many sheets of this kind are at hand; only `fewestSheets` reads it. Defaults to 1. */
  readonly copies?: number;
  /** What opening one costs; only `fewestSheets` reads it. Defaults to the area. */
  readonly cost?: number;
}

/** Cut stages: 2 (crosscuts, then lengthwise cuts, then trimming to size), 3, or any number. */
export type Stages = 2 | 3 | 'any';

/** Weights of what is preferred among answers of equal value; each at least 0. */
export interface Preferences {
  /** Few, large left-over rectangles. */
  readonly largeRemnants: number;
  readonly fewCuts: number;
  /** Both halves of a cut alike, so that they can be cut in two plies. */
  readonly alikeHalves: number;
  /** Few different cut positions: each is a new setting of the ruler. */
  readonly fewSettings: number;
  /** No cut longer than `reach`; 0 weight or absent reach for no wish. */
  readonly withinReach: number;
  readonly reach?: number;
}

export interface PackOptions {
  /** Most search nodes to spend; the same effort gives the same answer on every machine. */
  readonly effort: number;
  readonly seed: number;
  readonly stages?: Stages;
  readonly preferences?: Preferences;
  /** Asked every few thousand nodes; true ends the search early with the best answer so far. */
  readonly stop?: () => boolean;
  /** Told of each better answer, and now and then of the node count. */
  readonly onProgress?: (progress: PackProgress) => void;
}

export interface PackProgress {
  readonly nodes: number;
  readonly value: number | undefined;
  readonly bound: number;
}

/** *Shortest length*: all copies of all kinds from one strip. `sheet.length` is the longest allowed (Infinity: no limit). */
export interface ShortestQuestion {
  readonly sheet: Sheet;
  readonly kinds: readonly Kind[];
}

/** *Most from this sheet*: most total value, or most complete sets when `set` gives the copies of each kind in one set. */
export interface MostQuestion {
  readonly sheet: Sheet;
  readonly kinds: readonly Kind[];
  /** Copies of each kind in one complete set; then the value is the number of sets, and `copies` limits still hold. */
  readonly set?: readonly number[];
}

/** *Fewest or cheapest sheets*: all copies of all kinds from sheets of least total cost. */
export interface FewestQuestion {
  readonly sheets: readonly Sheet[];
  readonly kinds: readonly Kind[];
}
