import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import { expandMakes, letterOf } from '../../src/makes/expand.ts';
import type { MeasureSpec, MeasureValue } from '../../src/model/measure.ts';
import type { MakeOrder } from '../../src/model/plan.ts';
import { TICKS_PER_INCH, type Ticks, ticks } from '../../src/units/ticks.ts';
import { EIGHTH, MILLIMETRE, planOf, workedOut } from './support.ts';

/** Lengths in ticks, most of them between the ruler's marks. */
const length = (least: number, most: number): fc.Arbitrary<Ticks> =>
  fc.integer({ min: least * TICKS_PER_INCH, max: most * TICKS_PER_INCH }).map(ticks);

function value(name: string, spec: MeasureSpec): fc.Arbitrary<MeasureValue> {
  switch (spec.kind) {
    case 'length':
      return LONG_MEASURES.has(name) ? length(6, 60) : atLeast(spec.least === 'positive' ? 1 : 0, 9);
    case 'size':
      return fc.record({ width: length(5, 70), length: length(5, 80) });
    case 'hem':
      return fc.record({ visible: length(0, 5), under: length(0, 5) });
    case 'count':
      return fc.integer({ min: spec.least, max: 5 });
    case 'factor':
      return fc.integer({ min: 1000, max: 3500 }).map((thousandths) => ({ thousandths }));
    case 'choice':
      return fc.constantFrom(...spec.choices);
    case 'yes-no':
      return fc.boolean();
  }
}

/** Up to that many inches, from so many ticks. */
const atLeast = (least: number, most: number): fc.Arbitrary<Ticks> =>
  fc.integer({ min: least, max: most * TICKS_PER_INCH }).map(ticks);

const LONG_MEASURES = new Set([
  'outer back depth',
  'inner back depth',
  'table length',
  'finished width',
  'finished length',
  'width of each',
  'strip length',
]);

/** Any order that the reading of a plan could let through: optional measures and parts there or not. */
const anyOrder: fc.Arbitrary<MakeOrder> = fc.constantFrom(...makes).chain(({ spec }) => {
  const measures = Object.entries(spec.measures).map(([name, measure]) =>
    (measure.optional === true
      ? fc.option(value(name, measure), { nil: undefined })
      : value(name, measure)
    ).map((given) => (given === undefined ? [] : [[name, given] as const])),
  );
  const parts = Object.entries(spec.parts).map(([part, { optional }]) =>
    (optional === true ? fc.boolean() : fc.constant(true)).map((named) =>
      named ? [[part, `${part} cloth`] as const] : [],
    ),
  );
  return fc
    .record({
      count: fc.integer({ min: 1, max: 40 }),
      name: fc.constantFrom('window seat', 'landing', 'porch'),
      measures: fc.tuple(...measures),
      parts: fc.tuple(...parts),
    })
    .map((drawn) => ({
      name: drawn.name,
      make: spec.kind,
      count: drawn.count,
      measures: Object.fromEntries(drawn.measures.flat()),
      cloths: Object.fromEntries(drawn.parts.flat()),
    }));
});

const anyPlan = fc
  .record({
    orders: fc.array(anyOrder, { minLength: 1, maxLength: 4 }),
    loose: fc.array(
      fc.record({
        name: fc.constantFrom('patch', 'landing', 'strap'),
        count: fc.integer({ min: 1, max: 9 }),
        size: fc.record({ width: length(1, 20), length: length(1, 30) }),
        cloth: fc.constant('spare cloth'),
        grain: fc.constantFrom('lengthwise' as const, 'crosswise' as const, 'either' as const),
      }),
      { maxLength: 3 },
    ),
    rulerMark: fc.constantFrom(EIGHTH, MILLIMETRE, ticks(TICKS_PER_INCH / 16), ticks(1)),
  })
  .map(({ orders, loose, rulerMark }) => planOf(orders, { pieces: loose, rulerMark }));

