import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { placeTree } from '../../src/check/placed-tree.ts';
import { makes } from '../../src/makes/catalogue.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { wordIssue } from '../../src/model/messages.ts';
import type { Panel, PanelAsked } from '../../src/model/panel.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { foreseen } from '../../src/planning/foreseen.ts';
import { panelsOf } from '../../src/planning/panels/panels-told.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { type Ticks, ticks } from '../../src/units/ticks.ts';
import { cutCloth, replayFaults } from '../support/replay.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const OPTIONS = { effort: 6000, seed: 3 };
const specs = makes.map((make) => make.spec);

function area(name: string, x: number, y: number, width: number, length: number, turned = 0): Panel {
  const size = { width: inches(width), length: inches(length) };
  return { name, x: inches(x), y: inches(y), ...size, turned: turned as Panel['turned'] };
}

function printed(areas: readonly Panel[], changes: Partial<Cloth> = {}, every?: number): Cloth {
  return clothOf({
    name: 'harbour print',
    width: inches(40),
    direction: 'one-way',
    panels: {
      areas,
      sold: 'in-repeats',
      untaken: 'keep',
      ...(every !== undefined && { every: inches(every) }),
    },
    ...(every !== undefined && { buy: { step: inches(every) } }),
    ...changes,
  });
}

/** A length in hand of a cloth that is not bought. */
function inHand(cloth: Cloth, length: number, more: object = {}): Cloth {
  const { buy: _, ...rest } = cloth;
  const { width, selvedge, crease } = cloth;
  return {
    ...rest,
    inHand: [{ name: 'roll end', length: inches(length), copies: 1, width, selvedge, crease, ...more }],
  };
}

function around(piece: LoosePiece, ...names: readonly string[]): LoosePiece {
  return { ...piece, cloth: 'harbour print', panel: { names } };
}

/** Every piece of a length with its box, in the coordinates of the opened cloth. */
function placed({ cloths }: CutPlan, cloth = 0) {
  return cloths[cloth]!.lengths.flatMap(({ tree, width, length }) =>
    placeTree(tree, width, length, () => {}).flatMap(({ tree: leaf, box }) =>
      leaf.kind === 'piece' ? [{ piece: leaf.piece, turns: leaf.quarterTurns, ...box }] : [],
    ),
  );
}

function faultOf(plan: Plan): string[] {
  const outcome = makeCutPlan(plan, OPTIONS);
  const errors = outcome.issues.filter(({ severity }) => severity === 'error');
  const before = foreseen(plan).filter(({ severity }) => severity === 'error');
  // What planning finds of panels, `check` tells before.
  expect(before.map(({ details }) => details)).toEqual(errors.map(({ details }) => details));
  return errors.map((issue) => ('fault' in issue.details ? `${issue.details.fault}` : issue.code));
}

