import { z } from 'zod';
import { formatLength } from '../../units/format.ts';
import { parseLength } from '../../units/parse.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, type Ticks, ticks } from '../../units/ticks.ts';
import type { MakeSpec } from '../measure.ts';
import type { PlanUnit } from '../plan.ts';
import { clothFaults } from './cloth-checks.ts';
import { clothsAsked, rulesDefinition } from './cloth-choice-fields.ts';
import { clothDefinition } from './cloth-fields.ts';
import { keyed, listOf, problem, type Read, type ReadingContext, readAs, saying, scalar } from './fields.ts';
import { goodsDefinition } from './goods-fields.ts';
import { joinDefinition } from './join-fields.ts';
import { orderDefinition } from './make-fields.ts';
import { matchDefinition } from './match-fields.ts';
import { measuredFaults } from './measured-checks.ts';
import { panelAskedDefinition } from './panel-fields.ts';
import {
  choice,
  count,
  inWords,
  length,
  name,
  outOfRange,
  readChoice,
  refusedText,
  remark,
  size,
  yesNo,
} from './scalars.ts';
import { wishDefinition, wishWords } from './wish-fields.ts';
import { worth } from './worth-scalars.ts';

/** The ruler at the mat where a plan names none. */
export const USUAL_RULER: Readonly<Record<PlanUnit, Ticks>> = {
  in: ticks(24 * TICKS_PER_INCH),
  cm: ticks(60 * TICKS_PER_CM),
};

/** The signs of units and amounts that could be read as a currency. */
const NO_CURRENCY = /[\d\s.,/%]/;

/**
 * The plan file, once: the reader, the JSON Schema and the reference table all come from this definition.
 * What it gives has every length in ticks; what was left out is still left out.
 */
export function planDefinition(makes: readonly MakeSpec[], context: ReadingContext) {
  const cloth = clothDefinition(context).superRefine((written, issues) => {
    for (const { path, problem } of [...clothFaults(written), ...measuredFaults(written, context.unit)]) {
      issues.addIssue({ code: 'custom', path: [...path], message: '', params: { problem } });
    }
  });
  const clothWords = {
    wanted: 'a name for each cloth, and its measures under it',
    example: '{ lime wash: { width: 54, selvedge: 1/2, buy: yes } }',
  };
  const allParts = [...new Set(makes.flatMap((make) => Object.keys(make.parts)))];
  const setWords = {
    wanted: 'a name for each set, and its rules under it',
    example: `{ lookout bedroom: { one cloth: [${allParts[0]}] } }`,
  };
  return keyed(
    {
      plan: name('What the plan is called.', 'The breakfast room', 'any'),
      note: remark(
        'A remark that is printed with the plan, such as what had to change at the mat.',
        'one cover fewer than asked for',
      ).optional(),
      unit: planUnit(),
      ruler: rulerMark(context).optional(),
      paper: choice(
        'Paper of the printed pages; `letter` on an inch plan, `a4` on a centimetre plan, unless said.',
        ['letter', 'a4'],
      ).optional(),
      currency: currency().optional(),
      cupboard: name(
        "The cupboard's file, as seen from the plan's own folder, for cloths that draw on it.",
        'cupboard.yaml',
        'any',
      ).optional(),
      keep: size(
        'Smallest leftover worth keeping, either way round: 6 x 6 in, or 15 x 15 cm, unless said.',
        context,
        context.unit === 'in' ? '6 x 6' : '15 x 15',
      ).optional(),
      stages: choice(
        'Most changes of cutting direction: 2, 3 or `any`, unless said.',
        ['2', '3', 'any'],
        'any',
      ).optional(),
      tools: tools(context).optional(),
      stacks: choice(
        'Whether cloths that can be cut alike are laid on each other: `never`, `where free` of cost, unless said, or `always` where it saves cuts.',
        ['never', 'where free', 'always'],
        'where free',
      ).optional(),
      'stack edge': choice('The selvedge edge at which stacked cloths are aligned; `left`, unless said.', [
        'left',
        'right',
      ]).optional(),
      cloths: z.record(z.string(), cloth, saying(clothWords)).meta({
        description: 'Every cloth of the plan, by its name.',
      }),
      make: listOf(orderDefinition(makes, context), {
        wanted: 'a list of things to sew, each with name, kind and count',
        example: `[{ name: window seat covers, kind: ${makes[0].kind}, count: 7 }]`,
      })
        .meta({ description: 'What to sew.' })
        .optional(),
      pieces: listOf(loosePiece(context), {
        wanted: 'a list of loose pieces, each with name, count, size and cloth',
        example: '[{ name: tie, count: 8, size: 3 x 14, cloth: lime wash }]',
      })
        .meta({ description: 'Pieces to cut as they are, at their cut size.' })
        .optional(),
      'from leftovers': listOf(wishDefinition(makes, context), {
        wanted: 'a list of things you would like, each with name and kind',
        example: `[${wishWords(makes[0].kind).example}]`,
      })
        .meta({ description: 'What you would like to have if cloth is left, dearest first.' })
        .optional(),
      'leftover worth': worth(
        'What a keepable leftover is worth to you; it counts in favour of a buy. Nothing unless said.',
        context,
      ).optional(),
      goods: listOf(goodsDefinition(context), {
        wanted: 'a list of things to get, each with name and count or length',
        example: '[{ name: zip, count: 8, price: 1.20 }]',
      })
        .meta({ description: 'What is needed besides cloth, for the shopping list.' })
        .optional(),
      rules: rulesDefinition(allParts)
        .describe('What must hold of the cloths within every set that has no rules of its own.')
        .optional(),
      sets: z
        .record(z.string(), rulesDefinition(allParts), saying(setWords))
        .meta({ description: 'Sets that several orders may belong to, each with its rules.' })
        .optional(),
    },
    {
      wanted: 'keys such as plan, unit, cloths and make',
      example: 'plan: The breakfast room',
    },
  );
}

