import type { JoinedPiece, JoinRule, PieceId, PieceWanted } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { Report } from './plan-fault.ts';

/**
 * That every joined piece comes out whole: its parts are cut, as often as it is wanted, as large as the joins need, and
 * joined as its rule permits; and that no part is cut for nothing.
 */
export function checkJoins(
  pieces: readonly PieceWanted[],
  joined: readonly JoinedPiece[],
  mark: Ticks,
  report: Report,
): void {
  const cut = new Map(pieces.map((piece) => [piece.id, piece]));
  for (const join of joined) {
    const { cloth, id: piece } = join.piece;
    const here: Report = (code, figures) => report(code, figures, { cloth, piece });
    if (cut.has(piece)) here('joined-piece-cut', {});
    checkParts(join, cut, here);
    const { join: rule } = join.piece;
    if (rule === undefined || !permits(rule, join, mark))
      here('join-against-rule', { joins: join.extents.length - 1 });
    if (rule) checkExtents(rule, join, mark, here);
  }
  const used = new Set(joined.flatMap(({ parts }) => parts));
  for (const { cloth, id, partOf } of pieces) {
    if (partOf && !used.has(id)) report('part-of-nothing', {}, { cloth, piece: id });
  }
}

function checkParts(join: JoinedPiece, cut: ReadonlyMap<PieceId, PieceWanted>, report: Report): void {
  const { piece, lines, extents, parts } = join;
  const matching = parts.filter((id, index) => {
    const part = cut.get(id);
    const size =
      lines === 'upright'
        ? { width: extents[index], length: piece.size.length }
        : { width: piece.size.width, length: extents[index] };
    return (
      part?.partOf?.piece === piece.id &&
      part.partOf.index === index &&
      part.partOf.count === extents.length &&
      part.cloth === piece.cloth &&
      part.grain === piece.grain &&
      part.copies === piece.copies &&
      part.size.width === size.width &&
      part.size.length === size.length
    );
  });
  if (matching.length !== extents.length || parts.length !== extents.length) {
    report('join-parts', { found: matching.length, wanted: extents.length });
  }
}

/** What the joins take up is rounded up to the ruler's marks, like every need. */
function checkExtents(rule: JoinRule, join: JoinedPiece, mark: Ticks, report: Report): void {
  const found = join.extents.reduce((total, extent) => total + extent, 0);
  const wanted = acrossJoins(join) + (join.extents.length - 1) * takenUp(rule, mark);
  if (found !== wanted) report('join-extents', { found: ticks(found), wanted: ticks(wanted) });
}

function permits(rule: JoinRule, join: JoinedPiece, mark: Ticks): boolean {
  const { extents, lines } = join;
  if (extents.length < 2 || extents.length - 1 > rule.mostJoins) return false;
  if (rule.lines !== 'either' && rule.lines !== lines) return false;
  if (extents.some((extent) => extent < rule.narrowest || extent <= takenUp(rule, mark))) return false;
  return !rule.clearMiddle || !joinsInMiddle(rule, join, mark);
}

/** A join lies midway across what it takes up; twice its place is whole even where the place is not. */
function joinsInMiddle(rule: JoinRule, join: JoinedPiece, mark: Ticks): boolean {
  const takes = takenUp(rule, mark);
  let edge = 0;
  return join.extents.slice(0, -1).some((extent) => {
    edge += extent - takes;
    return 2 * edge + takes === acrossJoins(join);
  });
}

function acrossJoins({ lines, piece }: JoinedPiece): Ticks {
  return lines === 'upright' ? piece.size.width : piece.size.length;
}

function takenUp({ by, allowance }: JoinRule, mark: Ticks): number {
  const exact = by === 'seam' ? 2 * allowance : allowance;
  return Math.ceil(exact / mark) * mark;
}
