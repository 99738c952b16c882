import type { Ticks } from '../units/ticks.ts';
import type { Size } from './piece.ts';

/** How wide a hem is seen, and how much is turned under it; their sum is the cloth it takes up. */
export interface Hem {
  readonly visible: Ticks;
  readonly under: Ticks;
}

/**
 * One measure that a make asks for. Help, the reading of plan files and the JSON Schema all come from this record.
 * `default` is as a person would write it, one for plans in inches and one for plans in centimetres.
 */
export type MeasureSpec = {
  readonly meaning: string;
  readonly default?: { readonly inches: string; readonly metric: string };
  /** May be left out although it has no default. */
  readonly optional?: true;
  /** Tells the size of what is sewn, which may be made a little smaller where cloth is short. */
  readonly mayGive?: true;
} & (
  | { readonly kind: 'length'; readonly least?: 'zero' | 'positive' }
  | { readonly kind: 'size' }
  | { readonly kind: 'hem' }
  | { readonly kind: 'count'; readonly least: number }
  | { readonly kind: 'factor'; readonly least: string; readonly most: string }
  | { readonly kind: 'choice'; readonly choices: readonly string[] }
  | { readonly kind: 'yes-no' }
);

/** What a plan may say about one kind of make. */
export interface MakeSpec {
  /** As written after `kind:` in a plan. */
  readonly kind: string;
  readonly title: string;
  readonly summary: string;
  readonly measures: Readonly<Record<string, MeasureSpec>>;
  /** What one of it needs besides cloth, with the measure that is its size, and the one that tells what is at hand instead. */
  readonly needs?: readonly { readonly what: string; readonly size: string; readonly kept: string }[];
  /** Parts that are each cut from a cloth the plan names; an optional part is left out when no cloth is named for it. */
  readonly parts: Readonly<Record<string, { readonly meaning: string; readonly optional?: true }>>;
}

/** A factor in thousandths (fullness 2.25 is 2250). */
export interface Factor {
  readonly thousandths: number;
}

export type MeasureValue = Ticks | Size | Hem | Factor | string | boolean | number;
