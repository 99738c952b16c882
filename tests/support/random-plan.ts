/** Random whole plans: inches and centimetres, one to four cloths of every sort, loose pieces that fit, and makes. */
import fc from 'fast-check';
import type { Cloth, LengthInHand } from '../../src/model/cloth.ts';
import { foldedAtCreases } from '../../src/model/fold-at-crease.ts';
import type { JoinRule } from '../../src/model/piece.ts';
import type { LoosePiece, MakeOrder, Plan, PlanUnit } from '../../src/model/plan.ts';
import { TICKS_PER_CM, TICKS_PER_FOOT, TICKS_PER_INCH, type Ticks, ticks } from '../../src/units/ticks.ts';
import { randomCloth, randomLength } from './random-cloth.ts';
import { randomOrder } from './random-make.ts';

const CLOTH_NAMES = ['tide stripe', 'shingle linen', 'gorse plain', 'dune ticking'];
const PIECE_NAMES = ['panel', 'strap', 'flap', 'patch', 'facing'];
const ORDER_NAMES = ['landing covers', 'parlour set'];
const MARKS = {
  in: [TICKS_PER_INCH / 8, TICKS_PER_INCH / 16, TICKS_PER_INCH / 4],
  cm: [TICKS_PER_CM / 10, TICKS_PER_CM / 2],
};

/** Every loose piece fits its cloth somewhere, or may be joined; whether all fit together, and whether the makes do, is left to chance. */
export function randomPlan(): fc.Arbitrary<Plan> {
  return fc
    .record({
      unit: fc.constantFrom('in', 'cm' as const),
      many: fc.constantFrom(1, 1, 2, 3, 4),
    })
    .chain(({ unit, many }) =>
      fc
        .record({
          rulerMark: fc.constantFrom(...MARKS[unit].map(ticks)),
          cloths: fc.tuple(...CLOTH_NAMES.slice(0, many).map((name) => randomCloth(unit, name))),
        })
        .chain(({ rulerMark, cloths }) => planOf(unit, rulerMark, cloths)),
    )
    .map((plan) => foldedAtCreases(plan).plan);
}

/** Whether every cloth of a plan is asked for the same piece as often, and for nothing else. */
export function wantsAlike({ cloths, makes, pieces }: Plan): boolean {
  const wanted = new Set(pieces.map(({ size, count }) => JSON.stringify([size, count])));
  return cloths.length > 1 && makes.length === 0 && pieces.length === cloths.length && wanted.size === 1;
}

function planOf(unit: PlanUnit, rulerMark: Ticks, cloths: readonly Cloth[]): fc.Arbitrary<Plan> {
  const piece = fc
    .constantFrom(...cloths)
    .chain((cloth) => randomPiece(unit, cloth, rulerMark))
    .map((body) => body as Omit<LoosePiece, 'name'>);
  return fc
    .record({
      name: fc.constant('a chance plan'),
      unit: fc.constant(unit),
      rulerMark: fc.constant(rulerMark),
      paper: fc.constant(unit === 'in' ? 'letter' : 'a4'),
      currency: fc.constant('¤'),
      keep: fc.record({ width: randomLength(unit, 40, 90), length: randomLength(unit, 60, 130) }),
      tools: fc.constant({ rulerLength: ticks(2 * TICKS_PER_FOOT), rulerMark, mostPlies: 4 }),
      cloths: fc.constant(cloths),
      makes: randomOrders(unit, cloths),
      pieces: fc
        .array(piece, { minLength: 1, maxLength: PIECE_NAMES.length })
        .map((pieces) => pieces.map((body, index) => ({ ...body, name: PIECE_NAMES[index]! }))),
      alike: randomAlike(unit, cloths),
      stacks: fc.option(
        fc.record({
          take: fc.constantFrom('never', 'where-free', 'where-free', 'always' as const),
          edge: fc.constantFrom('left', 'right' as const),
        }),
        { nil: undefined },
      ),
      stages: fc.constantFrom('any', 'any', 3, 2 as const),
    })
    .map(({ alike, ...own }): Plan => ({ ...(own as Plan), ...alike }));
}

function randomOrders(unit: PlanUnit, cloths: readonly Cloth[]): fc.Arbitrary<readonly MakeOrder[]> {
  const names = cloths.map(({ name }) => name);
  const orders = ORDER_NAMES.map((name) => randomOrder(unit, name, names));
  return fc.oneof(
    { weight: 2, arbitrary: fc.constant([]) },
    fc.tuple(orders[0]!).map((order): readonly MakeOrder[] => order),
    fc.tuple(orders[0]!, orders[1]!).map((both): readonly MakeOrder[] => both),
  );
}

/**
 * Now and then the same small piece from every cloth, as often from each, and all flat and squared alike, so that they
 * may be stacked.
 */
