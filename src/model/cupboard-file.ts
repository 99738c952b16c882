import type { Cupboard, CupboardEntry } from './cupboard.ts';
import type { Issue, Outcome, Path } from './issue.ts';
import { cupboardDefinition, entryDefinition, type WrittenCupboard } from './reading/cupboard-definition.ts';
import type { ReadingContext } from './reading/fields.ts';
import { inFileOrder } from './reading/file-order.ts';
import { readSource } from './reading/source.ts';
import { type Written, type WrittenTree, writtenTree } from './reading/written-tree.ts';
import { issuesOf, located, valueAt } from './reading/zod-issues.ts';

/**
 * Reads the cupboard's file as strictly as a plan: all problems at once, each with its line, column and path.
 * `file` is named in every message and never opened.
 */
export function readCupboard(text: string, { file }: { readonly file: string }): Outcome<Cupboard> {
  const { source, issues } = readSource(text, file);
  if (source === undefined) return { ok: false, issues: issues.map(ofCupboard) };
  const tree = writtenTree(source);
  const read = cupboardDefinition(contextOf(tree)).safeParse(tree.root, { jitless: true });
  const problems = inFileOrder([
    ...tree.issues,
    ...nameIssues(tree),
    ...(read.success ? [] : issuesOf(read.error.issues, tree)),
  ]);
  if (problems.length > 0 || !read.success) return { ok: false, issues: problems };
  return { ok: true, value: assemble(read.data), issues: [] };
}

/**
 * Reads one entry from the words of a command: what stands behind each key, as it would in the file.
 * Its issues have a path from the entry down, and no place.
 */
export function readEntry(
  written: Readonly<Record<string, Written>>,
  { unit, currency }: Pick<Cupboard, 'unit' | 'currency'>,
): Outcome<CupboardEntry> {
  const root = Object.assign(Object.create(null) as Record<string, Written>, written);
  const tree: WrittenTree = { root, issues: [], placeOf: () => ({ file: '', line: 1, column: 1 }) };
  const read = entryDefinition({ unit, currency }).safeParse(root, { jitless: true });
  if (read.success) return { ok: true, value: toEntry(read.data, undefined), issues: [] };
  const issues = issuesOf(read.error.issues, tree).map(({ place: _, ...issue }) => issue as Issue);
  return { ok: false, issues };
}

function contextOf(tree: WrittenTree): ReadingContext {
  const currency = valueAt(tree.root, ['currency']);
  return {
    unit: valueAt(tree.root, ['unit']) === 'cm' ? 'cm' : 'in',
    currency: typeof currency === 'string' ? currency : '',
  };
}

function assemble(written: WrittenCupboard): Cupboard {
  return {
    name: written.cupboard,
    unit: written.unit,
    currency: written.currency ?? '',
    entries: written.entries.map((entry) => toEntry(entry, written.worth)),
    cut: written.cut ?? [],
  };
}

function toEntry(
  written: WrittenCupboard['entries'][number],
  usualWorth: CupboardEntry['worth'],
): CupboardEntry {
  const worth = written.worth ?? usualWorth;
  return {
    name: written.name,
    cloth: written.cloth,
    width: written.width,
    length: written.length,
    selvedge: written.selvedge,
    crease: written.crease ?? { kind: 'none' },
    grain: written.grain ?? 'lengthwise',
    ...(written.direction === undefined ? {} : { direction: written.direction }),
    ...(written['print runs'] === undefined ? {} : { printRuns: written['print runs'] }),
    washed: written.washed ?? false,
    ...(written.where === undefined ? {} : { where: written.where }),
    ...(written.since === undefined ? {} : { since: written.since }),
    count: written.count ?? 1,
    ...(written.flaws === undefined ? {} : { flaws: written.flaws }),
    ...(written['panels begin'] === undefined ? {} : { panelsBegin: written['panels begin'] }),
    ...(written.panels === undefined ? {} : { panels: written.panels }),
    ...(worth === undefined ? {} : { worth }),
    ...(written.note === undefined ? {} : { note: written.note }),
  };
}

interface Named {
  readonly name: string;
  readonly count: number;
  readonly path: Path;
}

/** An entry whose name another has, or one of whose copies is called as another entry is. */
function nameIssues(tree: WrittenTree): readonly Issue[] {
  const named = namesOf(valueAt(tree.root, ['entries']));
  const first = new Map<string, Named>();
  const issues: Issue[] = [];
  const taken = (entry: Named, by: Named) => {
    const details = { name: entry.name, firstLine: tree.placeOf(by.path, 'value').line };
    issues.push(located({ code: 'duplicate-name', details }, entry.path, tree));
  };
  for (const entry of named) {
    const same = first.get(entry.name);
    if (same === undefined) first.set(entry.name, entry);
    else taken(entry, same);
  }
  for (const entry of named) {
    const numbered = /^(.+) ([1-9]\d{0,4})$/.exec(entry.name);
    const several = numbered === null ? undefined : first.get(numbered[1]);
    if (several !== undefined && several.count > 1 && Number(numbered![2]) <= several.count)
      taken(entry, several);
  }
  return issues;
}

function namesOf(entries: Written | undefined): readonly Named[] {
  if (!Array.isArray(entries)) return [];
  return entries.flatMap((entry: Written, index): readonly Named[] => {
    if (entry === null || typeof entry !== 'object' || Array.isArray(entry)) return [];
    const { name, count } = entry as { readonly [key: string]: Written };
    if (typeof name !== 'string') return [];
    const several = typeof count === 'string' && /^\d{1,5}$/.test(count) ? Number(count) : 1;
    return [{ name, count: several, path: ['entries', index, 'name'] }];
  });
}

/** An empty file wants the beginning of a cupboard, not of a plan. */
function ofCupboard(issue: Issue): Issue {
  if (issue.code !== 'not-text' || issue.details.fault !== 'empty') return issue;
  return { ...issue, details: { ...issue.details, fault: 'empty-cupboard' } };
}
