import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { JoinRule } from '../../src/model/piece.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { joinOrders, wordJoin } from '../../src/planning/join-order.ts';
import { fewestParts, partExtents } from '../../src/planning/part-extents.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { planJsonSchema } from '../../src/rendering/plan-json-schema.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { TICKS_PER_CM, type Ticks, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

/** Sources stand in the file beside each value. */
const published = JSON.parse(
  readFileSync(new URL('../../fixtures/published/trade/joins.json', import.meta.url), 'utf8'),
);

const MARK = inches(1 / 8);

function rule(changes: Partial<JoinRule> = {}): JoinRule {
  return {
    ...{ by: 'seam', allowance: inches(1 / 2), lines: 'either', mostJoins: 4 },
    ...{ narrowest: inches(4), clearMiddle: false, ...changes },
  };
}

const joinable = (piece: LoosePiece, changes: Partial<JoinRule> = {}): LoosePiece => ({
  ...piece,
  join: rule(changes),
});

function proven(plan: Plan): CutPlan {
  const cutPlan = planned(plan);
  expect(checkPlan(cutPlan)).toEqual([]);
  return cutPlan;
}

const extents = (ways: readonly (readonly Ticks[])[]) =>
  ways.map((way) => way.map((part) => part / inches(1)));

describe('the lap formula n = ceil((L - o) / (w - o)) (trade practice, from memory)', () => {
  const { from_in, lap_in, pieces } = published['interfacing-overlap'].values;

  it.each(Object.entries(pieces as Record<string, number>))('%s in from 22 in', (long, parts) => {
    const [extent, widest, lap] = [Number(long), from_in, lap_in].map(inches) as [Ticks, Ticks, Ticks];
    expect(fewestParts(extent, widest, lap)).toBe(parts);
    const ways = partExtents(extent, [widest], rule({ by: 'lap', allowance: lap }), MARK);
    expect(ways[0]).toHaveLength(parts);
  });

  it.each(Object.entries(pieces as Record<string, number>))('%s in, planned', (long, parts) => {
    const fusible = clothOf({ width: inches(from_in), crease: { kind: 'none' } });
    const piece = joinable(loose('sling', Number(long), 30, 2), { by: 'lap', lines: 'upright' });
    const cutPlan = proven(planOf([fusible], [{ ...piece, grain: 'lengthwise' }]));
    expect(cutPlan.joined[0]!.columns).toHaveLength(parts);
    expect(cutPlan.joined[0]!.rows).toEqual([inches(30)]);
  });
});

describe('widths of curtains and bed covers (common practice, sources in the fixture)', () => {
  const plainSeam = { allowance: ticks(0), lines: 'upright' } as const;

  it('146.25 in from 54 in: three widths of 96 in, 8 yd', () => {
    const piece: LoosePiece = {
      ...joinable(loose('curtain', 146.25, 96, 1), plainSeam),
      grain: 'lengthwise',
    };
    const cutPlan = proven(planOf([clothOf()], [piece]));
    expect(cutPlan.joined[0]!.columns).toHaveLength(published['widths-count'].values['146.25/54']);
    expect(cutPlan.cloths[0]!.purchase!.needed).toBe(inches(published['widths-count'].values['3x96_in']));
    expect(cutPlan.cloths[0]!.purchase!.bought).toBe(inches(36 * published['widths-count'].values.yards));
  });

  it('189 in from 54 in: four widths', () => {
    const piece: LoosePiece = { ...joinable(loose('curtain', 189, 80, 1), plainSeam), grain: 'lengthwise' };
    const cutPlan = proven(planOf([clothOf()], [piece]));
    expect(cutPlan.joined[0]!.columns).toHaveLength(published['widths-count'].values['189/54']);
  });

  it('a bed cover of 3 m by 3 m from 1.35 m: three widths, 9 m', () => {
    const cm = (count: number) => ticks(count * TICKS_PER_CM);
    const cloth = clothOf({ width: cm(135), crease: { kind: 'none' }, buy: { step: cm(10) } });
    const piece: LoosePiece = {
      ...{ name: 'bed cover', count: 1, size: { width: cm(300), length: cm(300) }, cloth: cloth.name },
      ...{ grain: 'lengthwise', join: rule({ ...plainSeam, narrowest: cm(10) }) },
    };
    const plan = planOf([cloth], [piece], { unit: 'cm', rulerMark: cm(0.1) });
    const cutPlan = proven(plan);
    expect(cutPlan.joined[0]!.columns).toHaveLength(published['bedcover-widths'].values.widths);
    expect(cutPlan.cloths[0]!.purchase!.needed).toBe(cm(100 * published['bedcover-widths'].values.metres));
  });

  it('joins a whole width and the rest rather than two halves, where that takes no more', () => {
    const repeat: Cloth['repeat'] = { along: inches(8), drop: 'straight' };
    const selvedge = { left: inches(0.5), right: inches(0.5) };
    const cloth = clothOf({ width: inches(45), selvedge, direction: 'one-way', repeat });
    const drop: LoosePiece = {
      ...joinable(loose('drop', 70, 80, 2), { lines: 'upright', mostJoins: 1 }),
      match: { kind: 'drops' },
    };
    const cutPlan = proven(planOf([cloth], [loose('cover', 27, 27, 4), loose('back', 27, 18.25, 8), drop]));
    // 70 in and a seam of 1 in are 44 + 27 in; either way no second part lies beside one of 27 in.
    expect(cutPlan.joined.map(({ columns }) => columns)).toEqual([[inches(44), inches(27)]]);
    expect(cutPlan.cloths[0]!.purchase!.needed).toBe(inches(4 * 80 + 4 * 27 + 8 * 18.25));
  });

  it('offers half widths at the outer edges and whole ones in the middle', () => {
    const ways = partExtents(inches(105), [inches(36)], rule(), MARK);
    expect(extents(ways)).toContainEqual([18, 36, 36, 18]);
  });
});

describe('quilt backs, both seam directions (arithmetic of common practice)', () => {
  interface Panels {
    readonly panels: number;
    readonly inches: number;
    readonly yards_eighth: number;
  }
  interface Back {
    readonly back_in: readonly [number, number];
    readonly usable_in: number;
    readonly upright: Panels;
    readonly level: Panels;
  }
  const backs = Object.entries(published['quilt-back'].values as Record<string, Back>);
  const plannedBack = ({ back_in: [width, length], usable_in }: Back, changes: Partial<JoinRule>) => {
    const cloth = clothOf({ width: inches(usable_in), crease: { kind: 'none' } });
    const piece = joinable(loose('back', width, length, 1), { mostJoins: 2, ...changes });
    return proven(planOf([cloth], [piece]));
  };

  it.each(backs.filter(([, back]) => back.upright.panels > 1))('%s', (_, back) => {
    for (const lines of ['upright', 'level'] as const) {
      const { joined, cloths } = plannedBack(back, { lines });
      const { panels, inches: needed, yards_eighth } = back[lines];
      expect(joined[0]![lines === 'upright' ? 'columns' : 'rows']).toHaveLength(panels);
      expect(cloths[0]!.purchase!.needed).toBe(inches(needed));
      expect(cloths[0]!.purchase!.bought).toBe(inches(36 * yards_eighth));
    }
    const cheaper = plannedBack(back, { lines: 'either' });
    expect(cheaper.cloths[0]!.purchase!.needed).toBe(
      inches(Math.min(back.upright.inches, back.level.inches)),
    );
    expect(cheaper.joined[0]!.columns).toHaveLength(back.upright.panels);
  });

  it('claims of a joined piece only what its area proves', () => {
    const [, back] = backs[0]!;
    const { answer, bound } = plannedBack(back, {}).cloths[0]!;
    // 68 x 88 from 40 in: 149 3/5 in, and so 34 eighths of a yard at least; 40 are bought.
    expect(answer).toBe('found');
    expect(bound).toBe(Math.ceil(149.6 * inches(1)));
    const tight = clothOf({ width: inches(40), crease: { kind: 'none' } });
    const seamless = joinable(loose('back', 80, 90, 1), { allowance: ticks(0), lines: 'upright' });
    const proof = proven(planOf([tight], [{ ...seamless, grain: 'lengthwise' }])).cloths[0]!;
    expect([proof.answer, proof.bound]).toEqual(['best', inches(180)]);
  });

  it('a back that one width yields is not joined at all', () => {
    const [, back] = backs.find(([, own]) => own.upright.panels === 1)!;
    const { joined, cloths } = plannedBack(back, {});
    expect(joined).toEqual([]);
    expect(cloths[0]!.purchase!.needed).toBe(inches(back.upright.inches));
  });
});

describe('a rule for joins', () => {
  it('keeps joins and what they take up out of the middle', () => {
    const ways = partExtents(inches(60), [inches(36)], rule({ clearMiddle: true }), MARK);
    expect(ways.length).toBeGreaterThan(1);
    for (const way of ways) {
      let edge = 0;
      for (const part of way.slice(0, -1)) {
        edge += part - inches(1);
        expect(edge > inches(30) || edge + inches(1) < inches(30)).toBe(true);
      }
    }
    expect(extents(ways)).not.toContainEqual([30.5, 30.5]);
  });

  it('cuts no part narrower than asked, and makes no more joins than asked', () => {
    for (const way of partExtents(inches(80), [inches(38)], rule({ narrowest: inches(9) }), MARK)) {
      expect(Math.min(...way)).toBeGreaterThanOrEqual(inches(9));
    }
    expect(partExtents(inches(80), [inches(38)], rule({ mostJoins: 1 }), MARK)).toEqual([]);
  });

  it('is told when no way meets it', () => {
    const cloth = clothOf({ width: inches(30), crease: { kind: 'none' } });
    const piece = joinable(loose('screen', 70, 65, 1), { mostJoins: 1, lines: 'upright' });
    const outcome = makeCutPlan(planOf([cloth], [piece]), { effort: 2_000, seed: 1 });
    expect(outcome.ok).toBe(false);
    expect(outcome.issues).toEqual([
      expect.objectContaining({
        code: 'cannot-join',
        details: expect.objectContaining({ piece: 'screen', mostJoins: 1, lines: 'upright' }),
      }),
    ]);
  });
});

describe('joined both ways', () => {
  // No length in hand holds either side of the screen, so it takes a grid of parts.
  const ends = clothOf({
    width: inches(32),
    crease: { kind: 'none' },
    inHand: [
      {
        ...{ name: 'short end', length: inches(45), width: inches(32), copies: 4 },
        ...{ selvedge: { left: ticks(0), right: ticks(0) }, crease: { kind: 'none' } },
      },
    ],
  });
  const { buy: _, ...onlyInHand } = ends;
  const piece: LoosePiece = { ...joinable(loose('screen', 58, 76, 1)), grain: 'lengthwise' };

  it('where the cloth is too short and too narrow for the piece', () => {
    const cutPlan = proven(planOf([onlyInHand], [piece]));
    const [join] = cutPlan.joined;
    expect(join!.columns).toHaveLength(2);
    expect(join!.rows).toHaveLength(2);
    expect(join!.parts).toHaveLength(4);
    expect(joinOrders(cutPlan)[0]!.steps.map((step) => wordJoin(step, { unit: 'in' }))).toEqual([
      'Seam A1 to A2, 1/2 in from both edges, the join upright: 58 x 45 in',
      'Seam A3 to A4, 1/2 in from both edges, the join upright: 58 x 32 in',
      'Seam A1 + A2 to A3 + A4, 1/2 in from both edges, the join level: 58 x 76 in',
    ]);
  });

  it('not where one way is permitted alone', () => {
    const plan = planOf([onlyInHand], [{ ...piece, join: rule({ lines: 'upright' }) }]);
    const outcome = makeCutPlan(plan, { effort: 2_000, seed: 1 });
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map(({ code }) => code)).toEqual(['cannot-join']);
  });
});

