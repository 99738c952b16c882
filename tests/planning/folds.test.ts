import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import type { CutTree } from '../../src/model/cut-tree.ts';
import { wordIssue } from '../../src/model/messages.ts';
import type { LoosePiece } from '../../src/model/plan.ts';
import { foldFirst, upToMark } from '../../src/planning/end-words.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { pliesUnder } from '../../src/planning/plies.ts';
import { wordStep } from '../../src/planning/step-words.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { ticks } from '../../src/units/ticks.ts';
import { changed } from '../support/changed.ts';
import { none } from '../support/plan-parts.ts';
import { randomFolds } from '../support/random-folds.ts';
import { replayFaults } from '../support/replay.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

function replayed(cutPlan: CutPlan): readonly string[] {
  const { tools } = cutPlan.plan;
  return cutPlan.cloths.flatMap(({ lengths }) =>
    lengths.flatMap((length) => replayFaults(length, cuttingSteps(length, tools), tools)),
  );
}

function sound(cutPlan: CutPlan): CutPlan {
  expect(checkPlan(cutPlan)).toEqual([]);
  expect(replayed(cutPlan)).toEqual([]);
  return cutPlan;
}

/** The tree without the first piece of a name. */
function without(tree: CutTree<string>, name: string): CutTree<string> {
  if (tree.kind === 'piece') return tree.piece === name ? { kind: 'scrap' } : tree;
  if (tree.kind !== 'cut') return tree;
  const first = tree.parts.findIndex((part) => without(part, name) !== part);
  return first < 0
    ? tree
    : { ...tree, parts: tree.parts.map((part, at) => (at === first ? without(part, name) : part)) };
}

const upright = { grain: 'lengthwise' } as const;

describe('a piece on the fold', () => {
  it('takes the odd copy of a folded lay, so that none is spare: three of 20 by 18 on 54 in', () => {
    // By hand: 27 in of half width hold a pair of 20 in, 18 in long; the third lies across the fold, 10 in to each side.
    const plan = planOf([clothOf({ lay: 'folded' })], [{ ...loose('mat', 20, 18, 3), ...upright }]);
    const [cloth] = sound(planned(plan)).cloths;
    expect(cloth!.surplus).toEqual([]);
    expect(cloth!.purchase!.needed).toBe(inches(36));
  });

  it('holds what no half of the cloth holds: one of 40 in across on 54 in', () => {
    const plan = planOf([clothOf({ lay: 'folded' })], [{ ...loose('throw', 40, 50, 2), ...upright }]);
    const [cloth] = sound(planned(plan)).cloths;
    expect(cloth!.surplus).toEqual([]);
    expect(cloth!.purchase!.needed).toBe(inches(100));
  });

  it('is folded for where the plan asks for it, clear of a crease that is kept off', () => {
    const crease = { kind: 'keep-off', each: inches(1) } as const;
    const plan = planOf(
      [clothOf({ crease })],
      [
        { ...loose('runner', 16, 40, 1), ...upright, onFold: true },
        { ...loose('mat', 12, 18, 5), ...upright },
      ],
    );
    const cutPlan = sound(planned(plan));
    const [length] = cutPlan.cloths[0]!.lengths;
    expect(length!.lay.kind).toBe('folded');
    if (length!.lay.kind === 'folded') expect(length!.lay.foldAt).toBeLessThan(inches(26));
  });

  it.each([
    [
      'half of it falls between two marks',
      { size: { width: inches(16.125), length: inches(40) } },
      'not-halved',
    ],
    [
      'half of it is larger than the cloth folded',
      { size: { width: inches(60), length: inches(62) } },
      'too-large',
    ],
  ])('is refused where %s', (_, change, why) => {
    const plan = planOf(
      [clothOf({ lay: 'folded', foldAt: inches(27) })],
      [{ ...loose('runner', 16, 40, 1), ...upright, ...change, onFold: true }],
    );
    const outcome = makeCutPlan(plan, { effort: 2000, seed: 1 });
    expect(outcome.ok).toBe(false);
    const found = outcome.issues.find(({ code }) => code === 'cannot-lie-on-fold' || code === 'too-wide');
    expect(found?.code === 'cannot-lie-on-fold' ? found.details.why : found?.code).toBe(
      why === 'too-large' ? 'too-wide' : why,
    );
  });
});

