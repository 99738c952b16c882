import type { Cloth, LengthInHand, Worth } from '../../model/cloth.ts';
import type { Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { PackOptions } from '../../packing/instance.ts';
import { ticks } from '../../units/ticks.ts';
import { candidatesFor } from './candidates.ts';
import { type FirstFit, fill } from './fill.ts';
import { leftoverCloth } from './left-of-cloths.ts';
import { mostOf } from './most-of.ts';
import { expandWish } from './use-plan.ts';

export interface LeftoversWorth {
  readonly hundredths: number;
  /** What they would become, where that is worth more than their area. */
  readonly uses: readonly { readonly name: string; readonly count: number }[];
}

/** Effort for each question of how many of a wish some leftovers hold. */
const EFFORT = 2_000;

/**
 * What keepable leftovers of a cloth are worth to the maker: by their area, as `said` or as the plan
 * says, or by what of the maker's list can be cut from them, whichever is more. Rounded down.
 */
export function worthOfLeftovers(
  plan: Plan,
  cloth: Cloth,
  leftovers: readonly Size[],
  { seed }: PackOptions,
  said?: Worth,
): LeftoversWorth {
  const area = leftovers.reduce((total, { width, length }) => total + width * length, 0);
  const rate = said ?? cloth.leftoverWorth ?? plan.leftoverWorth;
  const byArea = rate ? Math.floor((rate.hundredths * area) / rate.per) : 0;
  const byUse = worthOfUses(plan, cloth, leftovers, seed);
  return byUse.hundredths > byArea ? byUse : { hundredths: byArea, uses: [] };
}

function worthOfUses(plan: Plan, given: Cloth, leftovers: readonly Size[], seed: number): LeftoversWorth {
  const nothing = { hundredths: 0, uses: [] };
  const wished = candidatesFor(plan, leftoverCloth(given, []), false).filter(
    ({ wish }) => wish.worth !== undefined,
  );
  if (wished.length === 0 || leftovers.length === 0) return nothing;
  const cut = { left: ticks(0), right: ticks(0) };
  const inHand = leftovers.map(
    (size, index): LengthInHand => ({
      ...size,
      name: `leftover ${index + 1}`,
      selvedge: cut,
      crease: { kind: 'none' },
      copies: 1,
    }),
  );
  const cloth = leftoverCloth(given, inHand);
  const pack = { effort: EFFORT, seed };
  const fits = wished.flatMap((candidate): readonly FirstFit[] => {
    const { wish } = candidate;
    const made = expandWish(plan, cloth, wish);
    if (!made) return [];
    const limit = wish.most ?? Number.POSITIVE_INFINITY;
    const { count } = mostOf(plan, cloth, { set: made.pieces }, limit, pack);
    const tried = { ...candidate, set: made.pieces, finished: made.finished };
    return count >= Math.max(1, wish.least) ? [{ tried, count }] : [];
  });
  const total = ({ tried, count }: FirstFit) => count * (tried.wish.worth ?? 0);
  const filled = fill(
    plan,
    cloth,
    fits.sort((one, other) => total(other) - total(one)),
    pack,
  );
  if (!filled) return nothing;
  return {
    hundredths: filled.worth,
    uses: filled.wished.map(({ wish, count }) => ({ name: wish.name, count })),
  };
}
