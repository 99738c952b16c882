import type { Rational } from './rational.ts';

/** Why a written measure was not taken. The words for each are in `model/messages.ts`. */
export type RefusalReason =
  | 'empty'
  | 'not-a-number'
  | 'negative'
  | 'exponent'
  | 'zero-denominator'
  /** `17 9/8`: the fraction beside a whole number is not below one. */
  | 'improper-fraction'
  /** `17.3/8` or `17.5 3/8`. */
  | 'decimal-and-fraction'
  /** `17 3/8 8`, or two lengths without units between them. */
  | 'two-numbers'
  /** `1,234`: thousands to some, a decimal to others. */
  | 'thousands-or-decimal'
  | 'too-many-digits'
  | 'unknown-unit'
  | 'missing-unit'
  /** `3 in 2 ft`, `1 in 2 cm`: the parts of a length go from the large unit to the small, in one system. */
  | 'unit-order'
  /** Over a kilometre. */
  | 'too-long'
  /** A size needs exactly two lengths. */
  | 'not-two-lengths'
  /** A hem needs a visible depth and a turn-under. */
  | 'not-a-hem';

export interface Refused {
  readonly ok: false;
  readonly reason: RefusalReason;
  /** The part of the text that caused it. */
  readonly found: string;
  readonly likely?: string;
}

export type Parsed<T> = { readonly ok: true; readonly value: T } | Refused;

export function taken<T>(value: T): Parsed<T> {
  return { ok: true, value };
}

export function refused(reason: RefusalReason, found: string, likely?: string): Refused {
  return likely === undefined ? { ok: false, reason, found } : { ok: false, reason, found, likely };
}

export type ParsedNumber = Parsed<Rational>;