describe('long runners from short lengths in hand', () => {
  const length = (name: string, long: number) => ({
    ...{ name, length: inches(long), width: inches(17), copies: 1 },
    ...{ selvedge: { left: ticks(0), right: ticks(0) }, crease: { kind: 'none' as const } },
  });
  const cupboard = (...lengths: ReturnType<typeof length>[]) => {
    const { buy: _, ...cloth } = clothOf({ width: inches(17), crease: { kind: 'none' }, inHand: lengths });
    return cloth;
  };
  const runner = (count: number, changes: Partial<JoinRule> = {}): LoosePiece => ({
    ...joinable(loose('runner', 15, 90, count), { lines: 'level', ...changes }),
    grain: 'lengthwise',
  });

  it('takes unequal parts where equal ones find no cloth', () => {
    const cutPlan = proven(planOf([cupboard(length('long end', 63), length('short end', 31))], [runner(1)]));
    const [join] = cutPlan.joined;
    expect([...join!.rows].sort((a, b) => a - b)).toEqual([inches(28), inches(63)]);
  });

  it('joins where one length alone could have held it, but not all copies', () => {
    const lengths = [length('whole', 92), length('half', 48), length('other half', 47)];
    expect(proven(planOf([cupboard(...lengths)], [runner(1)])).joined).toEqual([]);
    const cutPlan = proven(planOf([cupboard(...lengths)], [runner(2)]));
    expect(cutPlan.joined[0]!.piece.copies).toBe(2);
  });

  it('are joined each its own way where no one way serves all copies', () => {
    const lengths = [
      length('long end', 63),
      length('half', 50),
      length('other half', 45),
      length('short end', 31),
    ];
    const cutPlan = proven(planOf([cupboard(...lengths)], [runner(2)]));
    expect(cutPlan.joined.map(({ copies }) => copies)).toEqual([1, 1]);
    expect(cutPlan.joined.flatMap(({ rows }) => rows)).toHaveLength(4);
    expect(new Set(cutPlan.pieces.map(({ letter }) => letter))).toEqual(new Set(['A1', 'A2', 'A3', 'A4']));
    expect(summaryText(cutPlan)).toContain('Seam A3 to A4');
  });

  it('says so in the summary and in plan.json', () => {
    const cutPlan = proven(planOf([cupboard(length('long end', 63), length('short end', 31))], [runner(1)]));
    expect(summaryText(cutPlan)).toContain(
      'Seam A1 to A2, 1/2 in from both edges, the join level: 15 x 90 in',
    );
    const [joined] = planJsonSchema.parse(planJson(cutPlan)).joined;
    expect(joined!.steps).toHaveLength(1);
    expect(joined!.rows.map(({ shown }) => shown)).toEqual(['63 in', '28 in']);
  });
});
