import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { readCupboard } from '../../src/model/cupboard-file.ts';
import type { Plan } from '../../src/model/plan.ts';
import { clothFigures } from '../../src/planning/figures.ts';
import { usesInCupboard } from '../../src/planning/leftovers/left-in-cupboard.ts';
import { leftOfCloths } from '../../src/planning/leftovers/left-of-cloths.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { usesJson } from '../../src/rendering/uses-json.ts';
import { useRows } from '../../src/rendering/uses-words.ts';
import { inches } from './build.ts';
import { EFFORT, planned, read, usesWith } from './uses.ts';

/** One cloth, by its keys, with loose pieces and wishes as they are written. */
function plan(cloth: string, pieces: string, wishes: string): Plan {
  return read(`
plan: Porch
unit: in
currency: $
cloths: { sail cotton: { ${cloth} } }
pieces: ${pieces}
from leftovers: ${wishes}
`);
}

/** What is left of a length, by itself: a piece across the whole width takes all but so much of it. */
const only = (width: number, length: number, keys = '') =>
  `width: ${width}, selvedge: 0, lengths: [${length + 10}]${keys}`;
const strip = (width: number) =>
  `[{ name: strip, count: 1, size: ${width} x 10, cloth: sail cotton, grain: lengthwise }]`;

describe('the size of a leftover', () => {
  it('is one in the summary, the uses and the cupboard: what can be cut, and the edges told besides', () => {
    const edges = '{ left: 1/2, right: 3/4 }';
    const asked = plan(
      `width: 44, selvedge: ${edges}, squaring: 1/4, lengths: [30]`,
      '[{ name: strip, count: 1, size: 42 3/4 x 12, cloth: sail cotton, grain: lengthwise }]',
      '[{ name: mats, kind: napkin, size: 8 x 8, least: 1 }]',
    );
    const { cut, uses } = usesWith(asked);
    const told = ({ width, length }: { width: number; length: number }) =>
      `${width / 8128} x ${length / 8128}`;
    const inSummary = clothFigures(cut, cut.cloths[0]!).remnants;
    // 42 3/4 in between the selvedges, 29 1/2 in between the squared ends.
    expect(inSummary.map(told)).toEqual(['42.75 x 17.5']);
    expect(inSummary.map(({ selvedge }) => [selvedge.left / 8128, selvedge.right / 8128])).toEqual([
      [0.5, 0.75],
    ]);
    const [, words] = useRows(uses[0]!, asked)[0]!;
    expect(words).toContain(
      '42 3/4 x 17 1/2 in and 1/2 in of selvedge on the left and 3/4 in of selvedge on the right',
    );
    expect(
      usesJson(uses, asked)[0]!
        .left.map(({ usable }) => usable!.shown)
        .sort(),
    ).toEqual(['42 3/4 x 17 1/2 in']);
    expect(summaryText(cut, { columns: 200, emphasis: false })).toContain(
      '1: 42 3/4 x 17 1/2 in; selvedges left on not counted',
    );
  });
});

