/** Short hands for plans written out in tests. */
import type { Cloth } from '../../src/model/cloth.ts';
import type { PieceWanted, Size } from '../../src/model/piece.ts';
import type { LoosePiece, MakeOrder, Plan } from '../../src/model/plan.ts';
import {
  greatestCommonDivisor,
  TICKS_PER_CM,
  TICKS_PER_INCH,
  type Ticks,
  ticks,
} from '../../src/units/ticks.ts';

/** Hundredths of a centimetre are whole ticks (32). */
export const cm = (length: number): Ticks => ticks(Math.round(length * TICKS_PER_CM));
export const inches = (length: number): Ticks => ticks(length * TICKS_PER_INCH);

export const none = ticks(0);

/** A piece wanted, named `order/part`, or loose where there is no part. */
export function wanted(
  id: string,
  letter: string,
  cloth: Cloth,
  size: Size,
  copies: number,
  grain: PieceWanted['grain'],
): PieceWanted {
  const [order = id, name = id] = id.split('/');
  const finished = { x0: none, y0: none, x1: size.width, y1: size.length };
  return {
    ...{ id, letter, name, order, cloth: cloth.name, size, exactSize: size, copies, grain },
    ...{ finished, lines: [] },
  };
}

/** A plan that asks for these pieces. */
export function plan(
  name: string,
  unit: Plan['unit'],
  cloths: readonly Cloth[],
  rules: {
    readonly rulerMark: Ticks;
    readonly keep: readonly [Ticks, Ticks];
    readonly stages?: Plan['stages'];
    readonly pieces: readonly PieceWanted[];
  },
): Plan {
  const [width, length] = rules.keep;
  return {
    ...{ name, unit, cloths, rulerMark: rules.rulerMark, keep: { width, length } },
    ...{ paper: 'a4', currency: '¤', stages: rules.stages ?? 'any' },
    ...{ makes: ordersOf(rules.pieces), pieces: looseOf(rules.pieces) },
    tools: { rulerLength: inches(24), mostPlies: 4 },
  };
}

/** A piece named `order/part` stands for an order of covers, any other for a loose piece. */
function ordersOf(pieces: readonly PieceWanted[]): readonly MakeOrder[] {
  const made = pieces.filter(({ order, id }) => order !== id);
  return [...new Set(made.map(({ order }) => order))].map((name) => {
    const own = made.filter(({ order }) => order === name);
    return {
      ...{ name, make: 'envelope-cover', measures: {} },
      count: own.map(({ copies }) => copies).reduce(greatestCommonDivisor),
      cloths: Object.fromEntries(own.map((piece) => [piece.name, piece.cloth])),
    };
  });
}

function looseOf(pieces: readonly PieceWanted[]): readonly LoosePiece[] {
  return pieces
    .filter(({ order, id }) => order === id)
    .map(({ name, copies, exactSize, cloth, grain, join }) => ({
      name,
      count: copies,
      size: exactSize,
      cloth,
      grain,
      ...(join && { join }),
    }));
}
