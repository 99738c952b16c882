import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { wordFault } from '../../src/check/fault-words.ts';
import type { Plan } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { formatLength } from '../../src/units/format.ts';
import { randomPlan, wantsAlike } from '../support/random-plan.ts';

const PLANS = 150;
const SEED = 20_311;
const options = { effort: 800, seed: 5 };

describe('random plans', () => {
  const plans = fc.sample(randomPlan(), { numRuns: PLANS, seed: SEED });

  it('hold every sort of cloth that a plan may name', () => {
    const cloths = plans.flatMap((plan) => plan.cloths);
    const lengths = [...cloths, ...cloths.flatMap((cloth) => cloth.inHand)];
    const share = (some: readonly boolean[]) => some.filter(Boolean).length;
    const sorts = {
      inches: share(plans.map((plan) => plan.unit === 'in')),
      makes: share(plans.map((plan) => plan.makes.length > 0)),
      fourCloths: share(plans.map((plan) => plan.cloths.length === 4)),
      limitedStages: share(plans.map((plan) => plan.stages !== 'any')),
      keptOff: share(lengths.map(({ crease }) => crease.kind === 'keep-off')),
      unequal: share(lengths.map(({ selvedge }) => selvedge.left !== selvedge.right)),
      oddWidth: share(lengths.map(({ width }) => width % 2 === 1)),
      acrossPrint: share(cloths.map((cloth) => cloth.direction !== 'plain' && cloth.printRuns === 'across')),
      washed: share(cloths.map(({ washing }) => washing?.washed === 'before-cutting')),
      cutLarger: share(cloths.map(({ washing }) => washing?.cutLarger === true)),
      tearsTrue: share(cloths.map(({ tearsTrue }) => tearsTrue === true)),
      ownCrease: share(lengths.map(({ crease }) => crease.kind === 'keep-off' && crease.at !== undefined)),
      folded: share(cloths.map(({ lay }) => lay === 'folded')),
      onlyInHand: share(cloths.map(({ buy }) => buy === undefined)),
      boughtAndInHand: share(cloths.map(({ buy, inHand }) => buy !== undefined && inHand.length > 0)),
      mayBeJoined: share(plans.flatMap(({ pieces }) => pieces.map(({ join }) => join !== undefined))),
      wantAlike: share(plans.map(wantsAlike)),
      limitedLength: share(cloths.map(({ buy }) => buy?.longest !== undefined)),
    };
    for (const [sort, count] of Object.entries(sorts)) expect(count, sort).toBeGreaterThan(15);
  });

  it(`pass the checker, or say why there is no plan: ${PLANS} of them`, () => {
    const outcomes = { planned: 0, impossible: 0, joined: 0, stacked: 0, stackedRight: 0, openings: 0 };
    for (const plan of plans) {
      const before = JSON.stringify(plan);
      const outcome = makeCutPlan(plan, options);
      expect(JSON.stringify(plan), 'a plan is not changed by planning').toBe(before);
      if (outcome.ok) {
        outcomes.planned += 1;
        const { joined, makes, stacks = [] } = outcome.value;
        outcomes.joined += joined.length > 0 ? 1 : 0;
        outcomes.stacked += stacks.some(({ taken }) => taken) ? 1 : 0;
        outcomes.stackedRight += stacks.some(({ taken, edge }) => taken && edge === 'right') ? 1 : 0;
        outcomes.openings += makes.some(({ openings }) => openings) ? 1 : 0;
        expect(faultsOf(outcome.value), before).toEqual([]);
      } else {
        outcomes.impossible += 1;
        expect(
          outcome.issues.some(({ severity }) => severity === 'error'),
          before,
        ).toBe(true);
      }
    }
    expect(outcomes.planned).toBeGreaterThan(80);
    expect(outcomes.impossible).toBeGreaterThan(20);
    expect(outcomes.joined).toBeGreaterThan(5);
    expect(outcomes.stacked).toBeGreaterThan(5);
    expect(outcomes.stackedRight).toBeGreaterThan(1);
    // More of them are asked for among the mixed plans.
    expect(outcomes.openings).toBeGreaterThan(2);
    expect(outcomes.planned + outcomes.impossible).toBe(PLANS);
  });

  it('are planned alike every time', () => {
    for (const plan of plans.slice(0, 12)) {
      expect(JSON.stringify(makeCutPlan(plan, options))).toBe(
        JSON.stringify(makeCutPlan(structuredClone(plan), options)),
      );
    }
  });
});

function faultsOf(cutPlan: Parameters<typeof checkPlan>[0]): readonly string[] {
  const { unit }: Pick<Plan, 'unit'> = cutPlan.plan;
  return checkPlan(cutPlan).map((fault) => wordFault(fault, (length) => formatLength(length, { unit })));
}
