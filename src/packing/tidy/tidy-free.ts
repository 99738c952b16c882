import type { Kind, Preferences, Stages } from '../instance.ts';
import { type Random, seededRandom } from '../search/random.ts';
import { keepsStages, measure, score } from './measure.ts';
import { filled, flipped, leavesOf, replaced, transposed, withoutPieces } from './moves.ts';
import { startingCrosscut, type WorkLeftover, type WorkPart, type WorkPiece } from './work-tree.ts';

export interface FreeTidying {
  readonly kinds: readonly Kind[];
  readonly preferences: Preferences;
  readonly stages: Stages;
  readonly effort: number;
  readonly seed: number;
}

/** Rounds in a row that may find nothing better before the search ends. */
const FRUITLESS_ROUNDS = 4;
/** Pieces above which the search would cost more than it gives; such a tree is only put in canonical form. */
const MOST_LEAVES = 400;

/**
 * Local search over trees of the same pieces in the same rectangle, where no part has a place of its own: corners cut
 * the other way, grids transposed, and a few pieces taken out and laid again in blocks of equals. A move is kept when
 * it is no worse than a threshold that shrinks to nothing (Dueck & Scheuer 1990, "Threshold accepting"); the best
 * tree seen is the answer, so more effort is never worse.
 */
export function tidyFree(start: WorkPart, tidying: FreeTidying): WorkPart {
  const { preferences, stages, effort } = tidying;
  const judge = (part: WorkPart) =>
    keepsStages(part, stages)
      ? score(measure(part, preferences.reach), preferences)
      : Number.POSITIVE_INFINITY;
  let best = start;
  let bestScore = judge(start);
  const { pieces } = leavesOf(start);
  if (pieces.length < 2 || pieces.length > MOST_LEAVES || bestScore === 0) {
    return stages === 'any' ? start : startingCrosscut(start);
  }
  const random = seededRandom(tidying.seed);
  // Rounds of fixed length, each from the best so far: a longer search repeats a shorter one and then goes on.
  const round = 40 + 12 * pieces.length;
  let fruitless = 0;
  for (let spent = 0; spent < effort && fruitless < FRUITLESS_ROUNDS; fruitless++) {
    let current = best;
    let currentScore = bestScore;
    const heat = (0.5 + random.unit()) * 0.05 * Math.max(1, Number.isFinite(bestScore) ? bestScore : 1);
    for (let step = 0; step < round && spent < effort; step++, spent++) {
      const next = moved(current, tidying.kinds, random);
      if (next === undefined || next === current) continue;
      const nextScore = judge(next);
      if (nextScore > currentScore + heat * (1 - step / round) ** 2) continue;
      current = next;
      currentScore = nextScore;
      if (nextScore >= bestScore) continue;
      [best, bestScore] = [next, nextScore];
      fruitless = -1;
    }
  }
  return stages === 'any' ? best : startingCrosscut(best);
}

function moved(root: WorkPart, kinds: readonly Kind[], random: Random): WorkPart | undefined {
  const { cuts, pieces } = leavesOf(root);
  const cut = cuts[random.below(cuts.length)]!;
  const choice = random.below(10);
  if (choice < 2) {
    const other = choice === 0 ? flipped(cut) : transposed(cut);
    return other && replaced(root, cut, other);
  }
  return relaid(root, chosenPieces(pieces, cut, random), kinds, random);
}

/** Which pieces to take out: one or two parts' worth, a few at random, or all of one kind. */
function chosenPieces(pieces: readonly WorkPiece[], cut: WorkPart, random: Random): ReadonlySet<WorkPiece> {
  const gone = new Set<WorkPiece>();
  const choice = random.below(4);
  if (choice === 0) {
    const wanted = 1 + random.below(4);
    for (let count = 0; count < wanted; count++) gone.add(pieces[random.below(pieces.length)]!);
  } else if (choice === 1) {
    const { piece } = pieces[random.below(pieces.length)]!;
    for (const other of pieces) if (other.piece === piece) gone.add(other);
  } else {
    for (const inner of leavesOf(cut).pieces) gone.add(inner);
    if (choice === 3) gone.add(pieces[random.below(pieces.length)]!);
  }
  return gone.size > 40 ? new Set([...gone].slice(0, 40)) : gone;
}

