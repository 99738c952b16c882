import type { Cupboard, CupboardEntry } from '../../model/cupboard.ts';
import type { EntryWords } from '../../model/cupboard-edit.ts';
import { readEntry } from '../../model/cupboard-file.ts';
import type { Issue } from '../../model/issue.ts';
import { wordDetails } from '../../model/messages.ts';
import type { EntryKey } from '../../model/reading/cupboard-definition.ts';
import { CommandProblem, EXIT } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';

/** Options that stand for one key each, under its name or, where that is two words, a short one. */
const KEY_OF: Readonly<Record<string, EntryKey>> = {
  ...{ name: 'name', cloth: 'cloth', width: 'width', length: 'length', selvedge: 'selvedge' },
  ...{ crease: 'crease', grain: 'grain', direction: 'direction', runs: 'print runs', washed: 'washed' },
  ...{
    'panels-begin': 'panels begin',
    where: 'where',
    since: 'since',
    count: 'count',
    worth: 'worth',
    note: 'note',
  },
};

/** What the options say of an entry, as it would be written in the file. `stood` is what its selvedge was before. */
export function entryWords(options: OptionValues, stood?: EntryWords['selvedge']): EntryWords {
  const words: { -readonly [key in EntryKey]?: EntryWords[key] } = {};
  for (const [option, key] of Object.entries(KEY_OF)) {
    const typed = options[option];
    if (typeof typed === 'string') words[key] = typed;
  }
  const { left, right } = options;
  if (left === undefined && right === undefined) return words;
  const both = words.selvedge ?? stood ?? '0';
  const before = typeof both === 'string' ? { left: both, right: both } : (both as unknown as Sides);
  words.selvedge = {
    left: typeof left === 'string' ? left : before.left,
    right: typeof right === 'string' ? right : before.right,
  };
  return words;
}

interface Sides {
  readonly left: string;
  readonly right: string;
}

/** The key that an option to clear means. */
export function keyOf(option: string): EntryKey {
  return KEY_OF[option]!;
}

/** Reads an entry from words. Throws a CommandProblem that tells every problem at its option. */
export function entryOf(words: EntryWords, cupboard: Pick<Cupboard, 'unit' | 'currency'>): CupboardEntry {
  const said = Object.entries(words).flatMap(([key, value]) => (value === undefined ? [] : [[key, value]]));
  const read = readEntry(Object.fromEntries(said), cupboard);
  if (read.ok) return read.value;
  const lines = read.issues.map((issue) => `${optionOf(issue)}: ${sentenceFor(issue, cupboard.unit)}`);
  throw new CommandProblem(EXIT.badInput, lines.join('\n'));
}

function optionOf({ path }: Issue): string {
  const [key, side] = path;
  if (key === 'selvedge' && (side === 'left' || side === 'right')) return `--${side}`;
  const option = Object.keys(KEY_OF).find((name) => KEY_OF[name] === key);
  return option === undefined ? String(key) : `--${option}`;
}

function sentenceFor(issue: Issue, unit: Cupboard['unit']): string {
  if (issue.code !== 'missing') return wordDetails(issue, unit);
  return `this is needed, such as ${optionOf(issue)} "${issue.details.example}"`;
}
