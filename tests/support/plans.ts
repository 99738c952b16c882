/** Cut plans made by hand, every figure worked out on paper. The figures of each plan all differ, so that a swap cannot pass. */
import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { TICKS_PER_YARD, ticks } from '../../src/units/ticks.ts';
import { changed } from './changed.ts';
import { cm, inches, none, plan, wanted } from './plan-parts.ts';
import { crosscut, lengthwise, piece, remnant, scrap, trim } from './trees.ts';

/**
 * The bench on the landing, in centimetres, flat. A one-way print to buy, washed before cutting, crease kept off and
 * unequal selvedges; and a plain linen in hand, twice the same oddment.
 * ```
 *  tide stripe, 147 wide after washing          oddment, 80 wide
 *  ┌┬─────┬─────┬┬─────┬────┬┬┐ 52             ┌┬─────────────┐ 58.8
 *  ││front│front││front│ w  │││                ││   remnant   │
 *  ││     │     ││     │ w  │││                │├──────┬──────┤ 34.2
 *  └┴─────┴─────┴┴─────┴────┴┴┘ 2              └┴──────┴──────┘ 1.2
 * ```
 */
export function smallPlan(): CutPlan {
  const stripe: Cloth = {
    name: 'tide stripe',
    width: cm(150),
    selvedge: { left: cm(1), right: cm(1.53) },
    crease: { kind: 'keep-off', each: cm(0.5) },
    direction: 'one-way',
    printRuns: 'along',
    squaring: cm(2),
    washing: {
      along: { numerator: 1, denominator: 25 },
      across: { numerator: 1, denominator: 50 },
      washed: 'before-cutting',
    },
    price: { hundredths: 1899, per: cm(100) },
    buy: { step: cm(10), longest: cm(700) },
    inHand: [],
    lay: 'flat',
  };
  const linen: Cloth = {
    name: 'shingle linen',
    width: cm(138),
    selvedge: { left: cm(0.8), right: cm(0.7) },
    crease: { kind: 'use' },
    direction: 'plain',
    printRuns: 'along',
    squaring: cm(1.2),
    inHand: [
      {
        name: 'oddment',
        length: cm(60),
        width: cm(80),
        selvedge: { left: cm(0.9), right: none },
        crease: { kind: 'none' },
        copies: 2,
      },
    ],
    lay: 'flat',
  };
  const pieces = [
    wanted('bench covers/front', 'A', stripe, { width: cm(36), length: cm(50) }, 3, 'lengthwise'),
    wanted('bench covers/wrap', 'B', stripe, { width: cm(35), length: cm(24) }, 2, 'either'),
    wanted('napkin', 'C', linen, { width: cm(33), length: cm(39) }, 4, 'crosswise'),
  ];
  const oddment = crosscut(
    [cm(1.2), cm(34.2), cm(58.8)],
    trim('squaring'),
    lengthwise(
      [cm(0.9), cm(39.9), cm(78.9)],
      trim('selvedge'),
      piece('napkin', 1),
      piece('napkin', 3),
      scrap,
    ),
    lengthwise([cm(0.9)], trim('selvedge'), remnant),
    trim('squaring'),
  );
  return {
    plan: plan('landing bench', 'cm', [stripe, linen], {
      ...{ rulerMark: cm(0.1), keep: [cm(12), cm(20)], pieces },
    }),
    pieces,
    joined: [],
    makes: [],
    cloths: [
      {
        cloth: stripe.name,
        lengths: [
          {
            name: 'bought',
            source: 'bought',
            width: cm(147),
            length: cm(57.6),
            lay: { kind: 'flat' },
            tree: crosscut(
              [cm(2), cm(52), cm(55.6)],
              trim('squaring'),
              lengthwise(
                [cm(1), cm(37), cm(73), cm(74), cm(110), cm(145), cm(145.4)],
                trim('selvedge'),
                piece('bench covers/front'),
                piece('bench covers/front', 2),
                trim('crease'),
                piece('bench covers/front'),
                crosscut([cm(24), cm(48)], piece('bench covers/wrap'), piece('bench covers/wrap'), scrap),
                scrap,
                trim('selvedge'),
              ),
              scrap,
              trim('squaring'),
            ),
          },
        ],
        // (50 + 2 × 2) ÷ 0.96 = 56.25, so six steps of 10; five would leave 48 on the table.
        purchase: {
          ...{ needed: cm(56.25), bought: cm(60), cost: 1139 },
          lengths: [{ needed: cm(56.25), bought: cm(60) }],
        },
        surplus: [],
        answer: 'best',
        bound: cm(54.5),
      },
      {
        cloth: linen.name,
        lengths: [1, 2].map((number) => ({
          ...{ name: `oddment ${number}`, source: 'in-hand', width: cm(80), length: cm(60) },
          ...{ lay: { kind: 'flat' }, tree: oddment },
        })),
        surplus: [],
        answer: 'found',
      },
    ],
    issues: [],
  } as CutPlan;
}

