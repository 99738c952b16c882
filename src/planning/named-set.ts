import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { greatestCommonDivisor } from '../units/ticks.ts';
import type { OneSet } from './sets-ladder.ts';

/** What makes up one set: so many of some orders or loose pieces, by name. */
export type NamedSet = ReadonlyMap<string, number>;

/** How many of each order and loose piece the plan wants, in its order. */
export function wantedOf({ makes, pieces }: Plan): NamedSet {
  return new Map([...makes, ...pieces].map(({ name, count }) => [name, count] as const));
}

/** The smallest set whose whole multiples are what the plan wants. */
export function smallestSetOf(plan: Plan): NamedSet {
  const wanted = wantedOf(plan);
  const divisor = [...wanted.values()].reduce(greatestCommonDivisor, 0);
  return new Map([...wanted].map(([name, count]) => [name, count / divisor] as const));
}

/** How many whole sets the plan wants; those of which it wants least decide. */
export function setsWanted(plan: Plan, set: NamedSet): number {
  const wanted = wantedOf(plan);
  return Math.min(...[...set].map(([name, each]) => Math.floor((wanted.get(name) ?? 0) / each)));
}

/**
 * Copies of each piece in one set; pieces that have no part in it are left out. Undefined where the copies of a piece are no
 * whole multiple of what it is cut for, as where covers of one order close in both ways.
 */
export function piecesOfSet(plan: Plan, pieces: readonly PieceWanted[], set: NamedSet): OneSet | undefined {
  const wanted = wantedOf(plan);
  const copies = new Map<PieceId, number>();
  for (const piece of pieces) {
    const each = set.get(piece.order);
    if (each === undefined) continue;
    const own = (piece.copies * each) / wanted.get(piece.order)!;
    if (!Number.isInteger(own)) return undefined;
    copies.set(piece.id, own);
  }
  return copies;
}

/** The plan for so many sets, and nothing besides. */
export function planOfSets(plan: Plan, set: NamedSet, sets: number): Plan {
  const counted = <Wanted extends { readonly name: string; readonly count: number }>(
    all: readonly Wanted[],
  ) =>
    all.flatMap((own) => {
      const each = set.get(own.name);
      return each === undefined ? [] : [{ ...own, count: each * sets }];
    });
  return { ...plan, makes: counted(plan.makes), pieces: counted(plan.pieces) };
}
