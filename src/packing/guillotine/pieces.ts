import type { Kind } from '../instance.ts';

/** Single pieces of a question, one entry a copy, in whole units; the search works on these. */
export interface Pieces {
  readonly count: number;
  readonly width: Int32Array;
  readonly length: Int32Array;
  /** 1 where a quarter turn is allowed and changes something. */
  readonly turnable: Uint8Array;
  /** Index into the kinds of the question. */
  readonly kind: Int32Array;
  /** Pieces with the same shape and turning have the same number, whatever their kind. */
  readonly shape: Int32Array;
  readonly area: Float64Array;
}

/** A question in units of the common divisors of all sizes: one unit is `unitX` by `unitY` of the caller's. */
export interface Scale {
  readonly unitX: number;
  readonly unitY: number;
}

export function commonDivisor(a: number, b: number): number {
  let large = a;
  let small = b;
  while (small > 0) [large, small] = [small, large % small];
  return large;
}

/**
 * The largest units that measure every piece. Sheets are then rounded down to them, which loses nothing: every cut can
 * be moved down to a sum of piece sizes. Where any piece may be turned, both directions share one unit.
 */
export function scaleOf(kinds: readonly Kind[]): Scale {
  let unitX = 0;
  let unitY = 0;
  let turns = false;
  for (const kind of kinds) {
    if (kind.copies === 0) continue;
    unitX = commonDivisor(unitX, kind.width);
    unitY = commonDivisor(unitY, kind.length);
    turns ||= kind.quarterTurn;
  }
  if (turns) {
    unitX = commonDivisor(unitX, unitY);
    unitY = unitX;
  }
  return { unitX: unitX || 1, unitY: unitY || 1 };
}

/** Expands kinds into single pieces, measured in the units of `scale`. */
export function expandPieces(kinds: readonly Kind[], scale: Scale): Pieces {
  let count = 0;
  for (const kind of kinds) count += kind.copies;
  const pieces = {
    count,
    width: new Int32Array(count),
    length: new Int32Array(count),
    turnable: new Uint8Array(count),
    kind: new Int32Array(count),
    shape: new Int32Array(count),
    area: new Float64Array(count),
  };
  const shapes = new Map<string, number>();
  let piece = 0;
  kinds.forEach((kind, index) => {
    // A kind of no copies must not take a shape number: shapes are counted by their pieces.
    if (kind.copies === 0) return;
    const width = kind.width / scale.unitX;
    const length = kind.length / scale.unitY;
    const turnable = kind.quarterTurn && width !== length;
    const key = turnable
      ? `${Math.min(width, length)} ${Math.max(width, length)} turnable`
      : `${width} ${length}`;
    let shape = shapes.get(key);
    if (shape === undefined) {
      shape = shapes.size;
      shapes.set(key, shape);
    }
    for (let copy = 0; copy < kind.copies; copy++, piece++) {
      pieces.width[piece] = width;
      pieces.length[piece] = length;
      pieces.turnable[piece] = turnable ? 1 : 0;
      pieces.kind[piece] = index;
      pieces.shape[piece] = shape;
      pieces.area[piece] = width * length;
    }
  });
  return pieces;
}

/** A part of `pieces`, by index, in the order given. */
export function somePieces(pieces: Pieces, chosen: readonly number[]): Pieces {
  return {
    count: chosen.length,
    width: Int32Array.from(chosen, (piece) => pieces.width[piece]),
    length: Int32Array.from(chosen, (piece) => pieces.length[piece]),
    turnable: Uint8Array.from(chosen, (piece) => pieces.turnable[piece]),
    kind: Int32Array.from(chosen, (piece) => pieces.kind[piece]),
    shape: Int32Array.from(chosen, (piece) => pieces.shape[piece]),
    area: Float64Array.from(chosen, (piece) => pieces.area[piece]),
  };
}

export function totalArea(pieces: Pieces): number {
  let sum = 0;
  for (let piece = 0; piece < pieces.count; piece++) sum += pieces.area[piece];
  return sum;
}
