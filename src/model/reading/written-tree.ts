import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  type ParsedNode,
  type Range,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import type { Issue, Path, Place } from '../issue.ts';
import { type Source, shortened } from './source.ts';
import { DEEPEST } from './yaml-faults.ts';

/** What a plan file says, with every value as the text that was written; null where nothing stands behind a key. */
export type Written = string | null | readonly Written[] | WrittenMap;

export interface WrittenMap {
  readonly [key: string]: Written;
}

export interface WrittenTree {
  readonly root: Written;
  readonly issues: readonly Issue[];
  /** The place of a value, or of its key; of the nearest thing around it where there is none. */
  readonly placeOf: (path: Path, part: 'key' | 'value') => Place;
}

/** Turns YAML nodes into plain lists, maps and text. Tells of doubled keys and of anchors, aliases, merges and tags. */
export function writtenTree(source: Source): WrittenTree {
  const issues: Issue[] = [];
  const root = plain(source.document.contents as ParsedNode | null, [], { source, issues });
  return { root, issues, placeOf: (path, part) => locate(source, path, part) };
}

interface Walk {
  readonly source: Source;
  readonly issues: Issue[];
}

function plain(node: Node | null, path: Path, walk: Walk): Written {
  if (node === null) return null;
  if (path.length > DEEPEST) return refuseDepth(node, path, walk);
  refuseFeatures(node, path, walk);
  if (isMap(node) || isSeq(node)) refuseGluedCommas(flowEntries(node), path, walk);
  if (isMap(node)) return plainMap(node.items as readonly Pair<Node, Node | null>[], path, walk);
  if (isSeq(node)) return node.items.map((item, index) => plain(item as Node, [...path, index], walk));
  if (!isScalar(node)) return null;
  const text = typeof node.value === 'string' ? node.value : '';
  // One spelling of each letter, so that a name finds its fellow however the keyboard made it.
  return text === '' && node.type === 'PLAIN' ? null : text.normalize('NFC');
}

function refuseDepth(node: Node, path: Path, walk: Walk): null {
  const [start, end] = rangeOf(node);
  const details = { found: shortened(walk.source.text.slice(start, end)), fault: 'too-deep' } as const;
  walk.issues.push({
    code: 'yaml-syntax',
    severity: 'error',
    path,
    place: walk.source.placeAt(start),
    details,
  });
  return null;
}

function plainMap(pairs: readonly Pair<Node, Node | null>[], path: Path, walk: Walk): WrittenMap {
  // No prototype, so that no name a person can write is there already.
  const map: Record<string, Written> = Object.create(null);
  const firstAt = new Map<string, number>();
  for (const pair of pairs) {
    const key = keyOf(pair);
    const at = rangeOf(pair.key)[0];
    const place = walk.source.placeAt(at);
    if (key === '<<') {
      const details = { found: '<<', feature: 'merge' } as const;
      walk.issues.push({ code: 'yaml-feature', severity: 'error', path, place, details });
      continue;
    }
    const first = firstAt.get(key);
    if (first !== undefined) {
      const details = { key, firstLine: walk.source.placeAt(first).line };
      walk.issues.push({ code: 'duplicate-key', severity: 'error', path: [...path, key], place, details });
      continue;
    }
    firstAt.set(key, at);
    refuseFeatures(pair.key, path, walk);
    map[key] = plain(pair.value, [...path, key], walk);
  }
  return map;
}

/** To YAML `[1,5 m]` is two values; to half of Europe it is one and a half metres. Neither is guessed. */
function refuseGluedCommas(entries: readonly FlowEntry[], path: Path, walk: Walk): void {
  const { text, placeAt } = walk.source;
  for (const [index, entry] of entries.slice(1).entries()) {
    const before = entries[index].last;
    const [start, end] = [rangeOf(before)[0], rangeOf(entry.first)[1]];
    const glued = text.slice(rangeOf(before)[1], rangeOf(entry.first)[0]) === ',';
    if (!glued || !/^[\d/ ]+,\d/.test(text.slice(start, end))) continue;
    const details = { found: shortened(text.slice(start, end)), fault: 'comma-in-brackets' } as const;
    walk.issues.push({ code: 'yaml-syntax', severity: 'error', path, place: placeAt(start), details });
  }
}

/** What stands first and last in one entry between the commas of `[ ]` or `{ }`. */
interface FlowEntry {
  readonly first: Node | null;
  readonly last: Node | null;
}

function flowEntries(node: YAMLMap | YAMLSeq): readonly FlowEntry[] {
  if (node.flow !== true) return [];
  if (isSeq(node)) return (node.items as readonly Node[]).map((item) => ({ first: item, last: item }));
  return (node.items as readonly Pair<Node, Node | null>[]).map(({ key, value }) => ({
    first: key,
    last: value,
  }));
}

function refuseFeatures(node: Node, path: Path, walk: Walk): void {
  const refuse = (feature: 'anchor' | 'alias' | 'tag', found: string) => {
    walk.issues.push({
      code: 'yaml-feature',
      severity: 'error',
      path,
      place: walk.source.placeAt(rangeOf(node)[0]),
      details: { found: shortened(found), feature },
    });
  };
  if (isAlias(node)) refuse('alias', `*${node.source}`);
  else if (node.anchor !== undefined) refuse('anchor', `&${node.anchor}`);
  else if (node.tag !== undefined && hasWrittenTag(node))
    refuse('tag', node.tag.replace(/^tag:yaml\.org,2002:/, '!!'));
}

/** The library also fills in tags of its own, which the writer never wrote. */
function hasWrittenTag(node: Node): boolean {
  return !/^tag:yaml\.org,2002:(?:str|map|seq)$/.test(node.tag ?? '');
}

function locate(source: Source, path: Path, part: 'key' | 'value'): Place {
  let node: Node | null = source.document.contents as Node | null;
  let offset = node === null ? 0 : rangeOf(node)[0];
  for (const [depth, segment] of path.entries()) {
    const wantsKey = part === 'key' && depth === path.length - 1;
    if (isMap(node)) {
      const pair = (node.items as readonly Pair<Node, Node | null>[]).find((item) => keyOf(item) === segment);
      if (pair === undefined) return source.placeAt(offset);
      const written = pair.value !== null && rangeOf(pair.value)[0] < rangeOf(pair.value)[1];
      offset = wantsKey || !written ? rangeOf(pair.key)[0] : rangeOf(pair.value)[0];
      node = pair.value;
    } else if (isSeq(node) && typeof segment === 'number' && segment < node.items.length) {
      node = node.items[segment] as Node;
      const [start, end] = rangeOf(node);
      // Where nothing stands behind it, the dash is what a person sees.
      offset = start < end ? start : Math.max(0, source.text.lastIndexOf('-', start));
    } else {
      return source.placeAt(offset);
    }
  }
  return source.placeAt(offset);
}

function keyOf(pair: Pair<Node, Node | null>): string {
  return isScalar(pair.key) ? String(pair.key.value).normalize('NFC') : '';
}

function rangeOf(node: Node | null): Range {
  return node?.range ?? [0, 0, 0];
}
