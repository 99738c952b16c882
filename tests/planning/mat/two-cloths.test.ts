import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../src/check/check-plan.ts';
import type { Plan } from '../../../src/model/plan.ts';
import type { Kind } from '../../../src/packing/instance.ts';
import { type Refit, refit } from '../../../src/planning/mat/refit.ts';
import type { OfferKind } from '../../../src/planning/mat/remedies.ts';
import { makeCutPlan } from '../../../src/planning/plan.ts';
import { TICKS_PER_INCH } from '../../../src/units/ticks.ts';
import { bruteFewest } from '../../support/brute-force.ts';
import { planFrom } from '../../support/measured-plan.ts';

const options = { effort: 30_000, seed: 3 };

function refitted(text: string, more: Partial<Parameters<typeof refit>[1]> = {}): Refit {
  const outcome = refit(planFrom(text), { ...options, make: (plan) => makeCutPlan(plan, options), ...more });
  if (!outcome.ok) throw new Error(`${JSON.stringify(outcome.issues)}\n${text}`);
  for (const { cutPlan } of outcome.value.offers) expect(checkPlan(cutPlan), text).toEqual([]);
  return outcome.value;
}

/** Two cloths without edges on a ruler of whole inches. */
const textOf = (sail: string, oat: string, wanted: string, ruler = '1') => `plan: The net loft
unit: in
ruler: ${ruler}
currency: $
cloths:
  sail grey: { width: ${widthIn(sail)}, selvedge: 0, price: 12.00 per yd, buy: yes, measured: ${sail} }
  oat linen: { width: ${widthIn(oat)}, selvedge: 0, price: 10.00 per yd, buy: yes, measured: ${oat} }
${wanted}
`;

const widthIn = (measured: string) => /width: (\d+)/.exec(measured)![1];
const offerOf = ({ offers }: Refit, kind: OfferKind) => offers.find((own) => own.kind === kind)!;
const sizesIn = ({ pieces, makes }: Plan) =>
  [...pieces.map(({ size }) => size), ...makes.map(({ measures }) => measures)].map((size) =>
    [size.width, size.length].map((side) => Number(side) / TICKS_PER_INCH),
  );

describe('two cloths that are short, by hand', () => {
  it('shrinks on each what that cloth needs, not both by the larger need', () => {
    // 11 in squares on 40 x 20 in want 10 in to lie 4 by 2; 9 in squares on 40 x 25 in want 8 in to lie 5 by 3.
    const found = refitted(
      textOf(
        '{ width: 40, length: 20 }',
        '{ width: 40, length: 25 }',
        `pieces:
  - { name: seat, count: 8, size: 12 x 12, cloth: sail grey }
  - { name: mat, count: 15, size: 9 x 9, cloth: oat linen }`,
      ),
      {
        may: [
          { name: 'seat', most: 4 * TICKS_PER_INCH },
          { name: 'mat', most: 4 * TICKS_PER_INCH },
        ] as never,
      },
    );
    const shrink = offerOf(found, 'shrink');
    expect(sizesIn(shrink.cutPlan.plan)).toEqual([
      [10, 10],
      [8, 8],
    ]);
    expect(shrink.parts.map(({ cloths, kind, provenOf }) => [cloths, kind, provenOf])).toEqual([
      [['sail grey'], 'shrink', [true]],
      [['oat linen'], 'shrink', [true]],
    ]);
  });

  it('joins on the cloth that joins save, and does what is mildest on the other', () => {
    const found = refitted(
      textOf(
        '{ width: 40, length: 30 }',
        '{ width: 40, length: 30 }',
        `pieces:
  - { name: runner, count: 1, size: 14 x 36, cloth: sail grey, grain: lengthwise }
  - { name: mat, count: 14, size: 10 x 10, cloth: oat linen }`,
      ),
      // A mat may not come down to 8 in.
      { may: [{ name: 'mat', most: TICKS_PER_INCH }] as never },
    );
    const join = offerOf(found, 'join');
    expect(join.parts.map(({ cloths, kind }) => [cloths, kind])).toEqual([
      [['sail grey'], 'join'],
      [['oat linen'], 'drop'],
    ]);
    expect([join.joins, join.dropped, join.lost]).toEqual([1, 2, 200 * TICKS_PER_INCH ** 2]);
    expect(offerOf(found, 'drop').parts.map(({ dropped }) => dropped)).toEqual([1, 2]);
  });

  it('does for each cloth what is asked for it', () => {
    const text = textOf(
      '{ width: 40, length: 30 }',
      '{ width: 40, length: 30 }',
      `pieces:
  - { name: seat, count: 13, size: 10 x 10, cloth: sail grey }
  - { name: mat, count: 14, size: 10 x 10, cloth: oat linen }`,
    );
    const take = new Map<string, OfferKind>([
      ['sail grey', 'buy'],
      ['oat linen', 'drop'],
    ]) as never;
    const [offer, ...others] = refitted(text, { take }).offers;
    expect(others).toEqual([]);
    // One row more of 10 in, by the eighth of a yard: 13 1/2 in. Two mats are one more than the twelve there is room for.
    expect([offer!.bought, offer!.cost, offer!.dropped]).toEqual([
      [{ cloth: 'sail grey', length: 13.5 * TICKS_PER_INCH }],
      450,
      2,
    ]);
  });

  it('makes what is cut from both smaller by the larger need, and nothing else', () => {
    // A runner of 5 x 11 in is cut 6 x 12 in: on 40 x 11 in it lies 10 in long; its lining wants 40 x 9 in, 8 in long.
    const found = refitted(
      textOf(
        '{ width: 40, length: 11 }',
        '{ width: 40, length: 9 }',
        `make:
  - { name: runner, kind: runner, count: 6, width: 5, length: 11, seam allowance: 1/2, cloth: { front: sail grey, lining: oat linen } }`,
      ),
      { may: [{ name: 'runner', measure: 'length', most: 5 * TICKS_PER_INCH }] as never },
    );
    const shrink = offerOf(found, 'shrink');
    expect(sizesIn(shrink.cutPlan.plan)).toEqual([[5, 8]]);
    expect(shrink.parts).toHaveLength(1);
    expect([shrink.parts[0]!.cloths, shrink.parts[0]!.provenOf]).toEqual([
      ['sail grey', 'oat linen'],
      [true],
    ]);
  });
});