/**
 * Covers in inches, folded at the crease in at most two stages: three are wanted and four are cut. The selvedges are
 * unequal, so the plies do not meet at the edges.
 */
export function foldedPlan(): CutPlan {
  const cloth: Cloth = {
    name: 'dune ticking',
    width: inches(44),
    selvedge: { left: inches(1 / 2), right: inches(7 / 8) },
    crease: { kind: 'use' },
    direction: 'two-way',
    printRuns: 'across',
    squaring: inches(1 / 4),
    price: { hundredths: 1295, per: ticks(TICKS_PER_YARD) },
    buy: { step: inches(9 / 2) },
    inHand: [],
    lay: 'folded',
  };
  const section = lengthwise(
    [inches(1 / 2), inches(3), inches(22), inches(41), inches(44 - 7 / 8)],
    trim('selvedge'),
    scrap,
    piece('porch covers/front', 1),
    piece('porch covers/front', 3),
    scrap,
    trim('selvedge'),
  );
  const pieces = [
    wanted('porch covers/front', 'A', cloth, { width: inches(20), length: inches(19) }, 3, 'crosswise'),
  ];
  return {
    plan: plan('porch', 'in', [cloth], {
      ...{ rulerMark: inches(1 / 8), keep: [inches(4), inches(6)], stages: 2, pieces },
    }),
    pieces,
    joined: [],
    makes: [],
    cloths: [
      {
        cloth: cloth.name,
        lengths: [
          {
            name: 'bought',
            source: 'bought',
            width: inches(44),
            length: inches(40.5),
            lay: { kind: 'folded', foldAt: inches(22) },
            tree: crosscut(
              [inches(0.25), inches(20.25), inches(40.25)],
              trim('squaring'),
              section,
              section,
              trim('squaring'),
            ),
          },
        ],
        purchase: {
          ...{ needed: inches(40.5), bought: inches(40.5), cost: 1457 },
          lengths: [{ needed: inches(40.5), bought: inches(40.5) }],
        },
        surplus: [{ piece: 'porch covers/front', copies: 1 }],
        answer: 'best',
        bound: inches(40.5),
      },
    ],
    issues: [],
  };
}

/** Twice as many of those covers, for a shop that sells no length over 41 in: two lengths, the first holding four. */
export function twoLengthsPlan(): CutPlan {
  const once = foldedPlan();
  const [own] = once.cloths;
  const [length] = own!.lengths;
  const each = { needed: inches(40.5), bought: inches(40.5) };
  const twice = changed(once, ['cloths', 0], () => ({
    ...own,
    lengths: [1, 2].map((number) => ({ ...length, name: `bought ${number}` })),
    purchase: { needed: inches(81), bought: inches(81), lengths: [each, each], cost: 2914 },
    answer: 'found',
  }));
  const sold = changed(twice, ['plan', 'cloths', 0, 'buy', 'longest'], () => inches(41));
  const ordered = changed(sold, ['plan', 'makes', 0, 'count'], () => 7);
  return changed(ordered, ['pieces', 0, 'copies'], () => 7);
}

/** One runner cut on a fresh fold at 12 1/2 in, clear of a kept-off crease at 30 in, from a length in hand. */
export function freshFoldPlan(): CutPlan {
  const cloth: Cloth = {
    name: 'gorse plain',
    width: inches(58),
    selvedge: { left: inches(3 / 8), right: inches(5 / 8) },
    crease: { kind: 'use' },
    direction: 'plain',
    printRuns: 'along',
    squaring: inches(3 / 4),
    inHand: [
      {
        name: 'roll end',
        length: inches(46),
        width: inches(60),
        selvedge: { left: inches(1 / 2), right: inches(1 / 4) },
        crease: { kind: 'keep-off', each: inches(1) },
        copies: 1,
      },
    ],
    lay: 'folded',
  };
  const pieces = [wanted('hall runner', 'A', cloth, { width: inches(24), length: inches(40) }, 1, 'either')];
  return {
    plan: plan('hall', 'in', [cloth], {
      ...{ rulerMark: inches(1 / 8), keep: [inches(5), inches(7)], stages: 3, pieces },
    }),
    pieces,
    joined: [],
    makes: [],
    cloths: [
      {
        cloth: cloth.name,
        lengths: [
          {
            name: 'roll end',
            source: 'in-hand',
            width: inches(60),
            length: inches(46),
            lay: { kind: 'folded', foldAt: inches(12.5) },
            tree: crosscut(
              [inches(0.75), inches(40.75), inches(45.25)],
              trim('squaring'),
              lengthwise(
                [inches(0.5), inches(24.5), inches(29), inches(31), inches(59.75)],
                trim('selvedge'),
                piece('hall runner'),
                scrap,
                trim('crease'),
                remnant,
                trim('selvedge'),
              ),
              scrap,
              trim('squaring'),
            ),
          },
        ],
        surplus: [],
        answer: 'found',
      },
    ],
    issues: [],
  };
}
