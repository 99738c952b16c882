import { stripBound } from './bounds/strip-bound.ts';
import { paretoShortest, paretoWork } from './guillotine/pareto-shortest.ts';
import { type Part, partToTree } from './guillotine/part.ts';
import { expandPieces, type Pieces, type Scale, scaleOf } from './guillotine/pieces.ts';
import { blockKinds, withMembers } from './guillotine/shapes.ts';
import { simpleLengthBound } from './guillotine/simple-bounds.ts';
import { StripSearch } from './guillotine/strip-search.ts';
import type { PackOptions, ShortestQuestion } from './instance.ts';
import { positionalShortest } from './positional/shortest.ts';
import { isPositional } from './positional-question.ts';
import type { PackResult } from './result.ts';
import { Budget } from './search/budget.ts';

export { canCutAll } from './can-cut-all.ts';

/** Work of the exact programme (see `paretoWork`) up to which it comes first, and up to which it comes at all. */
const WORK_AT_ONCE = 4_000_000;
const MOST_WORK = 120_000_000;
/** On a coarse strip, at most this many units wide, the fronts are short, and so much more work is bearable. */
const COARSE_WIDTH = 40;
const COARSE_GAIN = 6;
/** Nodes that the search gets before the exact programme where both are used. */
const SEARCH_FIRST = 600_000;
/** Work of the exact programme that counts as one node. */
const WORK_PER_NODE = 8;

/**
 * All copies of all kinds from one strip of least length.
 *
 * Whole numbers in the caller's units. Exact by dynamic programming where there are few enough sub-multisets of the
 * kinds, else by search; `best` where the bound is met. `impossible` where a piece is too wide or `sheet.length` is
 * below the bound; `unknown` where `sheet.length` was not reached.
 */
export function shortestLength(question: ShortestQuestion, options: PackOptions): PackResult {
  const { sheet } = question;
  if (isPositional([sheet], question.kinds)) return positionalShortest(question, options);
  const scale = scaleOf(question.kinds);
  const pieces = expandPieces(question.kinds, scale);
  const budget = new Budget(options);
  if (pieces.count === 0) return { status: 'best', value: 0, bound: 0, sheets: [], nodes: 0 };
  const width = Math.floor(sheet.width / scale.unitX);
  const bound = lengthBound(question, pieces, width, scale.unitY);
  if (bound === Infinity) {
    return { status: 'impossible', reason: tooWide(question), nodes: 0 };
  }
  if (bound * scale.unitY > sheet.length) {
    const reason = `all pieces need at least ${bound * scale.unitY} of length, the sheet has ${sheet.length}`;
    return { status: 'impossible', reason, nodes: 0 };
  }
  const answer = solve(pieces, { width, bound, scale, budget }, options);
  const value = answer.length * scale.unitY;
  const proven = answer.bound * scale.unitY;
  if (proven > sheet.length) {
    const reason = `all pieces need at least ${proven} of length, the sheet has ${sheet.length}`;
    return { status: 'impossible', reason, nodes: budget.nodes };
  }
  if (value > sheet.length) return { status: 'unknown', bound: proven, nodes: budget.nodes };
  const size = { width: sheet.width, length: value };
  const tree = partToTree(answer.part, scale, size, (piece) => pieces.kind[piece]);
  return {
    status: value === proven ? 'best' : 'found',
    value,
    bound: proven,
    sheets: [{ sheet: 0, ...size, tree }],
    nodes: budget.nodes,
  };
}

function tooWide({ sheet, kinds }: ShortestQuestion): string {
  const index = kinds.findIndex(
    ({ width, length, quarterTurn }) => width > sheet.width && !(quarterTurn && length <= sheet.width),
  );
  const { width, length } = kinds[index];
  return `kind ${index} (${width} by ${length}) is wider than the sheet (${sheet.width})`;
}

interface Setting {
  readonly width: number;
  readonly bound: number;
  readonly scale: Scale;
  readonly budget: Budget;
}

interface Answer {
  readonly length: number;
  readonly bound: number;
  readonly part: Part;
}

/**
 * In scaled units. Leaves of the part are indices of pieces.
 *
 * ```
 * few sub-multisets: greedy start ─▶ exact programme
 * else:              search ─▶ exact programme below the best, where not too large ─▶ more search
 * ```
 */
function solve(pieces: Pieces, setting: Setting, options: PackOptions): Answer {
  const { width, bound, scale, budget } = setting;
  const stages = options.stages ?? 'any';
  const work = stages === 'any' ? paretoWork(blockKinds(pieces).kinds) : Infinity;
  const search = new StripSearch(pieces, {
    width,
    bound,
    seed: options.seed,
    stages,
    budget,
    onBetter: (length) => budget.improve(length * scale.unitY, bound * scale.unitY),
  });
  const bearable = work <= MOST_WORK * (width <= COARSE_WIDTH ? COARSE_GAIN : 1);
  const exact = bearable && (work <= WORK_AT_ONCE || work / WORK_PER_NODE < options.effort - SEARCH_FIRST);
  search.run(work <= WORK_AT_ONCE ? 0 : exact ? SEARCH_FIRST : Infinity);
  if (search.bestPart === undefined) throw new Error('a strip of any length holds every piece');
  let best = { length: search.best, bound, part: search.bestPart };
  while (best.length > bound && exact && !budget.ended) {
    const outcome = exactly(pieces, width, best.length - 1, budget);
    if (outcome === undefined) break;
    if (outcome === 'none') return { ...best, bound: best.length };
    best = { length: outcome.length, bound, part: outcome };
    budget.improve(best.length * scale.unitY, bound * scale.unitY);
  }
  return best;
}

function exactly(pieces: Pieces, width: number, limit: number, budget: Budget): Part | 'none' | undefined {
  const { kinds, membersOf } = blockKinds(pieces);
  const outcome = paretoShortest(kinds, width, limit, budget);
  if (outcome.status === 'ended') return undefined;
  return outcome.status === 'none' ? 'none' : withMembers(outcome.part, membersOf, pieces);
}

/** The best of the bounds, in scaled units. */
function lengthBound(question: ShortestQuestion, pieces: Pieces, width: number, unitY: number): number {
  const simple = simpleLengthBound(pieces, width);
  return simple === Infinity ? simple : Math.max(simple, Math.ceil(stripBound(question) / unitY));
}
