import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { Wish } from '../../src/model/leftover-use.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { compareBuys } from '../../src/planning/compare-buys.ts';
import { compareWholePlan } from '../../src/planning/compare-whole.ts';
import { piecesOfSet, smallestSetOf } from '../../src/planning/named-set.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { yieldOf } from '../../src/planning/yield-of.ts';
import { ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const PACK = { effort: 20_000, seed: 2 };
const YARD = inches(36);
const priced = (name: string, width: number, hundredths: number, changes: Partial<Cloth> = {}) =>
  clothOf({ name, width: inches(width), price: { hundredths, per: YARD }, ...changes });

/** A length of the whole width without selvedges. */
const inHand = (name: string, length: number, width: number) => ({
  name,
  length: inches(length),
  width: inches(width),
  selvedge: { left: ticks(0), right: ticks(0) },
  crease: { kind: 'none' as const },
  copies: 1,
});

const fronts = loose('front', 18, 18, 6, 'print');
const backs = loose('back', 18, 12, 12, 'plain');

describe('buys of a whole plan', () => {
  const plan = planOf([priced('print', 36, 1600), priced('plain', 36, 800)], [fronts, backs]);

  it('asks of every cloth what so many sets need, and tells how many all allow together', () => {
    const cut = planned(plan);
    const whole = compareWholePlan(cut, smallestSetOf(plan), { pack: PACK })!;
    expect([...whole.set]).toEqual([
      ['front', 1],
      ['back', 2],
    ]);
    // By hand: fronts lie two across on 18 in, backs two across on 12 in or, turned, three on 18 in; 1/8 yd is 4 1/2 in.
    // Sets: fronts need 18 in for each two; backs of n sets need 12 n in upright, or with three turned less.
    const rows = whole.buys.map(({ sets, lengths, cost }) => ({
      sets,
      bought: lengths.map(({ buy }) => buy.bought / inches(4.5)),
      cost,
    }));
    // 13 1/2 in of plain hold 2 backs; 27 in hold 2 sets (24 in); 36 in hold three (36 in); 49 1/2 four (48 in).
    expect(rows[0]).toEqual({ sets: 1, bought: [4, 3], cost: 800 + 300 });
    expect(rows[1]).toEqual({ sets: 2, bought: [4, 6], cost: 800 + 600 });
    expect(rows[2]).toEqual({ sets: 3, bought: [8, 8], cost: 1600 + 800 });
    expect(rows.map(({ sets }) => sets)).toEqual([1, 2, 3, 4, 5, 6]);
    // The last row is what the plan itself buys.
    const own = cut.cloths.reduce((total, { purchase }) => total + purchase!.cost!, 0);
    expect(rows.at(-1)!.cost).toBe(own);
    const best = Math.min(...whole.buys.map(({ costPerSet }) => costPerSet!));
    expect(whole.buys[whole.bestValue!]!.costPerSet).toBe(best);
  });

  it('is limited by a cloth that is in hand and not sold', () => {
    const { buy: _, price: __, ...rest } = priced('plain', 36, 800);
    const limited = planOf(
      [priced('print', 36, 1600), { ...rest, inHand: [inHand('roll', 24, 36)] }],
      [
        { ...fronts, count: 2 },
        { ...backs, count: 4 },
      ],
    );
    const whole = compareWholePlan(planned(limited), smallestSetOf(limited), { pack: PACK })!;
    expect(whole.inHandOnly).toEqual([{ cloth: 'plain', sets: 2, proven: true }]);
    expect(whole.buys.at(-1)).toMatchObject({ sets: 2, limitedBy: ['print', 'plain'] });
  });

  it('takes a set that is named, and refuses one that the pieces cannot be shared out to', () => {
    const cut = planned(plan);
    const set = new Map([
      ['front', 2],
      ['back', 3],
    ]);
    const whole = compareWholePlan(cut, set, { pack: PACK })!;
    expect(whole.buys[0]!.lengths.map(({ buy }) => buy.sets)).toEqual([1, 1]);
    expect(piecesOfSet(plan, cut.pieces, set)?.get('back')).toBe(3);
    const uneven = cut.pieces.map((piece) => ({ ...piece, copies: piece.copies + 1 }));
    expect(piecesOfSet(plan, uneven, set)).toBeUndefined();
  });
});

describe('buys beside lengths in hand', () => {
  const cloth = priced('print', 36, 1600, { inHand: [inHand('end', 18, 36)] });
  const plan = planOf([cloth], [fronts]);
  const compared = (changes = {}) =>
    compareBuys(plan, cloth, expandMakes(plan).pieces, { pack: PACK, ...changes })!;

  it('counts what they hold, and what a set costs that a buy adds', () => {
    const { buys, bestValue } = compared({ rungs: 9 });
    // Two fronts lie in the 18 in at hand; each further two take 18 in, 1/2 yd.
    expect(buys.map(({ bought }) => bought / inches(4.5))).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(buys.map(({ sets, setsAtMost }) => [sets, setsAtMost])).toEqual(
      [2, 2, 2, 2, 4, 4, 4, 4, 6].map((sets) => [sets, sets]),
    );
    expect(buys.every(({ setsInHand }) => setsInHand === 2)).toBe(true);
    expect(buys[0]!.costPerSet).toBeUndefined();
    expect(buys[4]).toMatchObject({ cost: 800, costPerSet: 400 });
    expect(bestValue).toBe(4);
  });

  it('reaches what must be reached, in whole steps, and no further than is sold', () => {
    // Every fourth step holds two more, so those between give way to the least that holds as many.
    const { buys } = compared({ rungs: 4, reach: inches(4.5 * 31) });
    expect(buys.map(({ bought }) => bought / inches(4.5))).toEqual([0, 8, 20, 31]);
    const sold = { ...cloth, buy: { step: inches(4.5), longest: inches(4.5 * 20) } };
    const pieces = expandMakes(plan).pieces;
    const short = compareBuys(plan, sold, pieces, { pack: PACK, rungs: 4, reach: inches(4.5 * 31) })!;
    expect(short.buys.map(({ bought }) => bought / inches(4.5))).toEqual([0, 10]);
  });
});

describe('a matched print', () => {
  it('is counted with its worst start: fewer sets than the same pieces unmatched', () => {
    const repeat = { along: inches(16), drop: 'straight' } as const;
    const cloth = priced('print', 36, 1600, { direction: 'one-way', repeat });
    const matched: LoosePiece = { ...loose('drop', 36, 20, 4, 'print'), match: { kind: 'centre' } };
    const setsOn = (piece: LoosePiece) => {
      const plan = planOf([cloth], [piece]);
      const { pieces } = expandMakes(plan);
      return compareBuys(plan, cloth, pieces, { pack: PACK, lengths: [inches(99)] })!.buys[0]!.sets;
    };
    const { match: _, ...plain } = matched;
    // 99 in: four of 20 in plain. Matched, each takes 32 in but the last, and the worst start a whole repeat of 16 in:
    // 20 + 32 + 32 + 16 = 100 in for three.
    expect(setsOn(plain)).toBe(4);
    expect(setsOn(matched)).toBe(2);
    // The least that yields one is 20 + 16 = 36 in, and there the ladder begins.
    const plan = planOf([cloth], [matched]);
    const { leastForOne, buys } = compareBuys(plan, cloth, expandMakes(plan).pieces, {
      pack: PACK,
      rungs: 3,
    })!;
    expect(leastForOne).toEqual({ bought: inches(36), cost: 1600 });
    expect(buys.map(({ bought, sets }) => [bought, sets])).toEqual([
      [inches(36), 1],
      [inches(40.5), 1],
      [inches(45), 1],
    ]);
  });
});

describe('what a leftover is worth', () => {
  const cloth = priced('print', 36, 800);
  const wish: Wish = {
    name: 'mats',
    make: 'napkin',
    measures: {
      size: { width: inches(10.5), length: inches(10.5) },
      hem: { visible: inches(1 / 2), under: inches(1 / 4) },
      corners: 'mitred',
    },
    most: 3,
    least: 3,
    worth: 300,
  };
  const best = (changes: Partial<Plan>) => {
    const plan = planOf([cloth], [fronts], changes);
    const { pieces } = expandMakes(plan);
    const lengths = [inches(18), inches(31.5)];
    return compareBuys(plan, cloth, pieces, { pack: PACK, lengths })!;
  };

  it('counts by area as the plan says, or by what can be cut from it, whichever is more', () => {
    expect(best({}).bestValue).toBe(0);
    // 13 1/2 x 36 in are 0.375 sq yd: at 9.00 a square yard 3.37, less than three mats at 3.00.
    const byArea = best({ leftoverWorth: { hundredths: 900, per: YARD * YARD } });
    expect(byArea.buys[1]).toMatchObject({
      leftoverWorth: 337,
      leftoverUses: [],
      costPerSet: (700 - 337) / 2,
    });
    const byUse = best({ leftoverWorth: { hundredths: 900, per: YARD * YARD }, wishes: [wish] });
    expect(byUse.buys[1]).toMatchObject({
      leftoverWorth: 900,
      leftoverUses: [{ name: 'mats', count: 3 }],
      costPerSet: -100,
    });
    expect(byUse.bestValue).toBe(1);
  });
});

describe('the other way round', () => {
  const uses = {
    ...PACK,
    withUsual: false,
    planned: (plan: Plan) => {
      const outcome = makeCutPlan(plan, { effort: 8000, seed: 2 });
      return outcome.ok ? outcome.value : undefined;
    },
  };
  const found = (plan: Plan, most = 60) => {
    const outcome = yieldOf(plan, smallestSetOf(plan), most, uses);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    if (outcome.value.cutPlan) expect(checkPlan(outcome.value.cutPlan)).toEqual([]);
    return outcome.value;
  };
  const here = (name: string, length: number) =>
    priced(name, 36, 800, { inHand: [inHand('here', length, 36)] });

  it('tells the most complete sets that all cloths allow, and plans them', () => {
    // 54 in of print hold six fronts; 48 in of plain hold eight backs upright, which is four sets.
    const plan = planOf([here('print', 54), here('plain', 48)], [fronts, backs]);
    const { sets, proven, cloths, cutPlan } = found(plan);
    expect({ sets, proven }).toEqual({ sets: 4, proven: true });
    expect(cloths).toEqual([
      { cloth: 'print', sets: 6, proven: true },
      { cloth: 'plain', sets: 4, proven: true },
    ]);
    expect(cutPlan!.cloths.every(({ purchase }) => purchase === undefined)).toBe(true);
    expect(cutPlan!.plan.pieces.map(({ count }) => count)).toEqual([4, 8]);
  });

  it('has no limit in a cloth of which nothing is here and more is sold', () => {
    const plan = planOf([here('print', 36), priced('plain', 36, 800)], [fronts, backs]);
    const { sets, cloths, cutPlan } = found(plan);
    expect(sets).toBe(4);
    expect(cloths[1]).toEqual({ cloth: 'plain', proven: true });
    expect(cutPlan!.cloths[1]!.purchase!.bought).toBeGreaterThan(0);
  });

  it('tells what fits into the rest, and into lengths that no set needs', () => {
    const wish: Wish = {
      name: 'mats',
      make: 'napkin',
      measures: {
        size: { width: inches(10.5), length: inches(10.5) },
        hem: { visible: inches(1 / 2), under: inches(1 / 4) },
        corners: 'mitred',
      },
      least: 1,
    };
    const cloth = priced('print', 36, 800, { inHand: [inHand('first', 19, 18), inHand('second', 12, 36)] });
    const plan = planOf([cloth], [fronts], { wishes: [wish], keep: { width: inches(9), length: inches(9) } });
    const { sets, uses: rest } = found(plan);
    expect(sets).toBe(1);
    expect(rest.flatMap(({ uses: own }) => own.map(({ count, from }) => [count, from]))).toEqual([
      [3, ['second']],
    ]);
    const none = found(planOf([here('print', 12)], [fronts], { wishes: [wish] }));
    expect(none).toMatchObject({ sets: 0, proven: true });
    expect(none.uses[0]!.uses[0]!.count).toBe(3);
  });

  // One yard of 45 in cloth yields four napkins of 17 in cut: read in three home-sewing pages (common practice).
  it('agrees with a published count', () => {
    const cloth = priced('print', 45, 800, { inHand: [inHand('yard', 36, 45)] });
    expect(found(planOf([cloth], [loose('napkin', 17, 17, 12, 'print')]))).toMatchObject({
      sets: 4,
      proven: true,
    });
  });
});
