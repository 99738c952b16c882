import type { z } from 'zod';
import type { EntryGrain } from '../cupboard.ts';
import { type Located, usableFaults } from './cloth-checks.ts';
import { selvedges, WIDEST } from './cloth-fields.ts';
import { crease } from './cloth-scalars.ts';
import { keyed, listOf, type Read, type ReadingContext, readAs, scalar } from './fields.ts';
import { flawsDefinition } from './flaw-fields.ts';
import { areaFaults } from './panel-checks.ts';
import { panelAreas } from './panel-fields.ts';
import { outsideFaults } from './places-on-cloth.ts';
import { currency, planUnit } from './plan-definition.ts';
import { choice, count, length, name, outOfRange, yesNo } from './scalars.ts';
import { worth } from './worth-scalars.ts';

/**
 * The cupboard's file, once: the reader, the JSON Schema and the options of the commands all come from this definition.
 * What it gives has every length in ticks; what was left out is still left out.
 */
export function cupboardDefinition(context: ReadingContext) {
  const entryWords = {
    wanted: 'keys such as name, cloth, width, length and selvedge',
    example: '{ name: end of bolt, cloth: lime wash, width: 54, length: 40, selvedge: 1/2 }',
  };
  return keyed(
    {
      cupboard: name('What the cupboard is called.', 'The linen cupboard', 'any'),
      unit: planUnit(),
      currency: currency().optional(),
      worth: worth(
        'What using a length of this cupboard is worth, so that buying may be the better choice; an entry may say its own. Nothing unless said.',
        context,
      ).optional(),
      entries: listOf(entryDefinition(context), {
        wanted: 'a list of lengths, each with name, cloth, width, length and selvedge',
        example: `[${entryWords.example}]`,
      }).meta({ description: 'Every length and remnant that lies in it.' }),
      cut: listOf(planCut(), {
        wanted: 'a list of plans, each with plan, on and mark',
        example: '[{ plan: The attic, on: 2026-03-14, mark: 0123456789abcdef }]',
      })
        .meta({ description: 'Plans whose cutting is done; written when their lengths are taken out.' })
        .optional(),
    },
    { wanted: 'keys such as cupboard, unit and entries', example: 'cupboard: The linen cupboard' },
  );
}

export type WrittenCupboard = z.output<ReturnType<typeof cupboardDefinition>>;
export type WrittenEntry = WrittenCupboard['entries'][number];

/** One entry, with what must fit together in it. */
export function entryDefinition(context: ReadingContext) {
  return entryShape(context).superRefine((written, issues) => {
    const faults = [...usableFaults({ ...written, crease: written.crease ?? { kind: 'none' } }, [])];
    const { left, right } = written.selvedge;
    const hasEdges = left > 0 || right > 0 || (written.crease ?? { kind: 'none' }).kind !== 'none';
    if (written.grain === 'crosswise' && hasEdges) {
      const wanted = 'lengthwise and change width and length over: selvedge and crease run along the length';
      faults.push({ path: ['grain'], ...outOfRange('crosswise', wanted) });
    }
    faults.push(...outsideFaults(written, []));
    faults.push(...panelsOfEntry(written));
    for (const { path, problem } of faults) {
      issues.addIssue({ code: 'custom', path: [...path], message: '', params: { problem } });
    }
  });
}

/** Panels lie on the entry, and run along the cloth as it does. */
function panelsOfEntry(written: z.output<ReturnType<typeof entryShape>>): readonly Located[] {
  const { panels, width, length, selvedge, grain } = written;
  const key = panels ? 'panels' : 'panels begin';
  if (written[key] === undefined) return [];
  const refused = (wanted: string) => [{ path: [key], ...outOfRange(key, wanted) }];
  if (panels && written['panels begin'] !== undefined) return refused('one of panels and panels begin');
  if (grain === 'crosswise') return refused(`${key} only for a length that runs along the cloth`);
  return panels ? areaFaults(panels, { width, selvedge, crease: { kind: 'none' } }, length, ['panels']) : [];
}

