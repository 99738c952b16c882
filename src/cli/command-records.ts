import { CUPBOARD_COMMANDS } from './cupboard/records.ts';
import type { ExitCode } from './exit-codes.ts';
import { matCommands } from './mat/records.ts';
import type { OptionRecord, OptionValues } from './option-records.ts';
import type { Terminal } from './terminal.ts';

export type RunCommand = (
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
) => Promise<ExitCode>;

/** A command as a record. `load` fetches its code only when it is asked for, so that help comes at once. */
export interface CommandRecord {
  readonly name: string;
  readonly sentence: string;
  readonly examples: readonly [string, string];
  /** As commander writes operands: `<needed>`, `[may be left out]`, `<several...>`. */
  readonly operand?: { readonly syntax: string; readonly meaning: string };
  readonly options: readonly OptionRecord[];
  readonly load: () => Promise<RunCommand>;
}

/** Files that planning can write, by what follows `--write`. */
export const OUTPUT_KINDS = ['svg', 'pdf', 'json', 'text'] as const;

export type OutputKind = (typeof OUTPUT_KINDS)[number];

/** Search nodes per cloth; a test holds it equal to the planner's own default, which is too heavy to load for help. */
export const EFFORT_UNLESS_SET = 400_000;

const CUPBOARD_FILE: OptionRecord = {
  name: 'cupboard',
  kind: 'text',
  placeholder: 'file',
  meaning: 'the cupboard that the plan may draw on',
  defaultMeaning: 'the one that the plan names',
};

const SEED: OptionRecord = {
  name: 'seed',
  kind: 'number',
  placeholder: 'number',
  lower: 0,
  default: 1,
  upper: 2_147_483_647,
  meaning: 'starting point of the search',
};

function effort(unlessSet: number, meaning: string): OptionRecord {
  return {
    name: 'effort',
    kind: 'number',
    placeholder: 'nodes',
    lower: 1,
    default: unlessSet,
    upper: 1_000_000_000,
    meaning,
  };
}

const JSON_SWITCH = { name: 'json', kind: 'switch' } as const;

/** Where the markers go, and which. */
const WRITING: readonly OptionRecord[] = [
  {
    name: 'out',
    kind: 'text',
    placeholder: 'folder',
    meaning: 'where the files go; only files that Laywright wrote are replaced',
    defaultMeaning: 'NAME-marker here, after NAME.yaml',
  },
  {
    name: 'write',
    kind: 'choices',
    placeholder: 'kinds',
    choices: OUTPUT_KINDS,
    default: ['svg', 'pdf', 'json'],
    nothing: 'nothing',
    meaning: 'which files to write',
  },
];

