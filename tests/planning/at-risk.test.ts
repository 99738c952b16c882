import { describe, expect, it } from 'vitest';
import { beforeWashing } from '../../src/cloth/washing.ts';
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { Plan } from '../../src/model/plan.ts';
import { shrinkageAtRisk, widthAtRisk } from '../../src/planning/at-risk.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

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

describe('shrinkage at risk', () => {
  it('is the largest shrinkage at which each buy still yields what is packed', () => {
    const cloth = clothOf({ squaring: inches(0.5) });
    const steps = shrinkageAtRisk(cloth, inches(100), 4);
    expect(steps.map((step) => step.bought)).toEqual([103.5, 108, 112.5, 117].map(inches));
    for (const { upTo, bought } of steps) {
      const need = (parts: number) =>
        beforeWashing(inches(101), { numerator: parts, denominator: 1_000_000 });
      expect(need(upTo)).toBeLessThanOrEqual(bought);
      expect(need(upTo + 1)).toBeGreaterThan(bought);
    }
  });
});
