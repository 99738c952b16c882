import type { CutPlan } from '../model/cut-plan.ts';
import { formatSize } from '../units/format.ts';
import { termsText } from './plan-json.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';

/** How each mounted panel is made up to its front: the sums, then the order of sewing. */
export function mountingLines(
  { makes, plan }: CutPlan,
  columns: number,
  heading: (text: string) => string[],
): string[] {
  const blocks = makes.flatMap(({ order, count, finished, loose, mounting }) => {
    if (!mounting) return [];
    const of = loose
      ? `${order}: ${count} made up to ${formatSize(finished, plan)}`
      : `${order}: ${count} ${count === 1 ? 'front' : 'fronts'}`;
    return [
      ...wrapWords(of, columns - 2).map((words) => `  ${words}`),
      ...rowsInColumns(
        mounting.arithmetic.map((sum) => [`  ${sum.what}`, termsText(sum, plan)] as const),
        columns,
      ),
      ...rowsInColumns(
        mounting.assembly.map((sentence, index) => [`  ${index + 1}`, sentence] as const),
        columns,
      ),
    ];
  });
  return blocks.length === 0 ? [] : [...heading('Mounted panels'), ...blocks, ''];
}
