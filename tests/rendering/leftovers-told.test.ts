import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leftoverWords } from '../../src/cli/cupboard/leftover-words.ts';
import type { Cupboard } from '../../src/model/cupboard.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { clothFigures } from '../../src/planning/figures.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { leftoversOf } from '../../src/planning/put-back.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { formatSize } from '../../src/units/format.ts';
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { mixedPlan } from '../support/mixed-plan.ts';
import { randomPlan } from '../support/random-plan.ts';

/** The sizes of what is kept of each cloth, as every place tells them. */
function told(cutPlan: CutPlan) {
  const { unit } = cutPlan.plan;
  const json = planJson(cutPlan);
  return cutPlan.cloths.map((own, index) => {
    const figures = clothFigures(cutPlan, own).remnants.map((size) => formatSize(size, { unit }));
    const written = json.cloths[index]!.lengths.flatMap(({ leftovers }) =>
      leftovers.flatMap(({ kind, shown }) => (kind === 'remnant' ? [shown] : [])),
    );
    const drawn = drawMarker(cutPlan, own.cloth).lengths.flatMap(({ leftovers }) =>
      leftovers.flatMap(({ size }) => (size ? [formatSize(size, { unit })] : [])),
    );
    const flat = own.lengths.every(({ lay }) => lay.kind === 'flat');
    return { summary: [...figures].sort(), json: written.sort(), marker: drawn.sort(), flat };
  });
}

describe('what is left to keep', () => {
  const keepOff = { kind: 'keep-off', each: inches(1) } as const;
  const cloth = clothOf({
    ...{ width: inches(46), selvedge: { left: inches(0.5), right: inches(0.75) }, crease: keepOff },
    ...{ squaring: inches(0.25), buy: { step: inches(36) } },
  });

  it('is told alike in the summary, in plan.json and on the marker: chance plans', () => {
    let kept = 0;
    for (const plan of fc.sample(randomPlan(), { numRuns: 60, seed: 9_041 })) {
      const outcome = makeCutPlan(plan, { effort: 300, seed: 5 });
      if (!outcome.ok) continue;
      for (const { summary, json, marker, flat } of told(outcome.value)) {
        expect(json, JSON.stringify(plan)).toEqual(summary);
        if (flat) expect(marker, JSON.stringify(plan)).toEqual(summary);
        kept += summary.length;
      }
    }
    expect(kept).toBeGreaterThan(20);
  });

  it('is told so too where it is kept for the panel on it, however small: mixed plans', () => {
    let forPanels = 0;
    for (let seed = 811_000; seed <= 811_120; seed += 3) {
      const outcome = makeCutPlan(mixedPlan(seed), { effort: 150, seed: 5 });
      if (!outcome.ok) continue;
      const { plan, cloths } = outcome.value;
      for (const { summary, json } of told(outcome.value)) expect(json, `seed ${seed}`).toEqual(summary);
      forPanels += cloths
        .flatMap((own) => {
          const cloth = plan.cloths.find(({ name }) => name === own.cloth)!;
          return own.lengths.flatMap((length) => leftoversOf(cloth, length, plan.keep));
        })
        .filter((left) => left.forItsPanel).length;
    }
    expect(forPanels).toBeGreaterThan(0);
  });

  it('is one cloth over a crease that is kept off, which is put back with its place', () => {
    // One panel of 20 x 31 in on a yard, after 1/2 in of selvedge: 24 3/4 in are left beside it, the crease 2 1/2 in from the panel.
    const cutPlan = planned({
      ...planOf([cloth], [loose('panel', 20, 31, 1)]),
      cupboard: { name: 'cupboard', cutBefore: 0 },
    });
    expect(told(cutPlan)).toMatchObject([{ summary: ['24 3/4 x 31 in'], json: ['24 3/4 x 31 in'] }]);
    expect(summaryText(cutPlan)).toMatch(
      /1: 24 3\/4 x 31 in;\s+selvedges\s+left\s+on\s+not\s+counted;\s+a\s+crease/,
    );
    const [back] = planJson(cutPlan).cupboard!.putBack;
    expect(back!.crease).toMatchObject({ kind: 'keep-off', at: { ticks: inches(2.5) } });
    const cupboard = { unit: 'in' } as Cupboard;
    const written = (leftover: typeof back) =>
      leftoverWords(leftover!, {
        name: 'rest',
        on: '2026-04-17',
        cupboard,
        source: undefined,
        worth: undefined,
      });
    expect(written(back).crease).toBe('keep off 1 at 2 1/2');
    // Written a little to the left, it is kept off as much wider.
    const odd = {
      kind: 'keep-off' as const,
      each: { ticks: inches(1), shown: '' },
      at: { ticks: inches(2.5) + 3, shown: '' },
    };
    expect(written({ ...back!, crease: odd }).crease).toBe('keep off 1 1/64 at 2 1/2');
  });
});
