import type { Cloth } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { PackOptions } from '../../packing/instance.ts';
import { mostOf, times } from './most-of.ts';
import type { Tried } from './tried.ts';
import type { Wished } from './use-plan.ts';

export interface Filled {
  readonly wished: readonly Wished[];
  /** In hundredths. */
  readonly worth: number;
  /** Of all their pieces, in square ticks. */
  readonly area: number;
}

/** So many of it fit when it comes first. */
export interface FirstFit {
  readonly tried: Tried;
  readonly count: number;
}

/** Uses that are tried first when several are put together, and the most that are put together. */
const FIRST_TRIED = 3;
const MOST_TOGETHER = 4;

/**
 * The dearest of a few ways to fill the lengths in hand of a cloth: one of the first few uses to begin with, then of each
 * other, best first, as much as still fits beside. Undefined where nothing fits.
 */
export function fill(
  plan: Plan,
  cloth: Cloth,
  fits: readonly FirstFit[],
  pack: PackOptions,
): Filled | undefined {
  let best: Filled | undefined;
  for (const first of fits.slice(0, FIRST_TRIED)) {
    const filled = filledFrom(plan, cloth, first, fits, pack);
    const better = !best || filled.worth > best.worth;
    if (better || (filled.worth === best!.worth && filled.area > best!.area)) best = filled;
  }
  return best;
}

function filledFrom(
  plan: Plan,
  cloth: Cloth,
  first: FirstFit,
  fits: readonly FirstFit[],
  pack: PackOptions,
): Filled {
  const wished: Wished[] = [{ wish: first.tried.wish, count: first.count }];
  let beside = times(first.tried.set, first.count);
  let worth = first.count * (first.tried.wish.worth ?? 0);
  for (const { tried } of fits) {
    if (tried === first.tried || wished.length === MOST_TOGETHER) continue;
    const { wish, set } = tried;
    const { count } = mostOf(plan, cloth, { set, beside }, wish.most ?? Number.POSITIVE_INFINITY, pack);
    if (count < wish.least) continue;
    wished.push({ wish, count });
    beside = [...beside, ...times(set, count)];
    worth += count * (wish.worth ?? 0);
  }
  return { wished, worth, area: areaOf(beside) };
}

export function areaOf(pieces: readonly PieceWanted[]): number {
  return pieces.reduce((total, { size, copies }) => total + size.width * size.length * copies, 0);
}
