import type { Ticks } from '../units/ticks.ts';
import type { Cloth, ClothName } from './cloth.ts';
import type { ClothRules } from './collection.ts';
import type { CutPlan } from './cut-plan.ts';
import type { MeasureValue } from './measure.ts';
import type { Box, Match, Size } from './piece.ts';

/** Something that the maker would like to have if cloth is left. */
export interface Wish {
  readonly name: string;
  /** The make's `kind`. */
  readonly make: string;
  readonly measures: Readonly<Record<string, MeasureValue>>;
  /** All its parts are cut from one of these; from any cloth of the plan where it says nothing. */
  readonly cloths?: readonly ClothName[];
  /** Part → the cloths it may be cut from, where that is told by part; then `cloths` is absent. */
  readonly parts?: Readonly<Record<string, readonly ClothName[]>>;
  /** What must hold of the cloths of all of them, where parts may be cut from several. */
  readonly rules?: ClothRules;
  /** Part → what its pieces ask of the print; it is then cut from cloths with a repeat alone. */
  readonly matches?: Readonly<Record<string, Match>>;
  /** More are of no use; absent where any number is. */
  readonly most?: number;
  /** Fewer are of no use. */
  readonly least: number;
  /** What one is worth to the maker, in hundredths. */
  readonly worth?: number;
}

/** One keepable leftover, told as a length in hand under `name`: squared, with the edges that no cut took away. */
export interface Left {
  readonly name: string;
  /** The length that it is left of, and where it lies on that opened length; absent where it comes from the cupboard. */
  readonly from?: { readonly length: string; readonly box: Box };
  readonly size: Size;
}

/** What one cloth leaves, as a cloth of its own: its lengths in hand are the leftovers, and nothing of it is bought. */
export interface LeftOfCloth {
  readonly cloth: Cloth;
  readonly left: readonly Left[];
}

/** Where the size of a use comes from: the maker's own list, an order of the plan, or a size that is usual in the trade. */
export type UseSource = 'list' | 'plan' | 'usual';

/** So many of one make that the leftovers of a cloth give, with the plan that cuts them. */
export interface LeftoverUse {
  readonly wish: Wish;
  readonly source: UseSource;
  /** Of the whole thing when sewn. */
  readonly finished: Size;
  readonly count: number;
  /** No more can be had from these leftovers (or more would be of no use). */
  readonly proven: boolean;
  /** Some piece is joined from parts. */
  readonly joined: boolean;
  /** Leftovers that it is cut from, by name. */
  readonly from: readonly string[];
  /** Area of its pieces ÷ area of all leftovers of the cloth, per cent. */
  readonly takes: number;
  /** Of all of them, in hundredths; 0 where the maker says nothing. */
  readonly worth: number;
  /** Cuts exactly these from the leftovers, which are its lengths in hand. */
  readonly plan: CutPlan;
}

/** Several uses that are cut from the same leftovers together. */
export interface UsesTogether {
  readonly uses: readonly Pick<LeftoverUse, 'wish' | 'source' | 'finished' | 'count'>[];
  readonly worth: number;
  readonly plan: CutPlan;
}

/** What a little more cloth would give, over what the leftovers give anyway. */
export interface MoreToBuy {
  readonly wish: Wish;
  readonly source: UseSource;
  readonly finished: Size;
  /** Of it, with so much more bought; and what the leftovers give without. */
  readonly count: number;
  readonly without: number;
  /** Beyond what the plan buys, in the shop's steps; 0 where cutting otherwise is enough. */
  readonly more: Ticks;
  /** What would have to be bought for so many by themselves; always more than the addition. */
  readonly alone: Ticks;
  /** In hundredths; absent without a price. */
  readonly cost?: number;
  /** Cuts what the plan wants from this cloth, and these with it. */
  readonly plan: CutPlan;
}

/** So many of one make whose parts are cut from the leftovers of several cloths. */
export interface UseAcross {
  readonly wish: Wish;
  readonly source: UseSource;
  readonly finished: Size;
  readonly count: number;
  /** No more can be had from these leftovers, however the cloths are given to parts (or more would be of no use). */
  readonly proven: boolean;
  readonly joined: boolean;
  /** Leftovers that it is cut from, by name, cloth by cloth: of two cloths at least. */
  readonly from: readonly { readonly cloth: ClothName; readonly lengths: readonly string[] }[];
  /** Of all of them, in hundredths. */
  readonly worth: number;
  /** Cuts exactly these from the leftovers of its cloths. */
  readonly plan: CutPlan;
}

/** What the leftovers of one cloth could become, best use first. */
export interface ClothUses extends LeftOfCloth {
  readonly uses: readonly LeftoverUse[];
  /** Present where more than one use fits beside another. */
  readonly together?: UsesTogether;
  /** The smallest addition first; empty where the cloth is not bought. */
  readonly more: readonly MoreToBuy[];
}
