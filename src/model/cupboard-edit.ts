import { type Document, isMap, isSeq, type YAMLMap, type YAMLSeq } from 'yaml';
import type { Cupboard, PlanCut } from './cupboard.ts';
import { readCupboard } from './cupboard-file.ts';
import { ENTRY_KEYS, type EntryKey } from './reading/cupboard-definition.ts';
import { readSource } from './reading/source.ts';
import type { Written } from './reading/written-tree.ts';
import {
  appendToList,
  dropItem,
  dropKey,
  type Edit,
  nodeText,
  type Splice,
  setKey,
} from './reading/yaml-splice.ts';

/** What stands behind each key of an entry, as a person would write it; undefined where nothing does. */
export type EntryWords = Readonly<Partial<Record<EntryKey, Written | undefined>>>;

/**
 * Edits of the cupboard's file. Each takes the text of a file that can be read and gives the text with one entry
 * changed: every other line stays as it was written, comments and order included. Where an entry is written in a way
 * that cannot be changed in its place, the file is written anew from its YAML nodes, which keeps comments and order too.
 *
 * Each throws an Error, and changes nothing, when an entry it was not asked to touch would come out otherwise.
 */
export function addEntry(text: string, words: EntryWords): string {
  const item = inOrder(words);
  const added: Edit = {
    splice: (body, document) => appendToList(body, document, 'entries', item),
    rewrite: (document) => listOf(document, 'entries').add(document.createNode(item)),
  };
  return edited(text, added, [String(words.name)]);
}

/** Sets keys of one entry; a key with `undefined` is left out from now on. */
export function correctEntry(text: string, name: string, changes: EntryWords): string {
  const steps = Object.entries(changes).map(([key, value]): Edit => {
    const current = key === 'name' || changes.name === undefined ? name : String(changes.name);
    return value === undefined ? withoutKey(current, key) : withKey(current, key, value);
  });
  // The new name comes first, so that the steps behind it find the entry under it.
  steps.sort((one, other) => Number(other.renames ?? false) - Number(one.renames ?? false));
  const names = changes.name === undefined ? [name] : [name, String(changes.name)];
  return steps.reduce((before, step) => edited(before, step, names), text);
}

/** What an entry says of itself, as it is written. */
export function wordsOf(text: string, name: string): EntryWords {
  const { source } = readSource(text, '');
  if (source === undefined) throw new Error('a cupboard is asked that cannot be read');
  return entryNode(source.document, name).toJS(source.document) as EntryWords;
}

function withKey(name: string, key: string, value: Written): Edit {
  return {
    renames: key === 'name',
    splice: (body, document) => setKey(body, entryNode(document, name), key, value),
    rewrite: (document) => entryNode(document, name).set(key, document.createNode(value)),
  };
}

function withoutKey(name: string, key: string): Edit {
  return {
    splice: (body, document) => dropKey(body, entryNode(document, name), key),
    rewrite: (document) => entryNode(document, name).delete(key),
  };
}

export function removeEntry(text: string, name: string): string {
  const removed: Edit = {
    splice: (body, document) => dropItem(body, document, 'entries', entryIndex(document, name)),
    rewrite: (document) => listOf(document, 'entries').delete(entryIndex(document, name)),
  };
  return edited(text, removed, [name]);
}

/** Takes so many copies of an entry out; with the last of them the entry goes. */
export function takeOut(text: string, name: string, copies: number): string {
  const entry = readOrThrow(text).entries.find((one) => one.name === name);
  if (entry === undefined || entry.count < copies || copies < 1)
    throw new RangeError(`cannot take ${copies} of "${name}" out of ${entry?.count ?? 0}`);
  if (entry.count === copies) return removeEntry(text, name);
  return correctEntry(text, name, { count: String(entry.count - copies) });
}

/** Puts what is left of a length back as an entry of its own. */
export function putBack(text: string, words: EntryWords): string {
  return addEntry(text, words);
}

/** Writes down that a plan has been cut. */
export function noteCut(text: string, cut: PlanCut): string {
  const item = { plan: cut.plan, on: cut.on, mark: cut.mark };
  return edited(
    text,
    {
      splice: (body, document) => appendToList(body, document, 'cut', item),
      rewrite: (document) => listOf(document, 'cut').add(document.createNode(item)),
    },
    [],
  );
}

/** The beginning of a cupboard's file. */
export function newCupboardText(name: string, unit: Cupboard['unit'], currency?: string): string {
  const money = currency === undefined ? '' : `currency: ${nodeText(currency)}\n`;
  return [
    '# What lies in the cupboard. Laywright changes single entries and leaves the rest as it is written.',
    `cupboard: ${nodeText(name)}`,
    `unit: ${unit}`,
    `${money}`,
    'entries: []',
    '',
  ].join('\n');
}

function edited(text: string, edit: Edit, touched: readonly string[]): string {
  const mark = text.startsWith('\ufeff') ? '\ufeff' : '';
  const body = text.slice(mark.length);
  const { source } = readSource(body, '');
  if (source === undefined) throw new Error('a cupboard is edited that cannot be read');
  const spliced = edit.splice(body, source.document);
  for (const next of [spliced, () => rewritten(source.document, edit)]) {
    const result = typeof next === 'function' ? next() : next;
    if (result !== undefined && keepsOthers(text, mark + result, touched)) return mark + result;
  }
  throw new Error(`the edit of ${touched.join(', ')} would change other entries`);
}

function rewritten(document: Document, edit: Edit): Splice {
  edit.rewrite(document);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

/** Whether the new text can be read and tells the same of everything but the entries touched. */
function keepsOthers(before: string, after: string, touched: readonly string[]): boolean {
  const others = (text: string) => {
    const read = readCupboard(text, { file: '' });
    if (!read.ok) return undefined;
    const { entries, cut, ...rest } = read.value;
    const kept = entries.filter(({ name }) => !touched.includes(name));
    // Without an entry to touch, it is the list of plans cut that grows.
    const plans = touched.length === 0 ? cut.slice(0, readOrThrow(before).cut.length) : cut;
    return JSON.stringify([kept, plans, rest]);
  };
  const now = others(after);
  return now !== undefined && now === others(before);
}

function readOrThrow(text: string): Cupboard {
  const read = readCupboard(text, { file: '' });
  if (!read.ok) throw new Error(`a cupboard is edited that cannot be read: ${JSON.stringify(read.issues)}`);
  return read.value;
}

function inOrder(words: EntryWords): Record<string, Written> {
  return Object.fromEntries(
    ENTRY_KEYS.filter((key) => words[key] !== undefined).map((key) => [key, words[key]!]),
  );
}

function listOf(document: Document, key: string): YAMLSeq {
  const list = document.get(key);
  if (isSeq(list)) return list;
  const made = document.createNode([]) as YAMLSeq;
  document.set(key, made);
  return made;
}

function entryIndex(document: Document, name: string): number {
  const index = listOf(document, 'entries').items.findIndex(
    (item) => isMap(item) && String(item.get('name')).normalize('NFC') === name.normalize('NFC'),
  );
  if (index < 0) throw new RangeError(`there is no entry "${name}"`);
  return index;
}

function entryNode(document: Document, name: string): YAMLMap {
  return listOf(document, 'entries').items[entryIndex(document, name)] as YAMLMap;
}
