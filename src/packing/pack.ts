/**
 * The packing engine's three questions. Integers and rectangles only.
 *
 * Each answers with cut trees, a proven bound and whether the two meet; each is anytime, can be stopped, and gives
 * the same answer for the same question, seed and effort on any machine. Where nothing has a place of its own, parts
 * are free to change places; else the positional answers hold them where they must lie. With `preferences` the trees
 * of an answer are tidied towards them, which changes neither value nor bound.
 */
import { canCutAll } from './can-cut-all.ts';
import { fewestSheets as fewestFreely } from './fewest.ts';
import type { FewestQuestion, Kind, MostQuestion, PackOptions, Sheet, ShortestQuestion } from './instance.ts';
import { mostFromSheet as mostFreely } from './most.ts';
import { positionalFewest } from './positional/fewest.ts';
import { insideBoxes } from './positional/grid.ts';
import { isExactSize } from './positional/grid-programme.ts';
import { positionalMost } from './positional/most.ts';
import { mostSets } from './positional/sets.ts';
import { positionalShortest } from './positional/shortest.ts';
import type { PackedSheet, PackResult } from './result.ts';
import { shortestLength as shortestFreely } from './shortest.ts';
import { tidy } from './tidy.ts';

/** Questions in stages are taken as exact up to a tenth of the size that the programme can bear at all. */
const STAGED_SHARE = 10;

/** All copies of all kinds from one strip of least length; `sheet.length` is the longest allowed. */
export function shortestLength(question: ShortestQuestion, options: PackOptions): PackResult {
  const { sheet, kinds } = question;
  const answer =
    hasPlaces([sheet], kinds) || isExactInStages(kinds, options) ? positionalShortest : shortestFreely;
  return tidied(answer(question, options), { sheets: [sheet], kinds }, options);
}

/** Most total value from one sheet, or most complete sets where the question has a `set`. */
export function mostFromSheet(question: MostQuestion, options: PackOptions): PackResult {
  const { sheet, kinds, set } = question;
  const freely = hasPlaces([sheet], kinds) ? positionalMost : mostFreely;
  const { preferences: _, ...plain } = options;
  const result =
    set === undefined ? freely(question, options) : mostSets({ ...question, set }, plain, holdsAll);
  return tidied(result, { sheets: [sheet], kinds }, options);
}

/** Whether the sheet holds all copies: decided outright where nothing stands in the way of that, else by the length. */
function holdsAll(question: ShortestQuestion, options: PackOptions): PackResult {
  const { stages = 'any' } = options;
  const free = stages === 'any' && !hasPlaces([question.sheet], question.kinds);
  return free ? canCutAll(question, options) : shortestLength(question, options);
}

/** All copies of all kinds out of sheets of least total cost. */
export function fewestSheets(question: FewestQuestion, options: PackOptions): PackResult {
  const { sheets, kinds } = question;
  const answer =
    hasPlaces(sheets, kinds) || isExactInStages(kinds, options) ? positionalFewest : fewestFreely;
  return tidied(answer(question, options), { sheets, kinds }, options);
}

function tidied(result: PackResult, { sheets, kinds }: FewestQuestion, options: PackOptions): PackResult {
  const { preferences, stages = 'any', seed } = options;
  if (preferences === undefined || (result.status !== 'best' && result.status !== 'found')) return result;
  const tidySheet = (packed: PackedSheet) =>
    tidy(packed, { kinds, sheet: sheets[packed.sheet]!, stages, seed }, preferences);
  return { ...result, sheets: result.sheets.map(tidySheet) };
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
