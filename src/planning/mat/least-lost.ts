import type { Plan } from '../../model/plan.ts';
import { withChanges } from './changes.ts';
import { changesOf, type Giving, type Marks } from './givings.ts';
import type { Judge } from './judge.ts';

/** More ways than these are not listed, and no more of them judged. */
const MOST_LISTED = 600;
const MOST_JUDGED = 16;

/**
 * Whether it is proven that nothing that may give, in any mixture, saves the cloths for less cut area than `least`. A smaller
 * piece lies wherever a larger one did, so of all ways that lose less only those are judged that no other of them
 * makes smaller still; where each is impossible, so are all. Not proven where there are too many, or one is open.
 *
 * @param lost cut area that so many marks lose
 */
export function isLeastLost(
  plan: Plan,
  alone: readonly Giving[],
  lost: (marks: Marks) => number,
  least: number,
  judge: Judge,
): boolean {
  const givings = freeOf(alone);
  if (givings.reduce((ways, { most }) => ways * (most + 1), 1) > MOST_LISTED) return false;
  const losesLess = (counts: readonly number[]) => lost(marksOf(givings, counts)) < least;
  const furthest = allCounts(givings).filter(
    (counts) =>
      losesLess(counts) &&
      givings.every(
        ({ most }, place) => counts[place] === most || !losesLess(counts.with(place, counts[place]! + 1)),
      ),
  );
  if (furthest.length > MOST_JUDGED) return false;
  return furthest.every(
    (counts) => judge.of(withChanges(plan, changesOf(plan, marksOf(givings, counts)))) === 'impossible',
  );
}

/** Each measure once: a size that gives on either side by these sides, which together are what gives on both. */
export function freeOf(alone: readonly Giving[]): readonly Giving[] {
  return alone.filter(
    (own) =>
      own.side !== 'both' ||
      !alone.some(
        (other) => other.thing === own.thing && other.measure === own.measure && other.side !== 'both',
      ),
  );
}

function marksOf(givings: readonly Giving[], counts: readonly number[]): Marks {
  return new Map(givings.map((own, place) => [own, counts[place]!] as const));
}

function allCounts(givings: readonly Giving[]): readonly (readonly number[])[] {
  return givings.reduce<readonly (readonly number[])[]>(
    (all, { most }) => all.flatMap((own) => Array.from({ length: most + 1 }, (_, count) => [...own, count])),
    [[]],
  );
}
