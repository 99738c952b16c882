import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Cloth, Crease, Fraction, Selvedges } from '../../src/model/cloth.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { formatLength, formatSize, type LengthStyle } from '../../src/units/format.ts';
import { TICKS_PER_INCH, TICKS_PER_MM, type Ticks, ticks } from '../../src/units/ticks.ts';
import { specs } from './specs.ts';

/** Writes a plan as a careful person would; what it leaves out is at its default. */
function writePlan(plan: Plan, style: LengthStyle): string {
  const of = (length: Ticks) => formatLength(length, style);
  const selvedge = ({ left, right }: Selvedges) =>
    left === right ? of(left) : `{ left: ${of(left)}, right: ${of(right)} }`;
  const crease = (written: Crease) =>
    written.kind === 'keep-off' ? `keep off ${of(written.each)}` : written.kind;
  const per = (loss: Fraction) => `${(100 * loss.numerator) / loss.denominator} %`;
  const cloth = (one: Cloth) =>
    [
      `  ${JSON.stringify(one.name)}:`,
      `    width: ${of(one.width)}`,
      `    selvedge: ${selvedge(one.selvedge)}`,
      `    crease: ${crease(one.crease)}`,
      `    direction: ${one.direction}`,
      `    print runs: ${one.printRuns}`,
      `    squaring: ${of(one.squaring)}`,
      `    lay: ${one.lay}`,
      ...(one.price === undefined
        ? []
        : [
            `    price: ${one.price.hundredths / 100} per ${one.price.per === 36 * TICKS_PER_INCH ? 'yd' : 'm'}`,
          ]),
      ...(one.washing === undefined
        ? []
        : [
            `    washing: { along: ${per(one.washing.along)}, across: ${per(one.washing.across)}, washed: ${one.washing.washed} }`,
          ]),
      ...(one.buy === undefined
        ? []
        : [
            `    buy: { step: ${of(one.buy.step)}${one.buy.longest ? `, longest: ${of(one.buy.longest)}` : ''} }`,
          ]),
      ...(one.inHand.length === 0 ? [] : ['    lengths:']),
      ...one.inHand.map(
        (hand) =>
          `      - { name: ${hand.name}, length: ${of(hand.length)}, width: ${of(hand.width)}, selvedge: ${selvedge(hand.selvedge)}, crease: ${crease(hand.crease)}, count: ${hand.copies} }`,
      ),
    ].join('\n');
  return [
    `plan: ${JSON.stringify(plan.name)}`,
    `unit: ${plan.unit}`,
    `ruler: ${of(plan.rulerMark)}`,
    `paper: ${plan.paper}`,
    `keep: ${formatSize(plan.keep, style)}`,
    `stages: ${plan.stages}`,
    `tools: { ruler length: ${of(plan.tools.rulerLength)}, most plies: ${plan.tools.mostPlies} }`,
    'cloths:',
    ...plan.cloths.map(cloth),
    'pieces:',
    ...plan.pieces.map(
      (piece) =>
        `  - { name: ${JSON.stringify(piece.name)}, count: ${piece.count}, size: ${formatSize(piece.size, style)}, cloth: ${JSON.stringify(piece.cloth)}, grain: ${piece.grain} }`,
    ),
    '',
  ].join('\n');
}

const unit = fc.constantFrom('in', 'cm');

/** Lengths on the marks of the unit: 64ths of an inch, or tenths of a millimetre. */
function lengths(of: 'in' | 'cm', least: number, most: number): fc.Arbitrary<Ticks> {
  const [perInch, mark] = of === 'in' ? [64, TICKS_PER_INCH / 64] : [254, TICKS_PER_MM / 10];
  return fc
    .integer({ min: Math.ceil(least * perInch), max: Math.floor(most * perInch) })
    .map((count) => ticks(count * mark));
}

const name = fc
  .string({ unit: fc.constantFrom(...'abcdefgh éß:#"\'&*-?!%@0123'), minLength: 1, maxLength: 12 })
  .filter((text) => text.trim() === text && !/^\d+$/.test(text));

