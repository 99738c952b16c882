import { basename, extname } from 'node:path';
import { type Cupboard, type CupboardEntry, copyNames } from '../../model/cupboard.ts';
import {
  addEntry,
  correctEntry,
  type EntryWords,
  newCupboardText,
  removeEntry,
  takeOut,
  wordsOf,
} from '../../model/cupboard-edit.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { likelySpelling } from '../../units/spelling.ts';
import { changeCupboard, cupboardText, thisMachine, undoChange } from '../cupboard/change.ts';
import { NODE_DISK } from '../cupboard/disk.ts';
import { entryJson, entryRemarks } from '../cupboard/entry-text.ts';
import { entryOf, entryWords, keyOf } from '../cupboard/entry-words.ts';
import { CUPBOARD_UNLESS_SAID, cupboardOf } from '../cupboard/read-cupboard.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { show, type Terminal } from '../terminal.ts';

interface Done {
  readonly entry: CupboardEntry;
  readonly cupboard: Cupboard;
}

/** Puts a new entry in, since today unless another day is said. */
export async function runCupboardAdd(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = fileOf(options);
  const name = operands[0]!;
  const words = { since: today(), ...entryWords(options), name };
  const unit = options.unit === 'cm' ? 'cm' : 'in';
  // Words that can be no entry must not begin a file.
  const begin = options.unit === undefined ? undefined : beginning(file, unit, words);
  if (begin === undefined && cupboardText(file, NODE_DISK) === undefined) {
    const message = `${file}: no such file. To begin a cupboard there, say --unit in or --unit cm as well.`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  const done = await changeCupboard(
    file,
    thisMachine(),
    (text) => {
      const before = cupboardOf({ text, file });
      if (options.unit !== undefined && options.unit !== before.unit) throw otherUnit(file, before);
      refuseBadWords(words, before);
      const next = addEntry(text, words);
      return { text: next, did: `added "${name}"`, result: entryIn(next, name, file) };
    },
    begin,
  );
  return tell('Put in', done, options, terminal);
}

function beginning(file: string, unit: Cupboard['unit'], words: EntryWords): string {
  entryOf(words, { unit, currency: '' });
  const stem = basename(file, extname(file));
  return newCupboardText(stem === 'cupboard' ? 'The cupboard' : stem, unit);
}

/** Changes what is said of an entry. */
export async function runCupboardCorrect(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = fileOf(options);
  const name = operands[0]!;
  const done = await changeCupboard(file, thisMachine(), (text) => {
    const before = cupboardOf({ text, file });
    const own = entryNamed(name, before).name;
    const stood = wordsOf(text, own);
    const changes = changesTo(stood, options);
    if (Object.keys(changes).length === 0)
      throw new CommandProblem(EXIT.badInput, `"${name}": say what to correct, such as --length 40.`);
    refuseBadWords({ ...stood, ...changes }, before, own);
    const next = correctEntry(text, own, changes);
    const after = changes.name === undefined ? own : String(changes.name);
    return { text: next, did: `corrected "${own}"`, result: entryIn(next, after, file) };
  });
  return tell('Corrected', done, options, terminal);
}

function changesTo(stood: EntryWords, options: OptionValues): EntryWords {
  const cleared = Array.isArray(options.clear) ? options.clear : [];
  return {
    ...Object.fromEntries(cleared.map((option: string) => [keyOf(option), undefined])),
    ...entryWords(options, stood.selvedge),
  };
}

/** Takes an entry out, or some of several alike. */
export async function runCupboardRemove(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = fileOf(options);
  const name = operands[0]!;
  const done = await changeCupboard(file, thisMachine(), (text) => {
    const cupboard = cupboardOf({ text, file });
    const entry = entryNamed(name, cupboard);
    const count = typeof options.count === 'number' ? options.count : entry.count;
    if (count > entry.count) {
      const message = `--count: there ${entry.count === 1 ? 'is 1' : `are ${entry.count}`} of "${name}"; a number up to that would work`;
      throw new CommandProblem(EXIT.badInput, message);
    }
    const next = count === entry.count ? removeEntry(text, name) : takeOut(text, name, count);
    const result: Done = { entry: { ...entry, count }, cupboard };
    return { text: next, did: `removed ${count} of "${name}"`, result };
  });
  return tell('Taken out', done, options, terminal);
}

/** Takes back the last change. */
export async function runCupboardUndo(
  _operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const did = await undoChange(fileOf(options), thisMachine());
  show(terminal, options.json === true ? writeJson({ undone: did }) : `Undone: ${did}`);
  return EXIT.done;
}

/** Today, as this machine's clock and time zone have it. */
export function today(): string {
  const now = new Date();
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function fileOf(options: OptionValues): string {
  return String(options.cupboard ?? CUPBOARD_UNLESS_SAID);
}

/** Throws a CommandProblem with the likely spelling when there is no such entry. */
export function entryNamed(name: string, { entries }: Cupboard): CupboardEntry {
  const entry = entries.find((one) => one.name === name.normalize('NFC'));
  if (entry !== undefined) return entry;
  const likely = likelySpelling(
    name,
    entries.map((one) => one.name),
  );
  const hint =
    likely === undefined ? 'See them all with `laywright cupboard list`.' : `Did you mean "${likely}"?`;
  throw new CommandProblem(EXIT.badInput, `"${name}": no such entry lies in the cupboard. ${hint}`);
}

/** Refuses words that are no entry, telling every problem at its option, and a name that another entry or its copy has. */
function refuseBadWords(words: EntryWords, { unit, currency, entries }: Cupboard, own?: string): void {
  const entry = entryOf(words, { unit, currency });
  const namesOf = ({ name, count }: CupboardEntry) => [name, ...copyNames(name, count)];
  const names = namesOf({ ...entry, name: entry.name.normalize('NFC') });
  const other = entries.find((one) => one.name !== own && namesOf(one).some((name) => names.includes(name)));
  if (other === undefined) return;
  const message =
    other.name === names[0]
      ? `"${other.name}": an entry is called so already; give another name, or correct that one.`
      : `"${names[0]}": its name and that of "${other.name}" run into each other where copies are numbered; give another name.`;
  throw new CommandProblem(EXIT.badInput, message);
}

function entryIn(text: string, name: string, file: string): Done {
  const cupboard = cupboardOf({ text, file });
  return { cupboard, entry: entryNamed(name, cupboard) };
}

function otherUnit(file: string, { unit }: Cupboard): CommandProblem {
  return new CommandProblem(EXIT.badInput, `--unit: ${file} counts in ${unit} already; leave --unit out.`);
}

function tell(what: string, { entry, cupboard }: Done, options: OptionValues, terminal: Terminal): ExitCode {
  const { cloth, name } = entry;
  if (options.json === true) show(terminal, writeJson(entryJson(entry, cupboard)));
  else show(terminal, `${what}: ${name}, ${cloth}, ${entryRemarks(entry, cupboard)}`);
  return EXIT.done;
}
