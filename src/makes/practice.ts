import type { Hem } from '../model/measure.ts';
import type { Size } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { sum, TICKS_PER_INCH, TICKS_PER_MM, type Ticks, ticks } from '../units/ticks.ts';
import type { Remark } from './make.ts';

/** What good practice asks for, in the round figures of the plan's unit. */
export interface Practice {
  /** Least depth of a turn-under, and least seam allowance. */
  readonly leastTurn: Ticks;
  readonly unit: PlanUnit;
}

/**
 * The first turn of a hem is at least 1/4 in (K. H. Watson, Textiles and Clothing, 1907, Hems).
 * The same 1/4 in is the least seam allowance in use, that of quilting (common practice, no published source).
 */
export function practiceIn(unit: PlanUnit): Practice {
  return { unit, leastTurn: usual(unit, { inches: 1 / 4, millimetres: 6 }) };
}

/** A usual figure as it is said in each unit: 1/4 in, 6 mm. */
export function usual(
  unit: PlanUnit,
  figure: { readonly inches: number; readonly millimetres: number },
): Ticks {
  return ticks(unit === 'in' ? figure.inches * TICKS_PER_INCH : figure.millimetres * TICKS_PER_MM);
}

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

export interface HemToJudge {
  readonly measure: string;
  readonly hem: Hem;
  /** The finished measure that the hem folds back over. */
  readonly room: Ticks;
  readonly piece: string;
}

/** A hem that will not hold, and one that is deeper than what it hems. */
export function hemPractice(
  { leastTurn }: Practice,
  { measure, hem, room, piece }: HemToJudge,
): readonly Remark[] {
  const remarks: Remark[] = [];
  if (hem.visible === 0 && hem.under === 0) {
    return [
      warning(measure, 'No hem is allowed for, so that this edge of the {piece} stays raw.', { piece }),
    ];
  }
  if (hem.under < leastTurn) {
    remarks.push(
      warning(
        measure,
        'A hem with {under} turned under may fray out of its stitches: turn under at least {least}.',
        { under: hem.under, least: leastTurn },
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
export function facingHemsPractice(
  practice: Practice,
  { measure, hem, size, piece }: Omit<HemToJudge, 'room'> & { readonly size: Size },
): readonly Remark[] {
  const room = ticks(Math.min(size.width, size.length));
  const remarks = hemPractice(practice, { measure, hem, room, piece });
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

export function seamPractice({ leastTurn }: Practice, allowance: Ticks): readonly Remark[] {
  if (allowance >= leastTurn) return [];
  return [
    warning(
      'seam allowance',
      'A seam allowance of {allowance} may pull out in use: allow at least {least}.',
      { allowance, least: leastTurn },
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
