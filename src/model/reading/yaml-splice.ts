import { Document, isCollection, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap } from 'yaml';
import type { Written } from './written-tree.ts';

/**
 * Changes in the text of a YAML file that leave every other character alone. Each gives the new text, or undefined
 * where the text is written in a way that it does not know; then the caller writes the file from its nodes.
 */
export type Splice = string | undefined;

/** One change, in the text and, where that cannot be, in the nodes. */
export interface Edit {
  readonly splice: (body: string, document: Document) => Splice;
  readonly rewrite: (document: Document) => void;
  /** Whether it gives the entry another name. */
  readonly renames?: boolean;
}

/** A value as it stands behind a key: text in quotes only where it needs them, maps in braces. */
export function nodeText(value: Written): string {
  return written(value).trimEnd();
}

/** Gives a key of a map another value, or writes it behind the last one. */
export function setKey(text: string, map: YAMLMap, key: string, value: Written): Splice {
  const pair = pairOf(map, key);
  const inFlow = map.flow === true;
  if (pair !== undefined) {
    if (pair.value === null || !hasRange(pair.value) || pair.value.range[0] === pair.value.range[1])
      return undefined;
    const [from] = pair.value.range;
    const colon = text.indexOf(':', pair.key.range![1]) + 1;
    const below = text.slice(colon, from).includes('\n');
    const said = inFlow ? flowText(value) : nodeText(value);
    return replaced(text, below ? colon : from, contentEnd(pair.value), below ? ` ${said}` : said);
  }
  const last = pairsOf(map).at(-1);
  if (last === undefined) return undefined;
  const end = contentEnd(last.value ?? last.key);
  if (inFlow) return replaced(text, end, end, `, ${nodeText(key)}: ${flowText(value)}`);
  const indent = columnOf(text, last.key.range![0]);
  const line = `${' '.repeat(indent)}${nodeText(key)}: ${nodeText(value)}`;
  return insertedLine(text, end, line, indent);
}

/** Writes a key that a map in block style does not have yet on a line of its own, behind another one. */
export function addKeyBehind(
  text: string,
  map: YAMLMap,
  before: string,
  key: string,
  value: Written,
): Splice {
  const pair = pairOf(map, before);
  if (pair === undefined || map.flow === true) return undefined;
  const indent = columnOf(text, pair.key.range![0]);
  const line = `${' '.repeat(indent)}${nodeText(key)}: ${nodeText(value)}`;
  return insertedLine(text, contentEnd(pair.value ?? pair.key), line, indent + 1);
}

/** Takes a key out of a map that has others. */
export function dropKey(text: string, map: YAMLMap, key: string): Splice {
  const pairs = pairsOf(map);
  const index = pairs.findIndex((pair) => keyOf(pair) === key);
  if (index < 0) return text;
  if (pairs.length === 1) return undefined;
  const { key: node, value } = pairs[index];
  const end = contentEnd(value ?? node);
  if (index === 0) return replaced(text, node.range![0], pairs[1].key.range![0], '');
  if (map.flow === true) {
    const before = pairs[index - 1];
    return replaced(text, contentEnd(before.value ?? before.key), end, '');
  }
  const start = lineStart(text, node.range![0]);
  if (text.slice(start, node.range![0]).trim() !== '') return undefined;
  return replaced(text, start, nextLine(text, end), '');
}

/** Writes one more item behind the last of the list that stands behind `key`; begins the list where there is none. */
export function appendToList(
  text: string,
  document: Document,
  key: string,
  item: { readonly [key: string]: Written },
): Splice {
  const root = document.contents;
  if (!isMap(root) || root.flow === true) return undefined;
  const pair = pairOf(root, key);
  const eol = lineEnd(text);
  if (pair === undefined) {
    const last = pairsOf(root).at(-1);
    if (last === undefined) return undefined;
    const lines = [`${key}:`, ...itemLines(item, 2)].join(eol);
    return insertedLine(text, contentEnd(last.value ?? last.key), lines, 1);
  }
  const list = pair.value;
  if (!isSeq(list)) return undefined;
  const last = list.items.at(-1) as Node | undefined;
  if (last === undefined) {
    const lines = itemLines(item, 2).map((line) => `${eol}${line}`);
    // What stands behind the brackets on their line, a remark say, stays behind the key.
    const [start, end] = list.range!;
    const rest = text.slice(end, endOfLine(text, end));
    const before =
      rest.trim() === '' ? text.slice(0, start).trimEnd() : text.slice(0, start).trimEnd() + rest;
    return before + lines.join('') + text.slice(end + rest.length);
  }
  if (list.flow === true) return replaced(text, contentEnd(last), contentEnd(last), `, ${flowText(item)}`);
  const dash = dashOf(text, last);
  if (dash === undefined) return undefined;
  const column = columnOf(text, dash);
  return insertedLine(text, contentEnd(last), itemLines(item, column).join(eol), column + 1);
}