function randomAlike(
  unit: PlanUnit,
  cloths: readonly Cloth[],
): fc.Arbitrary<Pick<Plan, 'pieces' | 'cloths' | 'makes'> | undefined> {
  const alike = fc
    .record({
      width: randomLength(unit, 80, 170),
      length: randomLength(unit, 90, 150),
      count: fc.integer({ min: 2, max: 9 }),
    })
    .map(({ width, length, count }) => ({
      makes: [],
      cloths: cloths.map((cloth) => ({ ...cloth, squaring: cloths[0]!.squaring, lay: 'flat' as const })),
      pieces: cloths.map(({ name }, index) => ({
        ...{ name: PIECE_NAMES[index]!, count, size: { width, length } },
        ...{ cloth: name, grain: 'either' as const },
      })),
    }));
  return cloths.length < 2
    ? fc.constant(undefined)
    : fc.oneof({ weight: 2, arbitrary: fc.constant(undefined) }, alike);
}

/** How a piece that is made larger than its cloth may be joined; which rules leave a way is left to chance. */
function randomJoin(unit: PlanUnit): fc.Arbitrary<JoinRule> {
  return fc.record({
    by: fc.constantFrom('seam', 'lap' as const),
    allowance: randomLength(unit, 4, 16),
    lines: fc.constantFrom('upright', 'level', 'either', 'either' as const),
    mostJoins: fc.integer({ min: 1, max: 5 }),
    narrowest: randomLength(unit, 34, 90),
    clearMiddle: fc.boolean(),
  });
}

/** A piece that fits the roomiest length of its cloth, the way round that print and grain allow; a few are larger and joined. */
function randomPiece(unit: PlanUnit, cloth: Cloth, rulerMark: Ticks): fc.Arbitrary<Omit<LoosePiece, 'name'>> {
  const room = roomiest(cloth);
  const within = (most: number) => {
    const whole = Math.max(1, Math.floor(most / rulerMark));
    // Up to a mark smaller than whole marks, so that it has to be rounded up.
    return fc
      .tuple(fc.integer({ min: 1, max: 100 }), fc.integer({ min: 0, max: rulerMark - 1 }))
      .map(([part, less]) => ticks(Math.ceil((whole * part) / 100) * rulerMark - less));
  };
  return fc
    .record({
      across: within(room.across),
      along: within(Math.min(room.along, 45 * TICKS_PER_INCH)),
      sideways: cloth.direction === 'plain' ? fc.boolean() : fc.constant(cloth.printRuns === 'across'),
      grained: fc.boolean(),
      count: fc.integer({ min: 1, max: 6 }),
      join: fc.option(randomJoin(unit), { nil: undefined, freq: 4 }),
      larger: fc.constantFrom(1, 1.6, 2.3),
    })
    .map(({ join, larger, ...own }) => ({
      ...own,
      ...(join && { join, across: ticks(Math.round(own.across * larger)) }),
    }))
    .map(({ across, along, sideways, grained, count, ...rest }) => ({
      ...('join' in rest && { join: rest.join }),
      count,
      size: sideways ? { width: along, length: across } : { width: across, length: along },
      cloth: cloth.name,
      grain: grained ? (sideways ? 'crosswise' : 'lengthwise') : 'either',
    }));
}

/** The length with the widest usable stretch, and how much can be used of it lengthwise. */
function roomiest(cloth: Cloth): { readonly across: number; readonly along: number } {
  const bolt = { ...cloth, length: cloth.buy?.longest ?? 60 * TICKS_PER_INCH };
  const rooms = [...(cloth.buy ? [bolt] : []), ...cloth.inHand].map((length) => roomOf(cloth, length));
  return rooms.reduce((best, room) =>
    Math.min(room.across, room.along) > Math.min(best.across, best.along) ? room : best,
  );
}

function roomOf(
  cloth: Cloth,
  length: Pick<LengthInHand, 'width' | 'selvedge' | 'crease'> & { length: number },
) {
  const washed = cloth.washing?.washed === 'before-cutting' ? cloth.washing : undefined;
  const left = (size: number, loss = { numerator: 0, denominator: 1 }) =>
    Math.floor((size * (loss.denominator - loss.numerator)) / loss.denominator);
  const width = left(length.width, washed?.across);
  const strip = length.crease.kind === 'keep-off' ? length.crease.each : 0;
  const halves = [length.selvedge.left, length.selvedge.right].map(
    (edge) => Math.floor(width / 2) - strip - 1 - edge,
  );
  const whole = width - length.selvedge.left - length.selvedge.right;
  const folded = Math.min(...halves);
  const flat = strip > 0 ? Math.max(...halves) : whole;
  return {
    across: cloth.lay === 'folded' ? folded : flat,
    along: left(length.length, washed?.along) - 2 * cloth.squaring,
  };
}
