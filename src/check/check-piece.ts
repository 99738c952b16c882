import type { Cloth } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { Box, PieceWanted } from '../model/piece.ts';
import { ticks } from '../units/ticks.ts';
import { sizeOf } from './check-leftover.ts';
import type { Report } from './plan-fault.ts';
import type { TableCloth } from './table-cloth.ts';

/** One piece where it lies: its size, its turn, and that it stays on usable cloth. */
export function checkPiece(
  wanted: PieceWanted,
  quarterTurns: QuarterTurns,
  box: Box,
  table: TableCloth,
  cloth: Cloth,
  report: Report,
): void {
  checkTurn(wanted, quarterTurns, cloth, (code, figures) => report(code, figures, { piece: wanted.id, box }));
  checkPlace(box, table, (code, figures) => report(code, figures, { piece: wanted.id, box }));
  const { width, length } = wanted.size;
  const size = isSideways(quarterTurns) ? { width: length, length: width } : { width, length };
  const found = sizeOf(box);
  if (found.width !== size.width || found.length !== size.length) {
    report('piece-size', { found, wanted: size }, { piece: wanted.id, box });
  }
}

function isSideways(quarterTurns: QuarterTurns): boolean {
  return quarterTurns === 1 || quarterTurns === 3;
}

/** Half turns are always allowed: a plain rectangle turned end for end is the same rectangle. */
function checkTurn(wanted: PieceWanted, quarterTurns: QuarterTurns, cloth: Cloth, report: Report): void {
  const sideways = isSideways(quarterTurns);
  // A piece with a panel lies as its panel does, which is proven with the panel.
  if (!wanted.panel && cloth.direction !== 'plain' && sideways !== (cloth.printRuns === 'across')) {
    report('piece-against-print', { quarterTurns });
  }
  if (wanted.grain !== 'either' && sideways !== (wanted.grain === 'crosswise')) {
    report('piece-off-grain', { quarterTurns, grain: wanted.grain });
  }
}

function checkPlace(box: Box, table: TableCloth, report: Report): void {
  const { width, length, left, right, keptOff, twiceCrease, squaring, near } = table;
  if (box.x0 < left) report('piece-over-selvedge', { side: 'left', over: ticks(left - box.x0) });
  const overRight = box.x1 - (width - right);
  if (overRight > 0) report('piece-over-selvedge', { side: 'right', over: ticks(overRight) });
  if (keptOff !== undefined) {
    // Twice the distance by which the piece would have to move to either side of the strip.
    const over = Math.min(twiceCrease + 2 * keptOff - 2 * box.x0, 2 * box.x1 - (twiceCrease - 2 * keptOff));
    if (over > 0) report('piece-over-crease', { over: ticks(Math.ceil(over / 2)), each: keptOff });
  }
  if (box.y0 < near) report('piece-in-squaring', { end: 'near', over: ticks(near - box.y0) });
  const overFar = box.y1 - (length - squaring);
  if (overFar > 0) report('piece-in-squaring', { end: 'far', over: ticks(overFar) });
}
