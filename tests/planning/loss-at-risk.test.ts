import { describe, expect, it } from 'vitest';
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth, Fraction, LengthInHand } from '../../src/model/cloth.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { lossAtRisk } from '../../src/planning/loss-at-risk.ts';
import { TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const PACK = { effort: 30_000, seed: 2 };
const EDGES = { left: inches(0.5), right: inches(0.5) };

const per10000 = (numerator: number): Fraction => ({ numerator, denominator: 10_000 });

function washedPlan(
  along: Fraction,
  across: Fraction,
  changes: Partial<Cloth> = {},
  pieces: readonly LoosePiece[] = [loose('square', 13, 13, 14)],
): Plan {
  const washing = { along, across, washed: 'before-cutting' } as const;
  return planOf(
    [clothOf({ width: inches(43), selvedge: EDGES, squaring: inches(0.5), washing, ...changes })],
    pieces,
  );
}

function atRisk(plan: Plan, way: 'along' | 'across') {
  return lossAtRisk(plan, plan.cloths[0]!, expandMakes(plan).pieces, way, PACK);
}

describe('shrinkage at risk', () => {
  const plan = washedPlan(per10000(500), per10000(200));

  it('along the length is what the arithmetic of the wash gives', () => {
    // Three across on 41 1/8 in: five rows take 65 in and an inch of squaring, 66 in of what is 72 in, 76 1/2, 81 and 85 1/2 bought.
    const { reckoned, steps } = atRisk(plan, 'along')!;
    expect(reckoned).toEqual(per10000(500));
    expect(steps.map(({ bought }) => bought)).toEqual([72, 76.5, 81, 85.5].map(inches));
    for (const { upTo, bought, proven, ends } of steps) {
      expect(upTo.numerator).toBe(Math.floor((1 - 66 / (bought / TICKS_PER_INCH)) * 10_000));
      expect([proven, ends]).toEqual([true, true]);
    }
  });

  it('across the width ends where a column less fits, and says where nothing does', () => {
    // 43 in, less 1 in of selvedge: three columns take 40 in, two 27 in.
    const over43 = (inchesLeft: number): Fraction => ({
      numerator: inches(43 - inchesLeft),
      denominator: inches(43),
    });
    const wide = atRisk(plan, 'across')!;
    expect(wide.steps.map(({ upTo }) => upTo)).toEqual([over43(40), over43(27), over43(14)]);
    // Seven rows in two columns: 92 in ÷ 0.95 = 96.8 in, 2 3/4 yd; fourteen in one: 183 in ÷ 0.95 = 192.6 in, 5 3/8 yd.
    expect(wide.steps.map(({ bought }) => bought)).toEqual([72, 99, 193.5].map(inches));
    expect(wide.noneAbove).toEqual(over43(14));
    const large = washedPlan(per10000(0), per10000(100), {}, [loose('square', 30, 30, 2)]);
    const none = atRisk(large, 'across')!;
    expect(none.steps).toHaveLength(1);
    expect(none.noneAbove).toEqual(over43(31));
  });

  it('agrees with planning at each step and just above it, a length in hand that is yet to be washed counted', () => {
    const end: LengthInHand = {
      name: 'end of bolt',
      length: inches(28),
      copies: 1,
      width: inches(43),
      selvedge: EDGES,
      crease: { kind: 'none' },
    };
    for (const inHand of [[], [end]]) {
      for (const way of ['along', 'across'] as const) {
        const losses = { along: per10000(300), across: per10000(200) };
        const planAt = (loss: Fraction) => {
          const { along, across } =
            way === 'along' ? { ...losses, along: loss } : { ...losses, across: loss };
          return washedPlan(along, across, { inHand }, [
            loose('square', 13, 13, 8),
            loose('strip', 9, 20, 3),
          ]);
        };
        const boughtAt = (loss: Fraction) => planned(planAt(loss)).cloths[0]!.purchase!.bought;
        const { steps } = atRisk(planAt(losses[way]), way)!;
        expect(steps.length).toBeGreaterThan(1);
        for (const { upTo, bought } of steps.slice(0, 2)) {
          expect(boughtAt(upTo)).toBe(bought);
          const { numerator, denominator } = upTo;
          expect(boughtAt({ numerator: numerator + 1, denominator })).toBeGreaterThan(bought);
        }
      }
    }
  });

  it('is not worked out where the wash comes later, where the width was measured after it, or where a print shrinks too', () => {
    const { along, across } = { along: per10000(500), across: per10000(200) };
    const washing = { along, across };
    const later = washedPlan(along, across, { washing: { ...washing, washed: 'after-sewing' } });
    expect(atRisk(later, 'along')).toBeUndefined();
    const measured = { ...washing, washed: 'before-cutting', widthFromWashed: true } as const;
    const known = washedPlan(along, across, { washing: measured });
    expect(atRisk(known, 'across')).toBeUndefined();
    expect(atRisk(known, 'along')!.steps[0]!.bought).toBe(inches(72));
    const matched = washedPlan(
      along,
      across,
      { repeat: { along: ticks(20 * TICKS_PER_INCH), drop: 'straight' } },
      [{ ...loose('drop', 13, 13, 4), match: { kind: 'alike' } }],
    );
    expect(expandMakes(matched).pieces[0]!.match).toBeDefined();
    expect(atRisk(matched, 'along')).toBeUndefined();
  });
});
