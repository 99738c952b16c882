import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import type { Tools } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { type CuttingStep, cuttingSteps } from '../../src/planning/steps.ts';
import { toolsOn } from '../../src/planning/tool-reach.ts';
import { ticks } from '../../src/units/ticks.ts';
import { joinedPlan } from '../support/joined-plan.ts';
import { inches } from '../support/plan-parts.ts';
import { foldedPlan, freshFoldPlan, smallPlan, twoLengthsPlan } from '../support/plans.ts';
import { randomPlan } from '../support/random-plan.ts';
import { replayFaults } from '../support/replay.ts';

const PLANS = 80;

function lengthsOf(cutPlan: CutPlan): readonly LengthPlan[] {
  return cutPlan.cloths.flatMap(({ lengths }) => lengths);
}

describe('replaying the steps gives the pieces and leftovers of the plan', () => {
  it.each([
    ['flat, bought and in hand', smallPlan()],
    ['folded at the crease', foldedPlan()],
    ['on a fresh fold', freshFoldPlan()],
    ['two bought lengths', twoLengthsPlan()],
    ['joined by a lap', joinedPlan()],
  ])('%s', (_, cutPlan) => {
    for (const length of lengthsOf(cutPlan)) {
      const { tools } = cutPlan.plan;
      expect(replayFaults(length, cuttingSteps(length, tools), tools)).toEqual([]);
    }
  });

  it(`${PLANS} random plans, each with other tools`, () => {
    const plans = fc.sample(randomPlan(), { numRuns: PLANS, seed: 4_177 });
    const seen = { lengths: 0, folded: 0, stacked: 0, mirrored: 0, reachFolds: 0, scissors: 0, tears: 0 };
    const measured = { ruler: 0, mat: 0, tape: 0 };
    for (const [index, plan] of plans.entries()) {
      const tools: Tools = {
        rulerLength: inches(12 + (index % 5) * 7),
        mostPlies: ([1, 2, 4] as const)[index % 3]!,
        ...(index % 4 > 0 && { rulerWidth: inches(3 + (index % 4)) }),
        ...(index % 2 > 0 && { mat: { width: inches(17), length: inches(23 + (index % 6)) } }),
        longCuts: (['scissors', 'tear', 'tear-or-scissors', 'neither'] as const)[(index >> 1) % 4]!,
      };
      const cloths = plan.cloths.map((cloth, at) =>
        (index + at) % 5 === 0 ? cloth : { ...cloth, tearsTrue: true as const },
      );
      const outcome = makeCutPlan({ ...plan, cloths, tools }, { effort: 400, seed: 3 });
      if (!outcome.ok) continue;
      const onCloths = outcome.value.cloths.flatMap(({ cloth, lengths }) =>
        lengths.map((length) => {
          const own = cloths.find(({ name }) => name === cloth);
          return { length, onCloth: toolsOn(tools, own, length) };
        }),
      );
      for (const { length, onCloth } of onCloths) {
        const steps = cuttingSteps(length, onCloth);
        for (const by of steps.flatMap(({ measures = [] }) => measures)) measured[by] += 1;
        seen.tears += steps.some(({ blade }) => blade === 'tear') ? 1 : 0;
        seen.lengths += 1;
        seen.folded += length.lay.kind === 'folded' ? 1 : 0;
        seen.stacked += steps.some(({ spread }) => spread.stacked > 1) ? 1 : 0;
        seen.mirrored += steps.some(({ spread }) => spread.mirrorAt !== undefined) ? 1 : 0;
        seen.reachFolds += steps.some(({ spread }) => spread.reachFolds > 0) ? 1 : 0;
        seen.scissors += steps.some(({ blade }) => blade === 'scissors') ? 1 : 0;
        expect(replayFaults(length, steps, onCloth), JSON.stringify({ ...plan, tools })).toEqual([]);
      }
    }
    for (const [what, count] of Object.entries({ ...seen, ...measured }))
      expect(count, what).toBeGreaterThan(10);
  });
});

describe('the replay catches', () => {
  const { tools } = smallPlan().plan;
  const [length] = lengthsOf(smallPlan()) as [LengthPlan];
  const steps = cuttingSteps(length, tools);
  const spoilt = (index: number, change: (step: CuttingStep) => Partial<CuttingStep>) =>
    replayFaults(
      length,
      steps.map((step, at) => (at === index ? { ...step, ...change(step) } : step)),
      tools,
    );

  it('a step left out', () => {
    for (const left of steps) {
      expect(
        replayFaults(
          length,
          steps.filter((step) => step !== left),
          tools,
        ),
        `${left.number}`,
      ).not.toEqual([]);
    }
  });

  it('a setting that is a tick off', () => {
    for (const [index, step] of steps.entries()) {
      for (const place of step.settings.keys()) {
        const faults = spoilt(index, ({ settings }) => ({
          settings: settings.map((setting, at) => ticks(at === place ? setting + 1 : setting)),
        }));
        expect(faults, `step ${step.number}, setting ${place + 1}`).not.toEqual([]);
      }
    }
  });

  it('a ply, a stroke or a freed piece too many', () => {
    for (const index of steps.keys()) {
      expect(spoilt(index, ({ spread }) => ({ spread: { ...spread, plies: spread.plies + 1 } }))).not.toEqual(
        [],
      );
      expect(spoilt(index, ({ strokes }) => ({ strokes: strokes + 1 }))).not.toEqual([]);
      expect(
        spoilt(index, ({ frees }) => ({ frees: [...frees, { piece: 'stowaway', copies: 1 }] })),
      ).not.toEqual([]);
    }
  });
});
