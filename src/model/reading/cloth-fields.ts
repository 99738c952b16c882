import { z } from 'zod';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { BuyTerms, Crease, Flaw, Fraction, Selvedges } from '../cloth.ts';
import { groupNames } from './cloth-choice-fields.ts';
import { crease, percentage, price, swatchLoss } from './cloth-scalars.ts';
import { either, keyed, listOf, type ReadingContext } from './fields.ts';
import { flawsDefinition } from './flaw-fields.ts';
import { repeatDefinition } from './match-fields.ts';
import { matMeasuresDefinition } from './measured-fields.ts';
import { panelAreas, panelsDefinition, type WrittenPanel } from './panel-fields.ts';
import { choice, count, length, name, yesNo } from './scalars.ts';
import { measuredDefinition } from './washed-measures.ts';
import { worth } from './worth-scalars.ts';

/** What a shop cuts by, unless the plan says otherwise. Common practice, no published source. */
export const SHOP_STEP = { in: ticks(36_576), cm: ticks(32_000) } as const;

/** 10 m: no loom is wider. */
export const WIDEST = ticks(3_200_000);

/** The cloth as it is written; `toCloth` fills in what was left out. */
export function clothDefinition(context: ReadingContext) {
  return keyed(
    {
      width: length(
        {
          meaning:
            'Overall width, from selvedge edge to selvedge edge; as measured before washing, unless its washing says otherwise.',
          round: 'down',
          positive: true,
          most: WIDEST,
          mostInWords: 'a width up to 10 m',
        },
        context,
      ),
      selvedge: selvedges('Trimmed away on each side; `0` where the edge is cut.', context),
      crease: crease(
        'The bolt fold, midway between the outer selvedge edges: `none` (as without it), `use` (pieces may lie over it), or kept off by so much on either side.',
        context,
      ).optional(),
      direction: choice(
        'Whether the cloth looks alike however it is turned (`plain`), alike head to tail (`two-way`), one way only (`one-way`), or has a pile (`nap`). `plain` unless said.',
        ['plain', 'two-way', 'one-way', 'nap'],
        'one-way',
      ).optional(),
      'print runs': choice(
        'Which way the print is upright: `along` the length, unless said, or `across` it.',
        ['along', 'across'],
      ).optional(),
      squaring: length(
        { meaning: 'Lost at each end of every length when it is squared; `0` unless said.', example: '1/2' },
        context,
      ).optional(),
      'tears true': yesNo(
        'Whether it tears along a thread, across and along, as plainly woven cloth does; `no` unless said. Try a corner first.',
      ).optional(),
      washing: washing(context).optional(),
      repeat: repeatDefinition(context).optional(),
      panels: panelsDefinition(context).optional(),
      price: price('What a length of it costs.', context).optional(),
      buy: buying(context).optional(),
      lengths: lengthsInHand(context).optional(),
      lay: choice(
        'How it is cut: `flat`, unless said, for least cloth; `folded` cuts everything in two plies.',
        ['flat', 'folded'],
      ).optional(),
      'fold at': length(
        {
          meaning:
            'Of a cloth laid folded: how far the fold lies from the left edge, as it lies on the table; down the middle unless said. Beyond the edge folded over, pieces are cut from one ply.',
          positive: true,
          most: WIDEST,
          mostInWords: 'a distance up to 10 m',
          example: context.unit === 'in' ? '16' : '40',
        },
        context,
      ).optional(),
      'one spread': yesNo(
        'Whether it is laid once for all its cuts: then no part is folded or stacked again for a cut.',
      ).optional(),
      groups: groupNames().optional(),
      measured: matMeasuresDefinition(context).optional(),
      'buy more': yesNo(
        'Whether more of it is to be bought beside what was measured; nothing is bought unless said.',
      ).optional(),
      note: name('A remark that is printed with the cloth.', 'from the blue bolt', 'any').optional(),
      shop: name('Where it is bought, for the shopping list.', 'harbour stores', 'any').optional(),
      'leftover worth': worth(
        'What a keepable leftover of it is worth to you; as under `leftover worth` of the plan unless said.',
        context,
      ).optional(),
    },
    { wanted: 'keys such as width and selvedge', example: '{ width: 54, selvedge: 1/2 }' },
  );
}

