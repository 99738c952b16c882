import { describe, expect, it } from 'vitest';
import published from '../../fixtures/published/trade/buying.json' with { type: 'json' };
import { expandMakes } from '../../src/makes/expand.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { LoosePiece } from '../../src/model/plan.ts';
import { mostFromSheet } from '../../src/packing/pack.ts';
import { compareBuys } from '../../src/planning/compare-buys.ts';
import { compareWholePlan } from '../../src/planning/compare-whole.ts';
import { wantedOf } from '../../src/planning/named-set.ts';
import { buyFor } from '../../src/planning/purchase.ts';
import { TICKS_PER_CM, type Ticks, ticks } from '../../src/units/ticks.ts';
import { clothOf, inches, loose, planned, planOf } from './build.ts';

const PACK = { effort: 10_000, seed: 2 };
const YARD = inches(36);
const cm = (count: number): Ticks => ticks(Math.round(count * TICKS_PER_CM));

/** Copies of a size, an inch pair, on one length; the count and the most that is not proven impossible. */
function setsOn(piece: LoosePiece, width: number, length: number) {
  const cloth = clothOf({ width: inches(width), buy: { step: ticks(1) } });
  const plan = planOf([cloth], [piece], { rulerMark: inches(1 / 8) });
  const options = { pack: PACK, lengths: [inches(length)] };
  const [buy] = compareBuys(plan, cloth, expandMakes(plan).pieces, options)!.buys;
  return [buy!.sets, buy!.setsAtMost];
}

/** What a plan buys of its cloth, by the plan itself and by the ladder of buys. */
function bought(
  cloth: Partial<Cloth>,
  pieces: readonly LoosePiece[],
  unit: 'in' | 'cm' = 'in',
): readonly Ticks[] {
  const mark = unit === 'in' ? inches(1 / 8) : cm(0.1);
  const plan = planOf([clothOf(cloth)], pieces, { unit, rulerMark: mark });
  const cut = planned(plan, 20_000);
  const whole = compareWholePlan(cut, wantedOf(plan), { pack: PACK })!;
  return [cut.cloths[0]!.purchase!.bought, whole.buys[0]!.lengths[0]!.buy.bought];
}

const tableOf = (count: Readonly<Record<string, number>>) =>
  Object.entries(count).map(([side, many]) => [Number(side), many] as const);

describe('squares from a length, against published tables', () => {
  // fixtures/published/trade/buying.json, yard-44-squares: a quilting reference page of 2002 (hobby source; common practice).
  const yard = tableOf(published['yard-44-squares'].values.count);
  it.each(yard.filter(([, many]) => many < 200))('%f in, cut from a yard of 44 in: %i', (side, many) => {
    expect(many).toBe(Math.floor(44 / side) * Math.floor(36 / side));
    expect(setsOn(loose('square', side, side, 1), 44, 36)).toEqual([many, many]);
  });

  // Hundreds of sets are asked of the engine at once, in the place of one more at a time.
  it.each(yard.filter(([, many]) => many >= 200))(
    '%f in, from a yard of 44 in, at once: %i',
    (side, many) => {
      const kind = { width: inches(side), length: inches(side), copies: 2000, quarterTurn: false, value: 1 };
      const result = mostFromSheet({ sheet: { width: inches(44), length: YARD }, kinds: [kind] }, PACK);
      expect(result).toMatchObject({ status: 'best', value: many });
    },
  );

  it('puts right the one entry that is printed wrong', () => {
    const { printed_error: wrong } = published['yard-44-squares'].values;
    expect(setsOn(loose('square', 7, 7, 1), 44, 36)).toEqual([wrong.correct, wrong.correct]);
    expect(wrong['7']).not.toBe(wrong.correct);
  });

  // fat-quarter-squares: three quilting pages that agree (hobby sources; common practice).
  it.each(tableOf(published['fat-quarter-squares'].values.count))(
    '%f in from a fat quarter: %i',
    (side, many) => {
      expect(setsOn(loose('square', side, side, 1), 22, 18)).toEqual([many, many]);
    },
  );

  // wof-strips: strips across the width from an exact yard; floor(36 / s).
  it.each(tableOf(published['wof-strips'].values.exact))(
    'strips of %f in across the width: %i',
    (depth, many) => {
      const strip = { ...loose('strip', 44, depth, 1), grain: 'lengthwise' } as const;
      expect(setsOn(strip, 44, 36)).toEqual([many, many]);
    },
  );

  // napkin-yard-check: three home-sewing pages (common practice).
  it.each(tableOf(published['napkin-yard-check'].values))(
    'napkins of %f in from a yard of 45 in: %i',
    (side, many) => {
      expect(setsOn(loose('napkin', side, side, 1), 45, 36)).toEqual([many, many]);
    },
  );
});