describe('the widest piece that lies on a fold is told', () => {
  const kept = { crease: { kind: 'keep-off', each: inches(1) } } as const;
  // Cloth of 54 in without selvedges, by hand: folded at 18 in, 18 in lie double on either side, 36 in across; with 1 in kept off
  // either side of the crease at 27 in only 8 in do, 16 in across; beside that crease 26 in are left.
  it.each([
    [
      'off the middle',
      { lay: 'folded', foldAt: inches(18) },
      40,
      'more than the 36 in that "gull grey" yields across its fold',
    ],
    [
      'off the middle, by a kept-off crease',
      { lay: 'folded', foldAt: inches(18), ...kept },
      17,
      'more than the 16 in that "gull grey" yields across its fold',
    ],
    [
      'off the middle, where more lies double beyond a kept-off crease',
      { lay: 'folded', foldAt: inches(20), ...kept },
      13,
      'more than the 12 in that "gull grey" yields across its fold',
    ],
    ['down the middle', { lay: 'folded' }, 55, 'more than the 54 in that "gull grey" yields across its fold'],
    ['flat, the crease kept off', kept, 27, 'more than the 26 in beside the crease that is kept off'],
  ] as const)('%s', (_, own, width, words) => {
    const plan = planOf(
      [clothOf(own)],
      [{ ...loose('runner', width, 40, 1), grain: 'lengthwise', onFold: true }],
    );
    const outcome = makeCutPlan(plan, { effort: 500, seed: 1 });
    const errors = outcome.issues.filter(({ severity }) => severity === 'error');
    expect(errors.map((issue) => wordIssue(issue, 'in'))).toEqual([expect.stringContaining(words)]);
  });

  it.each([
    [
      'matched across the print',
      { match: { kind: 'alike' } },
      { repeat: { across: inches(9), drop: 'straight' } },
      'mirrored',
    ],
    [
      'cut around a printed panel',
      { panel: { names: ['gull'] } },
      {
        panels: {
          every: inches(20),
          areas: [
            { name: 'gull', width: inches(5), length: inches(5), turned: 0, x: inches(3), y: inches(3) },
          ],
          sold: 'in-repeats',
          untaken: 'use',
        },
      },
      'run through the panel',
    ],
  ] as const)('nothing lies on one that is %s', (_, asked, own, words) => {
    const cloth = clothOf(own as never);
    const plan = planOf([cloth], [{ ...loose('runner', 8, 8, 1), onFold: true, ...asked } as never]);
    const outcome = makeCutPlan(plan, { effort: 500, seed: 1 });
    expect(outcome.ok).toBe(false);
    const errors = outcome.issues.filter(({ severity }) => severity === 'error');
    expect(errors.map((issue) => wordIssue(issue, 'in'))).toEqual([expect.stringContaining(words)]);
  });

  it('and one mark less across is planned', () => {
    const plan = planOf(
      [clothOf({ lay: 'folded', foldAt: inches(18), ...kept })],
      [{ ...loose('runner', 16, 40, 1), grain: 'lengthwise', onFold: true }],
    );
    sound(planned(plan));
  });

  it('as is why a piece too wide for a ply cannot lie across it', () => {
    const plan = planOf(
      [clothOf({ lay: 'folded', foldAt: inches(18) })],
      [{ ...loose('runner', 20.125, 40, 1), grain: 'lengthwise' }],
    );
    const outcome = makeCutPlan(plan, { effort: 500, seed: 1 });
    expect(outcome.issues.map(({ code }) => code)).toEqual(['cannot-lie-on-fold']);
    expect(wordIssue(outcome.issues[0]!, 'in')).toContain('make it 20 1/4 in across');
  });
});

