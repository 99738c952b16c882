import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../src/check/check-plan.ts';
import { walk } from '../../../src/geometry/walk.ts';
import type { CutPlan } from '../../../src/model/cut-plan.ts';
import type { Plan } from '../../../src/model/plan.ts';
import { refit } from '../../../src/planning/mat/refit.ts';
import { makeCutPlan } from '../../../src/planning/plan.ts';
import { offerWords } from '../../../src/rendering/refit-words.ts';
import { plannedText, readText } from '../../support/planned-text.ts';

const text = (cloth: string, fronts: number) => `
plan: The net loft
unit: cm
ruler: 1 mm
cloths:
  gull squares: { width: 100, selvedge: 1, direction: one-way, price: 20.00 per m, ${cloth} }
pieces:
  - { name: front, count: ${fronts}, size: 44 x 44, cloth: gull squares, panel: gull }
`;

const areas = '[{ name: gull, from edge: 10, from end: 5, size: 40 x 40 }]';
const anywhere = `buy: yes, panels: { every: 60, sold: anywhere, areas: ${areas} }`;
const washed = 'washing: { along: 4 %, across: 2 %, washed: before-cutting }';

/** Near left corners of the pieces in cm, in the order of the length. */
function corners(cutPlan: CutPlan): readonly (readonly [number, number])[] {
  return cutPlan.cloths[0]!.lengths.flatMap(({ tree, width, length }) => walk(tree, width, length).leaves)
    .flatMap(({ leaf, box }) => (leaf.kind === 'piece' ? [[box.x0 / 3200, box.y0 / 3200] as const] : []))
    .sort((a, b) => a[1] - b[1]);
}

function expectCorners(
  found: readonly (readonly [number, number])[],
  wanted: readonly (readonly [number, number])[],
) {
  expect(found).toHaveLength(wanted.length);
  for (const [index, [x, y]] of wanted.entries()) {
    expect(found[index]![0]).toBeCloseTo(x, 2);
    expect(found[index]![1]).toBeCloseTo(y, 2);
  }
}

describe('cloth with panels that was measured', () => {
  it('has them where they were seen to begin, and keeps no repeat in reserve', () => {
    const cutPlan = plannedText(
      text(`${anywhere}, measured: { width: 100, length: 130, panels begin: 13.4 }`, 2),
    );
    // 10 − 2 across; 13.4 + 5 − 2 along, the next 60 on.
    expectCorners(corners(cutPlan), [
      [8, 16.4],
      [8, 76.4],
    ]);
    expect(cutPlan.cloths[0]!.purchase).toBeUndefined();
  });

  it('has them as far apart as it really shrank', () => {
    const measured = 'measured: { width: 98, length: 184, before: 2 m, panels begin: 9.2 }';
    const cutPlan = plannedText(text(`${anywhere}, ${washed}, ${measured}`, 3));
    // Found is a loss of 8 % along; across the 2 % reckoned with. Centres 30 × 0.98 across; 9.2 + 25 × 0.92 along, 55.2 on.
    expectCorners(corners(cutPlan), [
      [29.4 - 22, 9.2 + 23 - 22],
      [29.4 - 22, 9.2 + 23 + 55.2 - 22],
      [29.4 - 22, 9.2 + 23 + 110.4 - 22],
    ]);
  });

  it('has them as they were measured themselves, whatever was reckoned with', () => {
    const own = 'panels: [{ name: gull, from edge: 30.3, from end: 20.7, size: 38.2 x 36.4 }]';
    const cutPlan = plannedText(
      text(`${anywhere}, ${washed}, measured: { width: 97, length: 90, ${own} }`, 1),
    );
    expectCorners(corners(cutPlan), [[30.3 + 19.1 - 22, 20.7 + 18.2 - 22]]);
  });

  it('washes forward those of a length that was in hand unwashed', () => {
    const lengths = `lengths: [{ name: chart, length: 100, panels: ${areas} }]`;
    const cutPlan = plannedText(
      text(`${washed}, ${lengths}, measured: { of: chart, width: 98, length: 96 }`, 1),
    );
    expectCorners(corners(cutPlan), [[29.4 - 22, 25 * 0.96 - 22]]);
  });

  it('is offered what would save it where too few panels are left', () => {
    const plan = readText(text(`${anywhere}, measured: { width: 100, length: 130, panels begin: 13.4 }`, 3));
    const make = (asked: Plan) => {
      const outcome = makeCutPlan(asked, { effort: 3_000, seed: 2 });
      return outcome.ok && checkPlan(outcome.value).length > 0 ? { ok: false as const, issues: [] } : outcome;
    };
    const found = refit(plan, { effort: 3_000, seed: 2, make });
    expect(found.ok).toBe(true);
    if (!found.ok) return;
    expect(found.value.short).toEqual(['gull squares']);
    const drop = found.value.offers.find(({ kind }) => kind === 'drop');
    expect(drop?.dropped).toBe(1);
    const buy = found.value.offers.find(({ kind }) => kind === 'buy');
    expect(buy?.bought).toHaveLength(1);
    expect(offerWords(buy!, plan)).toMatch(
      /more of gull squares \(may be cut anywhere: a whole repeat of 60 cm/,
    );
  });
});
