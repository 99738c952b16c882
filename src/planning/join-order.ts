import type { CutPlan } from '../model/cut-plan.ts';
import type { JoinedPiece, JoinRule, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { formatLength, formatSize, type LengthStyle } from '../units/format.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { takenByJoin } from './part-extents.ts';

/** One join in the order of the hands. */
export interface JoinStep {
  /** Letters of the parts that are together already, from the left or from below; it lies over the other in a lap. */
  readonly first: string;
  readonly second: string;
  readonly by: JoinRule['by'];
  readonly lines: 'upright' | 'level';
  /** Seam: from each edge to the stitches. Lap: how far one lies over the other. */
  readonly depth: Ticks;
  readonly gives: Size;
}

/** What is joined to what for one piece, in order. */
export interface JoinOrder {
  readonly piece: JoinedPiece['piece'];
  /** How many copies are joined so. */
  readonly copies: number;
  readonly steps: readonly JoinStep[];
}

/**
 * The joins of every joined piece: the parts of each row from left to right, then the rows from the bottom up, so that
 * every join is one straight line.
 */
export function joinOrders({ joined, pieces, plan }: CutPlan): readonly JoinOrder[] {
  const letters = new Map(pieces.map(({ id, letter }) => [id, letter]));
  return joined.map((join) => ({
    piece: join.piece,
    copies: join.copies,
    steps: stepsOf(
      join,
      join.parts.map((part) => letters.get(part) ?? part),
      plan,
    ),
  }));
}

function stepsOf(
  { piece, columns, rows }: JoinedPiece,
  letters: readonly string[],
  { rulerMark }: Pick<Plan, 'rulerMark'>,
): readonly JoinStep[] {
  const rule = piece.join!;
  const takes = ceilTo(takenByJoin(rule), rulerMark);
  // Where the marks ask for an odd number of ticks, half of it is no whole tick; the near one is stitched.
  const depth = rule.by === 'seam' ? ticks(Math.floor(takes / 2)) : takes;
  const steps: JoinStep[] = [];
  const rowNames = rows.map((length, row) => {
    const own = letters.slice(row * columns.length, (row + 1) * columns.length);
    let width = columns[0]!;
    for (const [index, second] of own.slice(1).entries()) {
      width = ticks(width + columns[index + 1]! - takes);
      const first = own.slice(0, index + 1).join(' + ');
      steps.push({ first, second, by: rule.by, lines: 'upright', depth, gives: { width, length } });
    }
    return own.join(' + ');
  });
  let length = rows[0]!;
  for (const [index, second] of rowNames.slice(1).entries()) {
    length = ticks(length + rows[index + 1]! - takes);
    const first = rowNames.slice(0, index + 1).join(' + ');
    const gives = { width: piece.size.width, length };
    steps.push({ first, second, by: rule.by, lines: 'level', depth, gives });
  }
  return steps;
}

/** `Lap A1 over A2 by 1/2 in, the join upright: 43 1/2 x 20 in`, with lengths in the plan's unit. */
export function wordJoin({ first, second, by, lines, depth, gives }: JoinStep, style: LengthStyle): string {
  const deep = formatLength(depth, style);
  const size = formatSize(gives, style);
  return by === 'lap'
    ? `Lap ${first} over ${second} by ${deep}, the join ${lines}, and fuse: ${size}`
    : `Seam ${first} to ${second}, ${deep} from both edges, the join ${lines}: ${size}`;
}
