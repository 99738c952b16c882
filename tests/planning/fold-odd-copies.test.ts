import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

/** Folded at 28 in, 58 in wide cloth lies double for 27 1/2 in and single for only 1 1/2 in. */
function foldedAt28(changes: Partial<Cloth> = {}): Cloth {
  const selvedge = { left: inches(1 / 2), right: inches(1 / 2) };
  return clothOf({ width: inches(58), selvedge, lay: 'folded', foldAt: inches(28), ...changes });
}

const upright = { grain: 'lengthwise' } as const;

describe('an odd copy beside a fold off the middle', () => {
  it('is cut across the fold where no cloth in one ply holds it, and leaves no spare', () => {
    const plan = planned(planOf([foldedAt28()], [{ ...loose('sill strip', 12, 20, 1), ...upright }]), 4_000);
    expect(checkPlan(plan)).toEqual([]);
    expect(plan.cloths[0]!.surplus).toEqual([]);
    // By hand: one piece upright, 20 in along.
    expect(plan.cloths[0]!.purchase!.needed).toBe(inches(20));
  });

  it('is cut in both plies with a spare where half of it falls between two marks of the ruler', () => {
    const piece = { ...loose('sill strip', 12.125, 20, 1), ...upright };
    const plan = planned(planOf([foldedAt28()], [piece]), 4_000);
    expect(checkPlan(plan)).toEqual([]);
    expect(plan.cloths[0]!.surplus.map(({ copies }) => copies)).toEqual([1]);
    expect(plan.cloths[0]!.purchase!.needed).toBe(inches(20));
    // Three take two places in both plies: four are cut, side by side, on the same length.
    const three = planned(planOf([foldedAt28()], [{ ...piece, count: 3 }]), 4_000);
    expect(checkPlan(three)).toEqual([]);
    expect(three.cloths[0]!.surplus.map(({ copies }) => copies)).toEqual([1]);
    expect(three.cloths[0]!.purchase!.needed).toBe(inches(20));
  });

  it('is cut once where cloth in one ply holds it', () => {
    const piece = { ...loose('sill strip', 12.125, 20, 1), ...upright };
    const plan = planned(planOf([foldedAt28({ width: inches(70) })], [piece]), 4_000);
    expect(checkPlan(plan)).toEqual([]);
    expect(plan.cloths[0]!.surplus).toEqual([]);
  });

  it('is refused by naming the fold where it is what leaves too little cloth', () => {
    const words = (cloth: Cloth) => {
      const piece = { ...loose('sill strip', 12.125, 20, 5), ...upright };
      const outcome = makeCutPlan(planOf([cloth], [piece]), { effort: 400, seed: 3 });
      expect(outcome.ok).toBe(false);
      return outcome.issues.map((issue) => wordIssue(issue, 'in')).join(' ');
    };
    // The fold lies in the strip that is kept off beside a crease at 28 1/2 in.
    const inStrip = foldedAt28({ width: inches(57), crease: { kind: 'keep-off', each: inches(1.5) } });
    expect(words(inStrip)).toMatch(/folded at 28 in; .*fold elsewhere \(fold at\)/);
    const { buy: _, ...inHand } = foldedAt28();
    const { width, selvedge, crease } = inHand;
    const short = { name: 'roll end', length: inches(30), copies: 1, width, selvedge, crease };
    expect(words({ ...inHand, inHand: [short] })).toMatch(
      /in hand, folded at 28 in, do not hold .*fold elsewhere/,
    );
  });
});

describe('a flaw in the cloth in one ply outside the pieces of a lay folded off its middle', () => {
  it('is cut out by cuts on marks from the edge of that cloth, where a selvedge ends between two marks', () => {
    // The left ply reaches 1 5/8 in beyond what lies double, and its selvedge ends half a mark from the edge.
    const edges = {
      width: inches(40),
      selvedge: { left: inches(1 / 16), right: inches(1 / 2) },
      crease: { kind: 'keep-off', each: inches(1) },
    } as const;
    const hole = {
      outline: [
        { x: inches(0.5), y: inches(40) },
        { x: inches(0.75), y: inches(40) },
        { x: inches(0.75), y: inches(41) },
        { x: inches(0.5), y: inches(41) },
      ],
    };
    const length = { name: 'old curtain', length: inches(60), copies: 1, flaws: [hole], ...edges };
    const { buy: _, ...cloth } = clothOf({
      ...edges,
      ...{ lay: 'folded', foldAt: inches(10.3125), inHand: [length] },
    });
    const plan = planned(planOf([cloth], [{ ...loose('mat', 8, 10, 2), ...upright }]), 4_000);
    expect(plan.cloths[0]!.lengths[0]!.lay).toEqual({ kind: 'folded', foldAt: inches(10.3125) });
    expect(checkPlan(plan)).toEqual([]);
  });
});
