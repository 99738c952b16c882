import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { tableCloth } from '../../src/check/table-cloth.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { Cloth, Crease, LengthInHand } from '../../src/model/cloth.ts';
import type { Plan } from '../../src/model/plan.ts';
import { lengthInHand } from '../../src/planning/length-in-hand.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { leftoversOf, takenOutBy } from '../../src/planning/put-back.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { TICKS_PER_YARD, ticks } from '../../src/units/ticks.ts';
import { randomPlan } from '../support/random-plan.ts';
import { cutCloth } from '../support/replay.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const PLANS = 60;

/** The plan with what only a cupboard says of its lengths: washed or not, worth something or not, entries by name. */
function withCupboard(plan: Plan, index: number): Plan {
  const entryOf = (own: LengthInHand, at: number): LengthInHand => ({
    ...own,
    entry: { name: own.name },
    ...((index + at) % 2 === 0 ? { washed: true as const } : {}),
    ...((index + at) % 3 === 0 ? { worth: { hundredths: 700 + at, per: TICKS_PER_YARD ** 2 } } : {}),
  });
  const cloths = plan.cloths.map((cloth): Cloth => ({ ...cloth, inHand: cloth.inHand.map(entryOf) }));
  return { ...plan, cloths };
}

/** The strip that is kept off on the table, worked out as the checker does it. */
function keptOffOn(cloth: Cloth, source: Cloth | LengthInHand) {
  const own = 'length' in source ? source : { bought: inches(36) };
  const { twiceCrease, keptOff } = tableCloth(cloth, own);
  if (keptOff === undefined) return undefined;
  return {
    from: Math.floor((twiceCrease - 2 * keptOff) / 2),
    to: Math.ceil((twiceCrease + 2 * keptOff) / 2),
  };
}

