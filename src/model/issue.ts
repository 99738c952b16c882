import type { Ticks } from '../units/ticks.ts';

/** Where a value sits in a plan file: keys and list positions from the root. */
export type Path = readonly (string | number)[];

/** Line and column count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

export type Severity = 'error' | 'warning' | 'note';

/**
 * What each kind of problem carries. Codes and figures live here; their wording lives in `messages.ts` alone.
 * Lengths are ticks and are worded in the plan's own unit.
 */
export interface IssueDetails {
  'unknown-key': { readonly key: string; readonly known: readonly string[]; readonly likely?: string };
  missing: { readonly field: string; readonly example: string };
  'not-understood': { readonly found: string; readonly wanted: string; readonly likely?: string };
  'out-of-range': { readonly found: string; readonly wanted: string };
  'yaml-syntax': { readonly found: string };
  'unknown-cloth': { readonly found: string; readonly known: readonly string[]; readonly likely?: string };
  'too-wide': {
    readonly piece: string;
    readonly cloth: string;
    readonly needs: Ticks;
    readonly usable: Ticks;
    readonly side: 'width' | 'length';
  };
  /** The grain asked for would lay the print on its side. */
  'grain-against-print': {
    readonly piece: string;
    readonly cloth: string;
    readonly grain: string;
    readonly printRuns: string;
  };
  'not-enough-cloth': { readonly cloth: string; readonly shortOf: readonly string[] };
  'longer-than-sold': { readonly cloth: string; readonly needs: Ticks; readonly longest: Ticks };
  surplus: { readonly piece: string; readonly copies: number };
  'make-practice': {
    /** The whole sentence apart from the figures, with {name} where a figure stands. */
    readonly sentence: string;
    readonly figures: Readonly<Record<string, Ticks | string>>;
  };
}

export type IssueCode = keyof IssueDetails;

export type Issue = {
  [Code in IssueCode]: {
    readonly code: Code;
    readonly severity: Severity;
    readonly path: Path;
    readonly place?: Place;
    readonly details: IssueDetails[Code];
  };
}[IssueCode];

/** Either a value with the remarks it earned, or all the problems that stood in its way. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly issues: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };
