import { describe, expect, it } from 'vitest';
import { compareBuys } from '../../src/planning/compare-buys.ts';
import { compareWholePlan } from '../../src/planning/compare-whole.ts';
import { smallestSetOf } from '../../src/planning/named-set.ts';
import { inches } from '../support/plan-parts.ts';
import { plannedText } from '../support/planned-text.ts';

const PACK = { effort: 3_000, seed: 4 };

/** One gull of 15 in square every 30 in of a cloth 40 in wide, beside it room for pouches. */
const planOn = (keys: string, pieces: string) =>
  plannedText(`
plan: The chart room
unit: in
currency: $
leftover worth: 1.80 per sq yd
cloths:
  gull squares:
    width: 40
    selvedge: 1/2
    direction: one-way
    price: 12.00 per yd
    buy: yes
    panels: { every: 30, ${keys} areas: [{ name: gull, from edge: 4, from end: 3, size: 15 x 15 }] }
  oat linen: { width: 57, selvedge: 5/8, price: 8.00 per yd, buy: yes }
pieces:
${pieces}
  - { name: back, count: 4, size: 18 x 18, cloth: oat linen }
`);
const front = '  - { name: front, count: 4, size: 18 x 18, cloth: gull squares, panel: gull }';

function rowsOf(cutPlan: ReturnType<typeof planOn>, lengths: readonly number[]) {
  const cloth = cutPlan.plan.cloths[0]!;
  const pieces = cutPlan.pieces.filter((piece) => piece.cloth === cloth.name);
  const options = { pack: PACK, lengths: lengths.map((length) => inches(length)) };
  return compareBuys(cutPlan.plan, cloth, pieces, options)!;
}

describe('buys of cloth with panels', () => {
  it('go by whole repeats, as many sets as they have panels, proven', () => {
    const { buys, bestValue } = rowsOf(planOn('', front), [30, 40, 60, 90]);
    // 40 in is bought as two repeats of 30 in.
    expect(buys.map(({ bought, sets, setsAtMost }) => [bought / 8128, sets, setsAtMost])).toEqual([
      [30, 1, 1],
      [60, 2, 2],
      [60, 2, 2],
      [90, 3, 3],
    ]);
    expect(buys.map(({ cost }) => cost)).toEqual([1000, 2000, 2000, 3000]);
    expect(bestValue).toBeDefined();
    // 18 of 39 in across, 18 of 30 in along.
    expect(buys[0]!.markerEfficiency).toBeCloseTo((100 * 18 * 18) / (39 * 30), 6);
  });

  it('keep a repeat in reserve where the shop cuts anywhere', () => {
    const { buys } = rowsOf(planOn('sold: anywhere,', front), [36, 54, 81]);
    // The piece ends 19 1/2 in from where a repeat begins: 49 1/2 in with the reserve, 79 1/2 in for two.
    expect(buys.map(({ sets }) => sets)).toEqual([0, 1, 2]);
  });

  it('count a panel that is left whole in one leftover, and nothing over that would cut into it', () => {
    const pouches = '  - { name: pouch, count: 6, size: 8 x 9, cloth: gull squares }';
    const { buys } = rowsOf(planOn('', pouches), [30]);
    // One set is a pouch: all but the panel and its 3 in before and 4 in beside may be cut into them.
    expect(buys[0]!.sets).toBeGreaterThan(3);
    expect(buys[0]!.over).toEqual([]);
    const { largestLeftover } = buys[0]!;
    expect(Math.min(largestLeftover!.width, largestLeftover!.length)).toBeGreaterThanOrEqual(inches(15));
  });

  it('come together with those of the other cloths', () => {
    const cutPlan = planOn('', front);
    const whole = compareWholePlan(cutPlan, smallestSetOf(cutPlan.plan), { pack: PACK })!;
    const bought = whole.buys.map(({ sets, lengths }) => [
      sets,
      ...lengths.map(({ buy }) => buy.bought / 8128),
    ]);
    // Of oat linen three backs lie abreast.
    expect(bought).toEqual([
      [1, 30, 18],
      [2, 60, 18],
      [3, 90, 18],
      [4, 120, 36],
    ]);
    expect(whole.buys.at(-1)!.lengths[0]!.buy.bought).toBe(cutPlan.cloths[0]!.purchase!.bought);
  });
});
