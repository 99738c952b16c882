import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { ticks } from '../../src/units/ticks.ts';
import { inches } from '../support/plan-parts.ts';
import { plannedText } from '../support/planned-text.ts';

interface Keys {
  readonly panels?: string;
  readonly cloth?: string;
  readonly pieces?: string;
}

const badges = '- { name: badge, count: 6, size: 7 x 9, cloth: gull squares, match: centre }';

/** A print that repeats 10 in along and 8 in across beside a panel that comes every 40 in. */
const planOn = ({ panels = 'first motif: 4,', cloth = 'buy: yes', pieces = badges }: Keys = {}) =>
  plannedText(`
plan: The parlour chest
unit: in
cloths:
  gull squares:
    width: 56
    selvedge: 1/2
    direction: one-way
    repeat: { along: 10, across: 8, from edge: 5 }
    panels: { every: 40, ${panels} areas: [{ name: gull, from edge: 3, from end: 3, size: 14 x 16 }] }
    ${cloth}
pieces:
  - { name: front, count: 2, size: 17 x 18, cloth: gull squares, panel: gull }
  ${pieces}
`);

/** Centres in inches. */
function centres({ cloths }: CutPlan, name: string) {
  return cloths[0]!.lengths.flatMap(({ tree, width, length }) =>
    walk(tree, width, length).leaves.flatMap(({ leaf, box }) =>
      leaf.kind === 'piece' && leaf.piece === name
        ? [[(box.x0 + box.x1) / 16256, (box.y0 + box.y1) / 16256] as const]
        : [],
    ),
  );
}

describe('pieces matched beside panels on cloth that is bought', () => {
  it('have their motif where it lies beside the panels, and no repeat in reserve', () => {
    const cutPlan = planOn();
    const found = centres(cutPlan, 'badge');
    expect(found).toHaveLength(6);
    for (const [x, y] of found) {
      expect((x - 5) % 8).toBe(0);
      expect((y - 4) % 10).toBe(0);
    }
    expect(
      centres(cutPlan, 'front')
        .map(([, y]) => y)
        .sort((a, b) => a - b),
    ).toEqual([11, 51]);
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(80));
    expect(summaryText(cutPlan)).not.toContain('square the end where the first piece finds');
  });

  it('are begun with the panels where the shop cuts anywhere: the one reserve serves both', () => {
    const cutPlan = planOn({ panels: 'first motif: 4, sold: anywhere,' });
    for (const [, y] of centres(cutPlan, 'badge')) expect((y - 4) % 10).toBe(0);
    const { needed } = cutPlan.cloths[0]!.purchase!;
    // The second front ends 60 in from where the first repeat begins; no plan holds both in less.
    expect(needed).toBeGreaterThanOrEqual(inches(100));
    expect(needed).toBeLessThan(inches(110));
  });

  it('find it on a length in hand by where its panels begin', () => {
    const cutPlan = planOn({ cloth: 'lengths: [{ length: 95, panels begin: 7 }]' });
    for (const [, y] of centres(cutPlan, 'badge')) expect((y - 11) % 10).toBe(0);
  });

  it('may be alike on one length although no motif is known', () => {
    const drops = '- { name: drop, count: 3, size: 6 x 12, cloth: gull squares, match: alike }';
    const found = centres(planOn({ panels: '', pieces: drops }), 'drop');
    expect(found).toHaveLength(3);
    for (const [x, y] of found) {
      expect((x - found[0]![0]) % 8).toBe(0);
      expect((y - found[0]![1]) % 10).toBe(0);
    }
  });

  it.each([
    [{ panels: '' }, 'write first motif: under panels'],
    [
      {
        panels: '',
        cloth: 'buy: { longest: 50 }',
        pieces: '- { name: drop, count: 3, size: 6 x 12, cloth: gull squares, match: alike }',
      },
      'first motif: under panels',
    ],
    [
      {
        cloth:
          'lengths: [{ name: one, length: 95, panels begin: 7 }, { name: two, length: 95, panels begin: 3 }]',
      },
      'begin at different places of its print',
    ],
    [{ panels: 'first motif: 4,', cloth: 'buy: yes\n    repeat: { along: 12 }' }, 'second time'],
  ] as const)('are refused where nothing is certain: %o', (keys, words) => {
    expect(() => planOn(keys)).toThrow(words);
  });

  it('are held to their place by the checker, to the tick', () => {
    const cutPlan = planOn();
    const cloth = cutPlan.plan.cloths[0]!;
    const moved = {
      ...cloth,
      panels: { ...cloth.panels!, firstMotif: ticks(cloth.panels!.firstMotif! + 1) },
    };
    const other = { ...cutPlan, plan: { ...cutPlan.plan, cloths: [moved] } };
    expect(checkPlan(other).map(({ code }) => code)).toContain('match-missed');
    const unknown = { ...cloth, panels: { ...cloth.panels!, firstMotif: undefined } };
    const bare = { ...cutPlan, plan: { ...cutPlan.plan, cloths: [unknown as unknown as typeof cloth] } };
    // Without the motif's place a repeat of the print would have to be in reserve.
    expect(checkPlan(bare).length).toBeGreaterThan(0);
  });
});