/** Takes one item out of the list behind `key`; remarks on lines of their own above it stay. */
export function dropItem(text: string, document: Document, key: string, index: number): Splice {
  const list = document.get(key);
  if (!isSeq(list) || list.flow === true) return undefined;
  const item = list.items[index] as Node;
  const dash = dashOf(text, item);
  if (dash === undefined) return undefined;
  const without = replaced(text, lineStart(text, dash), nextLine(text, contentEnd(item)), '');
  if (list.items.length > 1) return without;
  const root = document.contents as YAMLMap;
  const colon = text.indexOf(':', pairOf(root, key)!.key.range![1]);
  return replaced(without, colon + 1, colon + 1, ' []');
}

type KeyValue = Pair<Node, Node | null>;

function pairsOf(map: YAMLMap): readonly KeyValue[] {
  return map.items as unknown as readonly KeyValue[];
}

function pairOf(map: YAMLMap, key: string): KeyValue | undefined {
  return pairsOf(map).find((pair) => keyOf(pair) === key);
}

function keyOf({ key }: KeyValue): string {
  return isScalar(key) ? String(key.value) : '';
}

function hasRange(node: Node): node is Node & { range: [number, number, number] } {
  return node.range !== undefined && node.range !== null;
}

/** Where what a node says ends, without the remarks and blank lines behind it. */
function contentEnd(node: Node): number {
  if (isCollection(node) && node.flow !== true) {
    const last = node.items.at(-1) as Node | KeyValue | undefined;
    if (last !== undefined) {
      const inner = 'key' in last ? ((last as KeyValue).value ?? (last as KeyValue).key) : (last as Node);
      return contentEnd(inner);
    }
  }
  return node.range![1];
}

/** The dash of a list item that begins on the dash's own line. */
function dashOf(text: string, item: Node): number | undefined {
  if (!hasRange(item)) return undefined;
  const before = /^( *)- +$/.exec(text.slice(lineStart(text, item.range[0]), item.range[0]));
  return before === null ? undefined : lineStart(text, item.range[0]) + before[1].length;
}

function itemLines(item: { readonly [key: string]: Written }, indent: number): readonly string[] {
  return Object.entries(item).map(([key, value], index) => {
    const lead = `${' '.repeat(indent)}${index === 0 ? '- ' : '  '}`;
    return `${lead}${nodeText(key)}: ${nodeText(value)}`;
  });
}

/** `remarks`: the least indent of a remark on a line of its own that still belongs to what stands before. */
function insertedLine(text: string, behind: number, lines: string, remarks: number): string {
  const own = new RegExp(`^ {${remarks},}#`);
  let at = nextLine(text, behind);
  while (own.test(text.slice(at, endOfLine(text, at)))) at = nextLine(text, at);
  const eol = lineEnd(text);
  const open = at > 0 && text[at - 1] !== '\n' ? eol : '';
  return replaced(text, at, at, `${open}${lines}${eol}`);
}

function replaced(text: string, from: number, to: number, by: string): string {
  return text.slice(0, from) + by + text.slice(to);
}

function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

function columnOf(text: string, at: number): number {
  return at - lineStart(text, at);
}

function endOfLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  if (end < 0) return text.length;
  return text[end - 1] === '\r' && end - 1 >= at ? end - 1 : end;
}

function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

function lineEnd(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

/** Inside braces a comma parts two values, so text that holds one needs quotes. */
function flowText(value: Written): string {
  const braced = written({ k: value }).trimEnd();
  return braced.replace(/^\{ k: /, '').replace(/ \}$/, '');
}

function written(value: Written): string {
  const document = new Document(value, { schema: 'failsafe', version: '1.2' });
  if (isCollection(document.contents)) document.contents.flow = true;
  return document.toString({ lineWidth: 0 });
}
