import { TICKS_PER_CM, TICKS_PER_INCH, type Ticks, ticks } from '../../units/ticks.ts';
import type { JoinRule } from '../piece.ts';
import type { PlanUnit } from '../plan.ts';
import { keyed, type Problem, type ReadingContext } from './fields.ts';
import { choice, count, length, yesNo } from './scalars.ts';

/** How a loose piece may be joined from parts, as it is written; the rule is given with everything filled in by `toJoinRule`. */
export function joinDefinition(context: ReadingContext) {
  return keyed(
    {
      by: choice('`seam` for cloth, `lap` for fusible interfacing, which is lapped and fused.', [
        'seam',
        'lap',
      ]),
      'most joins': count('At most so many join lines in all.', 1, '2'),
      allowance: length(
        {
          meaning:
            'Seam: from each edge to the stitches. Lap: how far one part lies over the other. 1/2 in, or 1.5 cm for a seam and 1.2 cm for a lap, unless said.',
          example: context.unit === 'in' ? '1/2' : '1.5',
        },
        context,
      ).optional(),
      lines: choice(
        'Which way the join lines may run as the piece stands; `either`, unless said, joins both ways where one is not enough.',
        ['upright', 'level', 'either'],
        'either',
      ).optional(),
      'narrowest part': length(
        {
          meaning: 'No part is cut narrower than this; 4 in, or 10 cm, unless said.',
          positive: true,
          example: context.unit === 'in' ? '4' : '10',
        },
        context,
      ).optional(),
      'whole middle': yesNo(
        'Whether the middle of the piece stays clear of joins; no, unless said.',
      ).optional(),
    },
    {
      wanted: 'keys such as by, most joins and allowance',
      example: '{ by: seam, most joins: 2, allowance: 1/2 }',
    },
  )
    .superRefine((written, issues) => {
      const { by, allowance, narrowest } = toJoinRule(written, context.unit);
      const takes = by === 'seam' ? ticks(2 * allowance) : allowance;
      if (narrowest > takes) return;
      const problem: Problem = { code: 'join-takes-all', details: { takes, narrowest } };
      const path = written.allowance === undefined ? ['narrowest part'] : ['allowance'];
      issues.addIssue({ code: 'custom', path, message: '', params: { problem } });
    })
    .meta({ description: 'How the piece may be joined from parts, should it be larger than its cloth.' });
}

/** Fusible interfacing is lapped 1/4 to 1/2 in (trade practice, from memory); furnishings are seamed at 1/2 in. */
const USUAL = {
  in: { seam: TICKS_PER_INCH / 2, lap: TICKS_PER_INCH / 2, narrowest: 4 * TICKS_PER_INCH },
  cm: { seam: 1.5 * TICKS_PER_CM, lap: 1.2 * TICKS_PER_CM, narrowest: 10 * TICKS_PER_CM },
} as const;

interface WrittenJoin {
  readonly by: JoinRule['by'];
  readonly 'most joins': number;
  readonly allowance?: Ticks | undefined;
  readonly lines?: JoinRule['lines'] | undefined;
  readonly 'narrowest part'?: Ticks | undefined;
  readonly 'whole middle'?: boolean | undefined;
}

export function toJoinRule(written: WrittenJoin, unit: PlanUnit): JoinRule {
  const usual = USUAL[unit];
  return {
    by: written.by,
    allowance: written.allowance ?? ticks(usual[written.by]),
    lines: written.lines ?? 'either',
    mostJoins: written['most joins'],
    narrowest: written['narrowest part'] ?? ticks(usual.narrowest),
    clearMiddle: written['whole middle'] ?? false,
  };
}
