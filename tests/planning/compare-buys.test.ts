import { describe, expect, it } from 'vitest';
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { LoosePiece } from '../../src/model/plan.ts';
import { type CompareOptions, compareBuys } from '../../src/planning/compare-buys.ts';
import { TICKS_PER_CM, TICKS_PER_METRE, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planOf } from './build.ts';

const PACK = { effort: 30_000, seed: 2 };
const YARD = inches(36);

function compared(
  cloth: Partial<Cloth>,
  pieces: readonly LoosePiece[],
  options: Partial<CompareOptions> = {},
) {
  const plan = planOf([clothOf(cloth)], pieces);
  return compareBuys(plan, plan.cloths[0]!, expandMakes(plan).pieces, { pack: PACK, ...options })!;
}

describe('sets on a buy, against published counts', () => {
  // Squares of cut size s from one yard of 44 in usable: floor(44/s) × floor(36/s). Counts read in a quilting reference
  // page of 2002 (hobby source; common practice). Its printed 35 for 7 in should be 30: the floor formula gives 6 × 5.
  it.each([
    [2, 396],
    [2.5, 238],
    [3, 168],
    [3.875, 99],
    [4.5, 72],
    [5.5, 48],
    [6.5, 30],
    [7, 30],
    [8.875, 16],
    [9.5, 12],
    [12.5, 6],
  ])('squares of %f in from a yard of 44 in: %i', (side, count) => {
    const { buys } = compared({ width: inches(44) }, [loose('square', side, side, 1)], { lengths: [YARD] });
    expect(buys.map(({ sets, setsAtMost }) => ({ sets, setsAtMost }))).toEqual([
      { sets: count, setsAtMost: count },
    ]);
  });

  // Squares from a fat quarter, 18 x 22 in: counts read in three quilting pages that agree (hobby sources; common practice).
  it.each([
    [2, 99],
    [2.5, 56],
    [3.5, 30],
    [4.5, 16],
    [5, 12],
    [6.5, 6],
  ])('squares of %f in from 18 in of 22 in: %i', (side, count) => {
    const { buys } = compared({ width: inches(22) }, [loose('square', side, side, 1)], {
      lengths: [inches(18)],
    });
    expect(buys[0]).toMatchObject({ sets: count, setsAtMost: count });
  });

  it('counts what can be cut, not the area: 12 squares of 10 in from a yard of 45 in, where the area says 16', () => {
    // Count read in a page; common practice.
    const { buys } = compared({ width: inches(45) }, [loose('square', 10, 10, 1)], { lengths: [YARD] });
    expect(buys[0]!.sets).toBe(12);
    expect(Math.floor((45 * 36) / 100)).toBe(16);
  });
});

