import type { Ticks } from '../units/ticks.ts';
import type { Panel, Panels } from './panel.ts';

export type ClothName = string;

/**
 * `plain`: no direction, a piece may lie any way round. `two-way`: the print looks alike head to tail, but not sideways.
 * `one-way`: every figure points the same way. `nap`: a pile that lies one way.
 */
export type ClothDirection = 'plain' | 'two-way' | 'one-way' | 'nap';

/** The bolt fold lies midway between the outer selvedge edges; on a length in hand it may lie elsewhere. */
export type Crease =
  | { readonly kind: 'none' }
  | { readonly kind: 'use'; readonly at?: Ticks }
  /** Nothing is cut within `each` of the crease, on either side. */
  | {
      readonly kind: 'keep-off';
      readonly each: Ticks;
      /** From the left outer edge, measured like the width; absent where it lies midway. */
      readonly at?: Ticks;
    };

export interface Selvedges {
  /** 0 where that edge is already cut. Left and right as the right side of the cloth faces up. */
  readonly left: Ticks;
  readonly right: Ticks;
}

/** Money in hundredths of the currency's unit, per length of cloth. */
export interface Price {
  readonly hundredths: number;
  readonly per: Ticks;
}

export interface BuyTerms {
  /** The shop cuts whole multiples of this. */
  readonly step: Ticks;
  /** No single length longer than this can be had. */
  readonly longest?: Ticks;
}

/** A print that starts again. Measures are those of the cloth as it was measured, before washing like its width. */
export interface Repeat {
  /** Along the length, and across the width; absent where the print does not repeat that way. */
  readonly along?: Ticks;
  readonly across?: Ticks;
  /** `half`: every second column of motifs starts half a repeat higher. */
  readonly drop: 'straight' | 'half';
  /** Centre of the first motif from the left outer edge; needed to centre a motif across a piece. */
  readonly fromEdge?: Ticks;
}

/** A hole, stain or cut-away corner: x from the left outer edge, y from the near end, measured like the length itself. */
export interface Flaw {
  readonly outline: readonly { readonly x: Ticks; readonly y: Ticks }[];
}

/** A length that is already at hand. Widths and edges default to the cloth's own. */
export interface LengthInHand {
  readonly name: string;
  readonly length: Ticks;
  readonly width: Ticks;
  readonly selvedge: Selvedges;
  readonly crease: Crease;
  readonly copies: number;
  /** Pieces and keepable leftovers stay off all of them. */
  readonly flaws?: readonly Flaw[];
  /** Centre of the first motif from the near end, measured like the length; absent where it is not known. */
  readonly firstMotif?: Ticks;
  /** Centre of that motif from its left outer edge, where it does not lie as `fromEdge` of the cloth's repeat says. */
  readonly motifFromEdge?: Ticks;
  /** Its own printed panels, once, in place of those of the cloth. */
  readonly panels?: readonly Panel[];
  /** Where a repeat of the cloth's panels begins, from the near end; at the end itself unless said. */
  readonly panelsBegin?: Ticks;
  /** Already washed, so it keeps its size: only the rest of the cloth still shrinks. */
  readonly washed?: true;
  /** All its measures are told as it lies once it has been turned about, so that its crease lies left of its middle. */
  readonly turnedAbout?: true;
  /** What the maker asks for using it, where it may also be left whole and cloth be bought instead. */
  readonly worth?: Worth;
  /** Present where it lies in the cupboard: the entry it is one copy of. */
  readonly entry?: { readonly name: string; readonly where?: string };
}

/** Money in hundredths of the currency's unit, per area of cloth. */
export interface Worth {
  readonly hundredths: number;
  /** In square ticks. */
  readonly per: number;
}

/** A fraction in whole numbers, so that shrinkage stays exact: 3 % is 3/100, a swatch of 500 → 485 mm is 15/500. */
export interface Fraction {
  readonly numerator: number;
  readonly denominator: number;
}

export interface Washing {
  /** Loss of length as a part of the unwashed length; likewise across the width. */
  readonly along: Fraction;
  readonly across: Fraction;
  /** Whether the cloth is washed before it is cut; the measures of the cloth are those before washing. */
  readonly washed: 'before-cutting' | 'after-sewing';
  /** Its width was measured on washed cloth, and stands here worked back; for telling it as it was measured. */
  readonly widthFromWashed?: true;
  /** Washed after sewing: pieces are cut so much larger that they come to their finished size in the wash. */
  readonly cutLarger?: true;
}

export interface Cloth {
  readonly name: ClothName;
  /** Overall, selvedge edge to selvedge edge. */
  readonly width: Ticks;
  readonly selvedge: Selvedges;
  readonly crease: Crease;
  readonly direction: ClothDirection;
  /** Which way the print's up points when the length lies up and down: along the length or across it. */
  readonly printRuns: 'along' | 'across';
  /** Lost in squaring each end of every length. */
  readonly squaring: Ticks;
  /** Woven plainly enough to be torn along a thread, across and along. */
  readonly tearsTrue?: true;
  readonly washing?: Washing;
  readonly repeat?: Repeat;
  readonly panels?: Panels;
  /** Filled in by planning: length bought or kept back because the print's start is not known. */
  readonly startReserve?: Ticks;
  /** Whether that is for printed panels, which are counted from the near end; a print is begun there instead. */
  readonly reservedForPanels?: true;
  readonly price?: Price;
  readonly buy?: BuyTerms;
  readonly inHand: readonly LengthInHand[];
  /** How the maker wants it laid: `flat` finds what can be cut folded anyway, `folded` cuts everything in two plies. */
  readonly lay: 'flat' | 'folded';
  /**
   * Of a folded lay: how far the fold lies from the left outer edge, as the cloth lies on the table, at most half its width;
   * beyond the edge that is folded over, the cloth lies in one ply. Absent for a fold down the middle.
   */
  readonly foldAt?: Ticks;
  /** Laid and folded once: parts are neither folded nor stacked again for single cuts. */
  readonly oneSpread?: true;
  /** Names under which a part may ask for any of several cloths. */
  readonly groups?: readonly string[];
  readonly note?: string;
  /** Where it is bought. */
  readonly shop?: string;
  /** What a keepable leftover of it is worth to the maker, where that is not as the plan says. */
  readonly leftoverWorth?: Worth;
  /** Present where it has been bought, washed and measured: then its other fields say what is now true. */
  readonly measured?: MeasuredCloth;
}

/** What the plan had reckoned with, and what was found at the mat. */
export interface MeasuredCloth {
  readonly lengths: readonly MeasuredLength[];
  readonly reckoned: {
    readonly width: Ticks;
    readonly washing?: Washing;
    readonly buy?: BuyTerms;
  };
}

/** One length in hand that was measured after washing. */
export interface MeasuredLength {
  /** Of the length in hand. */
  readonly name: string;
  readonly width: Ticks;
  readonly length: Ticks;
  /** What it measured along before washing, where that is told. */
  readonly before?: Ticks;
  /** It was in hand before; no part of what was bought for the plan. */
  readonly wasInHand?: true;
}