describe('what leftovers give, against published counts', () => {
  // One yard of 45 in cloth yields four napkins of 16.5 to 17 in cut; of 12 in cut, nine: read in three home-sewing pages
  // (hobby sources; common practice). A hem of 1/2 + 1/4 in takes 3/4 in on each side.
  it.each([
    [15, 4],
    [15.5, 4],
    [10.5, 9],
  ])('napkins of %f in finished from a yard of 45 in: %i', (side, count) => {
    const wish = `[{ name: napkins, kind: napkin, size: ${side} x ${side} }]`;
    const { uses } = usesWith(plan(only(45, 36), strip(45), wish));
    expect(uses[0]!.uses[0]).toMatchObject({ count, proven: true, joined: false });
  });

  // Squares of cut size s from a fat quarter of 18 x 22 in: three quilting pages that agree (hobby sources; common practice).
  it.each([
    [3.5, 30],
    [4.5, 16],
    [5, 12],
    [6, 9],
    [6.5, 6],
  ])('squares of %f in cut from a fat quarter in the cupboard: %i', (side, count) => {
    const cupboard = readCupboard(
      `cupboard: Landing\nunit: in\nentries:\n  - { name: quarter, cloth: sail cotton, width: 18, length: 22, selvedge: 0, washed: yes }\n`,
      { file: 'cupboard.yaml' },
    );
    if (!cupboard.ok) throw new Error(JSON.stringify(cupboard.issues));
    const wish = `[{ name: squares, kind: napkin, size: ${side - 1.5} x ${side - 1.5} }]`;
    const asked = plan('width: 44, selvedge: 0, buy: yes', strip(44), wish);
    const [found] = usesInCupboard(cupboard.value, asked, undefined, {
      ...EFFORT,
      withUsual: false,
      planned,
    });
    expect(found!.uses[0]).toMatchObject({ count, proven: true });
  });
});

describe('what a leftover may be used for', () => {
  it('is never laid against the print, where plain cloth would be turned', () => {
    // 12 in of 54 in wide: a runner of 8 x 40 in, cut 9 1/2 x 41 1/2 with its hems, fits only across.
    const wish = '[{ name: runner, kind: napkin, size: 8 x 40 }]';
    const plain = usesWith(plan(only(54, 12), strip(54), wish));
    expect(plain.uses[0]!.uses.map(({ count }) => count)).toEqual([1]);
    const print = usesWith(plan(only(54, 12, ', direction: one-way'), strip(54), wish));
    expect(print.uses[0]!.uses).toEqual([]);
  });

  it('keeps off the crease, and loses the selvedge that it still has', () => {
    const wish = '[{ name: napkin, kind: napkin, size: 24 x 10 }]';
    // 54 in holds two of 25 1/2 in, and with 1 1/2 in off either side of the fold there is room for them still ...
    const free = usesWith(plan(`${only(54, 12)}, crease: keep off 1 1/2`, strip(25), wish));
    expect(free.uses[0]!.uses[0]!.count).toBe(2);
    // ... but not with 2 in.
    const kept = usesWith(plan(`${only(54, 12)}, crease: keep off 2`, strip(25), wish));
    expect(kept.uses[0]!.uses[0]?.count ?? 0).toBe(0);
    const bare = usesWith(plan('width: 51, selvedge: 0, lengths: [22]', strip(51), wish));
    expect(bare.uses[0]!.uses[0]!.count).toBe(2);
    const edged = usesWith(plan('width: 51, selvedge: 1/8, lengths: [22]', strip(50), wish));
    expect(edged.uses[0]!.uses[0]!.count).toBe(1);
  });

  it('stays off flaws, and is not washed twice', () => {
    const wish = '[{ name: napkin, kind: napkin, size: 16 x 16 }]';
    const flawed = `width: 36, selvedge: 0, lengths: [{ length: 28, flaws: [{ from edge: 17, from end: 18, size: 2 x 2 }] }]`;
    const sound = usesWith(plan('width: 36, selvedge: 0, lengths: [28]', strip(36), wish));
    expect(sound.uses[0]!.uses[0]!.count).toBe(2);
    const { uses } = usesWith(plan(flawed, strip(36), wish));
    expect(uses[0]!.uses[0]?.count ?? 0).toBeLessThan(2);
    // 10 % are lost of 40 in before it is cut: 36 in are left, 26 beside the strip, and they lose nothing more.
    const washed =
      'width: 40, selvedge: 0, lengths: [40], washing: { along: 10 %, across: 10 %, washed: before-cutting }';
    const after = usesWith(
      plan(washed, strip(36), '[{ name: napkin, kind: napkin, size: 34 1/2 x 24 1/2 }]'),
    );
    expect(after.uses[0]!.uses[0]!.count).toBe(1);
  });

  it('is joined where its make permits, and only there', () => {
    const wish = (joins: number) =>
      `[{ name: long runner, kind: runner, width: 8, length: 50, runner joins: ${joins} }]`;
    const { uses } = usesWith(plan(only(30, 26), strip(30), wish(1)));
    expect(uses[0]!.uses[0]).toMatchObject({ joined: true });
    expect(uses[0]!.uses[0]!.plan.joined).toHaveLength(1);
    expect(usesWith(plan(only(30, 26), strip(30), wish(0))).uses[0]!.uses).toEqual([]);
  });

  it('respects the most and the least that are of use, and names the dearest first', () => {
    const wishes = `
  - { name: few, kind: napkin, size: 10 x 10, most: 2, worth: 1 }
  - { name: many, kind: napkin, size: 10 x 10, least: 40, worth: 9 }
  - { name: dear, kind: napkin, size: 16 x 16, most: 2, worth: 2 }
  - { name: elsewhere, kind: napkin, size: 10 x 10, worth: 99, cloth: driftwood }`;
    const asked = read(`
plan: Porch
unit: in
cloths: { sail cotton: { ${only(45, 36)} }, driftwood: { width: 30, selvedge: 0, lengths: [10] } }
pieces:
  - { name: strip, count: 1, size: 45 x 10, cloth: sail cotton }
  - { name: other, count: 1, size: 30 x 10, cloth: driftwood }
from leftovers: ${wishes}
`);
    const [found, ...others] = usesWith(asked).uses;
    expect(others).toEqual([]);
    expect(found!.uses.map(({ wish, count, worth }) => [wish.name, count, worth])).toEqual([
      ['dear', 2, 400],
      ['few', 2, 200],
    ]);
    expect(found!.together?.uses.map(({ wish, count }) => [wish.name, count])).toEqual([
      ['dear', 2],
      ['few', 2],
    ]);
    expect(found!.together?.worth).toBe(600);
  });

  it('tries the sizes of the trade and more of what is planned, where asked for', () => {
    const asked = read(`
plan: Porch
unit: in
cloths: { sail cotton: { ${only(45, 36)} } }
make: [{ name: mats, kind: place-mat, size: 15 x 11, count: 1, cloth: sail cotton }]
pieces: [{ name: strip, count: 1, size: 45 x 10, cloth: sail cotton }]
`);
    const { uses } = usesWith(asked, true);
    const sources = new Set(uses[0]!.uses.map(({ source }) => source));
    expect([...sources].sort()).toEqual(['plan', 'usual']);
    const shares = uses[0]!.uses.filter(({ source }) => source === 'usual').map(({ takes }) => takes);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
  });
});

