import type { PackOptions, ShortestQuestion } from '../instance.ts';
import type { PackResult } from '../result.ts';
import { gridOf } from './grid.ts';
import { gridShortest } from './grid-shortest.ts';

/** `shortestLength` for sheets in which something has a place of its own. */
export function positionalShortest(question: ShortestQuestion, options: PackOptions): PackResult {
  const { sheet, kinds } = question;
  const wanted = kinds.reduce((sum, { copies }) => sum + copies, 0);
  if (wanted === 0) return { status: 'best', value: 0, bound: 0, sheets: [], nodes: 0 };
  const grid = kinds.every(({ lattice }) => lattice === undefined) ? gridOf(sheet) : undefined;
  const answer = grid && gridShortest(sheet, kinds, grid, options);
  if (answer !== undefined) return answer;
  return { status: 'unknown', bound: 0, nodes: 0 };
}
