import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { Plan } from '../../src/model/plan.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { planJsonSchema } from '../../src/rendering/plan-json-schema.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { coverPlan, covers, gulls } from '../support/opening-plan.ts';
import { inches, planned } from './build.ts';

function proven(plan: Plan): CutPlan {
  const cutPlan = planned(plan);
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan;
}

const boughtOf = ({ cloths }: CutPlan) => cloths.find(({ cloth }) => cloth === gulls.name)!.purchase!.needed;

describe('covers that may close either way', () => {
  it('close upright where that takes less of a one-way print', () => {
    // Four backs lie side by side upright (4 x 13 1/2 = 54 wide, 19 long) and two and two level (2 x 13 1/2 long).
    const level = proven(coverPlan(covers(2, { opening: 'level' })));
    const chosen = proven(coverPlan(covers(2)));
    expect(boughtOf(level)).toBe(inches(27));
    expect(boughtOf(chosen)).toBe(inches(19));
    expect(chosen.makes[0]!.openings).toEqual({ level: 0, upright: 2 });
    expect(level.makes[0]!.openings).toBeUndefined();
  });

  it('are not called proven best for one way to close alone', () => {
    const { answer, bound } = proven(coverPlan(covers(2))).cloths[1]!;
    // Four backs of 19 x 13 1/2 have the area of 19 in of the cloth, whichever way they stand.
    expect([answer, bound]).toEqual(['best', inches(19)]);
    const three = proven(coverPlan(covers(3))).cloths[1]!;
    expect([three.answer, three.bound]).toEqual(['found', inches(28.5)]);
  });

  it('close level where nothing tells the two apart', () => {
    const plain = proven(coverPlan(covers(2), { ...gulls, direction: 'plain' }));
    expect(plain.makes[0]!.openings).toEqual({ level: 2, upright: 0 });
  });

  it('close each its own way where that takes least, and one way where the set must', () => {
    const together = proven(coverPlan(covers(3)));
    const each = proven(coverPlan(covers(3, { 'opening choice': 'each cover' })));
    expect(boughtOf(together)).toBe(inches(38));
    // Four upright backs in one row of 19, two level ones in one of 13 1/2.
    expect(boughtOf(each)).toBe(inches(32.5));
    expect(each.makes[0]!.openings).toEqual({ level: 1, upright: 2 });
    const copies = each.pieces.map(({ name, copies }) => [name, copies]);
    expect(copies).toEqual([
      ['front', 3],
      ['outer back, level', 1],
      ['inner back, level', 1],
      ['outer back, upright', 2],
      ['inner back, upright', 2],
    ]);
  });

  it('keep a one-way print upright on the front and on every back', () => {
    for (const choice of ['whole set', 'each cover']) {
      const cutPlan = proven(coverPlan(covers(3, { 'opening choice': choice })));
      const lengths = cutPlan.cloths.find(({ cloth }) => cloth === gulls.name)!.lengths;
      for (const { tree, width, length } of lengths) {
        for (const { leaf } of walk(tree, width, length).leaves) {
          if (leaf.kind === 'piece') expect(leaf.quarterTurns).toBe(0);
        }
      }
    }
  });

  it('do not stand a wrapped strip upside down on a cloth with an up', () => {
    const measures = { size: { width: inches(16), length: inches(16) } };
    const strip = proven(coverPlan(covers(2, measures, 'wrap-cover')));
    expect(strip.makes[0]!.openings).toEqual({ level: 0, upright: 2 });
    expect(strip.issues.map(({ code }) => code)).not.toContain('part-upside-down');
    const level = proven(coverPlan(covers(2, { ...measures, opening: 'level' }, 'wrap-cover')));
    expect(level.issues.map(({ code }) => code)).toContain('part-upside-down');
  });

  it('are told of in the summary, the assembly and plan.json', () => {
    const cutPlan = proven(coverPlan(covers(3, { 'opening choice': 'each cover' })));
    expect(summaryText(cutPlan)).toContain('attic covers  1 closes level, 2 close upright');
    expect(cutPlan.makes[0]!.assembly[0]).toContain('1 closes level and 2 close upright');
    expect(
      cutPlan.makes[0]!.assembly.filter((line) => line.startsWith('Those that close upright')),
    ).toHaveLength(2);
    const json = planJsonSchema.parse(planJson(cutPlan));
    expect(json.makes[0]!.openings).toEqual({ level: 1, upright: 2 });
    expect(json.pieces.map(({ opening }) => opening)).toEqual([
      undefined,
      ...['level', 'level', 'upright', 'upright'],
    ]);
  });
});
