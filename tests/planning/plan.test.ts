import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { clothFigures } from '../../src/planning/figures.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const PERCENT = 100;

/** An 18 in envelope cover: front 19 x 19 in, two backs 19 in across and 13 1/2 in along. */
function cover(cloth: Partial<Cloth>) {
  const plan = planOf([clothOf(cloth)], [loose('front', 19, 19, 1), loose('back', 19, 13.5, 2)]);
  const cutPlan = planned(plan);
  expect(checkPlan(cutPlan)).toEqual([]);
  return { cutPlan, clothPlan: cutPlan.cloths[0]! };
}

describe('the published 18 in envelope cover (arithmetic of common practice, no published source)', () => {
  it.each<[string, Partial<Cloth>, number, number]>([
    ['flat on 42 in usable: exactly 3/4 yd', { width: inches(42) }, 27, 27],
    ['turnable on 54 in: 19 in, 5/8 yd', { width: inches(54) }, 19, 22.5],
    ['one-way on 54 in: 27 in, 3/4 yd', { width: inches(54), direction: 'one-way' }, 27, 27],
    [
      'on 42 in clear of the crease line: 27 in',
      { width: inches(42), crease: { kind: 'keep-off', each: ticks(0) } },
      27,
      27,
    ],
    [
      'on 54 in clear of the crease line: 19 in',
      { width: inches(54), crease: { kind: 'keep-off', each: ticks(0) } },
      19,
      22.5,
    ],
    [
      'on 53 in clear of the crease line: 27 in',
      { width: inches(53), crease: { kind: 'keep-off', each: ticks(0) } },
      27,
      27,
    ],
  ])('%s', (_, cloth, needed, bought) => {
    const { clothPlan } = cover(cloth);
    expect(clothPlan.purchase).toMatchObject({ needed: inches(needed), bought: inches(bought) });
    expect(clothPlan.answer).toBe('best');
  });

  it('has the marker efficiency of its textbook formula: 874 square inches on 27 in of 42 in', () => {
    const { cutPlan, clothPlan } = cover({ width: inches(42) });
    const figures = clothFigures(cutPlan, clothPlan);
    expect(figures.markerEfficiency).toBeCloseTo((PERCENT * (19 * 19 + 2 * 19 * 13.5)) / (27 * 42), 10);
    expect(figures.markerEfficiency.toFixed(2)).toBe('77.07');
    expect(figures.utilisation).toBeCloseTo(figures.markerEfficiency, 10);
  });

  it('takes more cloth folded: 18 in half of 42 in holds one column, the front across the fold', () => {
    const { clothPlan } = cover({ width: inches(42), lay: 'folded' });
    expect(clothPlan.surplus).toEqual([]);
    expect(clothPlan.purchase?.needed).toBe(inches(19 + 13.5));
  });

  it('declares the spare where nothing may lie across the crease', () => {
    const crease = { kind: 'keep-off', each: ticks(0) } as const;
    const { clothPlan } = cover({ width: inches(42), lay: 'folded', crease });
    expect(clothPlan.surplus).toEqual([{ piece: 'front', copies: 1 }]);
    expect(clothPlan.purchase?.needed).toBe(inches(19 + 13.5));
    expect(clothPlan.lengths[0]!.lay).toEqual({ kind: 'folded', foldAt: inches(21) });
  });
});

