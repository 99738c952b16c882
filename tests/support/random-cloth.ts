/** Random cloths, in whole small marks of the plan's unit, now and then a few ticks off so that halves fall between ticks. */
import fc from 'fast-check';
import type { Cloth, Crease, LengthInHand, Selvedges, Washing } from '../../src/model/cloth.ts';
import type { PlanUnit } from '../../src/model/plan.ts';
import {
  TICKS_PER_CM,
  TICKS_PER_INCH,
  TICKS_PER_METRE,
  TICKS_PER_YARD,
  type Ticks,
  ticks,
} from '../../src/units/ticks.ts';

/** A length between two bounds given in tenths of an inch, in sixteenths of an inch or whole millimetres. */
export function randomLength(unit: PlanUnit, least: number, most: number): fc.Arbitrary<Ticks> {
  const mark = unit === 'in' ? TICKS_PER_INCH / 16 : TICKS_PER_CM / 10;
  const inMarks = (tenths: number) => Math.round((tenths * TICKS_PER_INCH) / (10 * mark));
  return fc.integer({ min: inMarks(least), max: inMarks(most) }).map((marks) => ticks(marks * mark));
}

export function randomCloth(unit: PlanUnit, name: string): fc.Arbitrary<Cloth> {
  const body = fc.record({
    width: offTheMark(randomLength(unit, 270, 600)),
    selvedge: randomSelvedges(unit),
    crease: randomCrease(unit),
    direction: fc.constantFrom('plain', 'plain', 'two-way', 'one-way', 'nap' as const),
    printRuns: fc.constantFrom('along', 'along', 'across' as const),
    squaring: randomLength(unit, 0, 10),
    lay: fc.constantFrom('flat', 'flat', 'flat', 'folded' as const),
  });
  const trade = fc.record(
    {
      washing: randomWashing(),
      tearsTrue: fc.constant(true as const),
      price: fc.record({
        hundredths: fc.integer({ min: 250, max: 4999 }),
        per: fc.constant(ticks(unit === 'in' ? TICKS_PER_YARD : TICKS_PER_METRE)),
      }),
    },
    { requiredKeys: [] },
  );
  return fc.tuple(body, trade, fc.constantFrom('buy', 'buy', 'both', 'in hand' as const)).chain(
    ([own, traded, supply]): fc.Arbitrary<Cloth> =>
      fc.record({
        ...constants({ name, ...own, ...traded }),
        inHand: supply === 'buy' ? fc.constant([]) : randomLengthsInHand(unit, own.width),
        ...(supply === 'in hand' ? {} : { buy: randomTerms(unit) }),
      }) as fc.Arbitrary<Cloth>,
  );
}

function constants<T extends object>(values: T): { [Key in keyof T]: fc.Arbitrary<T[Key]> } {
  return Object.fromEntries(
    Object.entries(values).map(([key, value]) => [key, fc.constant(value)]),
  ) as unknown as { [Key in keyof T]: fc.Arbitrary<T[Key]> };
}

function offTheMark(length: fc.Arbitrary<Ticks>): fc.Arbitrary<Ticks> {
  return fc.tuple(length, fc.constantFrom(0, 0, 0, 1, 2, 7)).map(([whole, off]) => ticks(whole + off));
}

function randomSelvedges(unit: PlanUnit): fc.Arbitrary<Selvedges> {
  const edge = fc.oneof({ weight: 3, arbitrary: randomLength(unit, 2, 9) }, fc.constant(ticks(0)));
  return fc.record({ left: edge, right: edge });
}

function randomCrease(unit: PlanUnit): fc.Arbitrary<Crease> {
  return fc.oneof(
    fc.constant({ kind: 'none' } as const),
    fc.constant({ kind: 'use' } as const),
    fc.record({ kind: fc.constant('keep-off' as const), each: offTheMark(randomLength(unit, 2, 15)) }),
  );
}

/** Losses up to a tenth, as a per cent or from a measured swatch. */
function randomWashing(): fc.Arbitrary<Washing> {
  const loss = fc.oneof(
    fc.record({ numerator: fc.integer({ min: 0, max: 10 }), denominator: fc.constant(100) }),
    fc.record({ numerator: fc.integer({ min: 1, max: 48 }), denominator: fc.constantFrom(487, 500) }),
  );
  return fc
    .record({
      along: loss,
      across: loss,
      washed: fc.constantFrom('before-cutting', 'before-cutting', 'after-sewing' as const),
      larger: fc.boolean(),
    })
    .map(({ larger, ...own }) =>
      own.washed === 'after-sewing' && larger ? { ...own, cutLarger: true as const } : own,
    );
}

/** Steps of 1/8 or 1/4 yd, or 10 or 50 cm; now and then no length over about 2 1/2 yd. */
function randomTerms(unit: PlanUnit): fc.Arbitrary<NonNullable<Cloth['buy']>> {
  const steps =
    unit === 'in' ? [TICKS_PER_YARD / 8, TICKS_PER_YARD / 4] : [10 * TICKS_PER_CM, 50 * TICKS_PER_CM];
  return fc.oneof(
    { weight: 4, arbitrary: fc.record({ step: fc.constantFrom(...steps.map(ticks)) }) },
    fc.record({ step: fc.constantFrom(...steps.map(ticks)), longest: randomLength(unit, 600, 1000) }),
  );
}

function randomLengthsInHand(unit: PlanUnit, width: Ticks): fc.Arbitrary<readonly LengthInHand[]> {
  const one = fc
    .record({
      length: offTheMark(randomLength(unit, 150, 700)),
      width: randomLength(unit, 160, 600),
      selvedge: randomSelvedges(unit),
      crease: randomCrease(unit),
      copies: fc.constantFrom(1, 1, 2, 3),
    })
    .map((length) => ({ ...length, width: ticks(Math.min(width, length.width)) }))
    .chain((length) => fc.integer({ min: 2, max: 9 }).map((tenth) => withOwnCrease(length, tenth)));
  return fc
    .array(one, { minLength: 1, maxLength: 3 })
    .map((lengths) => lengths.map((length, index) => ({ name: NAMES_IN_HAND[index]!, ...length })));
}

/** Now and then the crease of a length lies elsewhere than midway, so many tenths of its width from the left. */
function withOwnCrease<Length extends { readonly crease: Crease; readonly width: Ticks }>(
  length: Length,
  tenth: number,
): Length {
  const { crease, width } = length;
  if (crease.kind !== 'keep-off' || tenth > 7) return length;
  return { ...length, crease: { ...crease, at: ticks(Math.floor((width * tenth) / 10)) } };
}

const NAMES_IN_HAND = ['roll end', 'oddment', 'old curtain'];