describe('the smallest addition to a buy', () => {
  const buys = 'width: 36, selvedge: 0, price: 8.00 per yd, buy: { step: 1/8 yd }';

  it('is told in the shop’s steps, with what it gives in the place of scrap', () => {
    // By hand, 36 in wide. A panel of 14 in takes 1/2 yd (18 in) and leaves 4 in, which is scrap. Four napkins cut 9 x 9 lie
    // in one row: 14 + 9 = 23 in take 3/4 yd, which is 1/4 yd more; but by themselves they take 1/4 yd as well.
    const nine = '[{ name: napkins, kind: napkin, size: 7 1/2 x 7 1/2, least: 4, most: 4, worth: 1 }]';
    const wide = '[{ name: panel, count: 1, size: 36 x 14, cloth: sail cotton }]';
    expect(usesWith(plan(buys, wide, nine)).uses[0]!.more).toEqual([]);
    // A panel of 9 1/2 in takes 3/8 yd (13 1/2 in) and leaves 4 in. Four cut 8 x 8 with it take 17 1/2 in, 1/2 yd: 1/8 yd
    // more for 8.00 / 8; by themselves they take 1/4 yd.
    const short = '[{ name: panel, count: 1, size: 36 x 9 1/2, cloth: sail cotton }]';
    const small = '[{ name: napkins, kind: napkin, size: 6 1/2 x 6 1/2, least: 4, most: 4, worth: 1 }]';
    const [found] = usesWith(plan(buys, short, small)).uses;
    expect(found!.left).toEqual([]);
    expect(found!.more).toHaveLength(1);
    expect(found!.more[0]).toMatchObject({
      count: 4,
      without: 0,
      more: inches(4.5),
      alone: inches(9),
      cost: 100,
    });
    expect(found!.more[0]!.plan.cloths[0]!.purchase).toMatchObject({ bought: inches(18), cost: 400 });
  });

  it('is not told where no more is to be had, or where nothing is bought', () => {
    const wish = '[{ name: napkins, kind: napkin, size: 6 1/2 x 6 1/2, least: 4 }]';
    const short = '[{ name: panel, count: 1, size: 36 x 9 1/2, cloth: sail cotton }]';
    const sold = 'width: 36, selvedge: 0, buy: { step: 1/8 yd, longest: 13 1/2 }';
    expect(usesWith(plan(sold, short, wish)).uses[0]!.more).toEqual([]);
    expect(usesWith(plan(only(36, 9), strip(36), wish)).uses[0]!.more).toEqual([]);
  });
});

