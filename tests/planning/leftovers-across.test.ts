import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { usesText } from '../../src/rendering/uses.ts';
import { usesAcrossJson } from '../../src/rendering/uses-json.ts';
import { read, usesWith } from './uses.ts';

/** What is left of each cloth, by itself: a strip right across takes the rest. */
type Lefts = Readonly<Record<string, readonly [width: number, length: number]>>;

const NAMES = ['kelp weave', 'oat linen', 'ink chambray'] as const;

/** Mats of a front and a lining of one cut size: 1 in more each way than the finished size. */
function askedOf(
  lefts: Lefts,
  front: readonly string[],
  lining: readonly string[],
  side: number,
  extra = '',
) {
  const cloths = Object.entries(lefts).map(
    ([name, [width, length]]) => `  ${name}: { width: ${width}, selvedge: 0, lengths: [${length + 10}] }`,
  );
  const strips = Object.entries(lefts).map(
    ([name, [width]], index) =>
      `  - { name: strip ${index}, count: 1, size: ${width} x 10, cloth: ${name}, grain: lengthwise }`,
  );
  return read(`
plan: Porch
unit: in
currency: $
${extra}
cloths:
${cloths.join('\n')}
pieces:
${strips.join('\n')}
from leftovers:
  - { name: mats, kind: place-mat, size: ${side - 1} x ${side - 1}, seam allowance: 1/2, worth: 2, most: 9, cloth: { front: [${front.join(', ')}], lining: [${lining.join(', ')}] } }
`);
}

/**
 * Most mats that can be had: squares of one size lie in full rows and columns best, so each cloth holds so many; every way
 * to give the fronts and the linings of n mats to the cloths is tried.
 */
function bruteForce(lefts: Lefts, front: readonly string[], lining: readonly string[], side: number): number {
  const rooms = NAMES.map((name) => {
    const [width, length] = lefts[name] ?? [0, 0];
    return Math.floor(width / side) * Math.floor(length / side);
  });
  const ways = (cloths: readonly string[], count: number): number[][] => {
    const [first, ...others] = NAMES.map((name, index) => ({ name, index })).filter(({ name }) =>
      cloths.includes(name),
    );
    const split = (rest: typeof others, left: number): number[][] => {
      const [one, ...more] = rest;
      if (!one) return left === 0 ? [NAMES.map(() => 0)] : [];
      return Array.from({ length: left + 1 }, (_, own) => own).flatMap((own) =>
        split(more, left - own).map((all) => all.map((value, at) => value + (at === one.index ? own : 0))),
      );
    };
    return split([first!, ...others], count);
  };
  let count = 0;
  const holds = (things: number) =>
    ways(front, things).some((fronts) =>
      ways(lining, things).some((linings) =>
        rooms.every((room, index) => fronts[index]! + linings[index]! <= room),
      ),
    );
  while (count < 9 && holds(count + 1)) count++;
  return count;
}

