import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { wordFault } from '../../src/check/fault-words.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { Cloth, LengthInHand } from '../../src/model/cloth.ts';
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import type { Plan, Tools } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { inSections } from '../../src/planning/sections.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { toolsOn } from '../../src/planning/tool-reach.ts';
import { formatLength } from '../../src/units/format.ts';
import { TICKS_PER_YARD } from '../../src/units/ticks.ts';
import { inches } from '../support/plan-parts.ts';
import { randomPlan, wantsAlike } from '../support/random-plan.ts';
import { replayFaults } from '../support/replay.ts';

const PLANS = 140;
const SEED = 4_177;
const options = { effort: 500, seed: 5 };

/** A ruler that reaches everywhere, so that nothing was cut into sections for its sake. */
const FAR: Tools = { rulerLength: inches(400), mostPlies: 1 };

/** The plan with other tools in turn, every third with a ruler that reaches everywhere, and with cloth that may be torn. */
function withTools(plan: Plan, index: number): Plan {
  const turn = Math.floor(index / 3);
  const short: Tools = {
    rulerLength: inches(9 + (turn % 5) * 6),
    mostPlies: ([1, 2, 4] as const)[turn % 3]!,
    ...(turn % 4 > 0 && { rulerWidth: inches(3 + (turn % 4)) }),
    ...(index % 2 > 0 && { mat: { width: inches(17), length: inches(23 + (turn % 6)) } }),
    longCuts: (['scissors', 'tear', 'tear-or-scissors', 'neither'] as const)[(turn >> 1) % 4]!,
  };
  const cloths = plan.cloths.map((cloth, at) =>
    (index + at) % 5 === 0 ? cloth : { ...cloth, tearsTrue: true as const },
  );
  return { ...plan, cloths, tools: index % 3 === 0 ? FAR : short };
}

/** The plan with a short ruler, four plies, and cloth that may all be torn. */
function torn(plan: Plan): Plan {
  const cloths = plan.cloths.map((cloth) => ({ ...cloth, tearsTrue: true as const }));
  return { ...plan, cloths, tools: { ...plan.tools, rulerLength: inches(15), longCuts: 'tear-or-scissors' } };
}

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