interface Chance {
  readonly sail: readonly [number, number];
  readonly oat: readonly [number, number];
  readonly seat: readonly [number, number, number];
  readonly mat: readonly [number, number, number];
  readonly runner: readonly [number, number, number];
}

const side = (least: number, most: number) => fc.integer({ min: least, max: most });
const chance: fc.Arbitrary<Chance> = fc.record({
  sail: fc.tuple(side(7, 10), side(5, 9)),
  oat: fc.tuple(side(7, 10), side(5, 9)),
  seat: fc.tuple(side(3, 6), side(3, 5), side(1, 3)),
  mat: fc.tuple(side(3, 6), side(3, 5), side(1, 3)),
  // A runner is cut from both, one inch larger than it is finished.
  runner: fc.tuple(side(2, 4), side(4, 6), side(0, 1)),
});

/** Most inches that each side may come down. */
const MOST = 2;

/** Marks off the width and length of seat, mat and runner. */
type Point = readonly number[];

/** Whether both cloths hold everything, by trying every cut. */
function bruteFits({ sail, oat, seat, mat, runner }: Chance, [a, b, c, d, e, f]: Point): boolean {
  const kind = (
    [width, length, copies]: readonly [number, number, number],
    less: readonly number[],
  ): Kind => ({
    ...{ width: width - less[0]!, length: length - less[1]!, copies, quarterTurn: true },
  });
  const held = ([width, length]: readonly [number, number], own: Kind) => {
    const kinds = [own, kind([runner[0] + 1, runner[1] + 1, runner[2]], [e!, f!])];
    const wanted = kinds.filter(({ copies }) => copies > 0);
    return (
      bruteFewest({ sheets: [{ width, length, copies: 1, cost: 1 }], kinds: wanted } as never, 'any') !==
      undefined
    );
  };
  return held(sail, kind(seat, [a!, b!])) && held(oat, kind(mat, [c!, d!]));
}