export type WrittenPlan = z.output<ReturnType<typeof planDefinition>>;

export function planUnit() {
  const units = ['in', 'cm'] as const;
  const read = (text: string): Read<PlanUnit> => {
    const chosen = readChoice(text, units);
    if (chosen.ok) return chosen;
    const likely = /^(?:["″]|in|f(?:ee|oo)?t|y(?:ar)?d)/i.test(text)
      ? 'in'
      : /^(?:m|c)/i.test(text)
        ? 'cm'
        : undefined;
    const details = { found: text, wanted: inWords(units), ...(likely === undefined ? {} : { likely }) };
    return problem({ code: 'not-understood', details });
  };
  const meaning = 'What a bare number means, and what is printed: `in` or `cm`.';
  return scalar({ wanted: inWords(units), example: 'in', meaning, writtenAs: { choices: units }, read });
}

function rulerMark(context: ReadingContext) {
  const example = context.unit === 'in' ? '1/8' : '1 mm';
  const wanted = `the smallest mark on the ruler, such as ${example}`;
  const read = (text: string): Read<Ticks> => {
    const [up, down] = (['up', 'down'] as const).map((round) =>
      parseLength(text, { unit: context.unit, round }),
    );
    if (!up.ok) return refusedText(text, up, wanted);
    // Every printed length is a multiple of the mark, so the mark itself must be exact.
    const exact = down.ok && up.value === down.value;
    if (!exact) return outOfRange(text, 'a mark of whole 64ths of an inch, or of whole 1/20 mm');
    if (up.value === 0 || up.value > TICKS_PER_INCH)
      return outOfRange(text, 'a mark above zero and up to 1 in');
    return readAs(up.value);
  };
  const meaning =
    'Smallest mark used on the ruler: cut sizes are rounded up to it, usable widths down. 1/8 in, or 1 mm, unless said.';
  return scalar({ wanted, example, meaning, read });
}

export function currency() {
  const read = (text: string): Read<string> =>
    text.length > 0 && text.length <= 5 && !NO_CURRENCY.test(text)
      ? readAs(text)
      : outOfRange(text, 'a sign or code of up to five letters, such as $ or EUR');
  return scalar({
    wanted: 'a sign or code such as $ or EUR',
    example: '$',
    meaning: 'Sign or code that is printed with amounts.',
    read,
  });
}

function tools(context: ReadingContext) {
  const inches = context.unit === 'in';
  return keyed(
    {
      'ruler length': length(
        {
          meaning: 'Of the ruler at the mat; 24 in, or 60 cm, unless said.',
          round: 'down',
          positive: true,
          example: '24',
        },
        context,
      ).optional(),
      'ruler width': length(
        {
          meaning:
            "Of the same ruler. Said, every setting that is wider is told to be measured on the mat's grid, or by tape.",
          round: 'down',
          positive: true,
          example: inches ? '6' : '15',
        },
        context,
      ).optional(),
      mat: size(
        'The cutting mat, either way round: a cut is guided by the ruler only where the mat lies under all of it.',
        context,
        inches ? '24 x 36' : '60 x 90',
      ).optional(),
      'long cuts': choice(
        'How a cut is made that neither ruler nor fold reaches: with `scissors`, unless said; by a `tear`, which only cloth that tears true is given; by a `tear or scissors`, as each cloth allows; or by `neither`, where the plan says which it had to name.',
        ['scissors', 'tear', 'tear or scissors', 'neither'],
        'tear or scissors',
      ).optional(),
      'most plies': choice(
        'Most layers that are cut at once: 1, 2 or 4; 4 unless said.',
        ['1', '2', '4'],
        '4',
      ).optional(),
    },
    {
      wanted: 'ruler length, ruler width, mat, long cuts and most plies',
      example: '{ ruler length: 24, most plies: 4 }',
    },
  )
    .superRefine((written, issues) => {
      const length = written['ruler length'] ?? USUAL_RULER[context.unit];
      const width = written['ruler width'];
      if (width === undefined || width <= length) return;
      const found = `${formatLength(width, context)} wide, ${formatLength(length, context)} long`;
      const { problem } = outOfRange(found, 'a ruler that is no wider than it is long');
      issues.addIssue({ code: 'custom', path: ['ruler width'], message: '', params: { problem } });
    })
    .meta({ description: 'What is at hand for cutting.' });
}

function loosePiece(context: ReadingContext) {
  return keyed(
    {
      name: name('What to call the piece; each name once in a plan.', 'tie'),
      count: count('How many to cut.'),
      size: size('Cut size: across, then up, as the piece stands.', context),
      cloth: clothsAsked('The cloth it is cut from, or a list of cloths to choose from.', context),
      grain: choice(
        "Which grain of the cloth the piece's own up follows; `either`, unless said, leaves it to the cloth's direction.",
        ['lengthwise', 'crosswise', 'either'],
      ).optional(),
      join: joinDefinition(context).optional(),
      match: matchDefinition(context).optional(),
      panel: panelAskedDefinition(context).optional(),
      'on fold': yesNo('Whether it is cut across a fold of the cloth, half of it set from there.').optional(),
    },
    {
      wanted: 'keys such as name, count, size and cloth',
      example: '{ name: tie, count: 8, size: 3 x 14, cloth: lime wash }',
    },
  );
}
