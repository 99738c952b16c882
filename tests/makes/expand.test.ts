import { describe, expect, test } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import { expandMakes } from '../../src/makes/expand.ts';
import { formatLength } from '../../src/units/format.ts';
import { TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';
import { inches, madeUp, orderOf, planOf, readMeasure } from './support.ts';

const covers = orderOf({
  kind: 'envelope-cover',
  name: 'window seat',
  count: 5,
  measures: { size: '17 3/16 x 13 in', lap: '4 in' },
});
const napkins = orderOf({ kind: 'napkin', name: 'breakfast', count: 14, measures: { size: '16 x 18 in' } });

describe('pieces wanted', () => {
  const loose = {
    name: 'patch',
    count: 3,
    size: { width: inches(7.03125), length: inches(11) },
    cloth: 'ticking',
    grain: 'crosswise',
  } as const;
  const { pieces, sheets } = expandMakes(planOf([covers, napkins], { pieces: [loose] }));

  test('come in the order of the plan, loose ones last', () => {
    expect(
      pieces.map(({ letter, id, name, order, cloth, copies }) => [letter, id, name, order, cloth, copies]),
    ).toEqual([
      ['A', 'window seat/front', 'front', 'window seat', 'cloth for front', 5],
      ['B', 'window seat/outer back', 'outer back', 'window seat', 'cloth for backs', 5],
      ['C', 'window seat/inner back', 'inner back', 'window seat', 'cloth for backs', 5],
      ['D', 'breakfast/napkin', 'napkin', 'breakfast', 'cloth for napkin', 14],
      ['E', 'patch', 'patch', 'patch', 'ticking', 3],
    ]);
    expect(sheets.map(({ order, count }) => [order, count])).toEqual([
      ['window seat', 5],
      ['breakfast', 14],
    ]);
  });

  test('are cut up to the next mark; seams keep their depth and the finished outline takes the rest', () => {
    const [front] = pieces;
    expect(front.exactSize.width).toBe(inches(18.1875));
    expect(front.size).toEqual({ width: inches(18.25), length: inches(14) });
    expect(front.finished).toEqual({ x0: inches(0.5), y0: inches(0.5), x1: inches(17.75), y1: inches(13.5) });
  });

  test('a loose piece is all finished, keeps its grain and has no lines', () => {
    const patch = pieces.at(-1);
    expect(patch?.size).toEqual({ width: inches(7.125), length: inches(11) });
    expect(patch?.finished).toEqual({ x0: 0, y0: 0, x1: inches(7.125), y1: inches(11) });
    expect(patch?.grain).toBe('crosswise');
    expect(patch?.lines).toEqual([]);
  });

  test('what rounding adds is told in the arithmetic', () => {
    const [{ arithmetic }] = sheets;
    const told = arithmetic.filter(({ what }) => what.includes('on the ruler'));
    expect(told.map(({ what, terms }) => [what, terms.length])).toEqual([
      ['front, across, on the ruler', 3],
      ['outer back, across, on the ruler', 3],
      ['inner back, across, on the ruler', 3],
    ]);
    expect(told[0].terms).toEqual([{ ticks: inches(18.1875) }, 'up to', { ticks: inches(18.25) }]);
  });
});

test('two orders of one name keep their pieces apart', () => {
  const { pieces } = expandMakes(planOf([napkins, napkins, { ...napkins, count: 3 }]));
  expect(pieces.map(({ id }) => id)).toEqual([
    'breakfast/napkin',
    'breakfast/napkin (2)',
    'breakfast/napkin (3)',
  ]);
});

test('an order that cannot be made says so at its measure, and the others are cut', () => {
  const bad = orderOf({
    kind: 'envelope-cover',
    measures: { size: '19 x 17 in', 'outer back depth': '18 in' },
  });
  const { pieces, issues } = expandMakes(planOf([napkins, bad, covers]));
  expect(pieces.map(({ order }) => order)).toEqual([
    'breakfast',
    'window seat',
    'window seat',
    'window seat',
  ]);
  expect(issues).toEqual([
    {
      code: 'make-practice',
      severity: 'error',
      path: ['make', 1, 'outer back depth'],
      details: {
        sentence: expect.stringContaining('{back}'),
        figures: { name: 'outer back', back: inches(18), depth: inches(17) },
      },
    },
  ]);
});

test('a plan that names no such make, or no cloth for a part, is a fault of ours', () => {
  expect(() => expandMakes(planOf([{ ...napkins, make: 'sail' }]))).toThrow('sail');
  expect(() => expandMakes(planOf([{ ...napkins, cloths: {} }]))).toThrow('napkin');
  expect(() => expandMakes(planOf([{ ...napkins, measures: {} }]))).toThrow('size');
});

test('the arithmetic reads as a person would write it', () => {
  const { arithmetic } = madeUp({ kind: 'envelope-cover', measures: { size: '18 x 13 in', lap: '5 in' } });
  const read = ({ terms }: (typeof arithmetic)[number]) =>
    terms
      .map((term) =>
        typeof term === 'string' ? term : formatLength(term.ticks, { unit: 'in', withUnit: false }),
      )
      .join(' ');
  expect(arithmetic.map((line) => `${line.what}: ${read(line)}`)).toEqual([
    'front, across: 18 + 2 × 1/2 = 19',
    'front, up: 13 + 2 × 1/2 = 14',
    'both backs, finished depth: 13 + 5 = 18',
    'each back, finished depth: 18 ÷ 2 = 9',
    'each hem takes up: 1 + 1/2 = 1 1/2',
    'outer back, cut depth: 9 + 1/2 + 1 1/2 = 11',
    'inner back, cut depth: 9 + 1/2 + 1 1/2 = 11',
    'lap, checked: 11 + 11 - 2 × 1 1/2 - 14 = 5',
  ]);
});

describe('the catalogue', () => {
  const SIZES: Readonly<Record<string, Readonly<Record<'in' | 'cm', Readonly<Record<string, string>>>>>> = {
    'envelope-cover': { in: { size: '19 x 17' }, cm: { size: '48 x 43' } },
    'wrap-cover': { in: { size: '19 x 17' }, cm: { size: '48 x 43' } },
    pillowcase: { in: { size: '19 x 27' }, cm: { size: '48 x 73' } },
    napkin: { in: { size: '16 x 18' }, cm: { size: '41 x 44' } },
    'place-mat': { in: { size: '17 x 13' }, cm: { size: '43 x 33' } },
    runner: { in: { length: '71' }, cm: { length: '182' } },
    tablecloth: { in: { table: '52 x 33' }, cm: { table: '131 x 84' } },
    curtain: {
      in: { 'finished width': '63', 'finished length': '77' },
      cm: { 'finished width': '164', 'finished length': '203' },
    },
    tote: { in: { size: '15 x 13' }, cm: { size: '38 x 34' } },
    tie: { in: { length: '13' }, cm: { length: '33' } },
    binding: {
      in: { size: '62 x 81', 'strip length': '41' },
      cm: { size: '157 x 204', 'strip length': '104' },
    },
  };

  test('has no two makes of one kind', () => {
    expect(new Set(makes.map(({ spec }) => spec.kind)).size).toBe(makes.length);
    expect(Object.keys(SIZES)).toEqual(makes.map(({ spec }) => spec.kind));
  });

  test.each(Object.entries(SIZES))(
    '%s follows good practice by its own defaults, in inches and in centimetres',
    (kind, sizes) => {
      for (const unit of ['in', 'cm'] as const) {
        const made = madeUp({ kind, measures: sizes[unit], unit });
        expect(made.remarks).toEqual([]);
        expect(made.pieces.length).toBeGreaterThan(0);
        expect(made.assembly.length).toBeGreaterThan(0);
        expect(made.arithmetic.length).toBeGreaterThan(0);
        expect(made.cautions).toContain('rotary-cutter');
      }
    },
  );

  test.each(makes.map((make) => [make.spec.kind, make.spec] as const))(
    '%s names its pieces, parts and defaults soundly',
    (_kind, spec) => {
      for (const measure of Object.values(spec.measures)) {
        expect(measure.default === undefined || measure.optional === undefined).toBe(true);
        if (measure.default === undefined) continue;
        expect(readMeasure(measure.default.inches, measure, 'in')).toBeDefined();
        expect(readMeasure(measure.default.metric, measure, 'cm')).toBeDefined();
      }
      const wanted = { kind: spec.kind, measures: SIZES[spec.kind].in, withParts: Object.keys(spec.parts) };
      const { pieces } = madeUp(wanted);
      expect(new Set(pieces.map(({ name }) => name)).size).toBe(pieces.length);
      expect([...new Set(pieces.map(({ part }) => part))].sort()).toEqual(Object.keys(spec.parts).sort());
    },
  );

  test('defaults agree with practice: 1/2 in seams for furnishings and bags', () => {
    for (const kind of ['envelope-cover', 'pillowcase', 'tote']) {
      expect(orderOf({ kind, measures: SIZES[kind].in }).measures['seam allowance']).toBe(
        ticks(TICKS_PER_INCH / 2),
      );
    }
  });
});
