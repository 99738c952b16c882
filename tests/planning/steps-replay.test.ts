import { describe, expect, it } from 'vitest';
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import { type CuttingStep, cuttingSteps } from '../../src/planning/steps.ts';
import { ticks } from '../../src/units/ticks.ts';
import { joinedPlan } from '../support/joined-plan.ts';
import { foldedPlan, freshFoldPlan, smallPlan, twoLengthsPlan } from '../support/plans.ts';
import { replayFaults } from '../support/replay.ts';

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
