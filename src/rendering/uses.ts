import type { ClothUses } from '../model/leftover-use.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';
import { useRows, type Worded } from './uses-words.ts';

/** What the leftovers could become, cloth by cloth, for a terminal. Ends without a newline. */
export function usesText(uses: readonly ClothUses[], plan: Worded, columns: number): string {
  return uses
    .map((own) => [own.cloth.name, ...rowsInColumns(useRows(own, plan), columns)].join('\n'))
    .join('\n\n');
}

/** The same as a part of the summary, under the heading it is given. */
export function usesLines(
  uses: readonly ClothUses[] | undefined,
  plan: Worded,
  columns: number,
  heading: (text: string) => string[],
): string[] {
  if (uses === undefined || uses.length === 0) return [];
  const parts = uses.flatMap((own) => [
    ...wrapWords(own.cloth.name, columns - 2).map((line) => `  ${line}`),
    ...rowsInColumns(
      useRows(own, plan).map(([what, words]) => [`  ${what}`, words] as const),
      columns,
    ),
  ]);
  return [...heading('What the leftovers could become'), ...parts, ''];
}