/** Takes the pieces out and lays them again, largest first, in blocks of equals; undefined when they do not all go in. */
function relaid(
  root: WorkPart,
  gone: ReadonlySet<WorkPiece>,
  kinds: readonly Kind[],
  random: Random,
): WorkPart | undefined {
  const counts = new Map<number, number>();
  for (const { piece } of gone) counts.set(piece, (counts.get(piece) ?? 0) + 1);
  const noise = random.below(3) === 0 ? 0.8 : 0.1;
  const order = [...counts]
    .map(([kind, count]) => {
      const { width, length } = kinds[kind]!;
      return { kind, count, key: width * length * (1 + noise * random.unit()) };
    })
    .sort((a, b) => b.key - a.key);
  let current = withoutPieces(root, gone);
  for (const { kind, count } of order) {
    for (let left = count; left > 0; ) {
      const laid = bestBlock(leavesOf(current).leftovers, kind, kinds[kind]!, left, random);
      if (laid === undefined) return undefined;
      current = replaced(current, laid.leftover, laid.part);
      left -= laid.count;
    }
  }
  return current;
}

interface LaidBlock {
  readonly leftover: WorkLeftover;
  readonly part: WorkPart;
  readonly count: number;
}

/** The block of a kind that fits its leftover most closely, with some noise so that no choice is for ever. */
function bestBlock(
  leftovers: readonly WorkLeftover[],
  index: number,
  kind: Kind,
  left: number,
  random: Random,
): LaidBlock | undefined {
  let best: (() => LaidBlock) | undefined;
  let bestCost = Number.POSITIVE_INFINITY;
  const single = random.below(4) === 0;
  for (const leftover of leftovers) {
    for (const turned of kind.quarterTurn && kind.width !== kind.length ? [false, true] : [false]) {
      const [width, length] = turned ? [kind.length, kind.width] : [kind.width, kind.length];
      const [mostColumns, mostRows] = [
        Math.floor(leftover.width / width),
        Math.floor(leftover.length / length),
      ];
      if (mostColumns < 1 || mostRows < 1) continue;
      for (const [columns, rows] of blockShapes(mostColumns, mostRows, single ? 1 : left)) {
        const [restAcross, restAlong] = [leftover.width - columns * width, leftover.length - rows * length];
        const close = Math.min(restAcross / leftover.width, restAlong / leftover.length);
        const cost = (close + 0.2 * (1 - (columns * rows) / left)) * (0.6 + 0.8 * random.unit());
        if (cost >= bestCost) continue;
        bestCost = cost;
        const crosscutFirst =
          random.below(4) === 0
            ? random.below(2) === 0
            : restAlong * leftover.width > restAcross * leftover.length;
        best = () => ({
          leftover,
          count: columns * rows,
          part: filled(leftover, { piece: index, turned, width, length }, { columns, rows, crosscutFirst })!,
        });
      }
    }
  }
  return best?.();
}

/** A row, a column, the fullest grid and a single piece, as far as they fit and are wanted. */
function blockShapes(columns: number, rows: number, wanted: number): readonly (readonly [number, number])[] {
  const row = Math.min(columns, wanted);
  const column = Math.min(rows, wanted);
  const shapes: (readonly [number, number])[] = [[row, 1]];
  if (column > 1) shapes.push([1, column]);
  const gridRows = Math.min(rows, Math.floor(wanted / row));
  if (row > 1 && gridRows > 1) shapes.push([row, gridRows]);
  const gridColumns = Math.min(columns, Math.floor(wanted / column));
  if (column > 1 && gridColumns > 1 && gridColumns !== row) shapes.push([gridColumns, column]);
  if (row > 1) shapes.push([1, 1]);
  return shapes;
}
