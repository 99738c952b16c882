import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { LoosePiece } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, planOf } from './build.ts';

/** Invented home-sized lays whose best lengths were found by exhaustive dynamic programming; see the file's `source`. */
interface HomeLays {
  readonly instances: readonly {
    readonly name: string;
    /** In quarter inches, like all of it. */
    readonly stock: { readonly width: number; readonly foldedWidth: number };
    readonly items: readonly {
      readonly w: number;
      readonly h: number;
      readonly copies: number;
      readonly rotate: boolean;
    }[];
    readonly known: Readonly<Record<'flat' | 'folded_only', { readonly best: number | null }>>;
  }[];
}

type Instance = HomeLays['instances'][number];

const file = new URL('../../fixtures/cases/shortest-home-lays/home-lays.json', import.meta.url);
const { instances } = JSON.parse(readFileSync(file, 'utf8')) as HomeLays;
const QUARTER = inches(1 / 4);
const OPTIONS = { effort: 100_000, seed: 1 };

/** A shop that sells by the quarter inch, so that what is bought is the length itself. */
function planFor({ stock, items }: Instance, lay: Cloth['lay']) {
  const half = (stock.width / 2 - stock.foldedWidth) * QUARTER;
  const cloth = clothOf({
    width: ticks(stock.width * QUARTER),
    // Folded, the strip along the fold that the narrower width leaves is kept off, and no piece lies across the fold.
    crease: lay === 'folded' ? { kind: 'keep-off', each: ticks(half) } : { kind: 'none' },
    buy: { step: QUARTER },
    lay,
  });
  const pieces = items.map(
    ({ w, h, copies, rotate }, index): LoosePiece => ({
      ...{ name: `piece ${index + 1}`, count: copies, cloth: cloth.name },
      size: { width: ticks(w * QUARTER), length: ticks(h * QUARTER) },
      grain: rotate ? 'either' : 'lengthwise',
    }),
  );
  return planOf([cloth], pieces, { rulerMark: QUARTER });
}

describe('home lays through the planner', () => {
  it('are all there, most of them with a folded answer', () => {
    expect(instances).toHaveLength(72);
    const folded = instances.filter(({ known }) => known.folded_only.best !== null);
    expect([folded.length, instances.length - folded.length]).toEqual([55, 17]);
  });

  it.each(['flat', 'folded'] as const)(
    '%s: the best length, bought and checked, all but one proven',
    (lay) => {
      const told = instances.map((instance) => {
        const { best } = instance.known[lay === 'flat' ? 'flat' : 'folded_only'];
        const outcome = makeCutPlan(planFor(instance, lay), OPTIONS);
        if (!outcome.ok) return [instance.name, best, null];
        expect(checkPlan(outcome.value), instance.name).toEqual([]);
        const [found] = outcome.value.cloths;
        return [instance.name, best, found!.purchase!.bought / QUARTER, found!.answer];
      });
      expect(told.map(([name, , bought]) => [name, bought])).toEqual(
        told.map(([name, best]) => [name, best]),
      );
      // The largest, of 26 pieces, takes more effort to prove than a test has.
      const unproven = told.filter(([, , , answer]) => answer === 'found').map(([name]) => name);
      expect(unproven.filter((name) => name !== 'home-101')).toEqual([]);
    },
  );
});
