import type { Cloth, Repeat } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { Match, Size } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { afterWashing, lossBeforeCutting } from './washing.ts';

/**
 * The repeat as it lies on the table: washing shrinks the print with the cloth. A washed repeat that falls between ticks
 * is rounded down to one, 1/320 mm, each time it starts again; that of a half drop, washed or not, to two, so that its half
 * is a whole tick.
 */
export function repeatOnTable(cloth: Cloth): Repeat | undefined {
  const { repeat } = cloth;
  if (!repeat) return undefined;
  const loss = lossBeforeCutting(cloth);
  const along = repeat.along === undefined ? undefined : afterWashing(repeat.along, loss.along);
  const across = repeat.across === undefined ? undefined : afterWashing(repeat.across, loss.across);
  const fromEdge = repeat.fromEdge === undefined ? undefined : afterWashing(repeat.fromEdge, loss.across);
  return {
    drop: repeat.drop,
    ...(along !== undefined && {
      along: repeat.drop === 'half' ? ticks(along - (along % 2)) : along,
    }),
    ...(across !== undefined && { across }),
    ...(fromEdge !== undefined && { fromEdge }),
  };
}

/** Whether a match holds a piece to a place in the print itself, and not only to the same place as its fellows. */
export function isAbsolute(match: Match): boolean {
  return match.kind === 'centre' || match.kind === 'point';
}

/** Where in the piece, as it lies turned on the cloth, the motif is to be; undefined where it only has to be like its fellows. */
export function motifInPiece(
  match: Match,
  size: Size,
  turns: QuarterTurns,
): { readonly x: number; readonly y: number } | undefined {
  if (match.kind !== 'centre' && match.kind !== 'point') return undefined;
  // Half a tick is dropped: a centre between two ticks has no tick of its own.
  const upright =
    match.kind === 'point' ? match : { x: Math.floor(size.width / 2), y: Math.floor(size.length / 2) };
  if (turns === 0) return { x: upright.x, y: upright.y };
  return { x: size.length - upright.y, y: upright.x };
}

/** What is left of `value` beyond whole repeats, never negative. */
export function phaseOf(value: number, repeat: Ticks): Ticks {
  return ticks(((value % repeat) + repeat) % repeat);
}