describe('chance pairs of cloths against every point of the lattice of measures', () => {
  const seen = { fits: 0, shrunk: 0, both: 0, none: 0, proven: 0, least: 0, points: 0 };
  const cases = fc.sample(chance, { numRuns: 60, seed: 11 });
  const may = [
    ...['seat', 'mat'].map((name) => ({ name, most: MOST * TICKS_PER_INCH })),
    ...['width', 'length'].map((measure) => ({ name: 'runner', measure, most: MOST * TICKS_PER_INCH })),
  ] as never;

  it.each(cases.map((own, index) => [index, own] as const))('%i', (_, own) => {
    const line = (name: string, [width, length, count]: readonly number[], cloth: string) =>
      `  - { name: ${name}, count: ${count}, size: ${width} x ${length}, cloth: ${cloth} }`;
    const text = textOf(
      `{ width: ${own.sail[0]}, length: ${own.sail[1]} }`,
      `{ width: ${own.oat[0]}, length: ${own.oat[1]} }`,
      [
        ...(own.runner[2] > 0
          ? [
              'make:',
              `  - { name: runner, kind: runner, count: 1, width: ${own.runner[0]}, length: ${own.runner[1]}, seam allowance: 1/2, cloth: { front: sail grey, lining: oat linen } }`,
            ]
          : []),
        'pieces:',
        line('seat', own.seat, 'sail grey'),
        line('mat', own.mat, 'oat linen'),
      ].join('\n'),
    );
    const found = refitted(text, { may, take: 'shrink' });
    if (found.asItIs) {
      expect(bruteFits(own, [0, 0, 0, 0, 0, 0]), text).toBe(true);
      seen.fits += 1;
      return;
    }
    expect(bruteFits(own, [0, 0, 0, 0, 0, 0]), text).toBe(false);
    const shrink = found.offers.find(({ parts }) => parts.every(({ kind }) => kind === 'shrink'));
    if (!shrink) {
      expect(bruteFits(own, [MOST, MOST, MOST, MOST, MOST, MOST]), text).toBe(false);
      seen.none += 1;
      return;
    }
    const now = sizesIn(shrink.cutPlan.plan).flat();
    const was = [own.seat, own.mat, own.runner].flatMap((own) => own.slice(0, 2));
    const marks = was.map((before, index) => before - (now[index] ?? before));
    expect(bruteFits(own, marks), text).toBe(true);
    // What is told of a measure: one mark larger by itself would not fit.
    for (const part of shrink.parts) {
      expect(part.changes.length).toBe(part.provenOf!.length);
      for (const [index, change] of part.changes.entries()) {
        if (!part.provenOf![index] || change.kind !== 'measure') continue;
        const name = change.of.list === 'make' ? 2 : change.of.index;
        const sides = change.measure === 'size' ? [0, 1] : [change.measure === 'width' ? 0 : 1];
        const places = sides.map((own) => 2 * name + own).filter((place) => marks[place]! > 0);
        const larger = marks.map((count, place) => (places.includes(place) ? count - 1 : count));
        expect(bruteFits(own, larger), `${text}\n${marks}`).toBe(false);
        seen.proven += 1;
      }
    }
    // Of all points of the lattice that lose no more cloth.
    const lost = (point: Point) =>
      [0, 1, 2].reduce((sum, thing) => {
        const [width, length, count] = [own.seat, own.mat, own.runner][thing]!;
        const [less, shorter] = [point[2 * thing]!, point[2 * thing + 1]!];
        const extra = thing === 2 ? 1 : 0;
        const area = (width + extra) * (length + extra) - (width + extra - less) * (length + extra - shorter);
        return sum + area * count * (thing === 2 ? 2 : 1);
      }, 0);
    const least = latticePoints(own).filter((point) => lost(point) < lost(marks) && bruteFits(own, point));
    seen.points += 1;
    seen.least += least.length === 0 ? 1 : 0;
    seen.shrunk += 1;
    seen.both += shrink.parts.length > 1 || shrink.changes.length > 1 ? 1 : 0;
  });

  function latticePoints({ runner }: Chance): readonly Point[] {
    const most = [MOST, MOST, MOST, MOST, ...(runner[2] > 0 ? [MOST, MOST] : [0, 0])];
    return most.reduce<readonly Point[]>(
      (points, limit) =>
        points.flatMap((point) => Array.from({ length: limit + 1 }, (_, marks) => [...point, marks])),
      [[]],
    );
  }

  it('were of every kind, and the least of the whole lattice more often than not', () => {
    expect(
      Object.entries(seen).filter(([, count]) => count < 1),
      JSON.stringify(seen),
    ).toEqual([]);
    expect(seen.least / seen.points, JSON.stringify(seen)).toBeGreaterThan(0.5);
  });
});
