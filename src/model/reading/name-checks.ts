import type { Issue, Path } from '../issue.ts';
import { lengthName } from './cloth-checks.ts';
import type { Written, WrittenTree } from './written-tree.ts';
import { located } from './zod-issues.ts';

/** What can be told from the names alone, whatever else is wrong: names given twice, no cloth, nothing to cut. */
export function nameIssues(tree: WrittenTree): readonly Issue[] {
  const { root } = tree;
  if (!isMap(root)) return [];
  const entries = [
    ...namesIn(root.make, ['make']),
    ...namesIn(root.pieces, ['pieces']),
    ...namesIn(root['from leftovers'], ['from leftovers']),
  ];
  const issues = namesTwice(entries, tree);
  if (isMap(root.cloths)) {
    for (const [cloth, written] of Object.entries(root.cloths)) {
      const path = ['cloths', cloth];
      issues.push(...clothNameIssues(cloth, path, tree));
      if (isMap(written)) issues.push(...namesTwice(lengthNames(written.lengths, path), tree));
    }
    if (Object.keys(root.cloths).length === 0) {
      const details = { field: 'cloths', example: '{ lime wash: { width: 54, selvedge: 1/2, buy: yes } }' };
      issues.push(located({ code: 'missing', details }, ['cloths'], tree));
    }
  }
  if (isEmpty(root.make) && isEmpty(root.pieces)) {
    const example = 'make: [{ name: window seat covers, kind: envelope-cover, count: 7 }]';
    issues.push(located({ code: 'nothing-to-cut', details: { example } }, [], tree));
  }
  return issues;
}

interface Named {
  readonly name: string;
  readonly path: Path;
}

function namesIn(list: Written | undefined, path: Path): readonly Named[] {
  if (!Array.isArray(list)) return [];
  return list.flatMap((entry: Written, index): readonly Named[] =>
    isMap(entry) && typeof entry.name === 'string'
      ? [{ name: entry.name, path: [...path, index, 'name'] }]
      : [],
  );
}

function lengthNames(list: Written | undefined, cloth: Path): readonly Named[] {
  if (!Array.isArray(list)) return [];
  return list.flatMap((entry: Written, index): readonly Named[] => {
    if (isMap(entry) && ('from cupboard' in entry || 'all from cupboard' in entry)) return [];
    const path = [...cloth, 'lengths', index];
    const named = isMap(entry) && typeof entry.name === 'string';
    return [
      named ? { name: String(entry.name), path: [...path, 'name'] } : { name: lengthName(index), path },
    ];
  });
}

function namesTwice(entries: readonly Named[], tree: WrittenTree): Issue[] {
  const firstOf = new Map<string, Path>();
  const issues: Issue[] = [];
  for (const { name, path } of entries) {
    const first = firstOf.get(name);
    if (first === undefined) firstOf.set(name, path);
    else {
      const details = { name, firstLine: tree.placeOf(first, 'value').line };
      issues.push(located({ code: 'duplicate-name', details }, path, tree));
    }
  }
  return issues;
}

function clothNameIssues(cloth: string, path: Path, tree: WrittenTree): readonly Issue[] {
  const fits = cloth.trim() === cloth && cloth !== '' && cloth.length <= 60 && !/[\n\r\t]/.test(cloth);
  if (fits && cloth !== '__proto__') return [];
  const details = { found: cloth, wanted: 'a name of 1 to 60 letters on one line' };
  return [{ code: 'out-of-range', severity: 'error', path, place: tree.placeOf(path, 'key'), details }];
}

function isMap(value: Written | undefined): value is { readonly [key: string]: Written } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isEmpty(list: Written | undefined): boolean {
  return list === undefined || (Array.isArray(list) && list.length === 0);
}
