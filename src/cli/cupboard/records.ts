import type { CommandRecord } from '../command-records.ts';
import type { OptionRecord } from '../option-records.ts';

const FILE: OptionRecord = {
  name: 'cupboard',
  kind: 'text',
  placeholder: 'file',
  meaning: "the cupboard's file",
  defaultMeaning: 'cupboard.yaml here',
};

const JSON_SWITCH = { name: 'json', kind: 'switch' } as const;

const text = (name: string, placeholder: string, meaning: string): OptionRecord => ({
  name,
  kind: 'text',
  placeholder,
  meaning,
});

/** What can be said of an entry, under the names that it has in the file; `runs` is short for `print runs`. */
const ENTRY_OPTIONS: readonly OptionRecord[] = [
  text('cloth', 'name', 'which cloth it is'),
  text('width', 'length', 'overall width, as it lies there now'),
  text('length', 'length', 'length, as it lies there now, such as "1 1/4 yd"'),
  text('selvedge', 'length', 'selvedge on both sides; 0 where the edges are cut'),
  text('left', 'length', 'selvedge on the left, where the right has another'),
  text('right', 'length', 'selvedge on the right, where the left has another'),
  text('crease', 'rule', 'bolt fold: none, use, or "keep off 3/4 at 20", from the left edge'),
  text('grain', 'grain', 'grain its length runs along: lengthwise, crosswise or unknown'),
  text('direction', 'kind', 'plain, two-way, one-way or nap'),
  text('runs', 'way', 'way the print is upright: along or across'),
  text('washed', 'answer', 'whether it has been washed: yes or no'),
  text('panels-begin', 'length', 'where a repeat of its printed panels begins, from the near end'),
  text('where', 'place', 'where it lies'),
  text('since', 'day', 'since when, such as 2026-03-14'),
  text('count', 'number', 'how many alike'),
  text('worth', 'amount', 'what using it is worth, such as "6.50 per sq yd"'),
  text('note', 'words', 'a remark'),
];

/** Keys of an entry that may be left out, by the names of their options. */
export const MAY_BE_CLEARED = [
  ...[
    'crease',
    'grain',
    'direction',
    'runs',
    'washed',
    'panels-begin',
    'where',
    'since',
    'count',
    'worth',
    'note',
  ],
] as const;