describe('a fold off the middle', () => {
  it('lies where it is asked for, pairs where cloth is double and single pieces beyond', () => {
    // By hand: 16 in over leaves 54 - 32 = 22 in single: 16 in hold a pair of 15, 22 in hold one of 20; all 18 in long.
    const plan = planOf(
      [clothOf({ lay: 'folded', foldAt: inches(16) })],
      [
        { ...loose('pillow', 15, 18, 4), ...upright },
        { ...loose('cushion', 20, 18, 2), ...upright },
      ],
    );
    const [cloth] = sound(planned(plan)).cloths;
    expect(cloth!.lengths[0]!.lay).toEqual({ kind: 'folded', foldAt: inches(16) });
    expect(cloth!.surplus).toEqual([]);
    expect(cloth!.purchase!.needed).toBe(inches(36));
    expect(cloth!.answer).toBe('best');
  });

  it('leaves nothing to keep over a flaw in the cloth beyond both plies', () => {
    // The kept-off crease at 27 in ends what lies double 9 in from a fold at 15 in, so 6 in of the left edge lie by themselves.
    const { buy: _, ...own } = clothOf({
      lay: 'folded',
      foldAt: inches(15),
      crease: { kind: 'keep-off', each: inches(3) },
    });
    const box = (x0: number, y0: number, x1: number, y1: number) =>
      [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ].map(([x, y]) => ({ x: inches(x!), y: inches(y!) }));
    const length = {
      ...{ name: 'roll end', length: inches(60), copies: 1, width: own.width },
      ...{ selvedge: { left: none, right: none }, crease: own.crease },
      flaws: [{ outline: box(1, 20, 2.5, 23) }],
    };
    const plan = planOf(
      [{ ...own, inHand: [length] }],
      [{ ...loose('runner', 16, 40, 1), ...upright, onFold: true }],
      { keep: { width: inches(2), length: inches(6) } },
    );
    const [cloth] = sound(planned(plan)).cloths;
    expect(cloth!.lengths[0]!.lay).toEqual({ kind: 'folded', foldAt: inches(15) });
    const { leaves } = walk(cloth!.lengths[0]!.tree, cloth!.lengths[0]!.width, cloth!.lengths[0]!.length);
    const kept = leaves.filter(({ leaf, box }) => leaf.kind === 'remnant' && box.x1 <= inches(6));
    expect(kept.map(({ box }) => [box.y0, box.y1])).toEqual([
      [0, inches(20)],
      [inches(23), inches(60)],
    ]);
  });

  it('uses the cloth in two plies on both sides of a crease that is kept off', () => {
    // By hand: 60 in folded over at 18 in lie double for 17 1/4 in, less the inch at 11 1/2 in from the fold. Halves of 22 in take
    // the 11 in before it, 60 in long; a pair of 4 in lies beyond it, six of 9 x 14 in on the 24 in beyond, in 42 in.
    const cloth = clothOf({
      ...{ width: inches(60), selvedge: { left: inches(3 / 4), right: inches(3 / 4) }, direction: 'two-way' },
      ...{ crease: { kind: 'keep-off', each: inches(1 / 2) }, squaring: inches(1 / 2) },
      ...{ lay: 'folded', foldAt: inches(18) },
    });
    const pieces = [
      { ...loose('bolster', 22, 20, 3), onFold: true as const },
      loose('flap', 9, 14, 6),
      loose('strap', 4, 38, 2),
    ];
    const cutPlan = sound(planned(planOf([cloth], pieces)));
    expect(cutPlan.cloths[0]!.purchase!.needed).toBeLessThanOrEqual(inches(61));
    const [length] = cutPlan.cloths[0]!.lengths as [LengthPlan];
    const straps = walk(length.tree, length.width, length.length).leaves.filter(
      ({ leaf }) => leaf.kind === 'piece' && leaf.piece === 'strap',
    );
    const places = straps.map(({ box }) => box.x0).sort((a, b) => a - b);
    // Both plies lie alike there, and one that has no fellow is caught.
    expect(places[0]! + places[1]! + inches(4)).toBe(inches(36));
    const alone = changed(cutPlan, ['cloths', 0, 'lengths', 0, 'tree'], (tree: CutTree<string>) =>
      without(tree, 'strap'),
    );
    expect(checkPlan(alone).map(({ code }) => code)).toContain('fold-piece-alone');
    const { buy: _, ...inHand } = cloth;
    const owned = {
      name: 'length',
      length: inches(61),
      width: cloth.width,
      selvedge: cloth.selvedge,
      crease: cloth.crease,
      copies: 1,
    };
    sound(planned(planOf([{ ...inHand, inHand: [owned] }], pieces)));
  });

  it.each([
    ['down the middle', {}, 'the left edge over onto the right one, so that both edges'],
    [
      'off it',
      { foldAt: inches(16) },
      'so that the fold lies at 16 in from it and it comes to lie 32 in from',
    ],
  ])('is told to be folded before its first cut, and its measures from the fold: %s', (_, fold, told) => {
    const pieces = [
      { ...loose('pillow', 20, 18, 1), ...upright, ...('foldAt' in fold && { onFold: true as const }) },
      { ...loose('cushion', 9, 9, 4), ...upright },
    ];
    const cutPlan = sound(planned(planOf([clothOf({ lay: 'folded', ...fold })], pieces)));
    const [length] = cutPlan.cloths[0]!.lengths;
    expect(foldFirst(length!, cutPlan.plan)).toContain(told);
    const [written] = planJson(cutPlan).cloths[0]!.lengths;
    expect(written!.foldFirst).toContain(told);
    const { tools } = cutPlan.plan;
    const steps = cuttingSteps(length!, tools);
    // Half of 20 in lies at the fold, uncut along it.
    const half = steps.findIndex(
      ({ fromFold, settings }) => fromFold === 'all' && settings[0] === inches(10),
    );
    expect(half).toBeGreaterThanOrEqual(0);
    expect(written!.steps[half]!.todo).toContain('at 10 in from the fold');
    const unsaid = steps.map(({ fromFold, ...step }, at) =>
      at === half ? step : { ...step, ...(fromFold && { fromFold }) },
    );
    expect(replayFaults(length!, unsaid, tools).join()).toMatch(/is measured from the fold in all/);
    const flat = planned(planOf([clothOf({})], [loose('cushion', 9, 9, 4)]));
    expect(foldFirst({ ...flat.cloths[0]!.lengths[0]!, lay: { kind: 'flat' } }, flat.plan)).toBeUndefined();
  });

  it('has no more plies under the blade than lie there', () => {
    // By hand: 54 in folded over at 16 in lie 38 in wide, double for 16 in. A crosscut of all of it with a ruler of 24 in is
    // folded once, at 19 in: the 16 in and what is laid on them are 3 plies, the last 3 in before the new fold are 2.
    const cutPlan = planned(
      planOf(
        [clothOf({ lay: 'folded', foldAt: inches(16) })],
        [
          { ...loose('pillow', 15, 18, 4), ...upright },
          { ...loose('cushion', 20, 9, 4), ...upright },
        ],
      ),
    );
    const { tools } = cutPlan.plan;
    const [length] = cutPlan.cloths[0]!.lengths;
    const steps = cuttingSteps(length!, tools);
    const tellPlies = (step: (typeof steps)[number]) => wordStep(step, cutPlan.plan, new Map()).spread;
    const beyond = steps.filter(({ parts }) => parts.every(({ x0 }) => x0 >= inches(31)));
    expect(beyond.length).toBeGreaterThan(0);
    for (const { spread } of beyond) expect(spread.plies).toBe(2 ** spread.reachFolds * spread.stacked);
    const whole = pliesUnder(
      { action: 'crosscut', width: inches(38), doubled: inches(16), edges: [inches(18)] },
      { reachFolds: 1 },
    );
    expect(whole).toEqual({ most: 3, fewest: 2 });
    const first = steps.find(({ parts: [part] }) => part!.x0 === inches(16))!;
    expect(first.spread.pliesVary).toBe(true);
    expect(tellPlies(first)).toMatch(/up to [23] plies/);
    // As many as if all of it lay double, and the replay says otherwise.
    for (const [index, { spread }] of steps.entries()) {
      const { pliesVary: _, ...own } = spread;
      const double = { ...own, plies: 2 * 2 ** spread.reachFolds * spread.stacked };
      if (double.plies === spread.plies && !spread.pliesVary) continue;
      const told = steps.map((step, at) => (at === index ? { ...step, spread: double } : step));
      expect(replayFaults(length!, told, tools).join(), `step ${index + 1}`).toMatch(/plies under the blade/);
    }
  });

  it.each([
    // Folded once at 20 of 40: double up to 25 lies twice for a fourth of the way. Folded twice: 3 of the 4 quarters touch it.
    ['crosscut', 1, [], undefined, { most: 4, fewest: 3 }],
    ['crosscut', 2, [], undefined, { most: 7, fewest: 6 }],
    ['crosscut', 0, [], 9, { most: 4, fewest: 2 }],
    ['cut-lengthwise', 0, [24, 25], undefined, { most: 2, fewest: 1 }],
    ['cut-lengthwise', 1, [25, 39], undefined, { most: 2, fewest: 2 }],
    // Folded about 20, cuts at 3 and 37 fall on each other: 2 plies and 1. So do those at 18 and 22, in 2 plies each.
    ['cut-lengthwise', 0, [3, 18, 22, 37], 20, { most: 4, fewest: 3 }],
  ] as const)('a %s folded %d times, at %j, about %s', (action, reachFolds, edges, mirrorAt, plies) => {
    const part = { action, width: 40, doubled: 25, edges };
    expect(pliesUnder(part, { reachFolds, ...(mirrorAt !== undefined && { mirrorAt }) })).toEqual(plies);
  });

  it('is laid down the middle of a length in hand that is narrower', () => {
    const { buy: _, ...own } = clothOf({
      lay: 'folded',
      foldAt: inches(16),
      inHand: [
        {
          name: 'oddment',
          length: inches(40),
          width: inches(30),
          selvedge: { left: ticks(0), right: ticks(0) },
          crease: { kind: 'none' },
          copies: 1,
        },
      ],
    });
    const [cloth] = sound(planned(planOf([own], [{ ...loose('mat', 12, 18, 4), ...upright }]))).cloths;
    expect(cloth!.lengths[0]!.lay).toEqual({ kind: 'folded', foldAt: inches(15) });
  });
});

