import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { LengthInHand, Repeat } from '../../src/model/cloth.ts';
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { squaredLeftovers } from '../../src/planning/put-back.ts';
import { stepsOfLength } from '../../src/planning/stack-steps.ts';
import { wordStep } from '../../src/planning/step-words.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { type Ticks, ticks } from '../../src/units/ticks.ts';
import { replayFaults } from '../support/replay.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const repeat: Repeat = { along: inches(9), across: inches(8), fromEdge: inches(4.5), drop: 'half' };
const edges = {
  width: inches(45),
  selvedge: { left: inches(0.5), right: inches(0.5) },
  crease: { kind: 'none' },
} as const;
const common = { ...edges, direction: 'one-way', squaring: inches(0.25), repeat } as const;
const front = { ...loose('front', 15, 15, 2), match: { kind: 'centre' } } as const;

function bought(): CutPlan {
  return planned(planOf([clothOf(common)], [front]), 10_000);
}

function inHand(lengths: readonly Partial<LengthInHand>[], pieces: Parameters<typeof planOf>[1]): CutPlan {
  const own = lengths.map(
    (length, index): LengthInHand => ({
      ...edges,
      name: `end ${index + 1}`,
      length: inches(38),
      copies: 1,
      ...length,
    }),
  );
  const { buy: _, ...cloth } = clothOf({ ...common, inHand: own });
  return planned(planOf([cloth], pieces), 10_000);
}

/** Where the near end is really cut when the first motif of the meant column lies so far from it: as the first step says. */
function cutAt(length: LengthPlan, squaring: Ticks, first: number): number {
  const { within, motif } = length.begins!;
  let at = first;
  while (at < squaring + motif!) at += within;
  return at - motif!;
}

describe('a print whose start no one knows', () => {
  it.each([
    ['bought', bought()],
    ['a length in hand without its first motif', inHand([{}], [front])],
  ])('is begun by the first step, wherever it starts: %s', (_, cutPlan) => {
    expect(checkPlan(cutPlan)).toEqual([]);
    const [length] = cutPlan.cloths[0]!.lengths as [LengthPlan];
    const { squaring } = cutPlan.plan.cloths[0]!;
    expect(length.begins).toEqual({ within: inches(9), motif: inches(7.5), column: inches(4.5) });
    const pieces = walk(length.tree, length.width, length.length).leaves.filter(
      ({ leaf }) => leaf.kind === 'piece',
    );
    expect(pieces).toHaveLength(2);
    const left = squaredLeftovers(cutPlan.plan.cloths[0]!, length, cutPlan.plan.keep);
    const drawn = squaring + inches(9);
    // The cloth itself, with its print at many starts: the cut stays within a repeat, pieces and leftovers fit, motifs meet.
    for (const first of [0, 1, inches(4), inches(7.5), inches(7.75), inches(7.75) - 1, inches(9) - 1]) {
      const cut = cutAt(length, squaring, first);
      expect(cut).toBeGreaterThanOrEqual(squaring);
      expect(cut).toBeLessThanOrEqual(drawn);
      for (const { box } of pieces) {
        const [x, y] = [box.x0 + inches(7.5), box.y0 - drawn + cut + inches(7.5)];
        const column = (x - inches(4.5)) / inches(8);
        expect(column % 1).toBe(0);
        expect((2 * (y - first) - (column % 2 === 0 ? 0 : inches(9))) % inches(18)).toBe(0);
      }
      for (const { box } of [...pieces, ...left]) expect(box.y0).toBeGreaterThanOrEqual(drawn);
    }
  });

  it('is told in the steps, the summary and plan.json alike, and what is left without the reserve', () => {
    const cutPlan = bought();
    const [length] = cutPlan.cloths[0]!.lengths as [LengthPlan];
    const steps = stepsOfLength(cutPlan, cutPlan.cloths[0]!.cloth, length);
    expect(replayFaults(length, steps, cutPlan.plan.tools)).toEqual([]);
    const words =
      'in the column of motifs 4 1/2 in from the left edge, find the first whose centre lies at least 7 3/4 in from the near end, and crosscut square 7 1/2 in before it';
    expect(wordStep(steps[0]!, cutPlan.plan, new Map()).todo.toLowerCase()).toBe(words);
    // No part is named that has no certain length.
    expect(wordStep(steps[1]!, cutPlan.plan, new Map()).todo).toMatch(/^Crosscut at 15 in/);
    expect(summaryText(cutPlan, { columns: 1000 })).toContain(
      `Begin              ${words}; up to 9 in may go`,
    );
    const json = planJson(cutPlan).cloths[0]!.lengths[0]!;
    expect(json.begins).toMatchObject({
      within: { shown: '9 in' },
      motif: { shown: '7 1/2 in' },
      column: { shown: '4 1/2 in' },
    });
    expect(json.steps[0]).toMatchObject({ begins: true, todo: words[0]!.toUpperCase() + words.slice(1) });
    // 15 in of fronts, 1/4 in at each end, and a repeat: 24 1/2 in, so 27 in are bought and 2 1/2 in are sure to be over.
    expect(cutPlan.cloths[0]!.purchase).toMatchObject({ needed: inches(24.5), bought: inches(27) });
    const leaves = walk(length.tree, length.width, length.length).leaves;
    const far = leaves.filter(({ box, leaf }) => box.y0 === inches(24.25) && leaf.kind === 'scrap');
    expect(far.map(({ box }) => box.y1 - box.y0)).toEqual([inches(2.5)]);
  });

  it('keeps pieces off a flaw wherever it starts', () => {
    // The stain lies where the far row of pieces would be drawn if less than a repeat went at the near end.
    const outline = [
      [1, 36],
      [44, 36],
      [44, 37],
      [1, 37],
    ].map(([x, y]) => ({ x: inches(x!), y: inches(y!) }));
    const two = inHand([{ length: inches(60), flaws: [{ outline }] }], [{ ...front, count: 2 }]);
    expect(checkPlan(two)).toEqual([]);
    const [length] = two.cloths[0]!.lengths as [LengthPlan];
    for (const { leaf, box } of walk(length.tree, length.width, length.length).leaves) {
      if (leaf.kind !== 'piece') continue;
      // From as drawn to a repeat nearer to the near end: never over the stain.
      expect(box.y1 <= inches(36) || box.y0 - inches(9) >= inches(37)).toBe(true);
    }
    const spoiledFlaw = outline.map(({ x, y }) => ({
      x,
      y: ticks(y - inches(36) + length.begins!.within + 1),
    }));
    const cloth = two.plan.cloths[0]!;
    const moved = { ...cloth, inHand: [{ ...cloth.inHand[0]!, flaws: [{ outline: spoiledFlaw }] }] };
    const codes = checkPlan({ ...two, plan: { ...two.plan, cloths: [moved] } }).map(({ code }) => code);
    expect(codes).toContain('piece-over-flaw');
  });
});