describe('things whose parts come from leftovers of several cloths', () => {
  it('take each part from its own cloth, as many as both give', () => {
    // Squares of 9 in: the weave holds 4 x 2 = 8 fronts of 36 x 18 in, the linen 5 linings of 45 x 9 in.
    const asked = askedOf({ 'kelp weave': [36, 18], 'oat linen': [45, 9] }, ['kelp weave'], ['oat linen'], 9);
    const { uses, across } = usesWith(asked);
    // Neither gives one by itself, since each serves for one part alone.
    expect(uses.map((own) => own.uses)).toEqual([[], []]);
    expect(across).toHaveLength(1);
    expect(across[0]).toMatchObject({ count: 5, proven: true, worth: 1000, source: 'list' });
    expect(across[0]!.from.map(({ cloth }) => cloth)).toEqual(['kelp weave', 'oat linen']);
    expect(usesText(uses, asked, 100, across)).toContain(
      'Of several cloths\n  mats  5 of 8 x 8 in: front from kelp weave, lining from oat linen, worth $10.00',
    );
    expect(usesAcrossJson(across, asked)[0]).toMatchObject({ name: 'mats', count: 5, proven: true });
  });

  it('may take one part from one cloth or another, thing by thing', () => {
    // The weave holds 4, the linen 2, the chambray 3: fronts from weave or linen, linings from linen or chambray. Of 4 mats
    // the fronts take all the weave, the linings all the chambray and one of the linen; a fifth would want ten of nine.
    const asked = askedOf(
      { 'kelp weave': [36, 9], 'oat linen': [18, 9], 'ink chambray': [27, 9] },
      ['kelp weave', 'oat linen'],
      ['oat linen', 'ink chambray'],
      9,
    );
    const { uses, across } = usesWith(asked);
    expect(uses[1]!.uses[0]).toMatchObject({ count: 1 });
    expect(across[0]).toMatchObject({ count: 4 });
  });

  it('keep the rules of the plan', () => {
    const lefts: Lefts = { 'kelp weave': [18, 9], 'oat linen': [36, 9] };
    const both = ['kelp weave', 'oat linen'];
    // Six squares are three mats; where front and lining must differ, the two of the weave make two.
    const free = usesWith(askedOf(lefts, both, both, 9));
    expect(free.across[0]).toMatchObject({ count: 3 });
    const apart = usesWith(askedOf(lefts, both, both, 9, 'rules: { unlike: [front, lining] }'));
    expect(apart.uses.flatMap((own) => own.uses)).toEqual([]);
    expect(apart.across[0]).toMatchObject({ count: 2 });
  });

  it('are more of what the plan makes from several cloths, where that is asked for', () => {
    const asked = read(`
plan: Porch
unit: in
cloths: { kelp weave: { width: 20, selvedge: 0, lengths: [20] }, oat linen: { width: 18, selvedge: 0, lengths: [22] } }
make: [{ name: mats, kind: place-mat, count: 1, size: 8 x 6, cloth: { front: kelp weave, lining: oat linen } }]
`);
    expect(usesWith(asked).across).toEqual([]);
    const { across } = usesWith(asked, true);
    expect(across[0]).toMatchObject({ source: 'plan' });
    expect(across[0]!.count).toBeGreaterThan(1);
  });

  it('are as many as trying every way to give parts to cloths allows, where it says so; never more', () => {
    const seen = { proven: 0, open: 0, none: 0, fewer: 0 };
    const some = fc.subarray([...NAMES], { minLength: 1 });
    fc.assert(
      fc.property(
        fc.record({
          lefts: fc.record({
            'kelp weave': fc.tuple(fc.integer({ min: 9, max: 40 }), fc.integer({ min: 6, max: 20 })),
            'oat linen': fc.tuple(fc.integer({ min: 9, max: 40 }), fc.integer({ min: 6, max: 20 })),
            'ink chambray': fc.tuple(fc.integer({ min: 9, max: 40 }), fc.integer({ min: 6, max: 20 })),
          }),
          front: some,
          lining: some,
          side: fc.integer({ min: 6, max: 12 }),
        }),
        ({ lefts, front, lining, side }) => {
          if (new Set([...front, ...lining]).size < 2) return;
          const { uses, across } = usesWith(askedOf(lefts, front, lining, side));
          const most = bruteForce(lefts, front, lining, side);
          const alone = Math.max(0, ...uses.flatMap((own) => own.uses.map(({ count }) => count)));
          const [found] = across;
          const count = Math.max(alone, found?.count ?? 0);
          expect(count).toBeLessThanOrEqual(most);
          if (found?.proven) expect(found.count).toBe(most);
          seen[found ? (found.proven ? 'proven' : 'open') : 'none']++;
          if (count < most) seen.fewer++;
        },
      ),
      { numRuns: 26, seed: 3 },
    );
    expect(seen.proven).toBeGreaterThan(5);
    expect(seen.none).toBeGreaterThan(2);
    expect(seen.fewer).toBe(0);
  });
});
