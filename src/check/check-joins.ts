import type { Cloth } from '../model/cloth.ts';
import type { JoinedPiece, JoinRule, Match, PieceId, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { Report } from './plan-fault.ts';

/**
 * That every joined piece comes out whole: its parts are cut, as often as it is wanted, as large as the joins need,
 * joined as its rule permits and with every join drawn where it lies; and that no part is cut for nothing.
 */
export function checkJoins(
  pieces: readonly PieceWanted[],
  joined: readonly JoinedPiece[],
  { rulerMark: mark, cloths }: Pick<Plan, 'rulerMark' | 'cloths'>,
  report: Report,
): void {
  const cut = new Map(pieces.map((piece) => [piece.id, piece]));
  for (const join of joined) {
    const { cloth, id: piece } = join.piece;
    const here: Report = (code, figures) => report(code, figures, { cloth, piece });
    if (cut.has(piece)) here('joined-piece-cut', {});
    const printed = cloths.find(({ name }) => name === cloth);
    checkParts(join, cut, printed && { cloth: printed, mark }, here);
    const { join: rule } = join.piece;
    if (rule === undefined || !permits(rule, join, mark)) here('join-against-rule', { joins: joinsOf(join) });
    if (rule) {
      checkExtents(rule, join, mark, here);
      checkLines(rule, join, mark, cut, here);
    }
  }
  for (const piece of wholePieces(joined)) {
    const copies = joined.reduce((sum, own) => sum + (own.piece.id === piece.id ? own.copies : 0), 0);
    if (copies === piece.copies && joined.every((own) => own.copies > 0)) continue;
    report('join-copies', { found: copies, wanted: piece.copies }, { cloth: piece.cloth, piece: piece.id });
  }
  const used = new Set(joined.flatMap(({ parts }) => parts));
  for (const { cloth, id, partOf } of pieces) {
    if (partOf && !used.has(id)) report('part-of-nothing', {}, { cloth, piece: id });
  }
}

/** What was asked for and is joined: each piece once, in however many ways its copies are joined. */
export function wholePieces(joined: readonly JoinedPiece[]): readonly PieceWanted[] {
  const pieces = joined.map(({ piece }) => piece);
  return pieces.filter(({ id }, index) => pieces.findIndex((own) => own.id === id) === index);
}

const joinsOf = ({ columns, rows }: JoinedPiece): number => columns.length + rows.length - 2;

/** Columns and rows of the part at `index`, counted row by row from the lower left. */
function placeOf({ columns }: JoinedPiece, index: number) {
  const column = index % columns.length;
  return { column, row: (index - column) / columns.length };
}

function checkParts(
  join: JoinedPiece,
  cut: ReadonlyMap<PieceId, PieceWanted>,
  on: { readonly cloth: Cloth; readonly mark: Ticks } | undefined,
  report: Report,
): void {
  const { piece, columns, rows, parts } = join;
  const wanted = columns.length * rows.length;
  const matching = parts.filter((id, index) => {
    const part = cut.get(id);
    const { column, row } = placeOf(join, index);
    return (
      part?.partOf?.piece === piece.id &&
      part.partOf.index === index &&
      part.partOf.count === wanted &&
      parts.indexOf(id) === index &&
      part.cloth === piece.cloth &&
      part.grain === piece.grain &&
      part.copies === join.copies &&
      part.size.width === columns[column] &&
      part.size.length === rows[row] &&
      runsOn(part.match, join, index, on)
    );
  });
  if (matching.length !== wanted || parts.length !== wanted) {
    report('join-parts', { found: matching.length, wanted });
  }
}

/**
 * Whether what a part asks of the print continues that of the whole piece over the joins: a motif stays at its place in the
 * piece, and what only has to be alike starts as much further on along the cloth as the part lies in the piece.
 */
function runsOn(
  found: Match | undefined,
  join: JoinedPiece,
  index: number,
  on: { readonly cloth: Cloth; readonly mark: Ticks } | undefined,
): boolean {
  const { piece, columns, rows } = join;
  if (!piece.match || !piece.join || !on) return found === undefined;
  const takes = takenUp(piece.join, on.mark);
  const { column, row } = placeOf(join, index);
  const before = (extents: readonly Ticks[], count: number) =>
    extents.slice(0, count).reduce((sum, extent) => sum + extent - takes, 0);
  const [across, up] = [before(columns, column), before(rows, row)];
  const { match, size } = piece;
  if (match.kind === 'alike' || match.kind === 'drops') {
    const isSideways = on.cloth.direction !== 'plain' && on.cloth.printRuns === 'across';
    return found?.kind === 'drops' && (found.from ?? 0) === (isSideways ? across : up);
  }
  const [x, y] =
    match.kind === 'point' ? [match.x, match.y] : [Math.floor(size.width / 2), Math.floor(size.length / 2)];
  return found?.kind === 'point' && found.x === x - across && found.y === y - up;
}

/** What the joins take up is rounded up to the ruler's marks, like every need. */
function checkExtents(rule: JoinRule, { columns, rows, piece }: JoinedPiece, mark: Ticks, report: Report) {
  for (const [extents, whole] of [
    [columns, piece.size.width],
    [rows, piece.size.length],
  ] as const) {
    const found = extents.reduce((total, extent) => total + extent, 0);
    const wanted = whole + (extents.length - 1) * takenUp(rule, mark);
    if (found !== wanted) report('join-extents', { found: ticks(found), wanted: ticks(wanted) });
  }
}

function permits(rule: JoinRule, { columns, rows, piece }: JoinedPiece, mark: Ticks): boolean {
  const [upright, level] = [columns.length - 1, rows.length - 1];
  if (columns.length * rows.length < 2 || upright + level > rule.mostJoins) return false;
  if ((rule.lines === 'level' && upright > 0) || (rule.lines === 'upright' && level > 0)) return false;
  return waysPermit(rule, columns, piece.size.width, mark) && waysPermit(rule, rows, piece.size.length, mark);
}

/** The rule for the joins of one direction; a direction without joins breaks none. */
function waysPermit(rule: JoinRule, extents: readonly Ticks[], whole: Ticks, mark: Ticks): boolean {
  if (extents.length < 2) return true;
  const takes = takenUp(rule, mark);
  if (extents.some((extent) => extent < rule.narrowest || extent <= takes)) return false;
  if (!rule.clearMiddle) return true;
  // Twice the middle is whole even where the middle is not.
  let near = 0;
  return extents.slice(0, -1).every((extent) => {
    near += extent - takes;
    return 2 * near > whole || 2 * (near + takes) < whole;
  });
}

/**
 * Every join shows on both parts that meet there: seams at half of what they take up, laps at all of it, the part to the
 * left or below over the other.
 */
function checkLines(
  rule: JoinRule,
  join: JoinedPiece,
  mark: Ticks,
  cut: ReadonlyMap<PieceId, PieceWanted>,
  report: Report,
): void {
  const takes = takenUp(rule, mark);
  const deep = rule.by === 'seam' ? Math.floor(takes / 2) : takes;
  const side = (over: boolean) => (rule.by === 'seam' ? 'seam' : over ? 'over' : 'under');
  for (const [index, id] of join.parts.entries()) {
    const part = cut.get(id);
    if (!part) continue;
    const { column, row } = placeOf(join, index);
    const { width, length } = part.size;
    const wanted: string[] = [];
    const add = (beside: number, over: boolean, line: readonly number[]) =>
      wanted.push([join.parts[beside], side(over), ...line].join(' '));
    if (column > 0) add(index - 1, false, [deep, 0, deep, length]);
    if (column < join.columns.length - 1) add(index + 1, true, [width - deep, 0, width - deep, length]);
    if (row > 0) add(index - join.columns.length, false, [0, deep, width, deep]);
    if (row < join.rows.length - 1)
      add(index + join.columns.length, true, [0, length - deep, width, length - deep]);
    const drawn = part.lines
      .filter(({ kind, meets }) => kind === 'join' && meets !== undefined)
      .map(({ meets, x0, y0, x1, y1 }) => [meets?.part, meets?.side, x0, y0, x1, y1].join(' '));
    const right = wanted.filter((line) => drawn.includes(line)).length;
    if (right !== wanted.length || drawn.length !== wanted.length) {
      report('join-lines', { found: right, wanted: wanted.length, part: id });
    }
  }
}

function takenUp({ by, allowance }: JoinRule, mark: Ticks): number {
  const exact = by === 'seam' ? 2 * allowance : allowance;
  return Math.ceil(exact / mark) * mark;
}
