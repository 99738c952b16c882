import type { Hem } from '../model/measure.ts';
import type { Size } from '../model/piece.ts';
import { sum, TICKS_PER_INCH, type Ticks, ticks } from '../units/ticks.ts';
import type { Remark } from './make.ts';

/**
 * The first turn of a hem is at least 1/4 in (K. H. Watson, Textiles and Clothing, 1907, Hems).
 * The same 1/4 in is the least seam allowance in use, that of quilting (common practice, no published source).
 */
export const LEAST_TURN = ticks(TICKS_PER_INCH / 4);

export function warning(
  measure: string,
  sentence: string,
  figures: Readonly<Record<string, Ticks | string>>,
): Remark {
  return { severity: 'warning', measure, sentence, figures };
}

export function error(
  measure: string,
  sentence: string,
  figures: Readonly<Record<string, Ticks | string>>,
): Remark {
  return { severity: 'error', measure, sentence, figures };
}

/** A hem that will not hold, and one that is deeper than what it hems. `room` is the finished measure that it folds back over. */
export function hemPractice(measure: string, hem: Hem, room: Ticks, piece: string): readonly Remark[] {
  const remarks: Remark[] = [];
  if (hem.visible === 0 && hem.under === 0) {
    return [
      warning(measure, 'No hem is allowed for, so that this edge of the {piece} stays raw.', { piece }),
    ];
  }
  if (hem.under < LEAST_TURN) {
    remarks.push(
      warning(
        measure,
        'A hem with {under} turned under may fray out of its stitches: turn under at least {least}.',
        { under: hem.under, least: LEAST_TURN },
      ),
    );
  }
  if (hem.under > hem.visible) {
    remarks.push(
      warning(
        measure,
        'The {under} turned under is deeper than the hem of {visible} that should cover it: turn under less, or make the hem deeper.',
        { under: hem.under, visible: hem.visible },
      ),
    );
  }
  if (hem.visible > room) {
    remarks.push(
      warning(
        measure,
        'A hem of {visible} is deeper than the {piece} it hems, which is only {room}: make the hem narrower.',
        { visible: hem.visible, piece, room },
      ),
    );
  }
  return remarks;
}

/** Two hems that face each other, as on a napkin: together they must leave cloth between them. */
export function facingHemsPractice(measure: string, hem: Hem, size: Size, piece: string): readonly Remark[] {
  const room = ticks(Math.min(size.width, size.length));
  const remarks = hemPractice(measure, hem, room, piece);
  const both = sum([hem.visible, hem.visible]);
  if (hem.visible > room || both < room) return remarks;
  return [
    ...remarks,
    warning(
      measure,
      'Two hems of {visible} meet in the middle of the {piece}, which is only {room}: make them narrower.',
      { visible: hem.visible, piece, room },
    ),
  ];
}

export function seamPractice(allowance: Ticks): readonly Remark[] {
  if (allowance >= LEAST_TURN) return [];
  return [
    warning(
      'seam allowance',
      'A seam allowance of {allowance} may pull out in use: allow at least {least}.',
      { allowance, least: LEAST_TURN },
    ),
  ];
}

/** An error where any of the lengths that `left` holds comes to nothing or less; `figures` are those it was worked out from. */
export function nothingLeft(
  measure: string,
  sentence: string,
  figures: Readonly<Record<string, Ticks | string>>,
  left: readonly number[],
): readonly Remark[] {
  return left.every((length) => length > 0) ? [] : [error(measure, sentence, figures)];
}

export function hasError(remarks: readonly Remark[]): boolean {
  return remarks.some((remark) => remark.severity === 'error');
}
