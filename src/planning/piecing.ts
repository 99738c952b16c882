import { turnsAllowed } from '../cloth/directions.ts';
import type { Cloth } from '../model/cloth.ts';
import type { JoinedPiece, JoinRule, PieceLine, PieceWanted, Size } from '../model/piece.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { extentsOnPrint, partExtents, takenByJoin } from './part-extents.ts';
import { matchOfPart } from './part-match.ts';
import { startOnPrint } from './print-over-joins.ts';
import type { PrintPhase } from './print-phase.ts';

/** A stretch of usable cloth as it lies on the table; `length` is Infinity for a bolt sold in any length. */
export interface Room {
  readonly width: number;
  readonly length: number;
  /** How far before it the print begins that all rooms have in common. */
  readonly ahead?: number;
}

/** One way to join a piece, with the parts as pieces of their own. */
export interface Joining {
  readonly joined: JoinedPiece;
  readonly parts: readonly PieceWanted[];
}

interface Grid {
  readonly columns: readonly Ticks[];
  readonly rows: readonly Ticks[];
}

/** Ways that are worth laying out, those of fewest parts first; and of those that join both ways at once. */
const MOST_WAYS = 24;
const MOST_GRIDS = 8;

/** Whether a piece can be cut whole in some way it may lie. */
export function fitsWhole(piece: PieceWanted, cloth: Cloth, rooms: readonly Room[]): boolean {
  return lyings(piece.size, turnsOf(piece, cloth)).some((size) =>
    rooms.some((room) => size.width <= room.width && size.length <= room.length),
  );
}

/**
 * All ways that the piece's rule allows to join it from parts that the cloth can yield, fewest parts first. Empty when
 * the piece has no rule, or none of the ways fits. Joined both ways at once only where one way is not enough.
 *
 * @param phase how the print lies in the rooms, where the parts are to suit it: then no other ways are told if there are such
 */
export function joinings(
  piece: PieceWanted,
  cloth: Cloth,
  rooms: readonly Room[],
  rulerMark: Ticks,
  phase?: PrintPhase,
): readonly Joining[] {
  const rule = piece.join;
  if (!rule) return [];
  const turns = turnsOf(piece, cloth);
  const suited = phase ? alongPrint(piece, rule, turns, rooms, rulerMark, phase) : [];
  const single = suited.length > 0 ? suited : oneWay(piece, rule, turns, rooms, rulerMark);
  const ways = single.length > 0 ? single : bothWays(piece, rule, turns, rooms, rulerMark);
  return ways
    .map((grid) => joining(piece, cloth, rule, grid, rulerMark))
    .filter((way) => way.parts.every((part) => fitsWhole(part, cloth, rooms)))
    .sort((a, b) => a.parts.length - b.parts.length)
    .slice(0, MOST_WAYS);
}

function oneWay(
  piece: PieceWanted,
  rule: JoinRule,
  turns: readonly (0 | 1)[],
  rooms: readonly Room[],
  mark: Ticks,
): readonly Grid[] {
  const { width, length } = piece.size;
  const lines = rule.lines === 'either' ? (['upright', 'level'] as const) : [rule.lines];
  return lines.flatMap((way): readonly Grid[] => {
    const stretches = turns.flatMap((turn) =>
      rooms.map((room) => asPieceStands(room, turn)).filter((room) => fitsBeside(room, piece.size, way)),
    );
    const widths = stretches.map((room) => ticks(Math.min(...across(room, piece.size, way))));
    return way === 'upright'
      ? partExtents(width, widths, rule, mark).map((columns) => ({ columns, rows: [length] }))
      : partExtents(length, widths, rule, mark).map((rows) => ({ columns: [width], rows }));
  });
}