describe('a piece around a panel', () => {
  it('has it in its middle, worked by hand, and the rest is cut beside it', () => {
    const cloth = printed([area('gull', 5, 4, 10, 12)], {}, 30);
    const cutPlan = planned(
      planOf([cloth], [around(loose('front', 14, 15, 1), 'gull'), loose('tie', 3, 20, 4, 'harbour print')]),
    );
    // 5 − (14 − 10) ÷ 2 = 3 across, 4 − (15 − 12) ÷ 2 = 2 1/2 along.
    const [front] = placed(cutPlan).filter(({ piece }) => piece === 'front');
    expect(front).toMatchObject({
      x0: inches(3),
      y0: inches(2.5),
      x1: inches(17),
      y1: inches(17.5),
      turns: 0,
    });
    expect(placed(cutPlan)).toHaveLength(5);
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(30));
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it.each([
    // Upright, the odd tick goes to the right and to the top: with its top to the far end those are right and far,
    // to the left edge far and left, to the near end left and near, to the right edge near and right.
    [0, 2, 2, 3, 3],
    [1, 3, 2, 2, 3],
    [2, 3, 3, 2, 2],
    [3, 2, 3, 3, 2],
  ])('has an odd tick on the side that the rule says, turned %i', (turned, left, near, right, far) => {
    const own = area('gull', 5, 4, 10, 10, turned);
    const odd = { ...own, width: ticks(own.width - 5), length: ticks(own.length - 5) };
    const cutPlan = planned(planOf([printed([odd], {}, 30)], [around(loose('front', 10, 10, 1), 'gull')]));
    const [front] = placed(cutPlan);
    expect(front!.turns).toBe(turned);
    expect([
      ...[odd.x - front!.x0, odd.y - front!.y0],
      ...[front!.x1 - odd.x - odd.width, front!.y1 - odd.y - odd.length],
    ]).toEqual([left, near, right, far]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('lies as its panel does, whatever way the rest of the print runs', () => {
    const cloth = printed([area('gull', 5, 4, 15, 11, 1)], {}, 30);
    const cutPlan = planned(planOf([cloth], [around(loose('front', 13, 17, 1), 'gull')]));
    const [front] = placed(cutPlan);
    // On its side: 17 across, 13 along.
    expect([front!.x1 - front!.x0, front!.y1 - front!.y0, front!.turns]).toEqual([inches(17), inches(13), 1]);
  });

  it('takes panels in turn, and as few repeats as hold them', () => {
    const cloth = printed([area('gull', 4, 4, 10, 12), area('buoy', 22, 4, 10, 12)], {}, 24);
    const cutPlan = planned(planOf([cloth], [around(loose('front', 13, 15, 5), 'gull', 'buoy')]));
    const counts = cutPlan.pieces.map(({ id, copies }) => [id, copies]);
    expect(counts).toEqual([
      ['front, gull', 3],
      ['front, buoy', 2],
    ]);
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(72));
    expect(cutPlan.cloths[0]!.answer).toBe('best');
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('leaves out every second panel where pieces would lie over each other', () => {
    // 12 in apart and cut 14 in long: only every second one, so that three reach into a sixth repeat.
    const cloth = printed([area('gull', 4, 3, 10, 8)], {}, 12);
    const plain = { ...cloth, panels: { ...cloth.panels!, untaken: 'use' as const } };
    const cutPlan = planned(planOf([plain], [around(loose('front', 12, 14, 3), 'gull')]));
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(72));
    expect(checkPlan(cutPlan)).toEqual([]);
    // No front reaches as far as the next panel, so those between may as well stay whole.
    const keeping = planned(planOf([cloth], [around(loose('front', 12, 14, 3), 'gull')]));
    expect(keeping.cloths[0]!.purchase!.bought).toBe(inches(72));
    expect(checkPlan(keeping)).toEqual([]);
  });

  it('buys a repeat more where the shop cuts anywhere', () => {
    const cloth = printed([area('gull', 4, 4, 10, 12)], {}, 24);
    const anywhere = {
      ...cloth,
      buy: { step: inches(4.5) },
      panels: { ...cloth.panels!, sold: 'anywhere' as const },
    };
    const cutPlan = planned(planOf([anywhere], [around(loose('front', 12, 14, 2), 'gull')]));
    // The second ends at 24 + 4 + 12 + 1 = 41, and the worst start takes 24 more: 65, in steps of 4 1/2 67 1/2.
    expect(cutPlan.cloths[0]!.purchase).toMatchObject({ needed: inches(65), bought: inches(67.5) });
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('buys several lengths where none is sold that long', () => {
    const cloth = printed(
      [area('gull', 4, 4, 10, 12)],
      { buy: { step: inches(24), longest: inches(50) } },
      24,
    );
    const short = { ...cloth, buy: { step: inches(24), longest: inches(50) } };
    const cutPlan = planned(planOf([short], [around(loose('front', 12, 14, 3), 'gull')]));
    expect(cutPlan.cloths[0]!.lengths.map(({ name }) => name)).toEqual(['bought 1', 'bought 2']);
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(72));
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('is cut from a length in hand before any is bought', () => {
    const cloth = printed([area('gull', 4, 4, 10, 12)], {}, 24);
    const { width, selvedge, crease } = cloth;
    // It begins 5 in into a repeat, so its first panel is lost and its second lies 23 in along.
    const length = {
      name: 'roll end',
      length: inches(40),
      copies: 1,
      width,
      selvedge,
      crease,
      panelsBegin: inches(19),
    };
    const cutPlan = planned(
      planOf([{ ...cloth, inHand: [length] }], [around(loose('front', 12, 14, 2), 'gull')]),
    );
    expect(cutPlan.cloths[0]!.lengths.map(({ name }) => name)).toEqual(['roll end', 'bought']);
    expect(placed(cutPlan).map(({ y0 }) => y0)).toEqual([inches(22), inches(3)]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('shrinks with the cloth, each panel reckoned from the unwashed length', () => {
    const loss = (numerator: number) => ({ numerator, denominator: 100 });
    const washing = { along: loss(3), across: loss(2), washed: 'before-cutting' } as const;
    const cloth = printed([area('gull', 10, 5, 10, 11)], { washing }, 30);
    const cutPlan = planned(planOf([cloth], [around(loose('front', 14, 15, 3), 'gull')]));
    // Near edges of the washed panel: (5 + 30 k) × 97 %, so that the third is no tick off from rounding twice before.
    const expected = [0, 1, 2].map((repeat) => {
      const near = (5 + 30 * repeat) * 8128 * 97;
      const far = (16 + 30 * repeat) * 8128 * 97;
      const [y0, y1] = [Math.floor(near / 100), Math.ceil(far / 100)];
      return y0 - Math.floor((inches(15) - (y1 - y0)) / 2);
    });
    expect(placed(cutPlan).map(({ y0 }) => y0)).toEqual(expected);
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(90));
    expect(checkPlan(cutPlan)).toEqual([]);
  });
});

describe('a piece around a panel that is cut larger for a wash to come', () => {
  const loss = (numerator: number) => ({ numerator, denominator: 100 });
  const washing = { along: loss(10), across: loss(4), washed: 'after-sewing', cutLarger: true } as const;
  const on = (areas: readonly Panel[]) => printed(areas, { washing, direction: 'plain' }, 36);

  it.each([
    // 12 ÷ (1 − 4 %) = 12 1/2 across and 9 ÷ (1 − 10 %) = 10 along; with its top to the left the losses change places.
    [0, [12, 9], [12.5, 10]],
    [1, [9, 12], [10, 12.5]],
  ] as const)('shrinks as its panel lies, turned %i', (turned, [across, up], [width, length]) => {
    const cloth = on([area('gull', 5, 4, 6, 6, turned)]);
    const plan = planOf([cloth], [around(loose('front', across, up, 2), 'gull')]);
    const cutPlan = planned(plan);
    expect(cutPlan.pieces[0]!.size).toEqual({ width: inches(width), length: inches(length) });
    expect(checkPlan(cutPlan)).toEqual([]);
    const spoil = (change: object) =>
      checkPlan({ ...cutPlan, pieces: cutPlan.pieces.map((piece) => ({ ...piece, ...change })) });
    const { finished } = cutPlan.pieces[0]!;
    const less = { ...finished, x1: ticks(finished.x1 - 1) };
    expect(spoil({ finished: less }).map(({ code }) => code)).toContain('washed-too-small');
  });

  it('is mounted to the larger front, with a warning where the border is not washed alike', () => {
    const front = around(loose('front', 24, 18, 1), 'gull');
    const mount = { kind: 'strips', cloth: 'canvas', seam: inches(0.5) } as const;
    const plan = planOf(
      [on([area('gull', 5, 4, 6, 6)]), clothOf({ name: 'canvas' })],
      [{ ...front, panel: { names: ['gull'], mount } }],
    );
    const cutPlan = planned(plan);
    // 24 ÷ 0.96 = 25 and 18 ÷ 0.9 = 20.
    const panel = cutPlan.pieces.find((piece) => piece.panel)!;
    expect(panel.mount!.makes).toEqual({ width: inches(25), length: inches(20) });
    expect(cutPlan.pieces.every(({ washesTo }) => washesTo === undefined)).toBe(true);
    expect(cutPlan.issues.map(({ code }) => code)).toContain('shrinks-apart');
    expect(checkPlan(cutPlan)).toEqual([]);
    const makes = { width: ticks(inches(25) - 1), length: inches(20) };
    const pieces = cutPlan.pieces.map((own) =>
      own === panel ? { ...own, mount: { ...own.mount!, makes } } : own,
    );
    expect(checkPlan({ ...cutPlan, pieces }).map(({ code }) => code)).toContain('washed-too-small');
  });

  it('is refused for panels that lie different ways round where the losses differ', () => {
    const cloth = on([area('gull', 5, 4, 6, 6), area('buoy', 20, 4, 6, 6, 1)]);
    const outcome = makeCutPlan(planOf([cloth], [around(loose('front', 12, 9, 2), 'gull', 'buoy')]), OPTIONS);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map((issue) => wordIssue(issue, 'in')).join()).toMatch(
      /"gull" and "buoy" lie different ways round.*wash to come/,
    );
  });
});

describe('a panel that no piece takes', () => {
  const areas = [area('gull', 4, 4, 10, 12), area('shell', 20, 3, 12, 15)];

  it('stays whole in one leftover, however small that is, and is told', () => {
    const cloth = printed(areas, {}, 24);
    const plan = planOf(
      [cloth],
      [around(loose('front', 12, 14, 2), 'gull'), loose('mat', 8, 9, 3, 'harbour print')],
      {
        keep: { width: inches(20), length: inches(20) },
      },
    );
    const cutPlan = planned(plan);
    const states = panelsOf(cutPlan, cutPlan.plan.cloths[0]!, cutPlan.cloths[0]!.lengths[0]!);
    expect(states.map(({ name, state }) => `${name} ${state}`).sort()).toEqual([
      'gull taken',
      'gull taken',
      'shell left',
      'shell left',
    ]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('is plain cloth where the plan says so', () => {
    const cloth = printed(areas, {}, 24);
    const used = { ...cloth, panels: { ...cloth.panels!, untaken: 'use' as const } };
    const pieces = [around(loose('front', 12, 14, 2), 'gull'), loose('mat', 11, 20, 4, 'harbour print')];
    expect(planned(planOf([used], pieces)).cloths[0]!.purchase!.bought).toBe(inches(48));
    // Beside panels that stay whole there is no room for them.
    expect(makeCutPlan(planOf([cloth], pieces), OPTIONS).ok).toBe(false);
  });

  it('is not cut into by the steps either, replayed at the table', () => {
    const cloth = printed(areas, {}, 24);
    const cutPlan = planned(
      planOf([cloth], [around(loose('front', 12, 14, 2), 'gull'), loose('mat', 8, 9, 3, 'harbour print')]),
    );
    const [length] = cutPlan.cloths[0]!.lengths;
    const steps = cuttingSteps(length!, cutPlan.plan.tools);
    expect(replayFaults(length!, steps, cutPlan.plan.tools)).toEqual([]);
    const panels = panelsOf(cutPlan, cutPlan.plan.cloths[0]!, length!);
    expect(panels).toHaveLength(4);
    const table = cutCloth(
      length!,
      steps,
      panels.map(({ box }) => box),
    );
    for (const { box } of panels) expect(table.isWhole(box)).toBe(true);
  });
});

describe('a mounted panel', () => {
  const mounted = (mount: PanelAsked['mount'], mark = 1 / 8) =>
    planned(
      planOf(
        [printed([area('gull', 6, 6, 12, 10)], {}, 30), clothOf({ name: 'oat linen' })],
        [
          {
            ...around(loose('front', 19, 18, 2), 'gull'),
            panel: { names: ['gull'], ...(mount && { mount }) },
          },
        ],
        { rulerMark: inches(mark) },
      ),
    );
  const sizes = ({ pieces }: CutPlan) =>
    pieces.map(({ id, size, copies }) => [id, size.width / 8128, size.length / 8128, copies]);

  it('has border strips worked by hand', () => {
    const cutPlan = mounted({ kind: 'strips', cloth: 'oat linen', seam: inches(0.5) });
    // Panel 12 + 2 × 1/2 = 13 by 11. Sides (19 − 13 + 4 × 1/2) ÷ 2 = 4 by 11: 13 + 2 × 4 − 4 × 1/2 = 19.
    // Ends 19 by (18 − 11 + 2) ÷ 2 = 4 1/2: 11 + 2 × 4 1/2 − 2 = 18.
    expect(sizes(cutPlan)).toEqual([
      ['front panel', 13, 11, 2],
      ['front side strip', 4, 11, 4],
      ['front end strip', 19, 4.5, 4],
    ]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('has strips rounded up to the ruler, and a front cut true afterwards', () => {
    const cutPlan = mounted({ kind: 'strips', cloth: 'oat linen', seam: inches(0.5) }, 1);
    // Sides 4 stand; ends (18 − 11 + 2) ÷ 2 = 4 1/2 go up to 5, so that all is 19 high in place of 18.
    expect(sizes(cutPlan)[2]).toEqual(['front end strip', 19, 5, 4]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('has a ground of the size of the front', () => {
    const cutPlan = mounted({ kind: 'ground', cloth: 'oat linen', turn: inches(3 / 8) });
    expect(sizes(cutPlan)).toEqual([
      ['front panel', 12.75, 10.75, 2],
      ['front ground', 19, 18, 2],
    ]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('has strips on two sides only where it is as wide as its front', () => {
    const plan = planOf(
      [printed([area('gull', 6, 6, 12, 8)], {}, 30), clothOf({ name: 'oat linen' })],
      [
        {
          ...around(loose('front', 13, 18, 1), 'gull'),
          panel: { names: ['gull'], mount: { kind: 'strips', cloth: 'oat linen', seam: inches(0.5) } },
        },
      ],
    );
    const cutPlan = planned(plan);
    expect(sizes(cutPlan)).toEqual([
      ['front panel', 13, 9, 1],
      ['front end strip', 13, 5.5, 2],
    ]);
    expect(checkPlan(cutPlan)).toEqual([]);
  });

  it('is worked out and told in a make, strips before the cover', () => {
    const text = `
plan: The reading nook
unit: cm
cloths:
  voyage panel: { width: 118, selvedge: 1, lengths: [{ length: 60, panels: [{ name: schooner, from edge: 9, from end: 9, size: 38 x 36 }] }] }
  moss cloth: { width: 140, selvedge: 1.2, buy: yes }
make:
  - name: cushion
    kind: envelope-cover
    count: 1
    size: 56 x 52
    cloth: { front: voyage panel, backs: moss cloth }
    panel: { front: { name: schooner, mount: strips, cloth: moss cloth, seam: 1 } }
`;
    const read = readPlan(text, { file: 'nook.yaml', makes: specs });
    if (!read.ok) throw new Error(read.issues.map((issue) => wordIssue(issue, 'cm')).join('\n'));
    const cutPlan = planned(read.value);
    expect(checkPlan(cutPlan)).toEqual([]);
    const [sheet] = cutPlan.makes;
    expect(sheet!.assembly[0]).toMatch(/side strip/);
    const written = sheet!.arithmetic.map(({ what }) => what);
    expect(written).toContain('front panel, across');
    expect(written).toContain('front side strip, across');
  });
});

describe('what cannot be is told once, by check and by planning alike', () => {
  const gull = area('gull', 5, 4, 10, 12);
  const front = (width: number, length: number, count = 1) =>
    around(loose('front', width, length, count), 'gull');

  it.each<[string, string[], Plan]>([
    ['a panel larger than its piece', ['too-large'], planOf([printed([gull], {}, 30)], [front(9, 15)])],
    [
      'a panel larger than its piece by one tick',
      ['too-large'],
      planOf([printed([{ ...gull, width: ticks(gull.width + 1) }], {}, 30)], [front(10, 15)]),
    ],
    [
      'two pieces that ask for one panel',
      ['too-few'],
      planOf([inHand(printed([gull]), 30)], [front(12, 14), { ...front(13, 15), name: 'other front' }]),
    ],
    [
      'a piece that reaches into the selvedge',
      ['spoilt'],
      planOf([printed([gull], {}, 30)], [front(21, 15)]),
    ],
    [
      'a piece that reaches over the near end',
      ['spoilt'],
      planOf([inHand(printed([gull]), 30)], [front(12, 21)]),
    ],
    [
      'a crease that is kept off runs through the panel',
      ['spoilt'],
      planOf(
        [printed([area('gull', 15, 4, 10, 12)], { crease: { kind: 'keep-off', each: inches(1) } }, 30)],
        [front(12, 14)],
      ),
    ],
    [
      'a flaw in the piece',
      ['spoilt'],
      planOf([inHand(printed([gull]), 30, { flaws: [{ outline: corners(8, 9, 2, 2) }] })], [front(12, 14)]),
    ],
    [
      'a piece that cuts into the next panel',
      ['crowded'],
      planOf([printed([gull, area('shell', 16, 4, 9, 9)], {}, 30)], [front(14, 14)]),
    ],
    [
      'grain across the panel',
      ['off-grain'],
      planOf([printed([gull], {}, 30)], [{ ...front(12, 14), grain: 'crosswise' }]),
    ],
    ['a folded lay', ['in-fold'], planOf([printed([gull], { lay: 'folded' }, 30)], [front(12, 14)])],
    [
      'a match beside it where the start is not known',
      ['beside-match'],
      planOf(
        [printed([gull], { repeat: { along: inches(15), drop: 'straight' } }, 30)],
        [front(12, 14), { ...loose('mat', 9, 9, 2, 'harbour print'), match: { kind: 'centre' } }],
      ),
    ],
  ])('%s', (_, faults, plan) => {
    expect(faultOf(plan)).toEqual(faults);
  });

  it('warns of a crease that is used through a panel, and of a border that hardly shows', () => {
    const creased = printed([area('gull', 15, 4, 10, 12)], { crease: { kind: 'use' } }, 30);
    const outcome = makeCutPlan(planOf([creased], [front(12, 14)]), OPTIONS);
    expect(outcome.issues.map(({ code, severity }) => [code, severity])).toEqual([
      ['panel-creased', 'warning'],
    ]);
    const thin = planOf(
      [printed([gull], {}, 30), clothOf({ name: 'oat linen' })],
      [
        {
          ...front(10.375, 20),
          panel: { names: ['gull'], mount: { kind: 'strips', cloth: 'oat linen', seam: inches(1 / 8) } },
        },
      ],
      { rulerMark: inches(1 / 16) },
    );
    expect(makeCutPlan(thin, OPTIONS).issues.map(({ code }) => code)).toEqual(['thin-border']);
  });
});

function corners(x: number, y: number, width: number, length: number) {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + length],
    [x, y + length],
  ].map(([across, along]): { x: Ticks; y: Ticks } => ({ x: inches(across!), y: inches(along!) }));
}