it('one spread for all cuts folds and stacks nothing again', () => {
  const pieces = [{ ...loose('mat', 12, 18, 8), ...upright }];
  const stepsOf = (cutPlan: CutPlan) =>
    cutPlan.cloths.flatMap(({ lengths }) => lengths.flatMap((own) => cuttingSteps(own, cutPlan.plan.tools)));
  const again = stepsOf(sound(planned(planOf([clothOf({ lay: 'folded' })], pieces))));
  expect(again.some(({ spread }) => spread.stacked > 1 || spread.reachFolds > 0)).toBe(true);
  const once = stepsOf(sound(planned(planOf([clothOf({ lay: 'folded', oneSpread: true })], pieces))));
  expect(once.every(({ spread }) => spread.plies === 2)).toBe(true);
});

describe('ways between flat and wholly folded', () => {
  it('are told where none is better in every respect, and each is a sound lay', () => {
    const plan = planOf(
      [clothOf({ direction: 'one-way', crease: { kind: 'keep-off', each: inches(0.5) } })],
      [
        { ...loose('mat', 11, 14, 9), ...upright },
        { ...loose('cushion', 17, 19, 5), ...upright },
      ],
    );
    const [cloth] = sound(planned(plan)).cloths;
    const ways = cloth!.ways!;
    expect(ways.filter(({ chosen }) => chosen)).toHaveLength(1);
    expect(new Set(ways.map(({ lay }) => lay)).size).toBeGreaterThan(1);
    for (const [index, way] of ways.entries()) {
      const others = ways.filter((_, at) => at !== index);
      const work = (own: typeof way) => own.strokes + own.folds;
      const beaten = others.some(
        (own) => own.bought <= way.bought && work(own) <= work(way) && own.spare <= way.spare && own !== way,
      );
      expect(beaten && !way.chosen, JSON.stringify(way)).toBe(false);
    }
  });
});