describe('laws of every plan', () => {
  test('cut sizes lie on the marks, never below the exact size and less than one mark above', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const { size, exactSize } of expandMakes(plan).pieces) {
          for (const side of ['width', 'length'] as const) {
            expect(size[side] % plan.rulerMark).toBe(0);
            expect(size[side]).toBeGreaterThanOrEqual(exactSize[side]);
            expect(size[side] - exactSize[side]).toBeLessThan(plan.rulerMark);
          }
        }
      }),
    );
  });

  test('every piece is more than nothing, with its finished outline inside and its lines on it', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const { size, finished, lines } of expandMakes(plan).pieces) {
          expect(finished.x0).toBeGreaterThanOrEqual(0);
          expect(finished.y0).toBeGreaterThanOrEqual(0);
          expect(finished.x1).toBeGreaterThan(finished.x0);
          expect(finished.y1).toBeGreaterThan(finished.y0);
          expect(finished.x1).toBeLessThanOrEqual(size.width);
          expect(finished.y1).toBeLessThanOrEqual(size.length);
          for (const { x0, y0, x1, y1 } of lines) {
            expect(x0 === x1 || y0 === y1).toBe(true);
            expect(
              Math.min(x0, y0, x1 - x0, y1 - y0, size.width - x1, size.length - y1),
            ).toBeGreaterThanOrEqual(0);
          }
        }
      }),
    );
  });

  test('ids and letters are all different', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const { pieces } = expandMakes(plan);
        expect(new Set(pieces.map(({ id }) => id)).size).toBe(pieces.length);
        expect(pieces.map(({ letter }) => letter)).toEqual(pieces.map((_, index) => letterOf(index)));
        expect(new Set(pieces.map(({ letter }) => letter)).size).toBe(pieces.length);
      }),
    );
  });

  test('copies are the count of the order times those in one; an order of twice as many doubles them', () => {
    fc.assert(
      fc.property(anyOrder, (order) => {
        const copies = (count: number) =>
          expandMakes(planOf([{ ...order, count }])).pieces.map((piece) => piece.copies);
        expect(copies(order.count)).toEqual(copies(1).map((inOne) => order.count * inOne));
      }),
    );
  });

  test('an order with an error has no pieces, any other has some', () => {
    const seen = { refused: 0, made: 0 };
    fc.assert(
      fc.property(anyOrder, (order) => {
        const { pieces, issues, sheets } = expandMakes(planOf([order]));
        const refused = issues.some(({ severity }) => severity === 'error');
        expect(pieces.length === 0).toBe(refused);
        expect(sheets).toHaveLength(1);
        seen[refused ? 'refused' : 'made'] += 1;
      }),
      { numRuns: 400, seed: 1907 },
    );
    expect(seen.refused).toBeGreaterThan(20);
    expect(seen.made).toBeGreaterThan(20);
  });

  test('every line of arithmetic comes out as printed', () => {
    let checked = 0;
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const { sheets, issues } = expandMakes(plan);
        for (const [index, { arithmetic }] of sheets.entries()) {
          if (issues.some(({ severity, path }) => severity === 'error' && path[1] === index)) continue;
          for (const terms of arithmetic) {
            const { left, sign, right } = workedOut(terms);
            // What a division leaves between two ticks goes up; `up to` goes to a mark of the ruler.
            const slack = sign === 'up to' || terms.what.includes('a quarter') ? plan.rulerMark : 1;
            expect(right - left, terms.what).toBeGreaterThanOrEqual(-1e-6);
            expect(right - left, terms.what).toBeLessThan(slack);
            checked += 1;
          }
        }
      }),
    );
    expect(checked).toBeGreaterThan(100);
  });

  test('every figure that a remark names is there, and no other', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const issue of expandMakes(plan).issues) {
          if (issue.code !== 'make-practice') throw new Error(issue.code);
          const { sentence, figures } = issue.details;
          const asked = [...sentence.matchAll(/\{(\w+)\}/g)].map(([, figure]) => figure);
          expect(Object.keys(figures).sort()).toEqual([...new Set(asked)].sort());
        }
      }),
    );
  });
});

test('letters go on after Z as the columns of a sheet do', () => {
  expect([0, 1, 25, 26, 27, 51, 52, 701, 702].map(letterOf)).toEqual([
    'A',
    'B',
    'Z',
    'AA',
    'AB',
    'AZ',
    'BA',
    'ZZ',
    'AAA',
  ]);
});
