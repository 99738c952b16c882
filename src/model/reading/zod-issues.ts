import type { z } from 'zod';
import { likelySpelling } from '../../units/spelling.ts';
import type { Issue, Path, Place } from '../issue.ts';
import { type Problem, type Words, wordsOf } from './fields.ts';
import { inWords } from './scalars.ts';
import { shortened } from './source.ts';
import type { Written, WrittenTree } from './written-tree.ts';

type ZodIssue = z.core.$ZodIssue;

/** Turns what zod found into issues of the plan file: where, what was found, what would work. */
export function issuesOf(found: readonly ZodIssue[], tree: WrittenTree): readonly Issue[] {
  return found.flatMap((issue) => translated(issue, [], tree));
}

function translated(issue: ZodIssue, above: Path, tree: WrittenTree): readonly Issue[] {
  const path = [...above, ...(issue.path as Path)];
  if (issue.code === 'custom') {
    const { problem } = issue.params as { readonly problem: Problem };
    return [located(problem, path, tree)];
  }
  const words = wordsOf(issue.message);
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => unknownKey([...path, key], words.known ?? [], tree));
  }
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const tried = branchMeant(issue.errors);
    if (tried !== undefined) return tried.flatMap((inner) => translated(inner, path, tree));
  }
  return [located(missingOrOdd(path, words, tree), path, tree)];
}

/** The way of writing that was meant: the only one whose shape (text, list or map) is that of what was found. */
function branchMeant(branches: readonly (readonly ZodIssue[])[]): readonly ZodIssue[] | undefined {
  const shaped = branches.filter((issues) => !issues.some(isMisshaped));
  return shaped.length === 1 ? shaped[0] : undefined;
}

/** The value as a whole is no text, list or map where that was asked for; of a choice within a choice, in every way. */
function isMisshaped(issue: ZodIssue): boolean {
  if (issue.path.length > 0) return false;
  return (
    issue.code === 'invalid_type' ||
    (issue.code === 'invalid_union' &&
      issue.errors.length > 0 &&
      issue.errors.every((errors) => errors.some(isMisshaped)))
  );
}

function missingOrOdd(path: Path, words: Words, tree: WrittenTree): Problem {
  const value = valueAt(tree.root, path);
  const last = path[path.length - 1];
  const field = typeof last === 'string' ? last : '';
  if (value === undefined || value === null) {
    return { code: 'missing', details: { field, example: words.example } };
  }
  const found = typeof value === 'string' ? shortened(value) : shapeOf(value);
  const guess = typeof value === 'string' ? likelyText(value, words.known ?? []) : undefined;
  const likely = guess === undefined ? {} : { likely: guess };
  return { code: 'not-understood', details: { found, wanted: words.wanted, ...likely } };
}

/** `width:54` is a text to YAML; with a space behind the colon it is a key and its value. */
function likelyText(text: string, known: readonly string[]): string | undefined {
  const glued = /^([^:]+):(\S.*)$/.exec(text);
  if (glued !== null) return shortened(`${glued[1]}: ${glued[2]}`);
  return likelySpelling(text, known);
}

function unknownKey(path: Path, known: readonly string[], tree: WrittenTree): Issue {
  const key = String(path[path.length - 1]);
  const glued = /^-?([^:]+):(\S.*)$/.exec(key);
  const likely =
    glued !== null && known.includes(glued[1])
      ? `${glued[1]}: ${glued[2]}`
      : likelySpelling(key.replace(/^-/, ''), known);
  return {
    code: 'unknown-key',
    severity: 'error',
    path,
    place: tree.placeOf(path, 'key'),
    details: { key: shortened(key), known, ...(likely === undefined ? {} : { likely }) },
  };
}

export function located(problem: Problem, path: Path, tree: WrittenTree): Issue {
  const place: Place = tree.placeOf(path, 'value');
  return { ...problem, severity: 'error', path, place } as Issue;
}

export function valueAt(root: Written, path: Path): Written | undefined {
  let value: Written | undefined = root;
  for (const segment of path) {
    if (value === null || typeof value !== 'object') return undefined;
    if (Array.isArray(value)) value = typeof segment === 'number' ? value[segment] : undefined;
    else value = Object.hasOwn(value, segment) ? (value as Record<string, Written>)[segment] : undefined;
  }
  return value;
}

function shapeOf(value: Exclude<Written, string | null>): string {
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  const keys = Object.keys(value);
  return keys.length === 0
    ? 'an empty map'
    : `a map of ${shortened(inWords(keys).replace(/ or ([^,]*)$/, ' and $1'))}`;
}