export const COMMANDS: readonly CommandRecord[] = [
  {
    name: 'plan',
    sentence: 'Plans how to cut everything in a plan file, and writes the markers to cut by.',
    examples: [
      'laywright plan breakfast-room.yaml',
      'laywright plan breakfast-room.yaml --paper a4 --out markers --write svg,pdf',
    ],
    operand: { syntax: '<file>', meaning: 'plan file, or - for standard input' },
    options: [
      ...WRITING,
      {
        name: 'paper',
        kind: 'choice',
        placeholder: 'size',
        choices: ['letter', 'a4'],
        meaning: "paper of the PDF instead of the plan's own",
      },
      effort(
        EFFORT_UNLESS_SET,
        'how long to search each cloth, in steps; the same effort gives the same plan anywhere',
      ),
      {
        name: 'seconds',
        kind: 'number',
        placeholder: 'seconds',
        lower: 1,
        upper: 86_400,
        meaning: 'stop searching after so long and keep the best plan so far; no limit unless set',
      },
      SEED,
      CUPBOARD_FILE,
      { ...JSON_SWITCH, meaning: 'print the plan as JSON instead of the summary' },
    ],
    load: async () => (await import('./commands/plan.ts')).runPlan,
  },
  {
    name: 'check',
    sentence: 'Reads plan files and reports every problem in them, without planning.',
    examples: ['laywright check breakfast-room.yaml', 'laywright check *.yaml --json'],
    operand: { syntax: '<files...>', meaning: 'plan files, or - for standard input' },
    options: [CUPBOARD_FILE, { ...JSON_SWITCH, meaning: 'print the problems as JSON' }],
    load: async () => (await import('./commands/check.ts')).runCheck,
  },
  {
    name: 'new',
    sentence: 'Starts a plan file with comments, from a few questions or from options.',
    examples: [
      'laywright new',
      'laywright new hall.yaml --make napkin --count 14 --size "17 in" --cloth "gull stripe" --width "55 in"',
    ],
    operand: { syntax: '[file]', meaning: 'the plan file to start; one that exists is never touched' },
    options: [
      { name: 'name', kind: 'text', placeholder: 'name', meaning: 'name of the plan' },
      {
        name: 'unit',
        kind: 'choice',
        placeholder: 'unit',
        choices: ['in', 'cm'],
        meaning: 'unit of the plan',
      },
      { name: 'make', kind: 'text', placeholder: 'kind', meaning: 'what to sew, by its kind; see `makes`' },
      {
        name: 'count',
        kind: 'number',
        placeholder: 'number',
        lower: 1,
        upper: 10_000,
        meaning: 'how many to sew',
      },
      { name: 'size', kind: 'text', placeholder: 'size', meaning: 'finished size, such as "17 x 21 in"' },
      { name: 'cloth', kind: 'text', placeholder: 'name', meaning: 'name of the cloth' },
      { name: 'width', kind: 'text', placeholder: 'length', meaning: 'overall width of the cloth' },
      { name: 'defaults', kind: 'switch', meaning: 'ask nothing; what no option says takes its usual value' },
    ],
    load: async () => (await import('./commands/new.ts')).runNew,
  },
  {
    name: 'makes',
    sentence: 'Lists what can be sewn, with the measures of each make.',
    examples: ['laywright makes', 'laywright makes napkin'],
    operand: { syntax: '[kind]', meaning: 'one make, with all its measures and parts' },
    options: [{ ...JSON_SWITCH, meaning: 'print the makes as JSON' }],
    load: async () => (await import('./commands/makes.ts')).runMakes,
  },
  {
    name: 'schema',
    sentence:
      'Prints a JSON Schema: of plan files or the cupboard for an editor, or of the plan that `plan --json` prints.',
    examples: ['laywright schema > plan-file.schema.json', 'laywright schema cut-plan'],
    operand: { syntax: '[which]', meaning: 'plan-file (unless said), cut-plan or cupboard' },
    options: [],
    load: async () => (await import('./commands/schema.ts')).runSchema,
  },
  {
    name: 'buys',
    sentence: 'Compares what different lengths of each cloth would yield, and how much narrower it may be.',
    examples: [
      'laywright buys breakfast-room.yaml',
      'laywright buys hall.yaml --cloth "gull stripe" --lengths "1 yd, 2 yd"',
    ],
    operand: { syntax: '<file>', meaning: 'plan file, or - for standard input' },
    options: [
      { name: 'cloth', kind: 'text', placeholder: 'name', meaning: 'only this cloth' },
      {
        name: 'lengths',
        kind: 'text',
        placeholder: 'lengths',
        meaning: 'the buys to compare, such as "1 yd, 2 yd"',
        defaultMeaning: "the shop's steps from the least that yields a set",
      },
      {
        name: 'rungs',
        kind: 'number',
        placeholder: 'number',
        lower: 1,
        default: 16,
        upper: 200,
        meaning: 'how many buys to compare, from the least that yields a set to at least what the plan buys',
      },
      {
        name: 'set',
        kind: 'text',
        placeholder: 'what',
        meaning: 'what makes up one set, such as "2 window seat covers, 6 napkins"',
        defaultMeaning: 'of each cloth, and of all together, the smallest that the plan is a multiple of',
      },
      {
        name: 'worth',
        kind: 'text',
        placeholder: 'amount',
        meaning: 'what a keepable leftover is worth to you, such as "6.50 per sq yd"',
        defaultMeaning: 'what the plan says',
      },
      {
        name: 'every-width',
        kind: 'switch',
        meaning: 'list every width at which more has to be bought, not the first few alone',
      },
      {
        name: 'out',
        kind: 'text',
        placeholder: 'folder',
        meaning: 'where charts go, as SVG and PDF',
        defaultMeaning: 'no charts',
      },
      effort(40_000, 'how long to search each buy, in steps'),
      SEED,
      CUPBOARD_FILE,
      { ...JSON_SWITCH, meaning: 'print the comparison as JSON' },
    ],
    load: async () => (await import('./commands/buys.ts')).runBuys,
  },
  {
    name: 'yield',
    sentence: 'Tells how many complete sets the cloth that is here gives, and what else fits into the rest.',
    examples: [
      'laywright yield breakfast-room.yaml --here "gull stripe 2 yd; oat linen 3 1/4 yd"',
      'laywright yield hall.yaml --set "1 window seat cover, 2 napkins"',
    ],
    operand: { syntax: '<file>', meaning: 'plan file, or - for standard input' },
    options: [
      {
        name: 'here',
        kind: 'text',
        placeholder: 'lengths',
        meaning: 'what there is, each a cloth and a length of its whole width, such as "oat linen 2 yd"',
        defaultMeaning: 'the lengths in hand that the plan tells',
      },
      {
        name: 'set',
        kind: 'text',
        placeholder: 'what',
        meaning: 'what makes up one set, such as "2 window seat covers, 6 napkins"',
        defaultMeaning: 'the smallest that the plan is a multiple of',
      },
      {
        name: 'most',
        kind: 'number',
        placeholder: 'number',
        lower: 1,
        default: 60,
        upper: 60,
        meaning: 'more sets than this are not looked for',
      },
      {
        name: 'listed',
        kind: 'switch',
        meaning: 'of the rest, only what the plan lists under `from leftovers`, no usual sizes',
      },
      {
        name: 'out',
        kind: 'text',
        placeholder: 'folder',
        meaning: 'where the markers of the sets go, as SVG and PDF',
        defaultMeaning: 'no markers',
      },
      effort(EFFORT_UNLESS_SET, 'how long to search, in steps; each question takes a twentieth of it'),
      SEED,
      CUPBOARD_FILE,
      { ...JSON_SWITCH, meaning: 'print it as JSON, with the plan that cuts the sets' },
    ],
    load: async () => (await import('./commands/yield.ts')).runYield,
  },
  {
    name: 'uses',
    sentence: 'Tells what the leftovers of a plan could become, and what a little more cloth would give.',
    examples: ['laywright uses breakfast-room.yaml', 'laywright uses hall.yaml --listed --out leftovers'],
    operand: { syntax: '<file>', meaning: 'plan file, or - for standard input' },
    options: [
      { name: 'cloth', kind: 'text', placeholder: 'name', meaning: 'only this cloth' },
      {
        name: 'listed',
        kind: 'switch',
        meaning: 'only what the plan lists under `from leftovers`, no usual sizes',
      },
      {
        name: 'out',
        kind: 'text',
        placeholder: 'folder',
        meaning: 'where the markers of the best uses go, as SVG and PDF',
        defaultMeaning: 'no markers',
      },
      effort(EFFORT_UNLESS_SET, 'how long to search each cloth, in steps; each use takes a twentieth of it'),
      SEED,
      CUPBOARD_FILE,
      { ...JSON_SWITCH, meaning: 'print the uses as JSON, with the plans that cut them' },
    ],
    load: async () => (await import('./commands/uses.ts')).runUses,
  },
  {
    name: 'shopping',
    sentence:
      'Tells what to ask for at the counter of each shop, what it costs, and what is in hand already.',
    examples: [
      'laywright shopping breakfast-room.yaml',
      'laywright shopping breakfast-room.yaml --as csv > list.csv',
    ],
    operand: { syntax: '<file>', meaning: 'plan file, or - for standard input' },
    options: [
      {
        name: 'as',
        kind: 'choice',
        placeholder: 'form',
        choices: ['text', 'csv', 'json'],
        meaning: 'how to print the list; text unless set',
      },
      {
        name: 'by',
        kind: 'choice',
        placeholder: 'order',
        choices: ['shop', 'cloth'],
        meaning: 'whether shops, where the plan names any, part the list; by shop unless set',
      },
      {
        name: 'page',
        kind: 'text',
        placeholder: 'file.pdf',
        meaning: 'also write it as a page to take along',
      },
      effort(EFFORT_UNLESS_SET, 'how long to search each cloth, in steps'),
      SEED,
      CUPBOARD_FILE,
    ],
    load: async () => (await import('./commands/shopping.ts')).runShopping,
  },
  ...matCommands(
    [effort(EFFORT_UNLESS_SET, 'how long to search each cloth, in steps'), SEED, CUPBOARD_FILE],
    WRITING,
  ),
  ...CUPBOARD_COMMANDS,
];
