import { describe, expect, it } from 'vitest';
import type { Offer } from '../../src/planning/mat/refit.ts';
import { toDoWords } from '../../src/rendering/refit-words.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';

describe('words that promise no more than is known', () => {
  it('name what is joined, and of which cloth', () => {
    const join = {
      by: 'seam',
      allowance: inches(0.5),
      mostJoins: 2,
      lines: 'either',
      narrowest: inches(4),
      clearMiddle: false,
    } as const;
    const cutPlan = planned(
      planOf([clothOf({ width: inches(30) })], [{ ...loose('long runner', 14, 50, 1), join }]),
      2000,
    );
    const offer = { joins: 2, bought: [], cutPlan: { ...cutPlan, joined: [{ piece: cutPlan.pieces[0]! }] } };
    expect(toDoWords(offer as unknown as Offer, cutPlan.plan)).toEqual([
      'nothing to pay',
      '2 joins to sew in long runner of gull grey',
    ]);
  });

  it('say of a bound that it is what is proven, not what may be hoped for', () => {
    const cutPlan = planned(planOf([clothOf({ width: inches(30) })], [loose('mat', 14, 11, 3)]), 2000);
    const [own] = cutPlan.cloths;
    const unproven = { ...cutPlan, cloths: [{ ...own!, answer: 'found' as const, bound: inches(11) }] };
    expect(summaryText(unproven, { columns: 200 })).toContain(
      'Could it be less   perhaps; proven is only that it takes at least 11 in',
    );
    // That it takes at least nothing goes without saying.
    const nothing = { ...cutPlan, cloths: [{ ...own!, answer: 'found' as const, bound: inches(1 / 16) }] };
    expect(summaryText(nothing, { columns: 200 })).toMatch(/Could it be less {3}perhaps$/m);
  });
});