it('a plan with wishes carries its uses, and is the same without them otherwise', () => {
  const asked = plan(only(45, 36), strip(45), '[{ name: napkins, kind: napkin, size: 15 x 15 }]');
  const { wishes, ...bare } = asked;
  const [withUses, without] = [planned(asked)!, planned(bare)!];
  expect(withUses.cloths).toEqual(without.cloths);
  expect(withUses.uses?.[0]?.uses[0]?.count).toBe(4);
  expect(without.uses).toBeUndefined();
  expect(checkPlan(withUses)).toEqual([]);
});

it('any leftovers of any plan give uses that are proven, on cloth that the plan leaves', () => {
  fc.assert(
    fc.property(
      fc.record({
        width: fc.integer({ min: 20, max: 60 }),
        crease: fc.constantFrom('none', 'use', 'keep off 1'),
        direction: fc.constantFrom('plain', 'two-way', 'one-way'),
        squaring: fc.constantFrom('0', '1/2'),
        loss: fc.constantFrom('0 %', '4 %'),
        piece: fc.tuple(
          fc.integer({ min: 4, max: 9 }),
          fc.integer({ min: 4, max: 30 }),
          fc.integer({ min: 1, max: 5 }),
        ),
        side: fc.integer({ min: 4, max: 14 }),
        bought: fc.boolean(),
      }),
      ({ width, crease, direction, squaring, loss, piece: [across, up, count], side, bought }) => {
        const source = bought ? 'buy: yes, price: 6 per yd' : 'lengths: [180]';
        const cloth = `width: ${width}, selvedge: 1/2, crease: ${crease}, direction: ${direction}, squaring: ${squaring}, washing: { along: ${loss}, across: ${loss}, washed: before-cutting }, ${source}`;
        const pieces = `[{ name: strip, count: ${count}, size: ${across} x ${up}, cloth: sail cotton }]`;
        const wishes = `[{ name: squares, kind: napkin, size: ${side} x ${side}, most: 7, worth: 2 }, { name: cover, kind: envelope-cover, size: ${side + 2} x ${side + 2}, most: 2 }]`;
        const { cut, uses } = usesWith(plan(cloth, pieces, wishes));
        for (const { left } of leftOfCloths(cut)) expect(left.length).toBeGreaterThan(0);
        for (const own of uses) {
          for (const more of own.more) expect(more.count).toBeGreaterThan(more.without);
          for (const use of own.uses) expect(use.takes).toBeLessThanOrEqual(100);
        }
      },
    ),
    { numRuns: 25, seed: 11 },
  );
});
