import { sheetsBound } from './bounds/sheets-bound.ts';
import { type BlockKind, ParetoFronts, paretoPairs } from './guillotine/pareto.ts';
import { type Part, partToTree } from './guillotine/part.ts';
import { expandPieces, type Pieces, type Scale, scaleOf } from './guillotine/pieces.ts';
import { blockKinds, withMembers } from './guillotine/shapes.ts';
import { cheapestCover, type SheetChoice } from './guillotine/sheet-cover.ts';
import { SheetGroups } from './guillotine/sheet-groups.ts';
import { type OpenedSheet, SheetSearch, type SheetSearchOptions } from './guillotine/sheet-search.ts';
import { type BoundSheet, simpleCostBound } from './guillotine/simple-bounds.ts';
import type { FewestQuestion, Kind, PackOptions, Sheet } from './instance.ts';
import { positionalFewest } from './positional/fewest.ts';
import { isPositional } from './positional-question.ts';
import type { PackedSheet, PackResult } from './result.ts';
import { Budget } from './search/budget.ts';

/** More pieces than this are searched in groups of sheets only. */
const MANY = 400;
/** The dynamic programme is run to its end up to this many pairs of sub-multisets, and this many for all sheets. */
const PARETO_PAIRS = 1_000_000;
const COVER_PAIRS = 200_000_000;

/**
 * All copies of all kinds out of sheets of least total cost (`cost` of a sheet: its area unless given).
 *
 * Whole numbers in the caller's units; costs may be any numbers from 0. Exact by dynamic programming where there are
 * few enough sub-multisets of the kinds, else by search. `impossible` where a piece fits no sheet, all sheets together
 * are too small, or the exact programme finds no way; `unknown` where the search ended without an answer.
 */
export function fewestSheets(question: FewestQuestion, options: PackOptions): PackResult {
  const { sheets, kinds } = question;
  if (isPositional(sheets, kinds)) return positionalFewest(question, options);
  const scale = scaleOf(kinds);
  const pieces = expandPieces(kinds, scale);
  if (pieces.count === 0) return { status: 'best', value: 0, bound: 0, sheets: [], nodes: 0 };
  const misfit = kinds.findIndex((kind) => kind.copies > 0 && !sheets.some((sheet) => fits(kind, sheet)));
  if (misfit >= 0) {
    const { width, length } = kinds[misfit];
    return { status: 'impossible', reason: `kind ${misfit} (${width} by ${length}) fits no sheet`, nodes: 0 };
  }
  const scaled = sheets.map((sheet) => scaledSheet(sheet, scale, pieces.count));
  const bound = costBound(question, pieces, scaled);
  if (bound === Infinity) {
    return { status: 'impossible', reason: 'all sheets together are smaller than the pieces', nodes: 0 };
  }
  const budget = new Budget(options);
  const exact = solveExactly(pieces, scaled, options, budget);
  if (exact === 'none') {
    return {
      status: 'impossible',
      reason: 'no way of cutting these sheets gives every piece',
      nodes: budget.nodes,
    };
  }
  const answer = exact ?? solveBySearch(pieces, scaled, { bound, options, budget });
  if (answer.opened.length === 0) return { status: 'unknown', bound: answer.bound, nodes: budget.nodes };
  return {
    status: answer.cost === answer.bound ? 'best' : 'found',
    value: answer.cost,
    bound: answer.bound,
    sheets: answer.opened.map(({ sheet, part }) => packedSheet(sheets, sheet, part, { pieces, scale })),
    nodes: budget.nodes,
  };
}

interface Answer {
  readonly cost: number;
  readonly bound: number;
  readonly opened: readonly OpenedSheet[];
}

function fits(kind: Kind, { width, length, copies }: Sheet): boolean {
  if (copies === 0) return false;
  if (kind.width <= width && kind.length <= length) return true;
  return kind.quarterTurn && kind.length <= width && kind.width <= length;
}

function scaledSheet({ width, length, cost, copies }: Sheet, scale: Scale, pieces: number): BoundSheet {
  if (!Number.isFinite(width * length))
    throw new RangeError(`a sheet needs a size, not ${width} by ${length}`);
  return {
    width: Math.floor(width / scale.unitX),
    length: Math.floor(length / scale.unitY),
    cost: cost ?? width * length,
    copies: Math.min(copies ?? 1, pieces),
  };
}

function packedSheet(
  sheets: readonly Sheet[],
  sheet: number,
  part: Part,
  { pieces, scale }: { pieces: Pieces; scale: Scale },
): PackedSheet {
  const { width, length } = sheets[sheet];
  const tree = partToTree(part, scale, { width, length }, (piece) => pieces.kind[piece]);
  return { sheet, width, length, tree };
}

/** Undefined where the question is too large for the programme or the budget ended in it. */
function solveExactly(
  pieces: Pieces,
  sheets: readonly BoundSheet[],
  options: PackOptions,
  budget: Budget,
): Answer | 'none' | undefined {
  const { kinds, membersOf } = blockKinds(pieces);
  const pairs = paretoPairs(kinds);
  const choices = sheets.flatMap((sheet, kind) =>
    Array.from({ length: sheet.copies }, () => ({ ...sheet, kind })),
  );
  if ((options.stages ?? 'any') !== 'any' || !mayBeExact(kinds, pairs, choices)) return undefined;
  const most = {
    width: Math.max(...sheets.map(({ width }) => width)),
    length: Math.max(...sheets.map(({ length }) => length)),
    spare: Infinity,
  };
  const fronts = new ParetoFronts(kinds, most);
  if (!fronts.build(budget)) return undefined;
  const outcome = cheapestCover(fronts, choices, budget);
  if (outcome === undefined) return undefined;
  if (outcome.cover === undefined) return 'none';
  const { cost, uses } = outcome.cover;
  const members = membersOf.map((all) => [...all]);
  const opened = uses.map(({ choice, state }) => {
    const part = fronts.shortest(state, choices[choice].width);
    if (part === undefined) throw new Error(`sub-multiset ${state} does not fit its sheet`);
    const own = fronts.digits(state).map((count, shape) => members[shape].splice(0, count));
    return { sheet: choices[choice].kind, part: withMembers(part, own, pieces) };
  });
  budget.improve(cost, cost);
  return { cost, bound: cost, opened };
}

function mayBeExact(kinds: readonly BlockKind[], pairs: number, choices: readonly SheetChoice[]): boolean {
  const states = kinds.reduce((product, { copies }) => product * (copies + 1), 1);
  return pairs <= PARETO_PAIRS && states * states * choices.length <= COVER_PAIRS;
}

function costBound(question: FewestQuestion, pieces: Pieces, sheets: readonly BoundSheet[]): number {
  const simple = simpleCostBound(pieces, sheets);
  return simple === Infinity ? simple : Math.max(simple, sheetsBound(question));
}

function solveBySearch(
  pieces: Pieces,
  sheets: readonly BoundSheet[],
  { bound, options, budget }: { bound: number; options: PackOptions; budget: Budget },
): Answer {
  const asked: SheetSearchOptions = {
    sheets,
    bound,
    seed: options.seed,
    stages: options.stages ?? 'any',
    budget,
    onBetter: (cost, proven) => budget.improve(cost, proven),
  };
  if (pieces.count > MANY) {
    const groups = new SheetGroups(pieces, asked);
    if (groups.run()) return { cost: groups.best, bound, opened: groups.bestSheets };
  }
  const search = new SheetSearch(pieces, asked);
  search.run();
  return { cost: search.best, bound: search.bound, opened: search.bestSheets };
}