describe('the ladder', () => {
  const cover = [loose('front', 19, 19, 6), loose('back', 19, 13.5, 12)];

  it('rises in the shop’s steps from the least that yields a set, and never loses one', () => {
    const { set, buys } = compared({ width: inches(44) }, cover);
    expect([...set]).toEqual([
      ['front', 1],
      ['back', 2],
    ]);
    expect(buys).toHaveLength(16);
    expect(buys[0]).toMatchObject({ bought: inches(27), sets: 1 });
    for (const [index, buy] of buys.entries()) {
      expect(buy.bought).toBe(inches(27 + 4.5 * index));
      expect(buy.sets).toBeGreaterThanOrEqual(buys[index - 1]?.sets ?? 1);
      expect(buy.setsAtMost).toBeGreaterThanOrEqual(buy.sets);
    }
    // By hand: two covers lie in 46 1/2 in (two fronts, four backs stacked beside), which is sold as 49 1/2 in.
    expect(buys.filter((buy) => buy.sets === 1).at(-1)!.bought).toBe(inches(45));
  });

  it('lists the least buy for what a rung yields where it passes over steps, and says how many it passed over', () => {
    // Three across on 40 in: a row of 13 in each, so 3, 6, 9, 12, 15, 18 from 13 1/2 in, 27, 40 1/2, 54, 67 1/2, 81.
    const least = new Map(
      [13.5, 27, 40.5, 54, 67.5, 81].map((bought, row) => [3 * (row + 1), inches(bought)]),
    );
    for (const rungs of [4, 6, 9]) {
      const { buys, between } = compared({ width: inches(40) }, [loose('square', 13, 13, 17)], {
        rungs,
        reach: inches(81),
      });
      expect(buys).toHaveLength(rungs);
      // From 3/8 yd to 2 1/4 yd there are sixteen eighths.
      expect(between).toBe(16 - rungs);
      expect(buys.at(-1)!.sets).toBe(18);
      const first = new Map<number, number>();
      for (const [index, { bought, sets }] of buys.entries()) {
        expect(bought).toBeGreaterThan(buys[index - 1]?.bought ?? 0);
        if (!first.has(sets)) first.set(sets, bought);
      }
      for (const [sets, bought] of first)
        expect(bought, `${rungs} rungs, ${sets} sets`).toBe(least.get(sets));
    }
    const all = compared({ width: inches(40) }, [loose('square', 13, 13, 17)], {
      rungs: 16,
      reach: inches(81),
    });
    expect(all.between).toBe(0);
  });

  it('counts squaring and the washing reserve before any piece', () => {
    const washing = {
      along: { numerator: 1, denominator: 10 },
      across: { numerator: 0, denominator: 1 },
      washed: 'before-cutting',
    } as const;
    // 40 in washed are 36 in; two squared ends of 1/2 in leave 35 in: three rows of 11 in, not four of 10.
    const { buys } = compared(
      { width: inches(22), washing, squaring: inches(0.5) },
      [loose('mat', 11, 11, 1)],
      {
        lengths: [inches(40)],
      },
    );
    expect(buys[0]!.sets).toBe(6);
  });

  it('marks the least money a set; what a leftover is worth can change which', () => {
    const price = { hundredths: 1300, per: YARD };
    const lengths = [inches(27), inches(49.5), inches(54)];
    const plain = compared({ width: inches(44), price }, cover, { lengths });
    expect(plain.buys.map((buy) => buy.cost)).toEqual([975, 1788, 1950]);
    expect(plain.buys.map((buy) => buy.costPerSet)).toEqual([975, 894, 975]);
    expect(plain.bestValue).toBe(1);
    const worth = compared({ width: inches(44), price }, cover, {
      lengths,
      leftoverWorth: { hundredths: 1400, per: TICKS_PER_METRE ** 2 },
    });
    // The longest leaves twice what the shortest does for twice the money, so a set costs the same; the shorter counts.
    expect(Math.round(worth.buys[0]!.costPerSet!)).toBe(Math.round(worth.buys[2]!.costPerSet!));
    expect(worth.bestValue).toBe(0);
    expect(worth.buys[2]!.leftoverWorth).toBeGreaterThan(worth.buys[1]!.leftoverWorth);
  });

  it('tells the single pieces that the leftovers of the sets still hold', () => {
    const { buys } = compared({ width: inches(44) }, cover, { lengths: [inches(40.5)] });
    expect(buys[0]).toMatchObject({ sets: 1, over: [{ piece: 'back', copies: 2 }] });
  });

  it('stops at the longest length that the shop sells', () => {
    const buy = { step: ticks(10 * TICKS_PER_CM), longest: ticks(1.05 * TICKS_PER_METRE) };
    const { buys } = compared({ width: inches(44), buy }, cover);
    expect(buys.map((row) => row.bought / TICKS_PER_CM)).toEqual([70, 80, 90, 100]);
  });

  it('says nothing where no length yields a set', () => {
    const plan = planOf([clothOf({ width: inches(17) })], cover);
    expect(compareBuys(plan, plan.cloths[0]!, expandMakes(plan).pieces, { pack: PACK })).toBeUndefined();
  });
});