describe('what goes back into the cupboard', () => {
  it(`lies loose on the table once all is cut: ${PLANS} random plans`, () => {
    const plans = fc.sample(randomPlan(), { numRuns: PLANS, seed: 7_919 });
    const seen = {
      leftovers: 0,
      selvedges: 0,
      whole: 0,
      cutEdges: 0,
      folded: 0,
      washed: 0,
      besideCrease: 0,
      overCrease: 0,
    };
    for (const [index, random] of plans.entries()) {
      const outcome = makeCutPlan(withCupboard(random, index), { effort: 400, seed: 3 });
      if (!outcome.ok) continue;
      const { plan, cloths } = outcome.value;
      expect(checkPlan(outcome.value)).toEqual([]);
      for (const clothPlan of cloths) {
        const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth)!;
        for (const length of clothPlan.lengths) {
          const source = lengthInHand(cloth, length) ?? cloth;
          const leftovers = leftoversOf(cloth, length, plan.keep);
          const steps = cuttingSteps(length, plan.tools);
          const cut = cutCloth(
            length,
            steps,
            leftovers.map(({ box }) => box),
          );
          const { leaves } = walk(length.tree, length.width, length.length);
          for (const { leaf, box } of leaves) {
            const holding = leftovers.filter(
              ({ box: own }) => own.x0 <= box.x0 && own.x1 >= box.x1 && own.y0 <= box.y0 && own.y1 >= box.y1,
            );
            if (leaf.kind === 'remnant') expect(holding).toHaveLength(1);
            if (leaf.kind === 'piece') expect(holding).toEqual([]);
          }
          for (const { box, selvedge, crease, width } of leftovers) {
            const [left, right] = [box.x0 === 0, box.x1 === length.width];
            const strip = keptOffOn(cloth, source);
            const edgeIn =
              strip &&
              [box.x0, box.x1].some((x) => x > strip.from - plan.rulerMark && x < strip.to + plan.rulerMark);
            // A ply that reaches out from under the other is cut as far as that goes: all of it with the scissors.
            const reachesOut = length.lay.kind === 'folded' && 2 * length.lay.foldAt > length.width;
            // What an edge has of a strip that is kept off goes with the scissors when the leftover is put away.
            if (!edgeIn && !reachesOut) expect(cut.isLoose(box), JSON.stringify({ index, box })).toBe(true);
            else expect(cut.isWhole(box)).toBe(true);
            expect(selvedge).toEqual({
              left: left ? source.selvedge.left : 0,
              right: right ? source.selvedge.right : 0,
            });
            const over = strip && box.x0 < strip.from && box.x1 > strip.to;
            if (!over) expect(crease).toEqual(left && right ? source.crease : { kind: 'none' });
            else {
              const told = crease as Extract<Crease, { kind: 'keep-off' }>;
              const twice = told.at === undefined ? width : 2 * told.at;
              expect(2 * box.x0 + twice - 2 * told.each).toBeLessThanOrEqual(2 * strip.from + 1);
              expect(2 * box.x0 + twice + 2 * told.each).toBeGreaterThanOrEqual(2 * strip.to - 1);
              expect(2 * told.each).toBeLessThanOrEqual(strip.to - strip.from + 2);
            }
            expect(width).toBe(box.x1 - box.x0);
            seen.leftovers += 1;
            seen.selvedges += left !== right ? 1 : 0;
            seen.whole += left && right ? 1 : 0;
            seen.cutEdges += left || right ? 0 : 1;
            seen.folded += length.lay.kind === 'folded' ? 1 : 0;
            seen.washed += 'washed' in source && source.washed ? 1 : 0;
            seen.besideCrease += strip && !over ? 1 : 0;
            seen.overCrease += over && !(left && right) ? 1 : 0;
          }
        }
      }
    }
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(5);
  });

  it('counts the copies of each entry that are cut', () => {
    const end: LengthInHand = {
      ...{ name: 'fat end', length: inches(23), width: inches(45), copies: 3 },
      selvedge: { left: inches(0.5), right: inches(0.5) },
      crease: { kind: 'none' },
      entry: { name: 'fat end' },
    };
    const { entry: _, ...other } = { ...end, name: 'own end', copies: 1, length: inches(22) };
    const { buy: _b, ...cloth } = clothOf({ width: inches(45), inHand: [end, other] });
    // Each end holds two panels of 21 x 19 in; five need the two cheaper ends and one more.
    const cutPlan = planned(planOf([cloth], [loose('panel', 21, 19, 5)]));
    expect(cutPlan.cloths[0]!.lengths.map(({ name }) => name).sort()).toEqual([
      'fat end 1',
      'fat end 2',
      'own end',
    ]);
    expect(takenOutBy(cutPlan)).toEqual([
      { entry: 'fat end', cloth: 'gull grey', width: inches(45), length: inches(23), copies: 2 },
    ]);
  });

  it('keeps the selvedge that no cut takes away, and has the crease in it that it lies over', () => {
    const keepOff = { kind: 'keep-off', each: inches(1) } as const;
    const cloth = clothOf({
      ...{ width: inches(46), selvedge: { left: inches(0.5), right: inches(0.75) }, crease: keepOff },
      ...{ squaring: inches(0.25), buy: { step: ticks(inches(36)) } },
    });
    // One panel of 20 x 31 in on a yard: beside it the other half of the width, above it 4 1/2 in of the whole.
    const cutPlan = planned(planOf([cloth], [loose('panel', 20, 31, 1)]));
    const leftovers = leftoversOf(cloth, cutPlan.cloths[0]!.lengths[0]!, cutPlan.plan.keep);
    // From the panel, which ends at 20 1/2 in, to the outer edge, the crease at 23 in.
    expect(leftovers).toMatchObject([
      {
        ...{ width: inches(25.5), length: inches(31), selvedge: { left: 0, right: inches(0.75) } },
        crease: { kind: 'keep-off', each: inches(1), at: inches(2.5) },
      },
    ]);
  });

  it('is the remnant alone where what hangs on to it may hold a flaw', () => {
    const end: LengthInHand = {
      ...{ name: 'end', length: inches(40), width: inches(45), copies: 1, crease: { kind: 'none' } },
      selvedge: { left: inches(0.5), right: inches(0.75) },
    };
    const cloth = clothOf({ width: inches(45), inHand: [end] });
    const length = planned(planOf([cloth], [loose('panel', 43, 21, 1)])).cloths[0]!.lengths[0]!;
    const keep = { width: inches(7), length: inches(9) };
    const flaw = { outline: [{ x: inches(1), y: inches(2) }] };
    const sizes = (own: LengthInHand) =>
      leftoversOf({ ...cloth, inHand: [own] }, length, keep).map(({ width, length, selvedge }) => [
        ...[width, length, selvedge.left, selvedge.right],
      ]);
    expect(sizes(end)).toEqual([[inches(45), inches(19), inches(0.5), inches(0.75)]]);
    // Folded for the panel across the fold: twice the 21 3/4 in that both plies have.
    expect(length.lay).toEqual({ kind: 'folded', foldAt: inches(22.5) });
    expect(sizes({ ...end, flaws: [flaw] })).toEqual([[inches(43.5), inches(19), 0, 0]]);
  });
});
