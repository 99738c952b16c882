import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../src/check/check-plan.ts';
import type { Plan } from '../../../src/model/plan.ts';
import type { MayShrink } from '../../../src/planning/mat/givings.ts';
import { type Offer, type Refit, refit } from '../../../src/planning/mat/refit.ts';
import type { OfferKind } from '../../../src/planning/mat/remedies.ts';
import { makeCutPlan } from '../../../src/planning/plan.ts';
import { TICKS_PER_INCH, TICKS_PER_YARD } from '../../../src/units/ticks.ts';
import { measuredText, planFrom } from '../../support/measured-plan.ts';
import { inches } from '../build.ts';

const pieces = (...lines: string[]) =>
  ['pieces:', ...lines.map((line) => `  - { ${line}, cloth: sail grey }`)].join('\n');

function refitted(plan: Plan, may: readonly MayShrink[] = [], effort = 40_000): Refit {
  const outcome = refit(plan, { effort, seed: 3, may, make: (own) => makeCutPlan(own, { effort, seed: 3 }) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const { asItIs, offers } = outcome.value;
  for (const cutPlan of [...(asItIs ? [asItIs] : []), ...offers.map((offer) => offer.cutPlan)])
    expect(checkPlan(cutPlan)).toEqual([]);
  return outcome.value;
}

function offerOf({ offers }: Refit, kind: OfferKind): Offer {
  const offer = offers.find((own) => own.kind === kind);
  if (!offer) throw new Error(`no ${kind} among ${offers.map((own) => own.kind).join()}`);
  return offer;
}

describe('cloth that still holds everything', () => {
  it('is planned as it was measured, and nothing is bought', () => {
    const { asItIs, offers } = refitted(
      planFrom(measuredText('{ width: 40, length: 30 }', pieces('name: square, count: 12, size: 10 x 10'))),
    );
    expect(offers).toEqual([]);
    const [cloth] = asItIs!.cloths;
    expect(cloth!.purchase).toBeUndefined();
    expect(cloth!.lengths.map(({ name, source, width, length }) => [name, source, width, length])).toEqual([
      ['washed length', 'in-hand', inches(40), inches(30)],
    ]);
  });
});

describe('cloth that holds it no longer, by hand', () => {
  // 40 x 30 in holds 4 across by 3 along of a 10 in square, and not one more: 14 ask for 2 fewer.
  const wanted = pieces('name: square, count: 14, size: 10 x 10');
  const short = planFrom(measuredText('{ width: 40, length: 30 }', wanted));

  it('leaves out no more than it must', () => {
    const offer = offerOf(refitted(short), 'drop');
    expect([offer.dropped, offer.proven, offer.cost]).toEqual([2, true, 0]);
    expect(offer.changes).toEqual([{ kind: 'count', of: { list: 'pieces', index: 0 }, count: 12 }]);
  });

  it('buys the two more in one row of 10 in: 18 in by the quarter yard, half a yard, $6', () => {
    const offer = offerOf(refitted(short), 'buy');
    expect(offer.bought).toEqual([{ cloth: 'sail grey', length: TICKS_PER_YARD / 2 }]);
    expect([offer.cost, offer.proven]).toEqual([600, true]);
  });

  it('makes them as large as 14 will go: 5 across by 3 along of 8 in; 8 1/8 in gives only 4 by 3', () => {
    const offer = offerOf(refitted(short, [{ name: 'square', most: inches(3) }]), 'shrink');
    const size = { width: inches(8), length: inches(8) };
    expect(offer.changes).toEqual([
      { kind: 'measure', of: { list: 'pieces', index: 0 }, measure: 'size', value: size },
    ]);
    expect(offer.proven).toBe(true);
  });

  it('makes nothing smaller than it may be: an eighth, unless more is said', () => {
    const { none } = refitted(short);
    expect(none).toContain('shrink');
  });

  it('shrinks what may give on one side only where that loses less', () => {
    // 3 of 13 x 20 lie across 40 in; of 39 in of width they must be one mark less... on one side.
    const narrow = planFrom(
      measuredText(
        '{ width: 38 3/4, length: 20 }',
        pieces('name: panel, count: 3, size: 13 x 20, grain: lengthwise'),
      ),
    );
    const offer = offerOf(refitted(narrow), 'shrink');
    // 38 3/4 / 3 = 12 11/12, down to the mark of 1/8: 12 7/8.
    const value = { width: inches(12.875), length: inches(20) };
    expect(offer.changes).toEqual([
      { kind: 'measure', of: { list: 'pieces', index: 0 }, measure: 'size', value },
    ]);
    expect(offer.proven).toBe(true);
  });

  it('lets one panel be joined where it is too long for what is left', () => {
    const long = planFrom(
      measuredText(
        '{ width: 40, length: 30 }',
        pieces('name: runner, count: 1, size: 14 x 36, grain: lengthwise'),
      ),
    );
    const offer = offerOf(refitted(long), 'join');
    expect([offer.joins, offer.cost, offer.lost]).toEqual([1, 0, 0]);
    expect(offer.cutPlan.joined).toHaveLength(1);
  });

  it('tells every way to leave out as few', () => {
    const two = planFrom(
      measuredText(
        '{ width: 40, length: 30 }',
        pieces('name: square, count: 7, size: 10 x 10', 'name: mat, count: 6, size: 10 x 10'),
      ),
    );
    const offer = offerOf(refitted(two), 'drop');
    expect([offer.dropped, offer.parts[0]!.ties.length]).toEqual([1, 1]);
  });

  it('offers what costs nothing first', () => {
    const { offers } = refitted(short, [{ name: 'square', most: inches(3) }]);
    expect(offers.map(({ kind }) => kind)).toEqual(
      ['join', 'shrink', 'drop', 'buy'].filter((kind) => offers.some((own) => own.kind === kind)),
    );
    const costs = offers.map(({ cost }) => cost!);
    expect([...costs].sort((a, b) => a - b)).toEqual(costs);
  });
});

describe('a fat quarter that was measured', () => {
  // Squares from a fat quarter, 18 x 22 in: counts read in three quilting pages that agree (hobby sources; common practice).
  it.each([
    [2, 99],
    [2.5, 56],
    [3.5, 30],
    [4.5, 16],
    [5, 12],
    [6.5, 6],
  ])('of %f in squares holds what the tables say, so one more than that is left out', (side, holds) => {
    const plan = planFrom(
      measuredText(
        '{ width: 22, length: 18 }',
        pieces(`name: square, count: ${holds + 1}, size: ${side} x ${side}`),
      ).replace('width: 40', 'width: 22'),
    );
    const offer = offerOf(refitted(plan), 'drop');
    expect([offer.dropped, offer.proven]).toEqual([1, true]);
  });
});

describe('whole things to sew', () => {
  const make = `make:
  - { name: bench covers, kind: envelope-cover, count: 3, size: 17 x 17, lap: 4, cloth: sail grey }
  - { name: napkins, kind: napkin, count: 4, size: 15 x 15, cloth: sail grey }`;

  it('are left out whole: of what is kept, every part is cut', () => {
    const plan = planFrom(measuredText('{ width: 40, length: 84 }', make));
    const offer = offerOf(refitted(plan), 'drop');
    const { plan: rest, pieces: cut } = offer.cutPlan;
    const counts = new Map(rest.makes.map(({ name, count }) => [name, count]));
    for (const piece of cut) expect(piece.copies % counts.get(piece.order)!).toBe(0);
    const kept = [...counts.values()].reduce((sum, count) => sum + count, 0);
    expect(kept + offer.dropped).toBe(7);
  });

  it('never do worse on more cloth, and never fit on less', () => {
    let before: { dropped: number; bought: number } | undefined;
    for (let length = 60; length <= 132; length += 12) {
      const found = refitted(planFrom(measuredText(`{ width: 40, length: ${length} }`, make)), [], 20_000);
      const dropped = found.asItIs ? 0 : offerOf(found, 'drop').dropped;
      const bought = found.asItIs ? 0 : offerOf(found, 'buy').bought[0]!.length / TICKS_PER_INCH;
      if (before) {
        expect(dropped, `${length} in`).toBeLessThanOrEqual(before.dropped);
        expect(bought, `${length} in`).toBeLessThanOrEqual(before.bought);
      } else expect(dropped).toBeGreaterThan(0);
      before = { dropped, bought };
    }
    expect(before).toEqual({ dropped: 0, bought: 0 });
  });
});