function cloths(of: 'in' | 'cm', called: string): fc.Arbitrary<Cloth> {
  const selvedge = fc.record({ left: lengths(of, 0, 1), right: lengths(of, 0, 1) });
  const crease: fc.Arbitrary<Crease> = fc.oneof(
    fc.constantFrom<Crease>({ kind: 'none' }, { kind: 'use' }),
    lengths(of, 0.2, 2).map((each): Crease => ({ kind: 'keep-off', each })),
  );
  const loss = fc.integer({ min: 0, max: 500 }).map((thousandths): Fraction => lowest(thousandths, 1000));
  const hand = fc.record({
    length: lengths(of, 10, 200),
    width: lengths(of, 15, 60),
    selvedge,
    crease,
    copies: fc.integer({ min: 1, max: 9 }),
  });
  return fc
    .record(
      {
        name: fc.constant(called),
        width: lengths(of, 20, 120),
        selvedge,
        crease,
        direction: fc.constantFrom('plain', 'two-way', 'one-way', 'nap'),
        printRuns: fc.constantFrom('along', 'across'),
        squaring: lengths(of, 0, 1),
        lay: fc.constantFrom('flat', 'folded'),
        inHand: fc
          .array(hand, { maxLength: 3 })
          .map((hands) => hands.map((one, index) => ({ ...one, name: `bit ${index + 4}` }))),
        price: fc.record({
          hundredths: fc.integer({ min: 0, max: 9999 }),
          per: fc.constantFrom(ticks(36 * TICKS_PER_INCH), ticks(1000 * TICKS_PER_MM)),
        }),
        washing: fc.record({
          along: loss,
          across: loss,
          washed: fc.constantFrom('before-cutting', 'after-sewing'),
        }),
        buy: fc.record({ step: lengths(of, 1, 20), longest: lengths(of, 30, 400) }),
      },
      {
        requiredKeys: [
          'name',
          'width',
          'selvedge',
          'crease',
          'direction',
          'printRuns',
          'squaring',
          'lay',
          'inHand',
        ],
      },
    )
    .map((cloth) => {
      const sold = cloth.buy !== undefined || cloth.inHand.length > 0;
      return (
        sold
          ? cloth
          : { ...cloth, buy: { step: of === 'in' ? ticks(9 * TICKS_PER_INCH) : ticks(40 * TICKS_PER_MM) } }
      ) as Cloth;
    });
}

function lowest(numerator: number, denominator: number): Fraction {
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
  const by = divisor(numerator, denominator);
  return { numerator: numerator / by, denominator: denominator / by };
}

const plans: fc.Arbitrary<Plan> = fc
  .tuple(
    unit,
    fc.uniqueArray(name, { minLength: 1, maxLength: 3 }),
    fc.uniqueArray(name, { minLength: 1, maxLength: 4 }),
  )
  .chain(([of, clothNames, pieceNames]) =>
    fc.record({
      name,
      unit: fc.constant(of),
      rulerMark: lengths(of, 0.02, 1),
      paper: fc.constantFrom('letter', 'a4'),
      currency: fc.constant(''),
      keep: fc.record({ width: lengths(of, 1, 20), length: lengths(of, 1, 20) }),
      stages: fc.constantFrom(2, 3, 'any'),
      tools: fc.record({ rulerLength: lengths(of, 6, 36), mostPlies: fc.constantFrom(1, 2, 4) }),
      cloths: fc.tuple(...clothNames.map((called) => cloths(of, called))),
      makes: fc.constant([]),
      pieces: fc.tuple(
        ...pieceNames.map(
          (called): fc.Arbitrary<LoosePiece> =>
            fc.record({
              name: fc.constant(called),
              count: fc.integer({ min: 1, max: 10_000 }),
              size: fc.record({ width: lengths(of, 0.1, 90), length: lengths(of, 0.1, 90) }),
              cloth: fc.constantFrom(...clothNames),
              grain: fc.constantFrom('lengthwise', 'crosswise', 'either'),
            }),
        ),
      ),
    }),
  )
  // The ruler at hand has the plan's own mark.
  .map((plan) => ({ ...plan, tools: { ...plan.tools, rulerMark: plan.rulerMark } })) as fc.Arbitrary<Plan>;

test('a plan that is written out reads back as the same plan, with the unit at every length or at none', () => {
  const kinds = new Set<string>();
  fc.assert(
    fc.property(plans, fc.boolean(), (plan, withUnit) => {
      const text = writePlan(plan, { unit: plan.unit, withUnit });
      const outcome = readPlan(text, { file: 'written.yaml', makes: specs });
      expect(outcome.ok ? outcome.value : outcome.issues).toEqual(plan);
      for (const cloth of plan.cloths)
        kinds.add(`${cloth.crease.kind} ${cloth.lay} ${cloth.buy === undefined}`);
    }),
    { seed: 31, numRuns: 120 },
  );
  expect(kinds.size).toBe(12);
});
