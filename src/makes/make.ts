import type { MakeSpec } from '../model/measure.ts';
import type { ArithmeticLine, CautionName, JoinRule, PieceWanted, Size } from '../model/piece.ts';
import type { MakeOrder, PlanUnit } from '../model/plan.ts';
import type { Ticks } from '../units/ticks.ts';
import type { Edges, FoldLine } from './edges.ts';

/** One kind of thing to sew: what it asks for, and its rule from finished size to cut pieces. */
export interface Make {
  readonly spec: MakeSpec;
  /** The order's measures are complete and of the kinds that the `spec` names. Cut sizes are exact, not yet on the ruler's marks. */
  readonly expand: (order: MakeOrder, context: MakeContext) => MadeUp;
}

export interface MakeContext {
  readonly unit: PlanUnit;
  /** Smallest mark used on the ruler: a measure that the make chooses itself lies on one. */
  readonly rulerMark: Ticks;
}

/** What one order comes to, before cloths, letters and the ruler's marks. */
export interface MadeUp {
  /** Of the whole thing when sewn, as it stands. */
  readonly finished: Size;
  /** Empty where a remark is an error. */
  readonly pieces: readonly PieceOfMake[];
  readonly arithmetic: readonly ArithmeticLine[];
  readonly assembly: readonly string[];
  readonly cautions: readonly CautionName[];
  readonly remarks: readonly Remark[];
}

/** A rectangle of one make, upright as the make stands, seen from the right side of the cloth. */
export interface PieceOfMake {
  /** Unique in the make; tells the piece's place. */
  readonly name: string;
  /** The part of the `spec` whose cloth it is cut from. */
  readonly part: string;
  /** In one of the make. */
  readonly perMake: number;
  readonly finished: Size;
  readonly edges: Edges;
  readonly folds?: readonly FoldLine[];
  /** Present where it is cut larger for a wash to come: the finished size that is asked for. */
  readonly washesTo?: Size;
  readonly grain: PieceWanted['grain'];
  /** Whether a part of it stands upside down when sewn. */
  readonly bothWaysUp?: true;
  /** Present where it may be joined, should it be larger than its cloth. */
  readonly join?: JoinRule;
}

/** Where good practice is missed (`warning`) or nothing can be made of it (`error`), with the figures. */
export interface Remark {
  readonly severity: 'error' | 'warning';
  /** The measure to look at first. */
  readonly measure: string;
  /** A whole sentence, with {name} where a figure stands. */
  readonly sentence: string;
  readonly figures: Readonly<Record<string, Ticks | string>>;
}