describe('yardages through the buying path', () => {
  // napkin-yardage-derived: cut = finished + 2 × hem; rows × cut, up to 1/8 yd. Common practice, no published source.
  const napkins = published['napkin-yardage-derived'].values;
  it.each([
    ['18in finished, 1/2in hem all round, 44in usable, 4', 19, 44, 4],
    ['same, 6', 19, 44, 6],
    ['same, 12', 19, 44, 12],
    ['same, 60in usable, 12', 19, 60, 12],
    ['16in finished, 1/4in hem all round, 44in, 4', 16.5, 44, 4],
    ['20in finished, 1/2in hem, 44in, 6', 21, 44, 6],
  ] as const)('napkins, %s', (name, side, width, many) => {
    const yards = napkins[name].yards_eighth;
    expect(bought({ width: inches(width) }, [loose('napkin', side, side, many)])).toEqual([
      yards * YARD,
      yards * YARD,
    ]);
  });

  // bedcover-widths: 3 m × 3 m from 1.35 m cloth takes three widths, 9 m; a furnishing-studio glossary (common practice).
  it('a bed cover of three widths', () => {
    const { widths, metres } = published['bedcover-widths'].values;
    const cover: LoosePiece = {
      ...{
        name: 'bed cover',
        count: 1,
        size: { width: cm(300), length: cm(300) },
        cloth: 'gull grey',
        grain: 'lengthwise',
      },
      join: {
        by: 'seam',
        allowance: cm(1.5),
        lines: 'upright',
        mostJoins: 3,
        narrowest: cm(10),
        clearMiddle: false,
      },
    };
    const cloth = { width: cm(135), buy: { step: cm(10) } };
    const plan = planOf([clothOf(cloth)], [cover], { unit: 'cm', rulerMark: cm(0.1) });
    const cut = planned(plan, 20_000);
    expect(cut.joined[0]!.parts).toHaveLength(widths);
    expect(cut.cloths[0]!.purchase!.bought).toBe(cm(100 * metres));
    expect(bought(cloth, [cover], 'cm')).toEqual([cm(100 * metres), cm(100 * metres)]);
  });

  // repeat-examples: 240 cm drops of a 37 cm repeat are cut every 259 cm, 4 × 259 = 1036 cm, plain 960 cm (a supplier sheet);
  // 114 in drops of an 11 in repeat every 121 in, 484 in in all (a workroom page); common practice. Ours lets the last drop off
  // the rest of its repeat.
  it('curtain drops, plain and matched', () => {
    const facts = published['repeat-examples'].values;
    const drop = (width: Ticks, length: Ticks, matched: boolean): LoosePiece => ({
      ...{ name: 'drop', count: 4, size: { width, length }, cloth: 'gull grey', grain: 'lengthwise' },
      ...(matched && { match: { kind: 'drops' } as const }),
    });
    const printed = { direction: 'one-way', width: cm(140) } as const;
    const metric = {
      ...printed,
      buy: { step: cm(10) },
      repeat: { along: cm(37), drop: 'straight' },
    } as const;
    expect(bought(metric, [drop(cm(140), cm(240), false)], 'cm')[0]).toBe(cm(facts['4x240']));
    const last = facts['240/37'] - 240;
    const [matched] = bought(metric, [drop(cm(140), cm(240), true)], 'cm');
    expect(matched).toBe(cm(10 * Math.ceil((facts['4x259'] - last) / 10)));
    const inch = { direction: 'one-way', repeat: { along: inches(11), drop: 'straight' } } as const;
    const own = facts['4x121_in'] - (facts['114/11'] - 114);
    expect(bought(inch, [drop(inches(54), inches(114), true)])).toEqual([
      inches(4.5 * Math.ceil(own / 4.5)),
      inches(4.5 * Math.ceil(own / 4.5)),
    ]);
  });
});

describe('rounding at the counter', () => {
  // Up to the next 1/8 yd, or 10 cm: common practice, no published source.
  it.each([
    [38, 1.125],
    [57, 1.625],
    [36, 1],
    [36.125, 1.125],
    [0.5, 0.125],
  ])('%f in are sold as %f yd', (needed, yards) => {
    expect(buyFor(clothOf(), inches(needed)).bought).toBe(yards * YARD);
  });

  it.each([
    [101, 110],
    [100, 100],
    [4, 10],
    [259.1, 260],
  ])('%f cm are sold as %f cm', (needed, sold) => {
    expect(buyFor(clothOf({ buy: { step: cm(10) } }), cm(needed)).bought).toBe(cm(sold));
  });
});