export type WrittenCloth = z.output<ReturnType<typeof clothDefinition>>;

export function selvedges(meaning: string, context: ReadingContext) {
  const selvedge = context.unit === 'in' ? '1/2' : '1.2';
  const side = (which: string) =>
    length({ meaning: `Selvedge on the ${which}, right side up.`, example: selvedge }, context);

  const words = {
    wanted: `one length for both sides, or { left: ${selvedge}, right: 0 }`,
    example: selvedge,
  };
  const both = length({ meaning, example: selvedge }, context).transform(
    (each): Selvedges => ({ left: each, right: each }),
  );
  return either(both, keyed({ left: side('left'), right: side('right') }, words), words).meta({
    description: meaning,
  });
}

function buying(context: ReadingContext) {
  const meaning = 'Whether it can be bought, and how the shop cuts it.';
  const usual = context.unit === 'in' ? '{ step: 1/8 yd, longest: 10 yd }' : '{ step: 10 cm, longest: 9 m }';
  const words = { wanted: `yes, no, or ${usual}`, example: 'yes' };
  const terms = keyed(
    {
      step: length(
        {
          meaning: 'The shop cuts whole multiples of this: 1/8 yd, or 10 cm, unless said.',
          positive: true,
          example: context.unit === 'in' ? '1/8 yd' : '10 cm',
        },
        context,
      ).optional(),
      longest: length(
        {
          meaning: 'No single length longer than this can be had.',
          round: 'down',
          positive: true,
          example: context.unit === 'in' ? '10 yd' : '9 m',
        },
        context,
      ).optional(),
    },
    words,
  );
  return either(
    yesNo('Bought in the usual steps: 1/8 yd, or 10 cm on a centimetre plan.').transform(
      (bought): BuyTerms | undefined => (bought ? { step: SHOP_STEP[context.unit] } : undefined),
    ),
    terms.transform(
      (written): BuyTerms => ({
        step: written.step ?? SHOP_STEP[context.unit],
        ...(written.longest === undefined ? {} : { longest: written.longest }),
      }),
    ),
    words,
  ).meta({ description: meaning });
}

/** A length in hand as it is written: whatever it leaves out is the cloth's own. */
export interface WrittenLength {
  readonly name?: string | undefined;
  /** Absent only where it comes from the cupboard. */
  readonly length?: Ticks | undefined;
  readonly 'from cupboard'?: string | undefined;
  readonly 'all from cupboard'?: string | undefined;
  readonly width?: Ticks | undefined;
  readonly selvedge?: Selvedges | undefined;
  readonly crease?: Crease | undefined;
  readonly 'first motif'?: Ticks | undefined;
  readonly washed?: boolean | undefined;
  readonly grain?: 'lengthwise' | 'crosswise' | undefined;
  readonly flaws?: readonly Flaw[] | undefined;
  readonly panels?: readonly WrittenPanel[] | undefined;
  readonly 'panels begin'?: Ticks | undefined;
  readonly count?: number | undefined;
}