/** Parts one after the other along the cloth, as long as each stretch lets them be once it is begun in the print. */
function alongPrint(
  piece: PieceWanted,
  rule: JoinRule,
  turns: readonly (0 | 1)[],
  rooms: readonly Room[],
  mark: Ticks,
  phase: PrintPhase,
): readonly Grid[] {
  const { width, length } = piece.size;
  return turns.flatMap((turn): readonly Grid[] => {
    const way = turn === 0 ? 'level' : 'upright';
    const startOf = startOnPrint(piece, turn, phase);
    if (!startOf || (rule.lines !== way && rule.lines !== 'either')) return [];
    const stretches = rooms
      .filter((room) => fitsBeside(asPieceStands(room, turn), piece.size, way))
      .map(({ length: own, ahead = 0 }) => ({ length: own, ahead }));
    return way === 'level'
      ? extentsOnPrint(length, stretches, rule, mark, startOf).map((rows) => ({ columns: [width], rows }))
      : extentsOnPrint(width, stretches, rule, mark, startOf).map((columns) => ({ columns, rows: [length] }));
  });
}

const fitsBeside = (room: Room, size: Size, way: 'upright' | 'level'): boolean =>
  way === 'upright' ? size.length <= room.length : size.width <= room.width;

const across = (room: Room, size: Size, way: 'upright' | 'level'): readonly number[] =>
  way === 'upright' ? [room.width, size.width] : [room.length, size.length];

/** A grid of parts for a piece that is larger than the cloth both ways, with the joins shared out between the two. */
function bothWays(
  piece: PieceWanted,
  rule: JoinRule,
  turns: readonly (0 | 1)[],
  rooms: readonly Room[],
  mark: Ticks,
): readonly Grid[] {
  if (rule.lines !== 'either') return [];
  const { width, length } = piece.size;
  const grids = turns.flatMap((turn) =>
    rooms.flatMap((room): readonly Grid[] => {
      const stands = asPieceStands(room, turn);
      const columns = partExtents(width, [ticks(Math.min(stands.width, width))], rule, mark);
      const rows = partExtents(length, [ticks(Math.min(stands.length, length))], rule, mark);
      return columns.flatMap((own) => rows.map((other) => ({ columns: own, rows: other })));
    }),
  );
  return grids
    .filter(({ columns, rows }) => columns.length + rows.length - 2 <= rule.mostJoins)
    .sort((a, b) => a.columns.length * a.rows.length - b.columns.length * b.rows.length)
    .slice(0, MOST_GRIDS);
}

function turnsOf(piece: PieceWanted, cloth: Cloth): readonly (0 | 1)[] {
  const allowed = turnsAllowed(piece, cloth);
  if (allowed.kind === 'against-print') return [];
  return allowed.kind === 'either-way' ? [0, 1] : [allowed.turns];
}

/** A stretch of cloth in the upright frame of a piece that lies turned on it. */
function asPieceStands(room: Room, turn: 0 | 1): Room {
  return turn === 0 ? room : { width: room.length, length: room.width };
}

function lyings(size: Size, turns: readonly (0 | 1)[]): readonly Size[] {
  return turns.map((turn) => (turn === 0 ? size : { width: size.length, length: size.width }));
}

/** `before`: parts of the same piece that are told already, where its copies are joined in several ways. */
function joining(
  piece: PieceWanted,
  cloth: Cloth,
  rule: JoinRule,
  { columns, rows }: Grid,
  rulerMark: Ticks,
  { copies, before } = { copies: piece.copies, before: 0 },
): Joining {
  const takes = ceilTo(takenByJoin(rule), rulerMark);
  const { join: _, match: __, ...plain } = piece;
  const count = columns.length * rows.length;
  const idAt = (column: number, row: number) =>
    `${piece.id}/part ${before + row * columns.length + column + 1}`;
  const parts = rows.flatMap((length, row) =>
    columns.map((width, column): PieceWanted => {
      const index = row * columns.length + column;
      const from = { x: startOf(columns, column, takes), y: startOf(rows, row, takes) };
      const size = { width, length };
      const match = matchOfPart(piece, cloth, from);
      return {
        ...plain,
        ...(match && { match }),
        id: idAt(column, row),
        letter: `${piece.letter}${before + index + 1}`,
        name: `${piece.name}, part ${index + 1} of ${count}`,
        copies,
        size,
        exactSize: size,
        lines: [
          ...clippedLines(piece.lines, from, size),
          ...joinLines(size, rule, takes, {
            left: column > 0 ? idAt(column - 1, row) : undefined,
            right: column < columns.length - 1 ? idAt(column + 1, row) : undefined,
            bottom: row > 0 ? idAt(column, row - 1) : undefined,
            top: row < rows.length - 1 ? idAt(column, row + 1) : undefined,
          }),
        ],
        partOf: { piece: piece.id, index, count },
        finished: clippedFinished(piece, from, size),
      };
    }),
  );
  return { joined: { piece, copies, columns, rows, parts: parts.map((part) => part.id) }, parts };
}

