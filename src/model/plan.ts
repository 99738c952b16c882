import type { Ticks } from '../units/ticks.ts';
import type { Cloth, ClothName, Worth } from './cloth.ts';
import type { ClothSet } from './collection.ts';
import type { CupboardDrawn } from './cupboard.ts';
import type { GoodsLine } from './goods.ts';
import type { Wish } from './leftover-use.ts';
import type { MeasureValue } from './measure.ts';
import type { PanelAsked } from './panel.ts';
import type { JoinRule, Match, Size } from './piece.ts';

export type PlanUnit = 'in' | 'cm';

/** A validated plan: every length in ticks, every name resolved, every default filled in. */
export interface Plan {
  readonly name: string;
  /** A remark that is printed with it, such as what had to change at the mat. */
  readonly note?: string;
  /** What a bare number means, and what is printed. */
  readonly unit: PlanUnit;
  /** Smallest mark used on the ruler: cut sizes are rounded up to it, usable widths down. */
  readonly rulerMark: Ticks;
  readonly paper: 'letter' | 'a4';
  /** Sign or code printed with amounts, such as `$` or `EUR`. */
  readonly currency: string;
  /** A leftover at least this large (either way round) is a remnant; anything smaller is scrap. */
  readonly keep: Size;
  readonly tools: Tools;
  readonly cloths: readonly Cloth[];
  readonly makes: readonly MakeOrder[];
  readonly pieces: readonly LoosePiece[];
  /** The cupboard that it may draw on, where one was named. */
  readonly cupboard?: CupboardDrawn;
  /** Limit on cut stages, where the maker wants one. */
  readonly stages: 2 | 3 | 'any';
  /** Where free, at the left edges, unless said. */
  readonly stacks?: StackRule;
  /** Orders whose cloths are bound by rules; absent where every part has one cloth. */
  readonly sets?: readonly ClothSet[];
  /** What the maker would like to have if cloth is left, best first. */
  readonly wishes?: readonly Wish[];
  /** What a keepable leftover is worth to the maker; a cloth may say otherwise. */
  readonly leftoverWorth?: Worth;
  /** What is needed besides cloth. */
  readonly goods?: readonly GoodsLine[];
}

export interface Tools {
  readonly rulerLength: Ticks;
  /** Smallest mark of that ruler: what is set from a fold falls on it too. */
  readonly rulerMark?: Ticks;
  readonly mostPlies: 1 | 2 | 4;
  /** Absent: how a setting is measured is left to the maker. */
  readonly rulerWidth?: Ticks;
  /** The cutting mat, either way round; absent: any cut lies on it. */
  readonly mat?: Size;
  /** What is welcome where neither ruler nor fold reaches; scissors, unless said. */
  readonly longCuts?: 'scissors' | 'tear' | 'tear-or-scissors' | 'neither';
}

/** Whether cloths that can be cut alike are laid on each other, and at which of their edges they are aligned. */
export interface StackRule {
  /** `where-free`: only where it costs no money and opens no more cloth. `always`: wherever it saves cuts. */
  readonly take: 'never' | 'where-free' | 'always';
  readonly edge: 'left' | 'right';
}

/** One order: so many of one make. */
export interface MakeOrder {
  readonly name: string;
  /** The make's `kind`. */
  readonly make: string;
  readonly count: number;
  /** By the make's own measure names; checked and filled in against its `MakeSpec`. */
  readonly measures: Readonly<Record<string, MeasureValue>>;
  /** Part → what its pieces ask of the print. */
  readonly matches?: Readonly<Record<string, Match>>;
  /** Part → the printed panels that its pieces are cut around. */
  readonly panels?: Readonly<Record<string, PanelAsked>>;
  /** Parts that are cut across a fold of the cloth. */
  readonly onFold?: readonly string[];
  /** Part → cloth; of a part with a choice, the first that it may be cut from. */
  readonly cloths: Readonly<Record<string, ClothName>>;
  /** Part → all cloths it may be cut from, in the plan's order of cloths; only parts that may be cut from several. */
  readonly choices?: Readonly<Record<string, readonly ClothName[]>>;
  /** The choice is for the whole thing: each is cut from one of the cloths, with all its parts that have the choice. */
  readonly whole?: true;
}

export interface LoosePiece {
  readonly name: string;
  readonly count: number;
  /** The cut size as wanted, before rounding to the ruler. */
  readonly size: Size;
  /** With a choice, the first that it may be cut from. */
  readonly cloth: ClothName;
  /** All cloths it may be cut from, in the plan's order of cloths; only where there are several. */
  readonly choices?: readonly ClothName[];
  readonly match?: Match;
  readonly panel?: PanelAsked;
  readonly grain: 'lengthwise' | 'crosswise' | 'either';
  /** Cut across a fold of the cloth. */
  readonly onFold?: true;
  /** Present where it may be joined, should it be larger than its cloth. */
  readonly join?: JoinRule;
}
