import { describe, expect, it } from 'vitest';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { leastForPanels } from '../../src/planning/panels/least-for-panels.ts';
import { inches } from '../support/plan-parts.ts';
import { plannedText, readText } from '../support/planned-text.ts';

const text = (orders: string, keys = '') => `
plan: The sail loft
unit: in
currency: $
cloths:
  harbour panels:
    width: 56
    selvedge: 1/2
    direction: one-way
    price: 18.00 per yd
    groups: [fronts]
    buy: yes
    ${keys}
    panels:
      every: 40
      areas:
        - { name: lighthouse, from edge: 3, from end: 3, size: 15 x 15 }
        - { name: gull, from edge: 21, from end: 3, size: 15 x 15 }
  oat linen: { width: 57, selvedge: 5/8, price: 8.25 per yd, buy: yes, groups: [fronts] }
  ink chambray: { width: 57, selvedge: 5/8, price: 10.80 per yd, buy: yes }
${orders}
`;

const boughtOf = ({ cloths }: CutPlan, name: string) =>
  cloths.find(({ cloth }) => cloth === name)?.purchase?.bought ?? 0;

describe('panels in a choice of cloths', () => {
  it('settle a part whose panels only one of its cloths prints', () => {
    const plan = readText(
      text('pieces: [{ name: front, count: 1, size: 18 x 18, cloth: group fronts, panel: gull }]'),
    );
    expect(plan.pieces[0]).toMatchObject({ cloth: 'harbour panels' });
    expect(plan.pieces[0]!.choices).toBeUndefined();
  });

  it('settle the whole of a thing that is cut from one cloth, and one part of a thing that is not', () => {
    const cover =
      'name: cushions, kind: envelope-cover, count: 2, size: 17 x 17, panel: { front: [lighthouse, gull] }';
    const whole = readText(text(`make: [{ ${cover}, cloth: group fronts }]`)).makes[0]!;
    expect(whole.cloths).toMatchObject({ front: 'harbour panels', backs: 'harbour panels' });
    expect(whole.choices).toBeUndefined();
    const apart = readText(
      text(`make: [{ ${cover}, cloth: { front: group fronts, backs: [oat linen, ink chambray] } }]`),
    );
    expect(apart.makes[0]!.cloths.front).toBe('harbour panels');
    expect(apart.makes[0]!.choices).toEqual({ backs: ['oat linen', 'ink chambray'] });
  });

  it('leave backs to be chosen, which the cloth around the panels may give', () => {
    const cutPlan = plannedText(
      text(`make:
  - { name: cushions, kind: envelope-cover, count: 4, size: 17 x 17, cloth: { front: harbour panels, backs: [harbour panels, oat linen] }, panel: { front: [lighthouse, gull] } }`),
    );
    // Two of each panel take two repeats; beside them is room for all the backs, of 18 by 12 5/8.
    expect(boughtOf(cutPlan, 'harbour panels')).toBe(inches(80));
    const { choice } = cutPlan;
    expect(choice!.total).toBeLessThanOrEqual(4000 + 825);
    expect(choice!.bound).toBeGreaterThanOrEqual(4000);
    expect(choice!.lots.every(({ cloths }) => cloths.front === 'harbour panels')).toBe(true);
  });

  it('count what mounts them, and the repeats that they take', () => {
    const cutPlan = plannedText(
      text(`make:
  - { name: cushions, kind: envelope-cover, count: 3, size: 21 x 21, cloth: { front: harbour panels, backs: [oat linen, ink chambray] }, panel: { front: { name: gull, mount: strips, cloth: oat linen } } }
pieces:
  - { name: pouch, count: 8, size: 9 x 9, cloth: [harbour panels, oat linen, ink chambray] }`),
    );
    // Three gulls are three repeats, beside which there is room for every pouch.
    expect(boughtOf(cutPlan, 'harbour panels')).toBe(inches(120));
    expect(cutPlan.choice!.lots.find(({ order }) => order === 'pouch')!.cloths).toEqual({
      piece: 'harbour panels',
    });
    expect(cutPlan.pieces.filter(({ mount }) => mount?.as === 'side strip')[0]!.cloth).toBe('oat linen');
    expect(cutPlan.choice!.bound).toBeGreaterThanOrEqual(6000);
  });

  it('stay whole in a cloth that parts without a panel are cut from', () => {
    const cutPlan = plannedText(
      text('pieces: [{ name: pouch, count: 2, size: 17 x 20, cloth: [harbour panels] }]'),
    );
    expect(boughtOf(cutPlan, 'harbour panels')).toBe(inches(40));
  });

  it('are left to what needs them where the rest finds no room beside them', () => {
    // Beside a panel of 15 in on 20 in of cloth, every 20 in, no back of 18 x 12 5/8 in has room, however many repeats are bought.
    const cutPlan = plannedText(`
plan: The sail loft
unit: in
currency: $
cloths:
  narrow panels: { width: 25, selvedge: 1/2, price: 1.00 per yd, buy: yes, panels: { every: 20, areas: [{ name: gull, from edge: 5, from end: 2 1/2, size: 15 x 15 }] } }
  oat linen: { width: 57, selvedge: 5/8, price: 8.25 per yd, buy: yes }
make:
  - { name: cushions, kind: envelope-cover, count: 2, size: 17 x 17, cloth: { front: narrow panels, backs: [narrow panels, oat linen] }, panel: { front: gull } }
`);
    expect(boughtOf(cutPlan, 'narrow panels')).toBe(inches(40));
    expect(cutPlan.choice!.lots).toMatchObject([
      { count: 2, cloths: { front: 'narrow panels', backs: 'oat linen' } },
    ]);
    // What is proven is proven of all choices, of the one that could not be cut as well.
    expect(cutPlan.choice!.bound).toBeLessThan(cutPlan.choice!.total);
  });

  it('take a length that is worked by hand', () => {
    const wanted = (keys: string, count: number) => {
      const plan = readText(
        text(
          `pieces: [{ name: front, count: ${count}, size: 16 x 16, cloth: harbour panels, panel: gull }]`,
          keys,
        ),
      );
      const piece = { panel: { name: 'gull' }, copies: count };
      return leastForPanels(plan.cloths[0]!, [piece as never]) - 1;
    };
    expect(wanted('', 1)).toBe(0);
    expect(wanted('', 3)).toBe(inches(80));
    // A length of 2 1/4 yd has two: 3 to 18 in, and 43 to 58 in.
    expect(wanted('lengths: [2 1/4 yd]', 3)).toBe(0);
    expect(wanted('lengths: [2 1/4 yd]', 2)).toBe(-1);
    expect(wanted('washing: { along: 5 %, across: 0 %, washed: before-cutting }', 3)).toBe(inches(76));
  });
});

