import type { Cloth, Fraction, LengthInHand } from '../model/cloth.ts';
import type { Box } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';

/** One length of cloth as it must lie on the table, worked out from the plan alone. */
export interface TableCloth {
  readonly width: Ticks;
  readonly length: Ticks;
  /** Selvedges, as trimmed away. */
  readonly left: Ticks;
  readonly right: Ticks;
  /** Half the width of the strip that is kept off, either side of the crease; absent where nothing is kept off. */
  readonly keptOff?: Ticks;
  /** Twice the distance of the crease from the left outer edge; midway between the edges unless the length says where. */
  readonly twiceCrease: number;
  readonly squaring: Ticks;
  /** What goes at the near end: the squaring, and what it takes to begin a print whose start is not known. */
  readonly near: Ticks;
  /** Stretches of x that may be used, near to far: one, or two where the crease is kept off. Some may be empty. */
  readonly across: readonly Span[];
  /** The stretch of y that may be used. */
  readonly along: Span;
}

export interface Span {
  readonly from: Ticks;
  readonly to: Ticks;
}

/**
 * The usable cloth of a length: what is available is rounded down after washing, selvedges and squaring are as stated.
 * `bought` is the length the shop cuts, before washing.
 */
export function tableCloth(cloth: Cloth, source: LengthInHand | { readonly bought: Ticks }): TableCloth {
  const own = 'bought' in source ? { ...cloth, length: source.bought } : source;
  // What was washed before it was measured shrinks no more.
  const shrinks = 'bought' in source || source.washed !== true;
  const washed = shrinks && cloth.washing?.washed === 'before-cutting' ? cloth.washing : undefined;
  const width = washed ? afterWashing(own.width, washed.across) : own.width;
  const length = washed ? afterWashing(own.length, washed.along) : own.length;
  const { left, right } = own.selvedge;
  const keptOff = own.crease.kind === 'keep-off' ? own.crease.each : undefined;
  const inner = { from: left, to: ticks(width - right) };
  const told = own.crease.kind === 'keep-off' ? own.crease.at : undefined;
  const twiceCrease = told === undefined ? width : 2 * (washed ? afterWashing(told, washed.across) : told);
  return {
    ...{ width, length, left, right, twiceCrease, squaring: cloth.squaring, near: cloth.squaring },
    ...(keptOff === undefined ? {} : { keptOff }),
    across: keptOff === undefined ? [inner] : besideCrease(inner, twiceCrease, keptOff),
    along: { from: cloth.squaring, to: ticks(length - cloth.squaring) },
  };
}

/** What is left of `length` when a part of it is lost in the wash, rounded down to a whole tick. */
export function afterWashing(length: Ticks, loss: Fraction): Ticks {
  const left = BigInt(loss.denominator - loss.numerator);
  return ticks(Number((BigInt(length) * left) / BigInt(loss.denominator)));
}

/** The least length that leaves `wanted` when a part of it is lost in the wash. */
export function beforeWashing(wanted: Ticks, loss: Fraction): Ticks {
  const left = BigInt(loss.denominator - loss.numerator);
  return ticks(Number((BigInt(wanted) * BigInt(loss.denominator) + left - 1n) / left));
}

/** The usable cells of a length: each is a rectangle that no piece or remnant may leave. */
export function usableCells({ across, along }: TableCloth): readonly Box[] {
  return across
    .filter(({ from, to }) => from < to)
    .map(({ from, to }) => ({ x0: from, y0: along.from, x1: to, y1: along.to }));
}

export function inside(box: Box, cell: Box): boolean {
  return box.x0 >= cell.x0 && box.x1 <= cell.x1 && box.y0 >= cell.y0 && box.y1 <= cell.y1;
}

/** The crease may lie between two ticks: then each side loses that half tick. */
function besideCrease(inner: Span, twiceCrease: number, keptOff: Ticks): readonly Span[] {
  const nearStrip = ticks(Math.floor((twiceCrease - 2 * keptOff) / 2));
  const farStrip = ticks(twiceCrease - nearStrip);
  return [
    { from: inner.from, to: ticks(Math.min(nearStrip, inner.to)) },
    { from: ticks(Math.max(farStrip, inner.from)), to: inner.to },
  ];
}
