import { type Document, isMap, isSeq, type YAMLMap } from 'yaml';
import { readSource } from './reading/source.ts';
import type { Written } from './reading/written-tree.ts';
import { addKeyBehind, dropItem, type Edit, nodeText, setKey } from './reading/yaml-splice.ts';

/** One change in the text of a plan file. A path leads to a map: keys, and positions in lists from 0. */
export type PlanEdit =
  | {
      readonly kind: 'set';
      readonly at: readonly (string | number)[];
      readonly key: string;
      readonly value: Written;
      /** A new key stands on the line behind this one; at the end of its map unless said. */
      readonly behind?: string;
    }
  /** Takes an entry out of `make` or `pieces`. */
  | { readonly kind: 'drop-item'; readonly list: string; readonly index: number };

/**
 * The text of a plan file with these changes, one after the other: every other line stays as it was written, remarks
 * and order included. What is written in a way that cannot be changed in its place is written anew from its YAML nodes,
 * which keeps remarks and order too. Entries are dropped last, so that positions hold until then.
 *
 * The caller reads the result and judges whether it says what it should. Throws a RangeError at a path that is not there.
 */
export function editPlan(text: string, edits: readonly PlanEdit[]): string {
  const drops = edits.flatMap((edit) => (edit.kind === 'drop-item' ? [edit] : []));
  const others = edits.filter(({ kind }) => kind !== 'drop-item');
  const lastFirst = [...drops].sort((a, b) => b.index - a.index);
  return [...others, ...lastFirst].reduce(edited, text);
}

function edited(text: string, edit: PlanEdit): string {
  const mark = text.startsWith('\ufeff') ? '\ufeff' : '';
  const body = text.slice(mark.length);
  const { source } = readSource(body, '');
  if (source === undefined) throw new Error('a plan is edited that cannot be read');
  const { document } = source;
  const { splice, rewrite } = editOf(edit);
  const spliced = splice(body, document);
  // A splice that cannot be read again went wrong at a way of writing that it does not know.
  if (spliced !== undefined && readSource(spliced, '').source !== undefined) return mark + spliced;
  rewrite(document);
  return mark + document.toString({ lineWidth: 0, flowCollectionPadding: true });
}

function editOf(edit: PlanEdit): Edit {
  if (edit.kind === 'drop-item') {
    const { list, index } = edit;
    return {
      splice: (body, document) => dropItem(body, document, list, index),
      rewrite: (document) => {
        const items = document.get(list);
        if (isSeq(items)) items.delete(index);
      },
    };
  }
  const { at, key, value, behind } = edit;
  return {
    splice: (body, document) => {
      const map = mapAt(document, at);
      if (behind !== undefined && !map.has(key)) return addKeyBehind(body, map, behind, key, value);
      return setKey(body, map, key, value);
    },
    rewrite: (document) => mapAt(document, at).set(key, document.createNode(value)),
  };
}

function mapAt(document: Document, path: readonly (string | number)[]): YAMLMap {
  const node = path.length === 0 ? document.contents : document.getIn(path, true);
  if (!isMap(node))
    throw new RangeError(`there is no map at ${path.map((step) => nodeText(String(step))).join('.')}`);
  return node;
}
