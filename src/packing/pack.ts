/**
 * The packing engine's three questions. Integers and rectangles only.
 *
 * Each answers with cut trees, a proven bound and whether the two meet; each is anytime, can be stopped, and gives
 * the same answer for the same question, seed and effort on any machine. Where nothing has a place of its own, parts
 * are free to change places; else the positional answers hold them where they must lie.
 */
import { fewestSheets as fewestFreely } from './fewest.ts';
import type { FewestQuestion, Kind, MostQuestion, PackOptions, Sheet, ShortestQuestion } from './instance.ts';
import { mostFromSheet as mostFreely } from './most.ts';
import { positionalFewest } from './positional/fewest.ts';
import { insideBoxes } from './positional/grid.ts';
import { isExactSize } from './positional/grid-programme.ts';
import { positionalMost } from './positional/most.ts';
import { mostSets } from './positional/sets.ts';
import { positionalShortest } from './positional/shortest.ts';
import type { PackResult } from './result.ts';
import { shortestLength as shortestFreely } from './shortest.ts';

/** Questions in stages are taken as exact up to a tenth of the size that the programme can bear at all. */
const STAGED_SHARE = 10;

/** All copies of all kinds from one strip of least length; `sheet.length` is the longest allowed. */
export function shortestLength(question: ShortestQuestion, options: PackOptions): PackResult {
  const { sheet, kinds } = question;
  const answer =
    hasPlaces([sheet], kinds) || isExactInStages(kinds, options) ? positionalShortest : shortestFreely;
  return answer(question, options);
}

/** Most total value from one sheet, or most complete sets where the question has a `set`. */
export function mostFromSheet(question: MostQuestion, options: PackOptions): PackResult {
  const { set } = question;
  if (set !== undefined) return mostSets({ ...question, set }, options, shortestLength);
  const answer = hasPlaces([question.sheet], question.kinds) ? positionalMost : mostFreely;
  return answer(question, options);
}

/** All copies of all kinds out of sheets of least total cost. */
export function fewestSheets(question: FewestQuestion, options: PackOptions): PackResult {
  const { sheets, kinds } = question;
  const answer =
    hasPlaces(sheets, kinds) || isExactInStages(kinds, options) ? positionalFewest : fewestFreely;
  return answer(question, options);
}

/** With limited stages a home-sized question is answered exactly as a grid of one cell. */
function isExactInStages(kinds: readonly Kind[], { stages = 'any', effort }: PackOptions): boolean {
  return stages !== 'any' && isExactSize(kinds, STAGED_SHARE, effort);
}

/** Whether anything in the question has a place of its own. */
function hasPlaces(sheets: readonly Sheet[], kinds: readonly Kind[]): boolean {
  return (
    kinds.some(({ lattice, copies }) => lattice !== undefined && copies > 0) ||
    sheets.some(
      (sheet) =>
        sheet.mirrorAt !== undefined || (sheet.fixed?.length ?? 0) > 0 || insideBoxes(sheet).length > 0,
    )
  );
}
