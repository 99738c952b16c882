import { TICKS_PER_CM, TICKS_PER_INCH, type Ticks, ticks } from '../../units/ticks.ts';
import type { QuarterTurns } from '../cut-tree.ts';
import type { Mount, Panel, PanelAsked, Panels } from '../panel.ts';
import { either, keyed, listOf, type Problem, type ReadingContext, scalar } from './fields.ts';
import { choice, length, name, outOfRange, readClothName, size } from './scalars.ts';

const SIDES = ['far end', 'left edge', 'near end', 'right edge'] as const;

/** A panel as it is written; which way is up may be left to the print. */
export interface WrittenPanel {
  readonly name: string;
  readonly 'from edge': Ticks;
  readonly 'from end': Ticks;
  readonly size: { readonly width: Ticks; readonly length: Ticks };
  readonly up?: (typeof SIDES)[number] | undefined;
}

/** Printed panels, each a box on the cloth with a name. */
export function panelAreas(context: ReadingContext) {
  const example = '{ name: lighthouse, from edge: 2, from end: 3, size: 18 x 18 }';
  const place = (from: string) =>
    length({ meaning: `Where it begins, from ${from}.`, round: 'down', example: '2' }, context);
  const area = keyed(
    {
      name: name('What the panel is called; panels alike share a name.', 'lighthouse', 'any'),
      'from edge': place('the left outer edge'),
      'from end': place('the near end, or from where each repeat of the panels begins'),
      size: size('How far it reaches across and along, as it lies on the cloth.', context, '18 x 18'),
      up: choice('Where its top lies; as the print runs, unless said.', SIDES, SIDES[0]).optional(),
    },
    { wanted: `keys such as ${example}`, example },
  );
  return listOf(area, { wanted: `a list such as [${example}]`, example: `[${example}]` });
}

/** The panels of a cloth: their areas alone, or with how they come again. */
export function panelsDefinition(context: ReadingContext) {
  const meaning = 'Printed panels, which are cut around whole.';
  const every = context.unit === 'in' ? '24' : '60';
  const words = {
    wanted: `a list of panels, or { every: ${every}, areas: [...] }`,
    example: `{ every: ${every}, areas: [{ name: lighthouse, from edge: 2, from end: 3, size: 18 x 18 }] }`,
  };
  const full = keyed(
    {
      areas: panelAreas(context)
        .meta({ description: 'The panels, each once; lengths in hand may tell their own instead.' })
        .optional(),
      every: length(
        { meaning: 'After how much of the length the panels come again.', positive: true, example: every },
        context,
      ).optional(),
      'first motif': length(
        {
          meaning:
            'Of a print that repeats beside the panels: the centre of its first motif, from where each repeat of the panels begins.',
          example: context.unit === 'in' ? '4 1/4' : '11',
        },
        context,
      ).optional(),
      sold: choice(
        'How a shop cuts it: `in repeats`, unless said, each from where the panels begin; or `anywhere`.',
        ['in repeats', 'anywhere'],
      ).optional(),
      untaken: choice(
        'What becomes of a panel that no piece takes: it is `kept whole`, unless said, or `plain cloth`.',
        ['kept whole', 'plain cloth'],
      ).optional(),
    },
    words,
  );
  const bare = panelAreas(context).transform((areas): WrittenPanels => ({ areas, isList: true }));
  return either(
    bare,
    full.transform((written): WrittenPanels => ({ ...written, isList: false })),
    words,
  ).meta({
    description: meaning,
  });
}

export interface WrittenPanels {
  readonly areas?: readonly WrittenPanel[] | undefined;
  readonly every?: Ticks | undefined;
  readonly 'first motif'?: Ticks | undefined;
  readonly sold?: 'in repeats' | 'anywhere' | undefined;
  readonly untaken?: 'kept whole' | 'plain cloth' | undefined;
  readonly isList: boolean;
}

