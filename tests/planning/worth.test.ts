import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { Cloth, LengthInHand } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { moneyOf } from '../../src/planning/worth.ts';
import { TICKS_PER_YARD, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const SQUARE_YARD = TICKS_PER_YARD ** 2;
const YARD = ticks(TICKS_PER_YARD);

function inHand(name: string, length: number, worth?: number): LengthInHand {
  return {
    name,
    length: inches(length),
    width: inches(45),
    selvedge: { left: inches(0.5), right: inches(0.5) },
    crease: { kind: 'none' },
    copies: 1,
    ...(worth === undefined ? {} : { worth: { hundredths: worth, per: SQUARE_YARD } }),
  };
}

function clothWith(lengths: readonly LengthInHand[], changes: Partial<Cloth> = {}): Cloth {
  return clothOf({
    width: inches(45),
    selvedge: { left: inches(0.5), right: inches(0.5) },
    price: { hundredths: 900, per: YARD },
    buy: { step: inches(4.5) },
    inHand: lengths,
    ...changes,
  });
}

function sourcesOf(cutPlan: CutPlan): readonly string[] {
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan.cloths[0]!.lengths.map((length) => length.name);
}

const plan = (cloth: Cloth, ...pieces: Parameters<typeof loose>[]) =>
  planned(
    planOf(
      [cloth],
      pieces.map((piece) => loose(...piece)),
    ),
  );

describe('what using a good length is worth', () => {
  // One panel of 40 x 17 in takes 17 in of the 44 usable: from the shop 1/2 yd at 9.00 a yard, 4.50. Of the 30 in at
  // hand, 17 x 45 = 765 sq in are used up and 13 in are kept; 765 / 1296 sq yd at 7.62 are 4.498, at 7.64 4.510.
  it.each([
    [undefined, 'good end'],
    [762, 'good end'],
    [764, 'bought'],
  ])('at %s hundredths a square yard, one panel is cut from %s', (worth, source) => {
    expect(sourcesOf(plan(clothWith([inHand('good end', 30, worth)]), ['panel', 40, 17, 1]))).toEqual([
      source,
    ]);
  });

  it('counts the whole length where what is left is too small to keep', () => {
    // 17 + 5 in: no remnant of 6 in, so 22 x 45 = 990 sq in are used up; at 5.89 a square yard 4.499, at 5.91 4.515.
    const from = (worth: number) =>
      sourcesOf(plan(clothWith([inHand('short end', 22, worth)]), ['panel', 40, 17, 1]));
    expect([from(589), from(591)]).toEqual([['short end'], ['bought']]);
  });

  it('leaves the dear length whole and uses the other', () => {
    const lengths = [inHand('dear end', 19, 4000), inHand('plain end', 26)];
    expect(sourcesOf(plan(clothWith(lengths), ['panel', 40, 17, 1]))).toEqual(['plain end']);
    // Without a price nothing can be weighed; then what is worth least is opened, not what is smallest.
    const { price: _, ...unpriced } = clothWith(lengths);
    expect(sourcesOf(plan(unpriced, ['panel', 40, 17, 1]))).toEqual(['plain end']);
  });

  it('buys beside the cheap length what the dear one would yield', () => {
    // Two panels: the plain end holds one; the other is bought for 4.50, where the dear end would cost 40 x 765 / 1296.
    const lengths = [inHand('dear end', 30, 4000), inHand('plain end', 20)];
    const cutPlan = plan(clothWith(lengths), ['panel', 40, 17, 2]);
    expect([...sourcesOf(cutPlan)].sort()).toEqual(['bought', 'plain end']);
    expect(cutPlan.cloths[0]!.purchase).toMatchObject({ bought: inches(18), cost: 450 });
    expect(cutPlan.cloths[0]!.answer).toBe('found');
  });

  it('comes to the money of the purchase and of what is used', () => {
    const cloth = clothWith([inHand('good end', 30, 700)]);
    const cutPlan = plan(cloth, ['panel', 40, 17, 1]);
    // 7.00 x 765 / 1296 = 4.13.
    expect(moneyOf(cutPlan.plan, cloth, cutPlan.cloths[0]!)).toBe(413);
    const bought = plan(clothWith([inHand('good end', 30, 4000)]), ['panel', 40, 17, 1]);
    expect(moneyOf(bought.plan, cloth, bought.cloths[0]!)).toBe(450);
  });

  it('uses a dear length all the same where the cloth is sold no more', () => {
    const { buy: _, ...gone } = clothWith([inHand('last end', 30, 9_000_000)]);
    expect(sourcesOf(plan(gone, ['panel', 40, 17, 1]))).toEqual(['last end']);
  });
});

describe('a length that was washed already', () => {
  const washing = {
    along: { numerator: 1, denominator: 10 },
    across: { numerator: 1, denominator: 20 },
    washed: 'before-cutting',
  } as const;

  // Unwashed, 30 in lose a tenth and 45 in a twentieth: 27 in long, 42 3/4 in wide, 41 3/4 in usable.
  it.each([
    [{}, 27, 42.75],
    [{ washed: true } as const, 30, 45],
  ])('%j lies on the table as %d in of %d in', (washed, length, width) => {
    const cloth = clothWith([{ ...inHand('end', 30), ...washed }], { washing });
    const cutPlan = plan(cloth, ['panel', 40, 17, 1]);
    expect(sourcesOf(cutPlan)).toEqual(['end']);
    expect(cutPlan.cloths[0]!.lengths[0]).toMatchObject({ length: inches(length), width: inches(width) });
  });

  it('holds what an unwashed one of its size does not', () => {
    const sources = (washed: { washed?: true }) =>
      sourcesOf(plan(clothWith([{ ...inHand('end', 30), ...washed }], { washing }), ['panel', 40, 29, 1]));
    expect([sources({ washed: true }), sources({})]).toEqual([['end'], ['bought']]);
  });
});
