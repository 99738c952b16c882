import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { wordFault } from '../../src/check/fault-words.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { formatLength } from '../../src/units/format.ts';
import { randomPrintedPlan } from '../support/random-prints.ts';
import { replayFaults } from '../support/replay.ts';

const PLANS = 60;

describe('random plans with matches, flaws and panels', () => {
  it('pass the checker and the replay of their steps, or say why there is no plan', () => {
    const plans = fc.sample(randomPrintedPlan(), { numRuns: PLANS, seed: 5 });
    const found = { planned: 0, panels: 0, matches: 0, flaws: 0, impossible: 0 };
    for (const plan of plans) {
      const outcome = makeCutPlan(plan, { effort: 500, seed: 5 });
      if (!outcome.ok) {
        found.impossible += 1;
        const errors = outcome.issues.filter(({ severity }) => severity === 'error');
        expect(errors.length, JSON.stringify(plan)).toBeGreaterThan(0);
        continue;
      }
      const { value } = outcome;
      found.planned += 1;
      found.panels += value.pieces.some(({ panel }) => panel) ? 1 : 0;
      found.matches += value.pieces.some(({ match }) => match) ? 1 : 0;
      found.flaws += plan.cloths.some(({ inHand }) => inHand.some(({ flaws }) => flaws)) ? 1 : 0;
      const faults = checkPlan(value).map((fault) =>
        wordFault(fault, (length) => formatLength(length, plan)),
      );
      expect(faults, JSON.stringify(plan)).toEqual([]);
      const replayed = value.cloths.flatMap(({ lengths }) =>
        lengths.flatMap((length) => replayFaults(length, cuttingSteps(length, plan.tools), plan.tools)),
      );
      expect(replayed, JSON.stringify(plan)).toEqual([]);
    }
    for (const [sort, count] of Object.entries(found)) expect(count, sort).toBeGreaterThan(3);
  });
});