describe('plies that lie with their ends opposite', () => {
  const marks = (direction: 'plain' | 'one-way' | 'nap', piece: LoosePiece) => {
    const cloth = clothOf({ direction, width: inches(24) });
    const cutPlan = sound(planned(planOf([cloth], [{ ...piece, ...upright }])));
    const [length] = cutPlan.cloths[0]!.lengths;
    const steps = cuttingSteps(length!, cutPlan.plan.tools);
    return { steps, told: upToMark(cloth, steps) };
  };
  const seat = loose('seat', 22, 29, 4);

  it('have their tops marked first on a one-way cloth, and need no mark on a plain one', () => {
    const { steps, told } = marks('nap', seat);
    const folded = steps.find(({ action, spread }) => action === 'crosscut' && spread.mirrorAt !== undefined);
    expect(told).toMatch(new RegExp(`^In step ${folded!.number} the cloth is folded end to end`));
    expect(marks('plain', seat).told).toBeUndefined();
  });

  it('are whole pieces where they are folded only to be cut along, and nothing is to be turned', () => {
    const { steps, told } = marks('one-way', loose('runner', 11, 44, 4));
    expect(steps.some(({ action, spread }) => action !== 'crosscut' && spread.reachFolds > 0)).toBe(true);
    expect(told).toBeUndefined();
  });
});

describe('random plans with folds', () => {
  const PLANS = 90;

  it(`pass the checker and the replay: ${PLANS} of them`, () => {
    const seen = { planned: 0, aside: 0, across: 0, once: 0 };
    for (const plan of fc.sample(randomFolds(), { numRuns: PLANS, seed: 5_119 })) {
      const outcome = makeCutPlan(plan, { effort: 400, seed: 3 });
      if (!outcome.ok) continue;
      const { cloths, pieces } = outcome.value;
      expect(checkPlan(outcome.value), JSON.stringify(plan)).toEqual([]);
      expect(replayed(outcome.value), JSON.stringify(plan)).toEqual([]);
      const lengths = cloths.flatMap((own) => own.lengths);
      seen.planned += 1;
      seen.aside += lengths.some(({ lay, width }) => lay.kind === 'folded' && 2 * lay.foldAt < width - 1)
        ? 1
        : 0;
      seen.across += pieces.some(({ onFold }) => onFold) ? 1 : 0;
      seen.once += lengths.some(({ oneSpread }) => oneSpread) ? 1 : 0;
    }
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(2);
  });
});
