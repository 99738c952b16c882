import type { CutPlan } from '../model/cut-plan.ts';
import type { ClothUses, UseAcross } from '../model/leftover-use.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';
import { useParts, type Worded } from './uses-words.ts';

/** What the leftovers could become, cloth by cloth, for a terminal. Ends without a newline. */
export function usesText(
  uses: readonly ClothUses[],
  plan: Worded,
  columns: number,
  across: readonly UseAcross[] = [],
): string {
  return useParts(uses, plan, across)
    .map(({ title, rows }) => [title, ...rowsInColumns(rows, columns)].join('\n'))
    .join('\n\n');
}

/** The same as a part of the summary, under the heading it is given. */
export function usesLines(
  { uses = [], usesAcross, plan }: Pick<CutPlan, 'uses' | 'usesAcross' | 'plan'>,
  columns: number,
  heading: (text: string) => string[],
): string[] {
  if (uses.length === 0) return [];
  const parts = useParts(uses, plan, usesAcross).flatMap(({ title, rows }) => [
    ...wrapWords(title, columns - 2).map((line) => `  ${line}`),
    ...rowsInColumns(
      rows.map(([what, words]) => [`  ${what}`, words] as const),
      columns,
    ),
  ]);
  return [...heading('What the leftovers could become'), ...parts, ''];
}