/** The same way for so many copies only, its parts numbered on from those told before. */
export function forCopies(
  { joined }: Joining,
  cloth: Cloth,
  copies: number,
  before: number,
  rulerMark: Ticks,
): Joining {
  const { piece } = joined;
  return joining(piece, cloth, piece.join!, joined, rulerMark, { copies, before });
}

/** Where a part begins in the joined piece. */
function startOf(extents: readonly Ticks[], index: number, takes: Ticks): number {
  return extents.slice(0, index).reduce((edge, extent) => edge + extent - takes, 0);
}

interface Neighbours {
  readonly left: string | undefined;
  readonly right: string | undefined;
  readonly bottom: string | undefined;
  readonly top: string | undefined;
}

/**
 * A seam is drawn where it is stitched. A lap is drawn where the edge of the other part comes to lie: the part to the
 * left, or below, lies over the next.
 */
function joinLines(
  { width, length }: Size,
  { by }: JoinRule,
  takes: Ticks,
  neighbours: Neighbours,
): readonly PieceLine[] {
  const deep = by === 'seam' ? Math.floor(takes / 2) : takes;
  const upright = (part: string, x: number, over: boolean): PieceLine => ({
    kind: 'join',
    ...{ x0: ticks(x), y0: ticks(0), x1: ticks(x), y1: length },
    meets: { part, side: by === 'seam' ? 'seam' : over ? 'over' : 'under' },
  });
  const level = (part: string, y: number, over: boolean): PieceLine => ({
    kind: 'join',
    ...{ x0: ticks(0), y0: ticks(y), x1: width, y1: ticks(y) },
    meets: { part, side: by === 'seam' ? 'seam' : over ? 'over' : 'under' },
  });
  const { left, right, bottom, top } = neighbours;
  return [
    ...(left === undefined ? [] : [upright(left, deep, false)]),
    ...(right === undefined ? [] : [upright(right, width - deep, true)]),
    ...(bottom === undefined ? [] : [level(bottom, deep, false)]),
    ...(top === undefined ? [] : [level(top, length - deep, true)]),
  ];
}

/** The seams and hems of the whole piece that fall on this part. */
function clippedLines(
  lines: readonly PieceLine[],
  from: { readonly x: number; readonly y: number },
  size: Size,
): readonly PieceLine[] {
  return lines.flatMap((line): readonly PieceLine[] => {
    const [ax, bx] = [line.x0 - from.x, line.x1 - from.x];
    const [ay, by] = [line.y0 - from.y, line.y1 - from.y];
    const outside =
      Math.max(ax, bx) <= 0 ||
      Math.min(ax, bx) >= size.width ||
      Math.max(ay, by) <= 0 ||
      Math.min(ay, by) >= size.length;
    if (outside) return [];
    return [
      {
        ...line,
        ...{ x0: within(ax, size.width), y0: within(ay, size.length) },
        ...{ x1: within(bx, size.width), y1: within(by, size.length) },
      },
    ];
  });
}

/** The finished outline of the whole piece, as far as it falls on this part. */
function clippedFinished(
  { finished }: PieceWanted,
  from: { readonly x: number; readonly y: number },
  size: Size,
) {
  return {
    x0: within(finished.x0 - from.x, size.width),
    y0: within(finished.y0 - from.y, size.length),
    x1: within(finished.x1 - from.x, size.width),
    y1: within(finished.y1 - from.y, size.length),
  };
}

const within = (value: number, most: Ticks): Ticks => ticks(Math.min(most, Math.max(0, value)));
