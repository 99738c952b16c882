import type { MeasureSpec } from '../model/measure.ts';
import type { JoinRule } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { ticks } from '../units/ticks.ts';
import type { Remark } from './make.ts';
import type { Measures } from './measures.ts';
import { error, usual, warning } from './practice.ts';

/** Fusible interfacing is lapped 1/4 to 1/2 in and fused, sew-in is lapped 1/2 in (trade practice, from memory). */
const LEAST_LAP = { inches: 1 / 4, millimetres: 6 };
const MOST_LAP = { inches: 1 / 2, millimetres: 13 };

/**
 * What a make asks about joining `piece`, should its cloth be too small for it. Cloth is joined by seams, with the make's
 * own `seam allowance`; interfacing by laps.
 */
export function joinMeasures(piece: string, by: JoinRule['by']): Readonly<Record<string, MeasureSpec>> {
  const name = joinNames(piece);
  const lap: MeasureSpec = {
    kind: 'length',
    least: 'positive',
    default: { inches: '1/2', metric: '1.2' },
    meaning: 'How far one part lies over the other at such a join.',
  };
  return {
    [name.most]: {
      kind: 'count',
      least: 0,
      default: { inches: '0', metric: '0' },
      meaning: `At most so many joins in the ${piece}, where its cloth is too small for it; 0 keeps it whole.`,
    },
    ...(by === 'lap' ? { [name.lap]: lap } : {}),
    [name.narrowest]: {
      kind: 'length',
      least: 'positive',
      default: { inches: '4', metric: '10' },
      meaning: `No part of a joined ${piece} is cut narrower than this.`,
    },
    [name.middle]: {
      kind: 'yes-no',
      default: { inches: 'no', metric: 'no' },
      meaning: `Whether joins of the ${piece} keep out of its middle: a whole part lies there, with the others at its sides.`,
    },
  };
}

/** The rule for one piece, and what is wrong with it. No rule where no joins are permitted. */
export function joinRule(
  measures: Measures,
  { piece, by, lines }: { readonly piece: string } & Pick<JoinRule, 'by' | 'lines'>,
  unit: PlanUnit,
): { readonly rule: JoinRule | undefined; readonly remarks: readonly Remark[] } {
  const name = joinNames(piece);
  const mostJoins = measures.count(name.most);
  if (mostJoins === 0) return { rule: undefined, remarks: [] };
  const rule: JoinRule = {
    by,
    allowance: measures.length(by === 'seam' ? 'seam allowance' : name.lap),
    lines,
    mostJoins,
    narrowest: measures.length(name.narrowest),
    clearMiddle: measures.yesNo(name.middle),
  };
  return { rule, remarks: [...tooNarrow(rule, name.narrowest), ...lapPractice(rule, name.lap, unit)] };
}

/** For spreading into a piece. */
export function joinedBy(rule: JoinRule | undefined): { readonly join?: JoinRule } {
  return rule === undefined ? {} : { join: rule };
}

function joinNames(piece: string) {
  return {
    most: `${piece} joins`,
    lap: `${piece} lap`,
    narrowest: `${piece} narrowest part`,
    middle: `${piece} whole middle`,
  };
}

function tooNarrow({ by, allowance, narrowest }: JoinRule, measure: string): readonly Remark[] {
  const taken = by === 'seam' ? ticks(2 * allowance) : allowance;
  if (narrowest > taken) return [];
  return [
    error(
      measure,
      'A part of {narrowest} would be used up by joins that take {taken}: ask for wider parts, or join with less.',
      { narrowest, taken },
    ),
  ];
}

function lapPractice({ by, allowance }: JoinRule, measure: string, unit: PlanUnit): readonly Remark[] {
  const [least, most] = [usual(unit, LEAST_LAP), usual(unit, MOST_LAP)];
  if (by === 'seam' || (allowance >= least && allowance <= most)) return [];
  return [
    warning(
      measure,
      'Interfacing that laps by {lap} may part or show: laps of {least} to {most} are usual.',
      { lap: allowance, least, most },
    ),
  ];
}