function lengthsInHand(context: ReadingContext) {
  const meaning = 'Lengths in hand: each a length, or a map of what differs from the cloth.';
  const measured = { round: 'down', positive: true } as const;
  const words = {
    wanted: 'a length, or { length: 60, width: 20, selvedge: 0 }',
    example: context.unit === 'in' ? '2 yd' : '1.5 m',
  };
  const bare = length({ meaning: 'Length of the whole width of the cloth.', ...measured }, context).transform(
    (value): WrittenLength => ({ length: value }),
  );
  const full = keyed(
    {
      name: name('What to call it in the plan.', 'end of bolt').optional(),
      length: length({ meaning: 'Along the selvedge; needed.', ...measured }, context).optional(),
      width: length(
        {
          meaning: "Its own width, where it is not the cloth's.",
          ...measured,
          most: WIDEST,
          mostInWords: 'a width up to 10 m',
        },
        context,
      ).optional(),
      selvedge: selvedges('Its own selvedges; must be said where it has its own width.', context).optional(),
      crease: crease(
        'Its own crease; must be said where it has its own width and the cloth keeps off the crease. Where it is not midway between the edges of this length: `keep off ... at` so far from its left outer edge.',
        context,
        'anywhere',
      ).optional(),
      grain: choice(
        'Which grain its length runs along: `lengthwise`, unless said, or `crosswise` for a remnant whose length runs across the cloth; then width and selvedge must be said, and it has neither selvedge nor crease along its length.',
        ['lengthwise', 'crosswise'],
        'crosswise',
      ).optional(),
      flaws: flawsDefinition(context).optional(),
      panels: panelAreas(context)
        .meta({ description: "Its own printed panels, once each, in place of the cloth's." })
        .optional(),
      'panels begin': length(
        {
          meaning:
            "Where a repeat of the cloth's panels begins, from the near end; at the end itself unless said.",
          example: context.unit === 'in' ? '4 1/2' : '12',
        },
        context,
      ).optional(),
      'first motif': length(
        {
          meaning: 'Centre of its first motif from the near end; the worst is reckoned with unless said.',
          example: context.unit === 'in' ? '4 1/4' : '11',
        },
        context,
      ).optional(),
      washed: yesNo(
        'Whether it has been washed already, so that it keeps the size it has; `no` unless said.',
      ).optional(),
      count: count('How many alike.').optional(),
      'from cupboard': name(
        'Instead of all that: the entry of the cupboard with this name, in its own measures.',
        'end of bolt',
        'any',
      ).optional(),
      'all from cupboard': name(
        'Instead of all that: every entry of the cupboard that is this cloth.',
        'lime wash',
        'any',
      ).optional(),
    },
    words,
  );
  return listOf(either(bare, full, words), {
    wanted: `a list of lengths, such as [${words.example}, 60]`,
    example: `[${words.example}, 60]`,
  }).meta({ description: meaning });
}

function washing(context: ReadingContext) {
  const loss = (which: string) => {
    const meaning = `Loss of ${which} in the wash, in per cent or from a swatch that was measured before and after.`;
    const words = { wanted: 'a loss such as 3 %, or { before: 20, after: 19 }', example: '3 %' };
    return either(percentage(meaning), swatch(context, words), words).meta({ description: meaning });
  };
  return keyed(
    {
      along: loss('length'),
      across: loss('width'),
      washed: choice('Whether the cloth is washed before it is cut, or only when it is sewn.', [
        'before-cutting',
        'after-sewing',
      ]),
      measured: measuredDefinition().optional(),
      'cut larger': yesNo(
        'For cloth that is washed only when it is sewn: every piece is cut so much larger that it comes to its finished size in the wash; `no` unless said.',
      ).optional(),
    },
    {
      wanted: 'along, across and washed',
      example: '{ along: 3 %, across: 2 %, washed: before-cutting }',
    },
  ).meta({ description: 'What is lost in the wash; nothing unless said.' });
}

function swatch(context: ReadingContext, words: { readonly wanted: string; readonly example: string }) {
  const side = (when: string) =>
    length(
      { meaning: `The swatch ${when} washing.`, positive: true, example: when === 'before' ? '20' : '19' },
      context,
    );
  return keyed({ before: side('before'), after: side('after') }, words).transform(
    ({ before, after }, issues): Fraction => {
      const read = swatchLoss(before, after, context);
      if (read.ok) return read.value;
      issues.issues.push({
        code: 'custom',
        input: after,
        path: ['after'],
        message: '',
        params: { problem: read.problem },
      });
      return z.NEVER;
    },
  );
}