export const CUPBOARD_COMMANDS: readonly CommandRecord[] = [
  {
    name: 'cupboard list',
    sentence: 'Lists the lengths and remnants in the cupboard.',
    examples: ['laywright cupboard list', 'laywright cupboard list "harbour check" --json'],
    operand: { syntax: '[cloth]', meaning: 'only entries of this cloth' },
    options: [FILE, { ...JSON_SWITCH, meaning: 'print the entries as JSON' }],
    load: async () => (await import('../commands/cupboard-list.ts')).runCupboardList,
  },
  {
    name: 'cupboard find',
    sentence: 'Finds what in the cupboard holds a piece of a size, smallest first.',
    examples: ['laywright cupboard find "19 x 19"', 'laywright cupboard find "12 x 40 in" --upright'],
    operand: { syntax: '<size>', meaning: 'cut size, width x length' },
    options: [
      text('cloth', 'name', 'only entries of this cloth'),
      {
        name: 'upright',
        kind: 'switch',
        meaning: 'its length must run along the lengthwise grain, on plain cloth too',
      },
      FILE,
      { ...JSON_SWITCH, meaning: 'print what was found as JSON' },
    ],
    load: async () => (await import('../commands/cupboard-list.ts')).runCupboardFind,
  },
  {
    name: 'cupboard uses',
    sentence: 'Tells what the lengths and remnants in the cupboard could become, best use first.',
    examples: ['laywright cupboard uses', 'laywright cupboard uses "oat linen" --plan breakfast-room.yaml'],
    operand: { syntax: '[cloth]', meaning: 'only entries of this cloth' },
    options: [
      text('plan', 'file', 'a plan that lists what you would like, under `from leftovers`'),
      {
        name: 'listed',
        kind: 'switch',
        meaning: 'only what that plan lists, no usual sizes',
      },
      {
        name: 'effort',
        kind: 'number',
        placeholder: 'nodes',
        lower: 1,
        default: 400_000,
        upper: 1_000_000_000,
        meaning: 'how long to search, in steps; each use takes a twentieth of it',
      },
      {
        name: 'seed',
        kind: 'number',
        placeholder: 'number',
        lower: 0,
        default: 1,
        upper: 2_147_483_647,
        meaning: 'starting point of the search',
      },
      FILE,
      { ...JSON_SWITCH, meaning: 'print the uses as JSON, with the plans that cut them' },
    ],
    load: async () => (await import('../commands/cupboard-uses.ts')).runCupboardUses,
  },
  {
    name: 'cupboard add',
    sentence: 'Puts a length into the cupboard, and begins its file where there is none.',
    examples: [
      'laywright cupboard add "harbour end" --cloth "harbour check" --width 54 --length 45 --selvedge 1/2',
      'laywright cupboard add strip --cloth lime --width 20 --length "1 yd" --left 1/2 --where "top shelf"',
    ],
    operand: { syntax: '<name>', meaning: 'what the new entry is called' },
    options: [
      ...ENTRY_OPTIONS,
      { name: 'unit', kind: 'choice', placeholder: 'unit', choices: ['in', 'cm'], meaning: 'of a new file' },
      FILE,
      { ...JSON_SWITCH, meaning: 'print the new entry as JSON' },
    ],
    load: async () => (await import('../commands/cupboard-change.ts')).runCupboardAdd,
  },
  {
    name: 'cupboard correct',
    sentence: 'Corrects what the cupboard says of an entry; the rest of the file stays as written.',
    examples: [
      'laywright cupboard correct "harbour end" --length 44 --washed yes',
      'laywright cupboard correct strip --name "lime strip" --clear where,note',
    ],
    operand: { syntax: '<name>', meaning: 'the entry to correct' },
    options: [
      text('name', 'name', 'another name for it'),
      ...ENTRY_OPTIONS,
      {
        name: 'clear',
        kind: 'choices',
        placeholder: 'keys',
        choices: MAY_BE_CLEARED,
        default: [],
        nothing: 'nothing',
        meaning: 'what to say no more of it',
      },
      FILE,
      { ...JSON_SWITCH, meaning: 'print the corrected entry as JSON' },
    ],
    load: async () => (await import('../commands/cupboard-change.ts')).runCupboardCorrect,
  },
  {
    name: 'cupboard remove',
    sentence: 'Takes an entry, or some of several alike, out of the cupboard.',
    examples: ['laywright cupboard remove strip', 'laywright cupboard remove "fat quarter" --count 2'],
    operand: { syntax: '<name>', meaning: 'the entry to take out' },
    options: [
      {
        name: 'count',
        kind: 'number',
        placeholder: 'number',
        lower: 1,
        upper: 10_000,
        meaning: 'how many of several alike; all of them unless said',
      },
      FILE,
      { ...JSON_SWITCH, meaning: 'print what was taken out as JSON' },
    ],
    load: async () => (await import('../commands/cupboard-change.ts')).runCupboardRemove,
  },
  {
    name: 'cupboard done',
    sentence:
      'Books a plan whose cutting is done: takes out what it used, and puts its leftovers in. Once for each plan.',
    examples: [
      'laywright cupboard done breakfast-room-marker/plan.json',
      'laywright cupboard done plan.json --on 2026-03-14 --where "remnant box"',
    ],
    operand: { syntax: '<plan>', meaning: 'plan.json of a plan that was made with the cupboard' },
    options: [
      text('on', 'day', 'the day of the cutting; today unless said'),
      text('where', 'place', 'where the leftovers are put; unless said, where their length lay'),
      { ...FILE, meaning: 'the cupboard; unless said, the one that the plan names, else cupboard.yaml' },
      { ...JSON_SWITCH, meaning: 'print what was taken out and put in as JSON' },
    ],
    load: async () => (await import('../commands/cupboard-done.ts')).runCupboardDone,
  },
  {
    name: 'cupboard undo',
    sentence: 'Takes back the last change that a command made in the cupboard.',
    examples: ['laywright cupboard undo', 'laywright cupboard undo --cupboard attic.yaml'],
    options: [FILE, { ...JSON_SWITCH, meaning: 'print what was undone as JSON' }],
    load: async () => (await import('../commands/cupboard-change.ts')).runCupboardUndo,
  },
];
