import type { z } from 'zod';
import type { Repeat } from '../cloth.ts';
import type { Match } from '../piece.ts';
import { either, keyed, type Problem, type ReadingContext } from './fields.ts';
import { choice, length } from './scalars.ts';

/** How a print repeats, as it is written under a cloth. */
export function repeatDefinition(context: ReadingContext) {
  const example = context.unit === 'in' ? '12 1/2' : '32';
  const measure = (meaning: string) => length({ meaning, positive: true, example }, context).optional();
  return keyed(
    {
      along: measure('After how much the print starts again along the length.'),
      across: measure('After how much it starts again across the width.'),
      drop: choice(
        '`straight`, unless said; `half` where every second column starts half a repeat higher.',
        ['straight', 'half'],
        'half',
      ).optional(),
      'from edge': length(
        { meaning: 'Centre of a motif from the left outer edge; needed to centre motifs across.', example },
        context,
      ).optional(),
    },
    { wanted: 'along, across or both', example: `{ along: ${example}, across: ${example} }` },
  )
    .superRefine((written, issues) => {
      const { along, across, drop } = written;
      // A half drop goes from column to column, so there must be columns, and a height to halve.
      const field =
        along === undefined && (across === undefined || drop === 'half')
          ? 'along'
          : across === undefined && drop === 'half'
            ? 'across'
            : undefined;
      if (field === undefined) return;
      const problem: Problem = { code: 'missing', details: { field, example } };
      issues.addIssue({ code: 'custom', path: [field], message: '', params: { problem } });
    })
    .meta({ description: 'How the print repeats; it does not unless said.' });
}

export function toRepeat(written: z.output<ReturnType<typeof repeatDefinition>>): Repeat {
  const { along, across, drop = 'straight' } = written;
  const fromEdge = written['from edge'];
  return {
    drop,
    ...(along !== undefined && { along }),
    ...(across !== undefined && { across }),
    ...(fromEdge !== undefined && { fromEdge }),
  };
}

/** What a piece asks of the print. */
export function matchDefinition(context: ReadingContext) {
  const kinds = ['centre', 'alike', 'drops'] as const;
  const meaning =
    'What it asks of the print: a motif in its `centre`, or at a point of it; the same place in the repeat as its fellows (`alike`); or the same height of it (`drops`).';
  const point = context.unit === 'in' ? '{ across: 8 1/2, up: 9 }' : '{ across: 22, up: 24 }';
  const words = {
    wanted: `centre, alike, drops, or a point such as ${point}`,
    example: 'centre',
    known: kinds,
  };
  const place = (which: string) =>
    length(
      { meaning: `From the ${which} edge of the cut piece, as it stands upright.`, example: '9' },
      context,
    );
  return either(
    choice(meaning, kinds).transform((kind): Match => ({ kind })),
    keyed({ across: place('left'), up: place('lower') }, words).transform(
      ({ across, up }): Match => ({ kind: 'point', x: across, y: up }),
    ),
    words,
  ).meta({ description: meaning });
}
