import type { ArithmeticLine } from '../model/piece.ts';
import type { Ticks } from '../units/ticks.ts';

/**
 * One line of arithmetic in reading order: texts stay as they are, lengths become terms that are written in the plan's unit.
 * `line('front, across', finished, '+ 2 ×', allowance, '=', cut)` reads `18 + 2 × 1/2 = 19`.
 */
export function line(what: string, ...terms: readonly (string | Ticks)[]): ArithmeticLine {
  return { what, terms: terms.map((term) => (typeof term === 'string' ? term : { ticks: term })) };
}
