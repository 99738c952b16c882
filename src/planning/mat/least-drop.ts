import { leavesOpening } from '../../makes/openings.ts';
import type { Cloth, ClothName } from '../../model/cloth.ts';
import type { Plan } from '../../model/plan.ts';
import { lengthToPack } from '../bed.ts';
import { bedsOf } from '../beds.ts';
import { leavesClothOpen } from '../collection/wanted.ts';
import { type PlanChange, withChanges } from './changes.ts';
import type { Judge, Verdict } from './judge.ts';
import { areaOf, type Thing } from './things.ts';

/** So many of each thing left out, in the order of the things. */
export type Left = readonly number[];

export interface DropLayer {
  readonly dropped: number;
  /** Every way to leave out so few that was found to fit, least cloth left out first. */
  readonly ways: readonly Left[];
  /** Whether leaving out fewer is proven impossible. */
  readonly proven: boolean;
}

/** Most plans that are judged before the search is content with what it can add one by one. */
const MOST_JUDGED = 240;
/** Most ways of one number that are listed at all. */
const MOST_WAYS = 2_000;

/**
 * The fewest things to leave out so that the rest fits, layer by layer: all ways to leave out one, then two, and so on
 * from what the areas alone prove. Leaving out more never hinders, so what is contained in a way that fits, fits, and
 * what contains one that cannot, cannot. Every complete thing counts as one, whatever its size; the fewest left out are
 * the most complete things kept.
 *
 * Yields ever larger numbers, so that the caller may refuse one.
 */
export function* leastDrops(
  plan: Plan,
  things: readonly Thing[],
  short: ReadonlySet<ClothName>,
  judge: Judge,
): Generator<DropLayer> {
  const all = things.reduce((sum, { count }) => sum + count, 0);
  const seen: { readonly left: Left; readonly verdict: Verdict }[] = [];
  const verdictOf = (left: Left): Verdict => {
    const fits = seen.some((own) => own.verdict === 'fits' && isWithin(own.left, left));
    if (fits) return 'fits';
    if (seen.some((own) => own.verdict === 'impossible' && isWithin(left, own.left))) return 'impossible';
    const rest = withChanges(plan, dropChanges(things, left));
    // Nothing left to sew is no plan, and proves nothing of the others.
    if (rest.makes.length + rest.pieces.length === 0) return 'open';
    const verdict = judge.of(rest);
    seen.push({ left, verdict });
    return verdict;
  };
  let proven = true;
  const fewest = Math.max(1, fewestByArea(plan, things, short));
  for (let dropped = fewest; dropped <= all; dropped += 1) {
    const candidates = waysToLeave(things, dropped);
    if (candidates === undefined || seen.length + candidates.length > MOST_JUDGED) break;
    const verdicts = candidates.map((left) => ({ left, verdict: verdictOf(left) }));
    const ways = verdicts.flatMap(({ left, verdict }) => (verdict === 'fits' ? [left] : []));
    if (ways.length > 0) yield { dropped, ways, proven };
    if (verdicts.some(({ verdict }) => verdict !== 'impossible')) proven = false;
  }
  const kept = keptOneByOne(things, verdictOf);
  if (kept) yield { dropped: kept.reduce((sum, count) => sum + count, 0), ways: [kept], proven: false };
}

export function dropChanges(things: readonly Thing[], left: Left): readonly PlanChange[] {
  return things.flatMap(({ list, index, count }, place): readonly PlanChange[] =>
    left[place]! > 0 ? [{ kind: 'count', of: { list, index }, count: count - left[place]! }] : [],
  );
}

/** Whether `one` leaves out no more of anything than `other`. */
function isWithin(one: Left, other: Left): boolean {
  return one.every((count, index) => count <= other[index]!);
}

/**
 * No fewer can be left out than it takes, of what takes most cloth, to bring the areas down to the cloth there is; 0 where
 * the areas alone prove nothing.
 */
export function fewestByArea(plan: Plan, things: readonly Thing[], short: ReadonlySet<ClothName>): number {
  // Where cloths or openings are left to the plan, the areas are not settled.
  if (leavesClothOpen(plan) || plan.makes.some(leavesOpening)) return 0;
  return plan.cloths
    .filter(({ name }) => short.has(name))
    .reduce((most, cloth) => Math.max(most, fewestOnCloth(plan, things, cloth)), 0);
}

function fewestOnCloth(plan: Plan, things: readonly Thing[], cloth: Cloth): number {
  const { inHand, toBuy } = bedsOf(plan, cloth);
  if (toBuy) return 0;
  const room = inHand.reduce((sum, bed) => sum + bed.usable * lengthToPack(bed), 0);
  const own = things
    .map(({ areas, count }) => ({ area: areas.get(cloth.name) ?? 0, count }))
    .sort((a, b) => b.area - a.area);
  let wanted = own.reduce((sum, { area, count }) => sum + area * count, 0);
  let dropped = 0;
  for (const { area, count } of own) {
    if (wanted <= room || area === 0) break;
    // A hair is taken off, so that rounding of areas never asks for one too many.
    const needed = Math.min(count, Math.ceil((wanted - room) / area - 1e-9));
    dropped += needed;
    wanted -= needed * area;
  }
  return dropped;
}

/** Every way to leave out so many, least cut area first; undefined where there are too many ways. */
function waysToLeave(things: readonly Thing[], dropped: number): readonly Left[] | undefined {
  const found: number[][] = [];
  const choose = (index: number, rest: number, left: readonly number[]): boolean => {
    if (index === things.length) {
      if (rest === 0) found.push([...left]);
      return found.length <= MOST_WAYS;
    }
    for (let count = Math.min(rest, things[index]!.count); count >= 0; count -= 1) {
      if (!choose(index + 1, rest - count, [...left, count])) return false;
    }
    return true;
  };
  if (!choose(0, dropped, [])) return undefined;
  const lost = (left: Left) => left.reduce((sum, count, index) => sum + count * areaOf(things[index]!), 0);
  return found.sort((a, b) => lost(a) - lost(b));
}

/** From nothing kept, as many of each thing as still fit, the small ones first. Undefined where not one of them does. */
function keptOneByOne(
  things: readonly Thing[],
  verdictOf: (left: Left) => Verdict,
): readonly number[] | undefined {
  let left: number[] = things.map(({ count }) => count);
  const order = things.map((_, index) => index).sort((a, b) => areaOf(things[a]!) - areaOf(things[b]!));
  for (const index of order) {
    let [fits, fails] = [left[index]!, -1];
    const withLeft = (count: number) => left.map((own, place) => (place === index ? count : own));
    while (fits - fails > 1) {
      const middle = Math.floor((fits + fails) / 2);
      if (verdictOf(withLeft(middle)) === 'fits') fits = middle;
      else fails = middle;
    }
    left = withLeft(fits);
  }
  return verdictOf(left) === 'fits' ? left : undefined;
}
