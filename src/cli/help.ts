import { rowsInColumns, wrapWords } from '../rendering/text-columns.ts';
import { COMMANDS, type CommandRecord } from './command-records.ts';
import { optionHelp, optionSyntax } from './option-records.ts';

type Row = readonly [string, string];

const ABOUT =
  'Laywright plans how to cut straight-sided pieces out of woven cloth, and prints the marker to cut by.';

const HELP_ROW: Row = ['-h, --help', 'print this help'];

const COLUMNS = 80;

/** Help of the whole program: one sentence, two examples, the commands, the options. */
export function programHelp(): string {
  const commands = COMMANDS.map((record): Row => [spelled(record), record.sentence]);
  return [
    ...wrapWords(ABOUT, COLUMNS),
    '',
    '  laywright new breakfast-room.yaml',
    '  laywright plan breakfast-room.yaml',
    '',
    'Commands',
    ...rowsInColumns(commands, COLUMNS),
    '',
    'Options',
    ...rowsInColumns([HELP_ROW, ['--version', 'print the version']], COLUMNS),
    '',
    ...wrapWords('`laywright COMMAND --help` tells more of each.', COLUMNS),
    '',
  ].join('\n');
}

/** Help of commands that belong together: what each does. */
export function groupHelp(group: string): string {
  const records = COMMANDS.filter((record) => record.name.startsWith(`${group} `));
  return [
    ...rowsInColumns(
      records.map((record): Row => [spelled(record), record.sentence]),
      COLUMNS,
    ),
    '',
    ...wrapWords(`\`laywright ${group} COMMAND --help\` tells more of each.`, COLUMNS),
    '',
  ].join('\n');
}

/** Help of one command: one sentence, two examples, what it takes, the options. */
export function commandHelp(record: CommandRecord): string {
  const operand = record.operand;
  const takes: Row[] = operand === undefined ? [] : [[operand.syntax, operand.meaning]];
  const options = record.options.map((option): Row => [optionSyntax(option), optionHelp(option)]);
  return [
    ...wrapWords(record.sentence, COLUMNS),
    '',
    ...record.examples.map((example) => `  ${example}`),
    '',
    ...(takes.length === 0 ? [] : ['Takes', ...rowsInColumns(takes, COLUMNS), '']),
    'Options',
    ...rowsInColumns([...options, HELP_ROW], COLUMNS),
    '',
  ].join('\n');
}

function spelled(record: CommandRecord): string {
  return record.operand === undefined ? record.name : `${record.name} ${record.operand.syntax}`;
}