export function toPanels(written: WrittenPanels, printRuns: 'along' | 'across'): Panels {
  return {
    areas: (written.areas ?? []).map((area) => toPanel(area, printRuns)),
    sold: written.sold === 'anywhere' ? 'anywhere' : 'in-repeats',
    untaken: written.untaken === 'plain cloth' ? 'use' : 'keep',
    ...(written.every !== undefined && { every: written.every }),
    ...(written['first motif'] !== undefined && { firstMotif: written['first motif'] }),
  };
}

export function toPanel(written: WrittenPanel, printRuns: 'along' | 'across'): Panel {
  const side = written.up ?? (printRuns === 'along' ? 'far end' : 'left edge');
  return {
    name: written.name,
    x: written['from edge'],
    y: written['from end'],
    ...written.size,
    turned: SIDES.indexOf(side) as QuarterTurns,
  };
}

/** Usual depths, as for seamed joins; common practice, no published source. */
const USUAL = { in: TICKS_PER_INCH / 2, cm: 1.5 * TICKS_PER_CM } as const;

/** Which panels the pieces of a part are cut around, and how each is mounted. */
export function panelAskedDefinition(context: ReadingContext) {
  const meaning =
    'The printed panel in the middle of each piece: its name, or several that are dealt out in turn; mounted where it is smaller.';
  const someCloth = context.clothNames?.[0] ?? 'lime wash';
  const words = {
    wanted: `a panel's name, a list of names, or { name: lighthouse, mount: strips, cloth: ${someCloth} }`,
    example: 'lighthouse',
  };
  const one = name('The panel by its name.', 'lighthouse', 'any').transform((own) => [own]);
  const several = listOf(name('One of the panels.', 'lighthouse', 'any'), {
    wanted: 'a list of panels, such as [lighthouse, gull]',
    example: '[lighthouse, gull]',
  }).superRefine((names, issues) => {
    const twice = names.find((own, index) => names.indexOf(own) < index);
    if (names.length > 0 && twice === undefined) return;
    const wanted = twice === undefined ? 'one panel at least' : 'each panel once';
    issues.addIssue({ code: 'custom', message: '', params: outOfRange(twice ?? 'an empty list', wanted) });
  });
  const names = either(one, several, words);
  const depth = (own: string) =>
    length({ meaning: own, example: context.unit === 'in' ? '1/2' : '1.5' }, context).optional();
  const mounted = keyed(
    {
      name: names.meta({ description: 'The panel, or several that are dealt out in turn.' }),
      mount: choice(
        'How it is made up to the size of the front: `strips` are sewn on as borders, or it is turned under and sewn on to a `ground`.',
        ['strips', 'ground'],
      ),
      cloth: scalar({
        wanted: 'the name of a cloth of this plan',
        example: someCloth,
        meaning: 'The cloth of the strips, or of the ground.',
        read: (text) => readClothName(text, context),
      }),
      seam: depth('Allowance of each seam between panel and strips; 1/2 in, or 1.5 cm, unless said.'),
      turn: depth(
        'Turned under all round before it is sewn on to its ground; 1/2 in, or 1.5 cm, unless said.',
      ),
    },
    { wanted: 'name, mount and cloth', example: `{ name: lighthouse, mount: strips, cloth: ${someCloth} }` },
  ).superRefine((written, issues) => {
    const [wrong, right] =
      written.mount === 'strips' ? (['turn', 'seam'] as const) : (['seam', 'turn'] as const);
    if (written[wrong] === undefined) return;
    const problem: Problem = {
      code: 'out-of-range',
      details: { found: wrong, wanted: `${right}, for ${written.mount}` },
    };
    issues.addIssue({ code: 'custom', path: [wrong], message: '', params: { problem } });
  });
  return either(
    names.transform((own): PanelAsked => ({ names: own })),
    mounted.transform(({ name: own, mount, cloth, seam, turn }): PanelAsked => {
      const usual = ticks(USUAL[context.unit]);
      const asked: Mount =
        mount === 'strips'
          ? { kind: mount, cloth, seam: seam ?? usual }
          : { kind: mount, cloth, turn: turn ?? usual };
      return { names: own, mount: asked };
    }),
    words,
  ).meta({ description: meaning });
}
