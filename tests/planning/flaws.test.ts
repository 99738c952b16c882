import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isOver } from '../../src/check/check-flaws.ts';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { Flaw, LengthInHand } from '../../src/model/cloth.ts';
import type { Box } from '../../src/model/piece.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const edges = {
  width: inches(40),
  selvedge: { left: inches(0.5), right: inches(0.5) },
  crease: { kind: 'none' },
} as const;

function flaw(...corners: readonly (readonly [number, number])[]): Flaw {
  return { outline: corners.map(([x, y]) => ({ x: inches(x), y: inches(y) })) };
}

function inHand(length: number, flaws: readonly Flaw[], changes: Partial<LengthInHand> = {}): LengthInHand {
  return { name: 'old curtain', length: inches(length), copies: 1, flaws, ...edges, ...changes };
}

function withOnly(length: LengthInHand, lay: 'flat' | 'folded' = 'flat') {
  const { buy: _, ...cloth } = clothOf({ width: inches(40), lay, inHand: [length] });
  return cloth;
}

const stain = flaw([18, 20], [24, 20], [24, 26], [18, 26]);
const corner = flaw([0, 0], [14, 0], [0, 11]);

describe('flaws', () => {
  it('are kept off by pieces and by leftovers worth keeping', () => {
    const plan = planned(planOf([withOnly(inHand(60, [stain, corner]))], [loose('mat', 13, 17, 5)]), 30_000);
    expect(checkPlan(plan)).toEqual([]);
  });

  it('can leave no room where the cloth without them has some', () => {
    const pieces = [loose('mat', 19, 25, 4)];
    const options = { effort: 20_000, seed: 1 };
    expect(makeCutPlan(planOf([withOnly(inHand(51, []))], pieces), options).ok).toBe(true);
    const flawed = makeCutPlan(planOf([withOnly(inHand(51, [stain]))], pieces), options);
    expect(flawed.issues.map((issue) => issue.code)).toEqual(['not-enough-cloth']);
  });

  it('are refused where an outline crosses itself', () => {
    const bowTie = flaw([0, 0], [9, 9], [9, 0], [0, 9]);
    const outcome = makeCutPlan(planOf([withOnly(inHand(60, [stain, bowTie]))], [loose('mat', 9, 8, 1)]), {
      effort: 100,
      seed: 1,
    });
    expect(outcome.issues).toEqual([
      {
        code: 'outline-crosses',
        severity: 'error',
        path: ['cloths', 'gull grey', 'lengths', 0, 'flaws', 1],
        details: { length: 'old curtain', flaw: 2 },
      },
    ]);
  });

  it('count on both plies of a folded lay', () => {
    const plan = planned(
      planOf([withOnly(inHand(60, [stain]), 'folded')], [loose('mat', 13, 17, 4)]),
      20_000,
    );
    expect(checkPlan(plan)).toEqual([]);
  });

  it('are trim, not scrap, where they lie in a kept-off crease strip and take no usable cloth', () => {
    // Its slant runs out beyond the strip, so that it is covered by boxes of which some lie in the strip alone.
    const hole = flaw([19.75, 40.125], [24, 40.25], [19.75, 41.375]);
    const crease = { kind: 'keep-off', each: inches(1) } as const;
    const plan = planned(
      planOf([withOnly(inHand(60, [hole], { crease }))], [loose('mat', 13, 17, 1)]),
      20_000,
    );
    expect(checkPlan(plan)).toEqual([]);
    const { tree, width, length } = plan.cloths[0]!.lengths[0]!;
    const inStrip = walk(tree, width, length).leaves.filter(
      ({ box }) => box.x0 >= inches(19) && box.x1 <= inches(21),
    );
    expect(inStrip.map(({ leaf }) => leaf).filter(({ kind }) => kind !== 'trim')).toEqual([]);
    expect(inStrip.length).toBeGreaterThan(0);
  });

  it('shrink with a length that is washed first', () => {
    const washing = {
      along: { numerator: 1, denominator: 20 },
      across: { numerator: 1, denominator: 40 },
      washed: 'before-cutting',
    } as const;
    const plan = planned(
      planOf([{ ...withOnly(inHand(60, [stain, corner])), washing }], [loose('mat', 12, 15, 5)]),
      20_000,
    );
    expect(checkPlan(plan)).toEqual([]);
  });

  it('are found by the checker, a tick over but not where they only touch', () => {
    const box = (x0: number, y0: number, x1: number, y1: number) => ({ x0, y0, x1, y1 }) as unknown as Box;
    const triangle = [
      [100, 100],
      [500, 100],
      [100, 400],
    ] as const;
    expect(isOver(box(10, 10, 100, 300), triangle)).toBe(false);
    expect(isOver(box(10, 10, 101, 300), triangle)).toBe(true);
    expect(isOver(box(10, 10, 101, 100), triangle)).toBe(false);
    // The slant runs through (300, 250): a box with that corner only touches it, one tick lower it does not.
    expect(isOver(box(300, 250, 700, 900), triangle)).toBe(false);
    expect(isOver(box(300, 249, 700, 900), triangle)).toBe(true);
    expect(isOver(box(150, 150, 160, 160), triangle)).toBe(true);
    expect(isOver(box(0, 0, 900, 900), triangle)).toBe(true);
  });

  it('across the whole width stay scrap where a fold is opened out, however large they are', () => {
    const burnt = flaw([0, 5], [40, 5], [40, 13], [0, 13]);
    const plan = planned(planOf([withOnly(inHand(30, [burnt]), 'folded')], [loose('mat', 15, 15, 2)]), 4_000);
    expect(plan.cloths[0]!.lengths[0]!.lay.kind).toBe('folded');
    expect(checkPlan(plan)).toEqual([]);
  });

  it('never stop a plan from passing the checker: random stains and corners', () => {
    let made = 0;
    const at = fc.tuple(
      fc.integer({ min: 0, max: 40 }),
      fc.integer({ min: 0, max: 60 }),
      fc.integer({ min: 1, max: 9 }),
    );
    fc.assert(
      fc.property(at, at, fc.boolean(), ([x, y, size], [u, v, reach], folded) => {
        const flaws = [
          flaw([x, y], [x + size, y], [x + size, y + 2], [x, y + 2]),
          flaw([u, v], [u + reach, v + 1], [u + 1, v + reach]),
        ];
        const cloth = withOnly(inHand(60, flaws), folded ? 'folded' : 'flat');
        const plan = planOf([cloth], [loose('mat', 11, 13, 4), loose('tie', 2.5, 17, 3)]);
        const outcome = makeCutPlan(plan, { effort: 900, seed: 1 });
        if (!outcome.ok) return;
        made += 1;
        expect(checkPlan(outcome.value)).toEqual([]);
      }),
      { seed: 17, numRuns: 40 },
    );
    expect(made).toBeGreaterThan(20);
  });
});
