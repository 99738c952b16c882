import type { z } from 'zod';
import { selvedges, WIDEST } from './cloth-fields.ts';
import { crease } from './cloth-scalars.ts';
import { either, keyed, listOf, type ReadingContext } from './fields.ts';
import { flawsDefinition } from './flaw-fields.ts';
import { repeatDefinition } from './match-fields.ts';
import { panelAreas } from './panel-fields.ts';
import { length, name } from './scalars.ts';

/** What was measured at the mat, washed: one length, or a list where several were bought or were in hand before. */
export function matMeasuresDefinition(context: ReadingContext) {
  const inches = context.unit === 'in';
  const down = { round: 'down', positive: true } as const;
  const words = {
    wanted: inches ? 'what was measured, such as width and length' : 'what was measured, width and length',
    example: inches
      ? '{ width: 52 3/4, length: 61 1/2, before: 1 3/4 yd }'
      : '{ width: 134, length: 156, before: 1.6 m }',
  };
  const entry = keyed(
    {
      width: length(
        {
          meaning:
            'Overall width as it lies on the table, washed: the least that was measured. It shrinks no more.',
          ...down,
          most: WIDEST,
          mostInWords: 'a width up to 10 m',
          example: inches ? '52 3/4' : '134',
        },
        context,
      ),
      length: length(
        { meaning: 'Its length, washed.', ...down, example: inches ? '61 1/2' : '156' },
        context,
      ),
      before: length(
        {
          meaning: 'Its length before washing, such as what the shop cut; tells what it really shrank.',
          ...down,
          example: inches ? '1 3/4 yd' : '1.6 m',
        },
        context,
      ).optional(),
      name: name('What to call it; `washed length` unless said.', 'washed length').optional(),
      of: name(
        'Where it is a length that was in hand already: its name. It is then measured anew, and nothing is bought instead.',
        'end of bolt',
        'any',
      ).optional(),
      selvedge: selvedges("Its selvedges, where they are not the cloth's.", context).optional(),
      crease: crease(
        "What to do with its crease, where that is not the cloth's; `keep off ... at` tells where it lies, from the left outer edge.",
        context,
        'anywhere',
      ).optional(),
      'first motif': length(
        {
          meaning: 'Centre of its first motif from the near end; the worst is reckoned with unless said.',
          example: inches ? '4 1/4' : '11',
        },
        context,
      ).optional(),
      repeat: repeatDefinition(context).optional(),
      'panels begin': length(
        {
          meaning:
            "Where a repeat of the cloth's printed panels begins on it, from the near end; at the end itself unless said.",
          example: inches ? '4 1/4' : '11',
        },
        context,
      ).optional(),
      panels: panelAreas(context)
        .meta({ description: "Its printed panels as they lie washed, once each, in place of the cloth's." })
        .optional(),
      flaws: flawsDefinition(context).optional(),
    },
    words,
  );
  const list = listOf(entry, { wanted: `a list such as [${words.example}]`, example: `[${words.example}]` });
  return either(entry, list, words).meta({
    description:
      'The cloth has been bought, washed and measured: the plan is made around these measures, and buys nothing.',
  });
}

type WrittenMeasured = z.output<ReturnType<typeof matMeasuresDefinition>>;

/** One measured length as it is written. */
export type WrittenMeasure = Extract<WrittenMeasured, readonly unknown[]>[number];

/** In the order in which they are written, each with its path below `measured`. */
export function measuresIn(
  written: WrittenMeasured | undefined,
): readonly { readonly measure: WrittenMeasure; readonly path: readonly (string | number)[] }[] {
  if (written === undefined) return [];
  if (!Array.isArray(written)) return [{ measure: written as WrittenMeasure, path: ['measured'] }];
  return written.map((measure: WrittenMeasure, index) => ({ measure, path: ['measured', index] }));
}
