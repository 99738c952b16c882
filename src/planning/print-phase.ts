import { isAbsolute, motifInPiece, phaseOf, repeatOnTable } from '../cloth/repeats.ts';
import type { Cloth, Repeat } from '../model/cloth.ts';
import type { QuarterTurns } from '../model/cut-tree.ts';
import type { Match, PieceWanted } from '../model/piece.ts';
import type { Lattice } from '../packing/instance.ts';
import { type Ticks, ticks } from '../units/ticks.ts';

/**
 * How the print lies in the packer's frame, the same on every bed of a cloth: beds whose own print starts elsewhere
 * are begun further in (`skip`, `left`), so that one lattice serves them all.
 */
export interface PrintPhase {
  readonly repeat: Repeat;
  /** y of a motif's centre, below one repeat; 0 where the print repeats only across. */
  readonly along: Ticks;
  /** x of a motif's centre, of those that start as measured; below one step from column to column. */
  readonly across: Ticks;
}

/** From one column of motifs to the next at the same height; undefined where the print does not repeat across. */
export function columnsOf({ across, drop }: Repeat): Ticks | undefined {
  return across === undefined ? undefined : ticks(drop === 'half' ? 2 * across : across);
}

/** Whether any piece is held to the print itself, so that where the print starts on a length matters. */
export function needsStart(pieces: readonly PieceWanted[]): boolean {
  return pieces.some(({ match }) => match !== undefined && isAbsolute(match));
}

/**
 * The phase for a cloth: across, where the first bed has it; along, where the length in hand that is measured first
 * has it, or else where the first matched piece may begin right at the squared end.
 */
export function printPhase(
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  first: {
    readonly left: Ticks;
    readonly motif?: number;
    readonly fromEdge?: Ticks;
    /** Which of `printStarts` begins at the squared end, where no motif is measured. */
    readonly start?: number;
  },
): PrintPhase | undefined {
  const repeat = repeatOnTable(cloth);
  if (!repeat || !pieces.some(({ match }) => match)) return undefined;
  const along =
    repeat.along === undefined
      ? ticks(0)
      : phaseOf(first.motif ?? first.start ?? firstMotif(pieces, cloth), repeat.along);
  const across =
    repeat.across === undefined
      ? ticks(0)
      : phaseOf((first.fromEdge ?? repeat.fromEdge ?? first.left) - first.left, columnsOf(repeat)!);
  return { repeat, along, across };
}

/**
 * How far a motif may lie from the squared end so that a piece that is held to it begins right there, one a way of pieces to
 * lie in the print, that of the first piece first. `all`: in no other way need anything be begun, since no piece lies
 * free of the print and each lies in one way only.
 */
export function printStarts(
  pieces: readonly PieceWanted[],
  cloth: Cloth,
): { readonly motifs: readonly number[]; readonly all: boolean } {
  const repeat = repeatOnTable(cloth);
  if (!repeat || repeat.along === undefined) return { motifs: [], all: true };
  const { along } = repeat;
  const turns = cloth.direction !== 'plain' && cloth.printRuns === 'across' ? 1 : 0;
  const points = pieces.map(({ match, size }) => match && motifInPiece(match, size, turns));
  // Of a half drop either column may be the one that a piece begins with.
  const heights = repeat.drop === 'half' ? [0, Math.floor(along / 2)] : [0];
  const motifs = new Set(
    points.flatMap((point) => (point ? heights.map((height) => phaseOf(point.y + height, along)) : [])),
  );
  const only = new Set(pieces.map(({ match }) => match && !isAbsolute(match) && startIn(match)));
  const all =
    points.every((point) => point !== undefined) ||
    (repeat.drop !== 'half' &&
      only.size === 1 &&
      pieces.every(({ match }) => match !== undefined && !isAbsolute(match)));
  return { motifs: [...motifs], all };
}

function firstMotif(pieces: readonly PieceWanted[], cloth: Cloth): number {
  const turns = cloth.direction !== 'plain' && cloth.printRuns === 'across' ? 1 : 0;
  for (const { match, size } of pieces) {
    const point = match && motifInPiece(match, size, turns);
    if (point) return point.y;
  }
  return 0;
}

/** Where the near corner of a matched piece may lie: on a half drop also half a repeat higher, in every second column. */
export function latticeOf(
  piece: PieceWanted,
  turns: QuarterTurns,
  { repeat, along, across }: PrintPhase,
): Lattice | undefined {
  const { match, size } = piece;
  if (!match) return undefined;
  const point = motifInPiece(match, size, turns);
  const columns = columnsOf(repeat);
  const y = repeat.along !== undefined && {
    period: repeat.along,
    offsets: [phaseOf(point ? along - point.y : startIn(match), repeat.along)],
  };
  const x = columns !== undefined &&
    match.kind !== 'drops' && {
      period: columns,
      offsets: [point ? phaseOf(across - point.x, columns) : 0],
    };
  const lattice = { ...(x && { x }), ...(y && { y }) };
  if (repeat.drop !== 'half' || !x || !y) return lattice;
  const shifted = ({ period, offsets }: NonNullable<Lattice['x']>, by: number) => ({
    period,
    offsets: offsets.map((offset) => phaseOf(offset + by, ticks(period))),
  });
  return { ...lattice, or: { x: shifted(x, x.period / 2), y: shifted(y, y.period / 2) } };
}

/** How far on in the print a piece starts that only has to be like others. */
function startIn(match: Match): number {
  return match.kind === 'drops' ? (match.from ?? 0) : 0;
}
