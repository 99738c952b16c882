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
import type { PackResult, SheetTree } from './result.ts';
import { Budget } from './search/budget.ts';

/** Pairs of sub-multisets up to which the exact programme goes before the search, and up to which it is tried at all. */
const PAIRS_AT_ONCE = 10_000_000;
const MOST_PAIRS = 6e9;
/** Nodes that the search gets before the exact programme. */
const SEARCH_FIRST = 200_000;

/**
 * Whether all copies of all kinds can be cut from one sheet of finite size: `best` with the tree (value and bound are
 * the sheet's length), `impossible` where it is proven that they cannot, `unknown` where the search ended first.
 */
export function canCutAll(question: ShortestQuestion, options: PackOptions): PackResult {
  const { sheet, kinds } = question;
  if (isPositional([sheet], kinds)) {
    const result = positionalShortest(question, options);
    return result.status === 'best' || result.status === 'found' ? wholeSheet(question, result) : result;
  }
  const scale = scaleOf(kinds);
  const pieces = expandPieces(kinds, scale);
  const size = {
    width: Math.floor(sheet.width / scale.unitX),
    length: Math.floor(sheet.length / scale.unitY),
  };
  const budget = new Budget(options);
  const tooLong = stripBound(question) > sheet.length;
  const decided = () => (tooLong ? 'impossible' : decide(pieces, size, options, budget));
  const answer = pieces.count === 0 ? undefined : decided();
  if (answer === 'impossible') {
    const reason = `not all pieces can be cut from ${sheet.width} by ${sheet.length}`;
    return { status: 'impossible', reason, nodes: budget.nodes };
  }
  if (answer === 'unknown') return { status: 'unknown', bound: 0, nodes: budget.nodes };
  return holding(question, answer, { pieces, scale }, budget.nodes);
}

function decide(
  pieces: Pieces,
  size: { readonly width: number; readonly length: number },
  options: PackOptions,
  budget: Budget,
): Part | 'impossible' | 'unknown' {
  const stages = options.stages ?? 'any';
  if (simpleLengthBound(pieces, size.width) > size.length) return 'impossible';
  const pairs = stages === 'any' ? paretoWork(blockKinds(pieces).kinds) : Infinity;
  const exactly = (): Part | 'impossible' | undefined => exact(pieces, size, budget);
  if (pairs <= PAIRS_AT_ONCE) return exactly() ?? 'unknown';
  const search = (nodes: number): StripSearch => {
    const inner = new Budget({ ...options, effort: Math.min(nodes, options.effort - budget.nodes) });
    const { seed } = options;
    const found = new StripSearch(pieces, {
      ...size,
      seed,
      stages,
      budget: inner,
      bound: size.length,
      onBetter: () => undefined,
    });
    found.run();
    budget.spendMany(inner.nodes);
    return found;
  };
  const first = search(pairs <= MOST_PAIRS ? SEARCH_FIRST : Infinity);
  if (first.bestPart !== undefined && first.best <= size.length) return first.bestPart;
  if (budget.ended) return 'unknown';
  return exactly() ?? 'unknown';
}

function exact(
  pieces: Pieces,
  size: { readonly width: number; readonly length: number },
  budget: Budget,
): Part | 'impossible' | undefined {
  const { kinds, membersOf } = blockKinds(pieces);
  const outcome = paretoShortest(kinds, size.width, size.length, budget);
  if (outcome.status === 'ended') return undefined;
  return outcome.status === 'none' ? 'impossible' : withMembers(outcome.part, membersOf, pieces);
}

function holding(
  { sheet }: ShortestQuestion,
  part: Part | undefined,
  { pieces, scale }: { pieces: Pieces; scale: Scale },
  nodes: number,
): PackResult {
  const size = { width: sheet.width, length: sheet.length };
  const tree: SheetTree =
    part === undefined ? { kind: 'remnant' } : partToTree(part, scale, size, (piece) => pieces.kind[piece]);
  return {
    status: 'best',
    value: size.length,
    bound: size.length,
    sheets: [{ sheet: 0, ...size, tree }],
    nodes,
  };
}

/** A shorter answer lies in the whole sheet: what it leaves at the end is one more remnant. */
function wholeSheet(
  { sheet }: ShortestQuestion,
  result: Extract<PackResult, { status: 'best' | 'found' }>,
): PackResult {
  const { length } = sheet;
  const sheets = result.sheets.map((packed): typeof packed => {
    if (packed.length === length) return packed;
    const parts: readonly SheetTree[] = [packed.tree, { kind: 'remnant' }];
    return { ...packed, length, tree: { kind: 'cut', direction: 'crosscut', at: [packed.length], parts } };
  });
  return { ...result, status: 'best', value: length, bound: length, sheets };
}
