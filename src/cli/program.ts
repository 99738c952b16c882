import { Command, CommanderError, Option } from 'commander';
import { COMMANDS, type CommandRecord } from './command-records.ts';
import { CommandProblem, EXIT, type ExitCode } from './exit-codes.ts';
import { commandHelp, groupHelp, programHelp } from './help.ts';
import {
  defaultOf,
  type OptionRecord,
  type OptionValues,
  optionSyntax,
  readOption,
} from './option-records.ts';
import { say, type Terminal } from './terminal.ts';

/** Runs one command line and returns what the shell is told. Prints every expected problem; faults of ours are thrown. */
export async function runProgram(
  words: readonly string[],
  version: string,
  terminal: Terminal,
): Promise<ExitCode> {
  let answer: ExitCode = EXIT.done;
  const program = buildProgram(version, terminal, (exitCode) => {
    answer = exitCode;
  });
  try {
    await program.parseAsync(words, { from: 'user' });
    return answer;
  } catch (problem) {
    if (problem instanceof CommanderError) return problem.exitCode === 0 ? EXIT.done : EXIT.badInput;
    if (!(problem instanceof CommandProblem)) throw problem;
    say(terminal, problem.message);
    return problem.exitCode;
  }
}

function buildProgram(version: string, terminal: Terminal, done: (exitCode: ExitCode) => void): Command {
  const program = new Command('laywright');
  program
    .version(version, '--version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .exitOverride()
    .configureHelp({ formatHelp: () => programHelp() })
    .configureOutput({
      writeOut: (text) => terminal.output.write(text),
      writeErr: (text) => terminal.errors.write(text),
      outputError: (text, write) => write(text.replace(/^error: /, 'laywright: ')),
    });
  for (const record of COMMANDS) addCommand(program, record, terminal, done);
  return program;
}

function addCommand(
  program: Command,
  record: CommandRecord,
  terminal: Terminal,
  done: (exitCode: ExitCode) => void,
): void {
  // A name of two words is a command of a group: `cupboard list`.
  const [name, group] = record.name.split(' ').reverse();
  const command = groupOf(program, group)
    .command(name!)
    .configureHelp({ formatHelp: () => commandHelp(record) });
  if (record.operand !== undefined) command.argument(record.operand.syntax, record.operand.meaning);
  for (const option of record.options) command.addOption(new Option(optionSyntax(option)));
  command.action(async (...given: unknown[]) => {
    const typed = command.opts<Readonly<Record<string, string | true>>>();
    const options = readOptions(record.options, typed);
    const operands = given
      .slice(0, -2)
      .flat()
      .filter((word) => typeof word === 'string');
    const run = await record.load();
    done(await run(operands, options, terminal));
  });
}

function groupOf(program: Command, group: string | undefined): Command {
  if (group === undefined) return program;
  const known = program.commands.find((command) => command.name() === group);
  return (
    known ??
    program
      .command(group)
      .helpCommand(false)
      .configureHelp({ formatHelp: () => groupHelp(group) })
  );
}

/** All that is wrong with the options is said at once. */
function readOptions(
  records: readonly OptionRecord[],
  typed: Readonly<Record<string, string | true>>,
): OptionValues {
  const values: Record<string, OptionValues[string]> = {};
  const problems: string[] = [];
  for (const record of records) {
    // commander hands `--crease-at` over as `creaseAt`.
    const word = typed[new Option(optionSyntax(record)).attributeName()];
    const read = word === undefined ? undefined : readOption(record, word === true ? '' : word);
    if (read !== undefined && !read.ok) problems.push(read.message);
    else values[record.name] = read === undefined ? defaultOf(record) : read.value;
  }
  if (problems.length > 0) throw new CommandProblem(EXIT.badInput, problems.join('\n'));
  return values;
}
