import type { Issue, Path } from '../issue.ts';

/** By line and column, one message for one slip. */
export function inFileOrder(issues: readonly Issue[]): readonly Issue[] {
  const told = new Set<string>();
  return withoutEchoes(issues)
    .sort(
      (a, b) =>
        (a.place?.line ?? 0) - (b.place?.line ?? 0) || (a.place?.column ?? 0) - (b.place?.column ?? 0),
    )
    .filter((issue) => {
      // One line of a plan may ask for many entries of the cupboard; each is told.
      const entry = issue.code === 'cupboard-draw' ? issue.details.name : '';
      const key = JSON.stringify([issue.code, issue.path, entry]);
      return !told.has(key) && told.add(key);
    });
}

/** A misspelt key is not told again as a missing one, nor what an alias stands for as something odd. */
function withoutEchoes(issues: readonly Issue[]): Issue[] {
  const meant = new Set<string>();
  const unread: string[] = [];
  for (const issue of issues) {
    if (issue.code === 'unknown-key' && issue.details.likely !== undefined) {
      const key = issue.details.likely.replace(/: .*$/, '');
      meant.add(JSON.stringify([...issue.path.slice(0, -1), key]));
    }
    if (isUnread(issue)) unread.push(pathKey(issue.path));
  }
  return issues.filter((issue) => {
    if (issue.code === 'missing' && meant.has(JSON.stringify(issue.path))) return false;
    return isUnread(issue) || !unread.some((path) => pathKey(issue.path).startsWith(path));
  });
}

/** Whether what stands at the issue's path was not made out at all, so that nothing more can be said of it. */
function isUnread(issue: Issue): boolean {
  return issue.code === 'yaml-feature' || issue.code === 'yaml-syntax';
}

function pathKey(path: Path): string {
  return path.map((segment) => `${JSON.stringify(segment)},`).join('');
}
