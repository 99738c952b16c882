import { stripBound } from './bounds/strip-bound.ts';
import { paretoPairs, paretoShortest } from './guillotine/pareto.ts';
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

/** The dynamic programme is run to its end up to this many pairs of sub-multisets: well under a second. */
const PARETO_PAIRS = 4_000_000;

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
  const bound = Math.max(simpleLengthBound(pieces, width), stripBound(question) / scale.unitY);
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

/** In scaled units. Leaves of the part are indices of pieces. */
function solve(pieces: Pieces, setting: Setting, options: PackOptions): Answer {
  const { width, bound, scale, budget } = setting;
  const stages = options.stages ?? 'any';
  const { kinds, membersOf } = blockKinds(pieces);
  if (stages === 'any' && paretoPairs(kinds) <= PARETO_PAIRS) {
    const limit = greedyLimit(pieces, width);
    const outcome = paretoShortest(kinds, width, limit, budget);
    if (outcome.status === 'best') {
      const length = outcome.part.length;
      budget.improve(length * scale.unitY, length * scale.unitY);
      return { length, bound: length, part: withMembers(outcome.part, membersOf, pieces) };
    }
  }
  const search = new StripSearch(pieces, {
    width,
    bound,
    seed: options.seed,
    stages,
    budget,
    onBetter: (length) => budget.improve(length * scale.unitY, bound * scale.unitY),
  });
  search.run();
  if (search.bestPart === undefined) throw new Error('a strip of any length holds every piece');
  return { length: search.best, bound, part: search.bestPart };
}

/** A length that a plain greedy start reaches, to bound the dynamic programme. */
function greedyLimit(pieces: Pieces, width: number): number {
  const search = new StripSearch(pieces, {
    width,
    bound: Infinity,
    seed: 1,
    stages: 'any',
    budget: new Budget({ effort: 1, seed: 1 }),
    onBetter: () => undefined,
  });
  search.run();
  return search.best;
}
