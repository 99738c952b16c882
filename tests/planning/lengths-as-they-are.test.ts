import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { makes } from '../../src/makes/catalogue.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { leftoversOf, toldLeftovers } from '../../src/planning/put-back.ts';
import { stepsOfLength } from '../../src/planning/stack-steps.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { changed } from '../support/changed.ts';
import { replayedPlan } from '../support/mixed-points.ts';
import { inches } from '../support/plan-parts.ts';

const specs = makes.map((make) => make.spec);

/** A plan with one length of moss cloth in hand, and pieces from it. */
function planText(length: string, pieces: string, cloth = ''): string {
  return `
plan: The attic
unit: in
keep: 5 x 7
cloths:
  moss cloth: { width: 55, selvedge: 1/2, ${cloth}lengths: [{ name: end, ${length} }] }
pieces:
${pieces}
`;
}

function planned(text: string): CutPlan {
  const read = readPlan(text, { file: 'attic.yaml', makes: specs });
  if (!read.ok) throw new Error(read.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
  const outcome = makeCutPlan(read.value, { effort: 4_000, seed: 2 });
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
  expect(checkPlan(outcome.value)).toEqual([]);
  expect(replayedPlan(outcome.value)).toEqual([]);
  return outcome.value;
}

const codesOf = (cutPlan: CutPlan) => checkPlan(cutPlan).map(({ code }) => code);
const inHand = ['plan', 'cloths', 0, 'inHand', 0] as const;

describe('a crease with a place of its own', () => {
  // 45 in wide without selvedges; kept off from 17 to 19 in, so 17 in on its left and 26 in on its right.
  const length = 'length: 31, width: 45, selvedge: 0, crease: keep off 1 at 18';
  const pieces = `  - { name: mat, count: 1, size: 17 x 12, cloth: moss cloth, grain: lengthwise }
  - { name: runner, count: 1, size: 26 x 30, cloth: moss cloth, grain: lengthwise }`;

  it('is kept off there, and the checker sees a tick of difference', () => {
    const cutPlan = planned(planText(length, pieces));
    expect(cutPlan.plan.cloths[0]!.inHand[0]!.crease).toEqual({
      ...{ kind: 'keep-off', each: inches(1), at: inches(18) },
    });
    for (const off of [1, -1]) {
      const moved = changed(cutPlan, [...inHand, 'crease', 'at'], (at) => (at as number) + off);
      expect(codesOf(moved)).toContain('piece-over-crease');
    }
    // Where it would lie midway, at 22 1/2 in, the runner lies over it.
    const { at: _, ...midway } = cutPlan.plan.cloths[0]!.inHand[0]!.crease as { readonly at: number };
    expect(codesOf(changed(cutPlan, [...inHand, 'crease'], () => midway))).toContain('piece-over-crease');
  });

  it('shrinks towards the left edge with the width', () => {
    const washing = 'washing: { along: 0 %, across: 10 %, washed: before-cutting }, ';
    const wide = 'length: 31, width: 50, selvedge: 0, crease: keep off 1 at 20';
    const cutPlan = planned(planText(wide, pieces, washing));
    expect(cutPlan.cloths[0]!.lengths[0]!.width).toBe(inches(45));
  });

  it('is where the length is folded, when all is cut folded', () => {
    const pair = '  - { name: mat, count: 2, size: 16 x 12, cloth: moss cloth, grain: lengthwise }';
    const cutPlan = planned(planText(length, pair, 'lay: folded, '));
    expect(cutPlan.cloths[0]!.lengths[0]!.lay).toEqual({ kind: 'folded', foldAt: inches(18) });
    // 18 in lie on the left of the fold, of which 1 in is kept off.
    const tight = pair.replace('16 x', '17 x');
    expect(planned(planText(length, tight, 'lay: folded, ')).cloths[0]!.surplus).toEqual([]);
    const over = pair.replace('16 x', '17 1/8 x');
    expect(() => planned(planText(length, over, 'lay: folded, '))).toThrow('17 1/8');
  });

  it('is told in what is put back by its place from the left edge of that', () => {
    const cutPlan = planned(planText(length, pieces.split('\n')[0]!));
    const { plan, cloths } = cutPlan;
    const left = leftoversOf(plan.cloths[0]!, cloths[0]!.lengths[0]!, plan.keep);
    expect(left.length).toBeGreaterThan(0);
    const [over, ...beside] = [...left].sort(
      (a, b) => Number(a.crease.kind === 'none') - Number(b.crease.kind === 'none'),
    );
    // The crease at 18 in, an inch kept off either side.
    expect(over!.crease).toEqual({ kind: 'keep-off', each: inches(1), at: inches(18) - over!.box.x0 });
    for (const { box, crease } of beside) {
      expect(crease).toEqual({ kind: 'none' });
      expect(box.x1 <= inches(17) || box.x0 >= inches(19)).toBe(true);
    }
    const written = planJson(cutPlan).cloths[0]!.lengths[0]!.leftovers.filter(
      ({ kind }) => kind === 'remnant',
    );
    expect(written.map(({ x }) => x.ticks)).toEqual(left.map(({ box }) => box.x0));
  });
});

describe('a remnant whose length runs across the cloth', () => {
  const grained = (grain: string) =>
    `  - { name: band, count: 3, size: 6 x 20, cloth: moss cloth, grain: ${grain} }`;

  it('is the same cloth as one told the other way, with its flaws', () => {
    const across = planText(
      'length: 48, width: 22, selvedge: 0, grain: crosswise, flaws: [{ from edge: 3, from end: 40, size: 2 x 5 }]',
      grained('lengthwise'),
    );
    const along = planText(
      'length: 22, width: 48, selvedge: 0, flaws: [{ from edge: 3, from end: 3, size: 5 x 2 }]',
      grained('lengthwise'),
    );
    const [one, other] = [planned(across), planned(along)];
    expect(one.cloths).toEqual(other.cloths);
    // 20 in of every band lie along the cloth, where the remnant has 22 in.
    expect(one.cloths[0]!.lengths[0]).toMatchObject({ width: inches(48), length: inches(22) });
  });

  it('holds by the grain what fits along the cloth, and nothing longer', () => {
    const length = 'length: 48, width: 22, selvedge: 0, grain: crosswise';
    expect(planned(planText(length, grained('lengthwise')))).toBeDefined();
    const long = grained('lengthwise').replace('6 x 20', '6 x 40');
    expect(() => planned(planText(length, long))).toThrow('22 in');
    expect(planned(planText(length, long.replace('lengthwise', 'crosswise')))).toBeDefined();
  });
});

describe('a leftover that a kept-off crease runs through', () => {
  const pieces = '  - { name: mat, count: 2, size: 26 x 17, cloth: moss cloth, grain: lengthwise }';
  const leftOf = (length: string) => {
    const cutPlan = planned(planText(length, pieces, 'crease: keep off 1/2, '));
    const [own] = cutPlan.cloths[0]!.lengths;
    const told = toldLeftovers(cutPlan.plan.cloths[0]!, own!, cutPlan.plan);
    const steps = stepsOfLength(cutPlan, 'moss cloth', own!);
    expect(steps.reduce((sum, { remnants }) => sum + remnants, 0)).toBe(told.length);
    return told.map(({ size }) => size);
  };

  it('is one in the steps, as it is in the hands and in every list', () => {
    expect(leftOf('length: 36')).toEqual([{ width: inches(54), length: inches(19) }]);
  });

  it('is two where a flaw lies in the strip, since only what lies beside it is known to be sound', () => {
    const flaw = '{ from edge: 27 1/4, from end: 25, size: 1/2 x 1/2 }';
    const beside = { width: inches(26.5), length: inches(19) };
    expect(leftOf(`length: 36, flaws: [${flaw}]`)).toEqual([beside, beside]);
  });
});
