import type { Issue } from '../model/issue.ts';
import { readSource } from '../model/reading/source.ts';
import { writtenTree } from '../model/reading/written-tree.ts';
import type { TextRead } from './read-text.ts';

/** Problems that were found after reading, each with the line of the plan file that it is about. */
export function placeIssues(issues: readonly Issue[], read: TextRead): readonly Issue[] {
  const { source } = readSource(read.text, read.file);
  if (source === undefined) return issues;
  const tree = writtenTree(source);
  return issues.map((issue) =>
    issue.place === undefined ? { ...issue, place: tree.placeOf(issue.path, 'value') } : issue,
  );
}
