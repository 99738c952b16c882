import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { Plan } from '../../src/model/plan.ts';
import { widthAtRisk } from '../../src/planning/at-risk.ts';
import { type Ticks, ticks } from '../../src/units/ticks.ts';
import { bruteShortest } from '../support/brute-force.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const WASHED = { washed: 'before-cutting' } as const;
const PACK = { effort: 30_000, seed: 2 };

function planWith(cloth: Partial<Cloth>): Plan {
  return planOf([clothOf(cloth)], [loose('front', 19, 19, 2), loose('back', 19, 13.5, 4)]);
}

function atRisk(cloth: Partial<Cloth>) {
  const plan = planWith(cloth);
  return widthAtRisk(plan, plan.cloths[0]!, expandMakes(plan).pieces, PACK)!;
}

describe('width at risk', () => {
  it('finds the exact widths at which more must be bought: an envelope cover pair on a one-way print', () => {
    const { steps, noneBelow } = atRisk({ direction: 'one-way', width: inches(60) });
    // By hand: three columns of 19 need 57 in and 32.5 in of length; two columns need 38 in and 46 in; one column 92 in.
    expect(steps.map(({ from, bought, proven }) => [from, bought, proven])).toEqual([
      [inches(57), inches(36), true],
      [inches(38), inches(49.5), true],
      [inches(19), inches(94.5), true],
    ]);
    expect(noneBelow).toBe(inches(19));
  });

  it('agrees with planning at every step and one ruler mark below it, selvedges and kept-off crease counted', () => {
    for (const cloth of [
      { width: inches(58), selvedge: { left: inches(0.5), right: inches(0.25) } },
      {
        width: inches(50),
        crease: { kind: 'keep-off', each: inches(0.5) },
        selvedge: { left: inches(0.375), right: inches(1) },
      },
      {
        width: inches(60),
        selvedge: { left: inches(0.5), right: inches(0.5) },
        washing: {
          along: { numerator: 1, denominator: 20 },
          across: { numerator: 3, denominator: 100 },
          ...WASHED,
        },
      },
      {
        width: inches(56),
        lay: 'folded',
        foldAt: inches(20),
        selvedge: { left: inches(0.5), right: inches(0.5) },
      },
    ] as const) {
      const { steps } = atRisk(cloth);
      expect(steps.length).toBeGreaterThan(1);
      for (const [index, step] of steps.entries()) {
        expect(planned(planWith({ ...cloth, width: step.from })).cloths[0]!.purchase!.bought).toBe(
          step.bought,
        );
        const below = { ...cloth, width: inches(step.from / inches(1) - 1 / 64) };
        const next = steps[index + 1];
        if (next) expect(planned(planWith(below)).cloths[0]!.purchase!.bought).toBeGreaterThan(step.bought);
        else expect(() => planned(planWith(below))).toThrow('too-wide');
      }
    }
  });
});

describe('beside a kept-off crease', () => {
  it('holds at every width from the one that is told, though a little more width may begin the far side a mark later', () => {
    const cloth = {
      width: inches(45),
      selvedge: { left: inches(0.5), right: inches(0.5) },
      crease: { kind: 'keep-off', each: inches(0.5) },
    } as const;
    const plan = (width: Ticks) =>
      planOf([clothOf({ ...cloth, width })], [{ ...loose('front', 17, 17, 4), grain: 'lengthwise' }]);
    const { steps } = widthAtRisk(
      plan(cloth.width),
      plan(cloth.width).cloths[0]!,
      expandMakes(plan(cloth.width)).pieces,
      PACK,
    )!;
    // At 36 in two columns of 17 in lie beside the strip; at 36 1/16 in the far one begins at 18 1/8 in, and lacks 1/16 in.
    const [first, second] = steps;
    expect([first!.from, first!.bought, second!.bought]).toEqual([inches(36.125), inches(36), inches(72)]);
    const boughtAt = (width: number) => planned(plan(ticks(width))).cloths[0]!.purchase!.bought;
    for (let width = inches(37); width >= first!.from; width = ticks(width - inches(1 / 32)))
      expect(boughtAt(width), `${width / inches(1)}`).toBe(first!.bought);
    expect(boughtAt(first!.from - 1)).toBeGreaterThan(first!.bought);
  });
});

describe('what is said to be proven', () => {
  /** Need in inches by brute force, on a cloth of so many inches between its selvedges; undefined where there is no plan. */
  const need = (width: number, sizes: readonly Small[]) =>
    bruteShortest(
      {
        sheet: { width, length: 26 },
        kinds: sizes.map(({ across, up, count, turns }) => ({
          ...{ width: across, length: up, copies: count, quarterTurn: turns && across !== up },
        })),
      },
      'any',
      26,
    );

  it('is what trying every way to cut gives, at every width of a step and just below it', () => {
    const seen = { proven: 0, ends: 0, open: 0, lower: 0 };
    const small = fc.record({
      across: fc.integer({ min: 2, max: 5 }),
      up: fc.integer({ min: 2, max: 5 }),
      count: fc.integer({ min: 1, max: 2 }),
      turns: fc.boolean(),
    });
    fc.assert(
      fc.property(
        fc.integer({ min: 6, max: 9 }),
        fc.array(small, { minLength: 2, maxLength: 3 }),
        fc.constantFrom(1, 400),
        (width, sizes, effort) => {
          const pieces = sizes.map(({ across, up, count, turns }, index) => ({
            ...loose(`piece ${index}`, across, up, count),
            ...(!turns && { grain: 'lengthwise' as const }),
          }));
          const cloth = clothOf({ width: inches(width), buy: { step: inches(1) }, crease: { kind: 'none' } });
          const plan = planOf([cloth], pieces, { rulerMark: inches(1) });
          const found = widthAtRisk(plan, cloth, expandMakes(plan).pieces, { effort, seed: 2 })!;
          let top = width;
          for (const { from, bought, proven, ends } of found.steps) {
            const [low, buys] = [from / inches(1), bought / inches(1)];
            for (let at = top; at >= low; at--) {
              const least = need(at, sizes)!;
              expect(least).toBeLessThanOrEqual(buys);
              if (proven) expect(least).toBe(buys);
              if (least < buys) seen.lower++;
            }
            const below = need(low - 1, sizes);
            if (ends && below !== undefined) expect(below).toBeGreaterThan(buys);
            seen.proven += proven ? 1 : 0;
            seen.ends += ends ? 1 : 0;
            seen.open += proven && ends ? 0 : 1;
            top = low - 1;
          }
          expect(need(top, sizes)).toBeUndefined();
        },
      ),
      { numRuns: 20, seed: 7 },
    );
    for (const what of ['proven', 'ends', 'open'] as const) expect(seen[what], what).toBeGreaterThan(5);
  });
});

interface Small {
  readonly across: number;
  readonly up: number;
  readonly count: number;
  readonly turns: boolean;
}
