import type { PackOptions, ShortestQuestion } from '../instance.ts';
import type { PackResult } from '../result.ts';
import { gridOf } from './grid.ts';
import { gridShortest } from './grid-shortest.ts';
import { answerOpened, halvedQuestion } from './mirror.ts';
import { placedShortest } from './placed-shortest.ts';

/**
 * `shortestLength` for sheets in which something has a place of its own: forbidden boxes, fixed pieces, lattices, a
 * mirror.
 *
 * Boxes that run from edge to edge (a kept-off crease, a flaw from selvedge to selvedge) leave a grid of free cells,
 * answered exactly for home-sized jobs. With `mirrorAt` every piece is cut twice, so that each kind is cut
 * 2 × ceil(copies ÷ 2) times. Whole numbers in the caller's units.
 */
export function positionalShortest(question: ShortestQuestion, options: PackOptions): PackResult {
  const { sheet, kinds } = question;
  if (kinds.every(({ copies }) => copies === 0)) {
    return { status: 'best', value: 0, bound: 0, sheets: [], nodes: 0 };
  }
  if (sheet.mirrorAt !== undefined) {
    const halved = halvedQuestion([sheet], kinds, Math.ceil);
    if (halved.fault !== undefined) return { status: 'impossible', reason: halved.fault, nodes: 0 };
    const answer = (own: PackOptions) =>
      positionalShortest({ sheet: halved.sheets[0]!, kinds: halved.kinds }, own);
    return answerOpened(answer, options, { sheets: [sheet], halved, worth: (length) => length });
  }
  const grid = kinds.every(({ lattice }) => lattice === undefined) ? gridOf(sheet) : undefined;
  return (grid && gridShortest(sheet, kinds, grid, options)) ?? placedShortest(sheet, kinds, options);
}
