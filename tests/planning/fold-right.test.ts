import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';
import { messagesOf, planFrom } from '../support/measured-plan.ts';
import { replayFaults } from '../support/replay.ts';

const inches = (count: number) => ticks(count * TICKS_PER_INCH);

/** A length 60 in wide with its crease 38 in from the left, and a stain 4 in from that edge and 50 in from the near end. */
const text = (cloth = '', length = '') => `plan: The boat shed
unit: in
cloths:
  drift ticking:
    width: 60
    selvedge: { left: 1/2, right: 1 }
    lay: folded
    lengths:
      - { name: roll end, length: 72, width: 60, selvedge: { left: 1/2, right: 1 }, crease: keep off 3/4 at 38, flaws: [{ from edge: 45, from end: 50, size: 2 x 3 }]${length} }
${cloth}
pieces:
  - { name: pad, count: 4, size: 18 x 20, cloth: drift ticking }
`;

describe('a length that is folded along a crease right of its middle', () => {
  it('is turned about first, all its measures with it', () => {
    const [own] = planFrom(text()).cloths[0]!.inHand;
    // By hand: 60 less 38, 60 less 47 to 45, 72 less 53 to 50.
    expect(own!.crease).toEqual({ kind: 'keep-off', each: inches(0.75), at: inches(22) });
    expect(own!.selvedge).toEqual({ left: inches(1), right: inches(0.5) });
    const corners = own!.flaws![0]!.outline;
    expect([Math.min(...corners.map(({ x }) => x)), Math.max(...corners.map(({ x }) => x))]).toEqual([
      inches(13),
      inches(15),
    ]);
    expect([Math.min(...corners.map(({ y }) => y)), Math.max(...corners.map(({ y }) => y))]).toEqual([
      inches(19),
      inches(22),
    ]);
  });

  it('is planned, proven and replayed as it lies then, and says so before all else', () => {
    const made = makeCutPlan(planFrom(text()), { seed: 1, effort: 2000 });
    if (!made.ok) throw new Error('four pads fit');
    const cutPlan = made.value;
    expect(checkPlan(cutPlan)).toEqual([]);
    const [length] = cutPlan.cloths[0]!.lengths;
    expect(length!.lay).toEqual({ kind: 'folded', foldAt: inches(22) });
    const { tools } = cutPlan.plan;
    expect(replayFaults(length!, cuttingSteps(length!, tools), tools)).toEqual([]);
    const [told] = planJson(cutPlan).cloths[0]!.lengths;
    expect(told!.turnFirst).toContain('turn the length about');
    expect(told!.foldFirst).toContain('the fold lies at 22 in');
  });

  it('is left as it is where the crease lies left of the middle, or where the cloth lies flat', () => {
    for (const plan of [text().replace('at 38', 'at 22'), text().replace('lay: folded', 'lay: flat')])
      expect(planFrom(plan).cloths[0]!.inHand[0]!.turnedAbout).toBeUndefined();
  });

  it('is refused in words where it cannot be turned about', () => {
    expect(messagesOf(text('    direction: one-way'))).toEqual([
      'plan.yaml:7:10 cloths.drift ticking.lay: "roll end" would be folded along its crease, which lies right of its middle, so it would have to be turned about first; with "drift ticking" that cannot be, since it lies one way up. Write lay: flat, or leave this length out.',
    ]);
    expect(messagesOf(text('    repeat: { along: 12 }'))[0]).toContain('its print is told from the near end');
  });
});