describe('a length in hand that is too short for the worst start', () => {
  it('is told why, and what would help', () => {
    const own = { ...edges, name: 'end', length: inches(20), copies: 1 };
    const { buy: _, ...cloth } = clothOf({ ...common, inHand: [own] });
    const outcome = makeCutPlan(planOf([cloth], [front]), { effort: 500, seed: 1 });
    expect(outcome.issues.map((issue) => wordIssue(issue, 'in'))).toEqual([
      expect.stringMatching(/up to a repeat, 9 in, may go at its near end; measure it and write first motif/),
    ]);
    // By hand: 15 in of fronts, 1/4 in at each end and 4 1/2 in to a motif that lies at 12 1/4 in, are 20 in.
    const measured = { ...cloth, inHand: [{ ...own, firstMotif: inches(12.25) }] };
    expect(checkPlan(planned(planOf([measured], [front]), 2000))).toEqual([]);
  });
});

describe('pieces that are only to be like each other', () => {
  const alike = (count: number) => [{ ...loose('panel', 14, 14, count), match: { kind: 'alike' } as const }];

  it('may begin anywhere on a length that is cut alone', () => {
    const one = inHand([{}, {}], alike(2));
    expect(checkPlan(one)).toEqual([]);
    expect(one.cloths[0]!.lengths.map(({ begins }) => begins)).toEqual([undefined]);
    expect(summaryText(one)).not.toContain('Begin');
  });

  it('have every length begun at one place of the print, and no motif is spoken of', () => {
    const two = inHand([{ length: inches(33) }, { length: inches(33) }], alike(3));
    expect(checkPlan(two)).toEqual([]);
    expect(two.cloths[0]!.lengths.map(({ begins }) => begins)).toEqual([
      { within: inches(9) },
      { within: inches(9) },
    ]);
    const text = summaryText(two, { columns: 1000 });
    expect(text).toContain('at the same place of the print on every length of this cloth');
    expect(text).not.toMatch(/Begin.*motif/);
  });

  it('are begun by the motif of a length that was measured', () => {
    const two = inHand([{ length: inches(33), firstMotif: inches(5) }, { length: inches(33) }], alike(5));
    expect(checkPlan(two)).toEqual([]);
    expect(two.cloths[0]!.lengths.map(({ begins }) => begins?.motif)).toEqual([undefined, inches(4.75)]);
  });
});