function entryShape(context: ReadingContext) {
  const measured = { round: 'down', positive: true } as const;
  const inches = context.unit === 'in';
  return keyed(
    {
      name: name('What this entry is called; each name once.', 'end of bolt', 'any'),
      cloth: name('Which cloth it is; plans draw on it by this name too.', 'lime wash', 'any'),
      width: length(
        {
          meaning: 'Overall width, from edge to edge, as it lies there now.',
          ...measured,
          most: WIDEST,
          mostInWords: 'a width up to 10 m',
        },
        context,
      ),
      length: length(
        { meaning: 'Length as it lies there now.', ...measured, example: inches ? '1 1/4 yd' : '1.2 m' },
        context,
      ),
      selvedge: selvedges('Selvedge on each side; `0` where the edge is cut.', context),
      crease: crease(
        'Its bolt fold: `none`, unless said, `use`, or kept off by so much on either side; midway between its edges, or `at` so far from its left one.',
        context,
        'anywhere',
      ).optional(),
      grain: choice<EntryGrain>(
        'Which grain its length runs along: `lengthwise`, unless said, `crosswise`, or `unknown`.',
        ['lengthwise', 'crosswise', 'unknown'],
      ).optional(),
      direction: choice(
        "`plain`, `two-way`, `one-way` or `nap`; the plan's cloth says it, unless said here.",
        ['plain', 'two-way', 'one-way', 'nap'],
        'one-way',
      ).optional(),
      'print runs': choice('Which way the print is upright: `along` the length, unless said, or `across`.', [
        'along',
        'across',
      ]).optional(),
      washed: yesNo('Whether it has been washed; `no` unless said.').optional(),
      where: name('Where it lies.', 'top shelf', 'any').optional(),
      since: day('Since when it lies there.').optional(),
      count: count('How many alike; one unless said.').optional(),
      flaws: flawsDefinition(context).optional(),
      'panels begin': length(
        {
          meaning:
            "Where a repeat of its cloth's printed panels begins, from the near end; at the end itself unless said.",
          example: inches ? '4 1/4' : '11',
        },
        context,
      ).optional(),
      panels: panelAreas(context)
        .meta({
          description:
            "Its own printed panels as they lie on it, once each, in place of its cloth's; an empty list where it has none.",
        })
        .optional(),
      worth: worth('What using it is worth, where that is not what the cupboard says.', context).optional(),
      note: name('A remark.', 'a stain near one end', 'any').optional(),
    },
    {
      wanted: 'keys such as name, cloth, width, length and selvedge',
      example: '{ name: end of bolt, cloth: lime wash, width: 54, length: 40, selvedge: 1/2 }',
    },
  );
}

/** Keys of an entry in the order in which a new one is written. */
export const ENTRY_KEYS = Object.keys(entryShape({ unit: 'in', currency: '' }).shape) as readonly EntryKey[];

export type EntryKey = keyof ReturnType<typeof entryShape>['shape'];

function planCut() {
  return keyed(
    {
      plan: name('Name of the plan.', 'The attic', 'any'),
      on: day('When its cutting was booked.'),
      mark: scalar({
        wanted: 'sixteen digits from 0 to f',
        example: '0123456789abcdef',
        meaning: 'Tells this plan from every other.',
        read: (text) =>
          /^[0-9a-f]{16}$/.test(text) ? readAs(text) : outOfRange(text, 'sixteen digits from 0 to f'),
      }),
    },
    { wanted: 'plan, on and mark', example: '{ plan: The attic, on: 2026-03-14, mark: 0123456789abcdef }' },
  );
}

const MONTH_DAYS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** A calendar day as ISO 8601 writes it: `2026-03-14`. */
export function day(meaning: string) {
  const wanted = 'a day such as 2026-03-14: year, month, day';
  const read = (text: string): Read<string> => {
    const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
    if (parts === null) return outOfRange(text, wanted);
    const [year, month, date] = parts.slice(1).map(Number);
    const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
    const last = month === 2 && !leap ? 28 : (MONTH_DAYS[month - 1] ?? 0);
    return date >= 1 && date <= last ? readAs(text) : outOfRange(text, 'a day that the calendar has');
  };
  return scalar({ wanted, example: '2026-03-14', meaning, read });
}