describe('panels and stacks', () => {
  const napkins = (keys: string, rule = '') => `
plan: The chart room
unit: in
${rule}
cloths:
  gull squares: { width: 40, selvedge: 1/2, buy: yes, panels: { every: 30, ${keys} areas: [{ name: gull, from edge: 3, from end: 2, size: 14 x 15 }] } }
  oat linen: { width: 40, selvedge: 1/2, buy: { step: 30 } }
make:
  - { name: napkins, kind: napkin, count: 4, size: 14 x 14, cloth: gull squares }
  - { name: plain napkins, kind: napkin, count: 4, size: 14 x 14, cloth: oat linen }
`;
  const notes = ({ issues }: CutPlan) => issues.filter(({ code }) => code === 'panels-not-stacked');

  it('are not stacked, and the plan says why', () => {
    const cutPlan = plannedText(napkins(''));
    expect(cutPlan.stacks).toEqual([]);
    expect(notes(cutPlan)).toMatchObject([
      { severity: 'note', details: { cloth: 'gull squares', other: 'oat linen' } },
    ]);
  });

  it('are stacked where they are used as plain cloth', () => {
    const cutPlan = plannedText(napkins('untaken: plain cloth,'));
    expect(cutPlan.stacks).toMatchObject([{ taken: true, layers: [{}, {}] }]);
    expect(notes(cutPlan)).toEqual([]);
  });

  it('are spoken of only where another cloth wants the same, and stacks are', () => {
    expect(notes(plannedText(napkins('', 'stacks: never')))).toEqual([]);
    expect(
      notes(
        plannedText(
          napkins('').replace('count: 4, size: 14 x 14, cloth: oat', 'count: 5, size: 14 x 14, cloth: oat'),
        ),
      ),
    ).toEqual([]);
  });
});