describe('buying', () => {
  it('adds the squared ends and the washing reserve before rounding to the step', () => {
    const washing = {
      along: { numerator: 1, denominator: 20 },
      across: { numerator: 1, denominator: 27 },
      washed: 'before-cutting',
    } as const;
    const cloth = clothOf({ washing, squaring: inches(0.5), price: { hundredths: 1460, per: inches(36) } });
    const cutPlan = planned(planOf([cloth], [loose('panel', 52, 37, 1)]));
    expect(checkPlan(cutPlan)).toEqual([]);
    // 37 + 2 × 1/2 = 38 in; 38 ÷ 0.95 = 40 in exactly; the next eighth of a yard is 40 1/2 in = 1 1/8 yd.
    expect(cutPlan.cloths[0]!.purchase).toEqual({
      needed: inches(40),
      bought: inches(40.5),
      lengths: [{ needed: inches(40), bought: inches(40.5) }],
      cost: Math.round(1460 * 1.125),
    });
  });

  it('buys several lengths where the shop sells none that is long enough', () => {
    const cloth = clothOf({ width: inches(40), buy: { step: inches(4.5), longest: inches(45) } });
    const cutPlan = planned(planOf([cloth], [loose('panel', 38, 21, 5)], { stages: 2 }));
    expect(checkPlan(cutPlan)).toEqual([]);
    expect(cutPlan.cloths[0]!.purchase?.lengths.map((length) => length.bought).sort()).toEqual([
      inches(22.5),
      inches(45),
      inches(45),
    ]);
  });

  it('uses what is in hand before it buys', () => {
    const edges = {
      width: inches(30),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
    } as const;
    const cloth = clothOf({
      width: inches(30),
      inHand: [{ name: 'end of bolt', length: inches(25), copies: 1, ...edges }],
    });
    const cutPlan = planned(planOf([cloth], [loose('mat', 14, 12, 6)]));
    expect(checkPlan(cutPlan)).toEqual([]);
    const [plan] = cutPlan.cloths;
    expect(plan!.lengths.map((length) => length.source).sort()).toEqual(['bought', 'in-hand']);
    // Four lie on the 25 in length (2 across, 2 down); two more need 12 in, which is sold as 13 1/2 in.
    expect(plan!.purchase).toMatchObject({ needed: inches(12), bought: inches(13.5) });
  });

  it('opens nothing in hand where what has to be bought anyway holds everything', () => {
    const strip = {
      name: 'strip',
      length: inches(26),
      copies: 1,
      width: inches(20),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
    } as const;
    const cutPlan = planned(planOf([clothOf({ inHand: [strip] })], [loose('front', 19, 19, 2)]));
    expect(checkPlan(cutPlan)).toEqual([]);
    const [cloth] = cutPlan.cloths;
    // The strip holds one of two; the other takes 5/8 yd, on whose 54 in lie both, 16 in of it left as one piece.
    expect(cloth!.purchase!.bought).toBe(inches(22.5));
    expect(cloth!.lengths.map(({ source }) => source)).toEqual(['bought']);
    expect(clothFigures(cutPlan, cloth!).remnants.map(({ width }) => width)).toEqual([inches(16)]);
  });

  it('says that nothing less can be opened, however the one length that must be is cut', () => {
    const [mm, cm] = [320, 3200];
    const sheet = {
      name: 'washed length',
      length: ticks(85 * cm),
      copies: 1,
      width: ticks(134 * cm),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
    } as const;
    const { buy: _, ...cloth } = clothOf({ inHand: [sheet] });
    const side = ticks(42.5 * cm);
    const piece = { ...loose('cloth', 1, 1, 6), size: { width: side, length: side } };
    const cutPlan = planned(planOf([cloth], [piece], { rulerMark: ticks(mm) }));
    expect(cutPlan.cloths[0]!.answer).toBe('best');
  });

  it('opens only what it needs of what is in hand', () => {
    const edges = {
      width: inches(20),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
    } as const;
    const { buy: _, ...cloth } = clothOf({
      width: inches(20),
      inHand: [
        { name: 'long', length: inches(50), copies: 1, ...edges },
        { name: 'short', length: inches(26), copies: 2, ...edges },
      ],
    });
    const cutPlan = planned(planOf([cloth], [loose('mat', 9, 12, 4)]));
    expect(checkPlan(cutPlan)).toEqual([]);
    expect(cutPlan.cloths[0]!.lengths.map((length) => length.name)).toEqual(['short 1']);
    expect(cutPlan.cloths[0]!.purchase).toBeUndefined();
  });

  it('says what finds no place when nothing can be bought', () => {
    const edges = {
      width: inches(20),
      selvedge: { left: ticks(0), right: ticks(0) },
      crease: { kind: 'none' },
    } as const;
    const { buy: _, ...cloth } = clothOf({
      width: inches(20),
      inHand: [{ name: 'end', length: inches(26), copies: 1, ...edges }],
    });
    const outcome = makeCutPlan(planOf([cloth], [loose('mat', 9, 12, 4), loose('runner', 19, 13, 1)]), {
      effort: 9000,
      seed: 3,
    });
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map((issue) => issue.code)).toEqual(['not-enough-cloth']);
    expect(wordIssue(outcome.issues[0]!, 'in')).toMatch(/add a length, write buy: yes, or cut fewer\.$/);
  });

  it('says so where more can be bought, but too narrow, and does not ask for that', () => {
    const edges = { selvedge: { left: ticks(0), right: ticks(0) }, crease: { kind: 'none' } } as const;
    const wide = { name: 'wide end', width: inches(40), length: inches(26), copies: 1, ...edges };
    const cloth = clothOf({ width: inches(20), direction: 'one-way', inHand: [wide] });
    const outcome = makeCutPlan(planOf([cloth], [loose('runner', 30, 16, 2)]), { effort: 900, seed: 3 });
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map((issue) => wordIssue(issue, 'in'))).toEqual([
      'cloths.gull grey: the lengths of "gull grey" in hand and what is sold of it do not hold runner; add a length, or cut fewer.',
    ]);
  });

  it('says which side of a piece is too large, and by what', () => {
    const outcome = makeCutPlan(planOf([clothOf({ direction: 'one-way' })], [loose('sail', 55, 20, 1)]), {
      effort: 9000,
      seed: 3,
    });
    expect(outcome.issues).toEqual([
      {
        code: 'too-wide',
        severity: 'error',
        path: ['cloths', 'gull grey'],
        details: {
          piece: 'sail',
          cloth: 'gull grey',
          needs: 55 * TICKS_PER_INCH,
          usable: 54 * TICKS_PER_INCH,
          side: 'width',
        },
      },
    ]);
  });
});

describe('a plan', () => {
  it('is the same, byte for byte, for the same input and seed', () => {
    const plan = planOf(
      [clothOf({ crease: { kind: 'keep-off', each: inches(0.75) } })],
      [loose('front', 19, 19, 5), loose('tie', 3.25, 17, 11), loose('mat', 12.5, 18, 4)],
    );
    expect(JSON.stringify(planned(plan))).toBe(JSON.stringify(planned(plan)));
  });
});
