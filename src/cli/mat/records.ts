import type { CommandRecord } from '../command-records.ts';
import type { OptionRecord } from '../option-records.ts';

const text = (name: string, placeholder: string, meaning: string): OptionRecord => ({
  name,
  kind: 'text',
  placeholder,
  meaning,
});

const JSON_SWITCH = { name: 'json', kind: 'switch' } as const;

/** What can be measured at the mat, by the option's name; each has its key in the plan file. */
export const MEASURE_OPTIONS = {
  width: 'width',
  length: 'length',
  before: 'before',
  name: 'name',
  of: 'of',
  crease: 'crease',
  'first-motif': 'first motif',
  'panels-begin': 'panels begin',
} as const;

/** Commands for the cloth that lies washed on the mat. `shared` are the options that planning has everywhere. */
export function matCommands(
  shared: readonly OptionRecord[],
  writing: readonly OptionRecord[],
): readonly CommandRecord[] {
  return [
    {
      name: 'measured',
      sentence: 'Writes into a plan file what a cloth measures once it is bought and washed.',
      examples: [
        'laywright measured hall.yaml --cloth "gull stripe" --width "52 3/4" --length 61 --before "1 3/4 yd"',
        'laywright measured hall.yaml --width 134 --length 156 --crease "keep off 1 at 66"',
      ],
      operand: { syntax: '<file>', meaning: 'plan file; the rest of it stays as written' },
      options: [
        text('cloth', 'name', 'which cloth it is; needed where the plan has several'),
        text('width', 'length', 'overall width, washed: the least that you measured'),
        text('length', 'length', 'length, washed'),
        text(
          'before',
          'length',
          'its length before washing, such as "1 3/4 yd", to tell what it really shrank',
        ),
        text('name', 'name', 'what to call it'),
        text('of', 'name', 'the length in hand that it is, measured anew'),
        text('selvedge', 'length', "selvedge on both sides, where it is not the cloth's"),
        text('left', 'length', 'selvedge on the left, where the right has another'),
        text('right', 'length', 'selvedge on the right, where the left has another'),
        text('crease', 'rule', 'bolt fold: none, use, or "keep off 3/4 at 25 1/2" from the left outer edge'),
        text('first-motif', 'length', 'centre of its first motif from the near end'),
        text('panels-begin', 'length', 'where a repeat of its printed panels begins, from the near end'),
        text('repeat-along', 'length', 'how far the print repeats along it, washed'),
        text('repeat-across', 'length', 'how far the print repeats across it, washed'),
        text('from-edge', 'length', 'centre of a motif from the left outer edge, washed'),
        {
          name: 'add',
          kind: 'switch',
          meaning: 'a further length of a cloth that has been measured already',
        },
        { name: 'again', kind: 'switch', meaning: 'instead of all that was measured of this cloth before' },
        { ...JSON_SWITCH, meaning: 'print what was measured as JSON' },
      ],
      load: async () => (await import('../commands/measured.ts')).runMeasured,
    },
    {
      name: 'refit',
      sentence:
        'Plans on cloth as it was measured; where it no longer fits, tells the least to join, shrink, drop or buy.',
      examples: [
        'laywright refit hall.yaml',
        'laywright refit hall.yaml --may-shrink "bench covers by 1 in" --take shrink',
      ],
      operand: { syntax: '<file>', meaning: 'plan file with what was measured, or - for standard input' },
      options: [
        {
          name: 'take',
          kind: 'text',
          placeholder: 'offer',
          meaning:
            'write this offer as a plan file of its own, with its markers: join, shrink, drop or buy, or one for each cloth: "oat linen: drop, gull stripe: buy"',
        },
        text(
          'may-shrink',
          'things',
          'what may be made smaller, and by how much at most: "covers by 1 in, runner length by 4"; everything by an eighth unless said',
        ),
        {
          name: 'as',
          kind: 'text',
          placeholder: 'file',
          meaning: 'the plan file that --take writes; one that exists is never touched',
          defaultMeaning: 'NAME-refit.yaml beside NAME.yaml',
        },
        ...writing,
        ...shared,
        { ...JSON_SWITCH, meaning: 'print the offers as JSON, each with its cut plan' },
      ],
      load: async () => (await import('../commands/refit.ts')).runRefit,
    },
  ];
}