/** Every plan is planned once, and all laws are asked of it. Those whose cloths may be stacked keep tools that cut four plies. */
describe('random plans', () => {
  const plans = fc
    .sample(randomPlan(), { numRuns: PLANS, seed: SEED })
    .map((plan, index) => (wantsAlike(plan) ? torn(plan) : withTools(withCupboard(plan, index), index)));
  const outcomes = new Map<Plan, ReturnType<typeof makeCutPlan>>();
  const outcomeOf = (plan: Plan) => {
    if (!outcomes.has(plan)) outcomes.set(plan, makeCutPlan(plan, options));
    return outcomes.get(plan)!;
  };
  const soundPlans = () =>
    plans.flatMap((plan) => {
      const outcome = outcomeOf(plan);
      return outcome.ok ? [outcome.value] : [];
    });

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
    const seen = { planned: 0, impossible: 0, joined: 0, stacked: 0, stackedRight: 0, openings: 0 };
    for (const plan of plans) {
      const before = JSON.stringify(plan);
      const outcome = outcomeOf(plan);
      expect(JSON.stringify(plan), 'a plan is not changed by planning').toBe(before);
      if (outcome.ok) {
        seen.planned += 1;
        const { joined, makes, stacks = [] } = outcome.value;
        seen.joined += joined.length > 0 ? 1 : 0;
        seen.stacked += stacks.some(({ taken }) => taken) ? 1 : 0;
        seen.stackedRight += stacks.some(({ taken, edge }) => taken && edge === 'right') ? 1 : 0;
        seen.openings += makes.some(({ openings }) => openings) ? 1 : 0;
        expect(faultsOf(outcome.value), before).toEqual([]);
      } else {
        seen.impossible += 1;
        expect(
          outcome.issues.some(({ severity }) => severity === 'error'),
          before,
        ).toBe(true);
      }
    }
    expect(seen.planned).toBeGreaterThan(70);
    expect(seen.impossible).toBeGreaterThan(15);
    expect(seen.joined).toBeGreaterThan(5);
    expect(seen.stacked).toBeGreaterThan(5);
    expect(seen.stackedRight).toBeGreaterThan(1);
    // More of them are asked for among the mixed plans.
    expect(seen.openings).toBeGreaterThan(1);
    expect(seen.planned + seen.impossible).toBe(PLANS);
  });

  it('are planned alike every time', () => {
    for (const plan of plans.slice(0, 8)) {
      expect(JSON.stringify(makeCutPlan(structuredClone(plan), options))).toBe(
        JSON.stringify(outcomeOf(plan)),
      );
    }
  });

  it('give their pieces and leftovers when their steps are replayed, whatever the tools', () => {
    const seen = { lengths: 0, folded: 0, stacked: 0, mirrored: 0, reachFolds: 0, scissors: 0, tears: 0 };
    const measured = { ruler: 0, mat: 0, tape: 0 };
    for (const { plan, cloths } of soundPlans()) {
      for (const { cloth, lengths } of cloths) {
        const own = plan.cloths.find(({ name }) => name === cloth);
        for (const length of lengths) {
          const onCloth = toolsOn(plan.tools, own, length);
          const steps = cuttingSteps(length, onCloth);
          for (const by of steps.flatMap(({ measures = [] }) => measures)) measured[by] += 1;
          seen.tears += steps.some(({ blade }) => blade === 'tear') ? 1 : 0;
          seen.lengths += 1;
          seen.folded += length.lay.kind === 'folded' ? 1 : 0;
          seen.stacked += steps.some(({ spread }) => spread.stacked > 1) ? 1 : 0;
          seen.mirrored += steps.some(({ spread }) => spread.mirrorAt !== undefined) ? 1 : 0;
          seen.reachFolds += steps.some(({ spread }) => spread.reachFolds > 0) ? 1 : 0;
          seen.scissors += steps.some(({ blade }) => blade === 'scissors') ? 1 : 0;
          expect(replayFaults(length, steps, onCloth), JSON.stringify(plan)).toEqual([]);
        }
      }
    }
    for (const [what, count] of Object.entries({ ...seen, ...measured }))
      expect(count, what).toBeGreaterThan(5);
  });

  it('keep pieces and leftovers, and stay proven, when they are cut into sections for a short ruler', () => {
    let recut = 0;
    for (const far of soundPlans().filter(({ plan }) => plan.tools === FAR)) {
      const tools: Tools = { rulerLength: inches(14), mostPlies: 1 };
      const cloths = far.cloths.map((own) => inSections({ ...far.plan, tools }, own));
      for (const [index, own] of cloths.entries()) {
        for (const [at, length] of own.lengths.entries()) {
          const before = far.cloths[index]!.lengths[at]!;
          if (length === before) continue;
          recut += 1;
          expect(kept(length)).toEqual(kept(before));
          expect(replayFaults(length, cuttingSteps(length, tools), tools)).toEqual([]);
        }
      }
      const value: CutPlan = { ...far, plan: { ...far.plan, tools }, stacks: [], cloths };
      expect(faultsOf(value), JSON.stringify(far.plan)).toEqual([]);
    }
    expect(recut).toBeGreaterThan(5);
  });
});

/** Everything that must not move: pieces and keepable leftovers, where they lie. */
function kept({ tree, width, length }: LengthPlan): readonly string[] {
  return walk(tree, width, length)
    .leaves.filter(({ leaf }) => leaf.kind === 'piece' || leaf.kind === 'remnant')
    .map(({ leaf, box }) => JSON.stringify([leaf, box]))
    .sort();
}

function faultsOf(cutPlan: Parameters<typeof checkPlan>[0]): readonly string[] {
  const { unit }: Pick<Plan, 'unit'> = cutPlan.plan;
  return checkPlan(cutPlan).map((fault) => wordFault(fault, (length) => formatLength(length, { unit })));
}
