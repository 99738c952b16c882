import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { refit } from '../../../src/planning/mat/refit.ts';
import { makeCutPlan } from '../../../src/planning/plan.ts';
import { partRemarks } from '../../../src/rendering/refit-words.ts';
import { TICKS_PER_INCH } from '../../../src/units/ticks.ts';
import { bruteShortest } from '../../support/brute-force.ts';
import { measuredText, planFrom } from '../../support/measured-plan.ts';
import { inches } from '../build.ts';

interface Small {
  readonly across: number;
  readonly up: number;
  readonly count: number;
}

/** So much each measure may come down, in inches. */
const MOST = 2;

function shrunkOf(width: number, length: number, sizes: readonly Small[]) {
  const lines = sizes.map(
    ({ across, up, count }, index) =>
      `  - { name: piece ${index}, count: ${count}, size: ${across} x ${up}, cloth: sail grey }`,
  );
  const text = measuredText(`{ width: ${width}, length: ${length} }`, ['pieces:', ...lines].join('\n'));
  const plan = planFrom(
    text
      .replace('unit: in\n', 'unit: in\nruler: 1\n')
      .replace('width: 40, selvedge', `width: ${width}, selvedge`),
  );
  const search = { effort: 20_000, seed: 3 };
  const may = sizes.map((_, index) => ({ name: `piece ${index}`, most: inches(MOST) }));
  const make = (own: typeof plan) => makeCutPlan(own, search);
  const found = refit(plan, { ...search, may, take: 'shrink', make });
  if (!found.ok) throw new Error(JSON.stringify(found.issues));
  return { plan, ...found.value };
}

/** The least cut area lost, in square inches, over every mixture of sizes that may give; a square stays a square. */
function bruteForce(width: number, length: number, sizes: readonly Small[]): number | undefined {
  const downs = (size: Small) =>
    Array.from({ length: MOST + 1 }, (_, x) =>
      size.across === size.up
        ? [{ ...size, across: size.across - x, up: size.up - x }]
        : Array.from({ length: MOST + 1 }, (_, y) => ({ ...size, across: size.across - x, up: size.up - y })),
    )
      .flat()
      .filter(({ across, up }) => across > 0 && up > 0);
  const mixtures = sizes.reduce<readonly (readonly Small[])[]>(
    (all, size) => all.flatMap((own) => downs(size).map((one) => [...own, one])),
    [[]],
  );
  const area = (all: readonly Small[]) =>
    all.reduce((sum, { across, up, count }) => sum + across * up * count, 0);
  const rising = [...mixtures].sort((a, b) => area(b) - area(a));
  const fits = rising.find(
    (all) =>
      bruteShortest(
        {
          sheet: { width, length },
          kinds: all.map(({ across, up, count }) => ({
            ...{ width: across, length: up, copies: count, quarterTurn: across !== up },
          })),
        },
        'any',
        length,
      ) !== undefined,
  );
  return fits && area(sizes) - area(fits);
}

describe('what is lost by shrinking', () => {
  it('is said to be least, proven, only where trying every mixture of sizes says so too', () => {
    const seen = { proven: 0, open: 0 };
    const small = fc.record({
      across: fc.integer({ min: 3, max: 6 }),
      up: fc.integer({ min: 3, max: 6 }),
      count: fc.integer({ min: 1, max: 2 }),
    });
    fc.assert(
      fc.property(
        fc.integer({ min: 6, max: 9 }),
        fc.integer({ min: 5, max: 9 }),
        fc.tuple(small, small),
        (width, length, sizes) => {
          const { plan, offers } = shrunkOf(width, length, sizes);
          const part = offers[0]?.parts[0];
          if (part?.leastLost === undefined) return;
          const least = bruteForce(width, length, sizes)!;
          const lost = part.lost / TICKS_PER_INCH ** 2;
          expect(lost).toBeGreaterThanOrEqual(least);
          if (part.leastLost) expect(lost).toBe(least);
          seen[part.leastLost ? 'proven' : 'open']++;
          expect(partRemarks(part, plan)).toContain(
            part.leastLost
              ? 'no mixture of sizes loses less cloth, proven'
              : 'the least cloth lost that was found',
          );
        },
      ),
      { numRuns: 36, seed: 17 },
    );
    expect(seen.proven).toBeGreaterThan(2);
    expect(seen.open).toBeGreaterThan(2);
  });
});
