import { checkPlan } from '../../check/check-plan.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { ClothUses, MoreToBuy } from '../../model/leftover-use.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { LoosePiece, Plan } from '../../model/plan.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import { alignPrint, withStartReserve } from '../align-print.ts';
import { bedsOf } from '../beds.ts';
import { sortIntoKinds } from '../kinds.ts';
import { hasLadder } from '../ladder-limits.ts';
import { foldedAsAsked, packLaid } from '../pack-laid.ts';
import { buyFor, costOf } from '../purchase.ts';
import { times } from './most-of.ts';
import { packOf, type Tried, type UsesOptions } from './tried.ts';
import { habitsOf, orderFor, type Wished } from './use-plan.ts';

/** The shop's steps beyond the plan's own buy that are looked at; more is another purchase, not an addition. */
export const MOST_STEPS = 4;

/** The many sizes that nobody asked for are looked at with the effort divided by this; what is told is planned in full. */
const UNLISTED = 2;

/** Additions for what the maker has not listed that are told of one cloth. */
const MOST_UNLISTED = 3;

/**
 * The smallest addition to what is bought of a cloth, in the shop's steps, that gives more of something than its leftovers
 * do, for everything that may be had of it; only where the leftovers help, so that by themselves the same would take a
 * longer buy. Found by laying out what the plan wants together with ever more of each, so that it may also turn out that
 * cutting otherwise is enough. Smallest addition first; of equals the dearest, then the most of it.
 */
export function moreToBuy(
  cutPlan: CutPlan,
  found: Omit<ClothUses, 'more'>,
  tried: readonly Tried[],
  options: UsesOptions,
): readonly MoreToBuy[] {
  const { plan } = cutPlan;
  const cloth = plan.cloths.find(({ name }) => name === found.cloth.name)!;
  const clothPlan = cutPlan.cloths.find((own) => own.cloth === cloth.name)!;
  const wanted = cutPlan.pieces.filter((piece) => piece.cloth === cloth.name);
  if (!cloth.buy || !clothPlan.purchase || !hasLadder(cloth, wanted)) return [];
  // What is cut larger for a wash to come would be made larger once more.
  if (cloth.washing?.cutLarger) return [];
  const base = clothPlan.purchase.bought;
  const given = { plan, cloth, wanted, base, known: new Map<string, Ticks | undefined>() };
  const foreseen = tried.flatMap((own) => {
    const without = found.uses.find(({ wish }) => wish === own.wish)?.count ?? 0;
    return leastMore({ ...given, tried: own, without }, options) ?? [];
  });
  return mostTelling(foreseen.sort(smallestFirst))
    .flatMap((own) => sound(own, options) ?? [])
    .sort(smallestFirst);
}

interface Given {
  readonly plan: Plan;
  readonly cloth: Cloth;
  readonly wanted: readonly PieceWanted[];
  /** What the plan buys of the cloth. */
  readonly base: Ticks;
  readonly tried: Tried;
  /** How many the leftovers give anyway. */
  readonly without: number;
  /** What was packed before, by the pieces that were asked for: sizes come again in several wishes and counts. */
  readonly known: Map<string, Ticks | undefined>;
}

type Foreseen = Omit<MoreToBuy, 'plan'> & { readonly given: Given };

/** The maker's list, and a few others, of each make one. */
function mostTelling(foreseen: readonly Foreseen[]): readonly Foreseen[] {
  const listed = foreseen.filter(({ source }) => source === 'list');
  const others = foreseen.filter(
    (own, index) =>
      own.source !== 'list' &&
      foreseen.findIndex((other) => other.source !== 'list' && other.wish.make === own.wish.make) === index,
  );
  return [...listed, ...others.slice(0, MOST_UNLISTED)];
}

function smallestFirst(one: Omit<MoreToBuy, 'plan'>, other: Omit<MoreToBuy, 'plan'>): number {
  return one.more - other.more || gainOf(other) - gainOf(one) || areaOf(other) - areaOf(one);
}

function leastMore(given: Given, options: UsesOptions): Foreseen | undefined {
  const { cloth, tried, without, base, wanted } = given;
  const { wish } = tried;
  const limit = wish.most ?? Number.POSITIVE_INFINITY;
  let count = Math.max(without + 1, wish.least);
  if (count > limit) return undefined;
  const { step, longest = Number.POSITIVE_INFINITY } = cloth.buy!;
  const furthest = Math.min(base + MOST_STEPS * step, longest);
  const bought = (many: number, most: number) =>
    leastByArea(given, many) > most
      ? Number.POSITIVE_INFINITY
      : (boughtWith(given, wanted, many, options) ?? Number.POSITIVE_INFINITY);
  const first = bought(count, furthest);
  if (first > furthest) return undefined;
  // More never need less: strides that double until one is too many, then halved.
  let [stride, fails] = [1, limit + 1];
  while (count + stride < fails) {
    if (bought(count + stride, first) <= first) {
      count += stride;
      stride *= 2;
    } else {
      fails = count + stride;
      stride = 1;
    }
    stride = Math.min(stride, Math.max(1, Math.floor((fails - count) / 2)));
  }
  return told(given, count, ticks(Math.max(0, first - base)), options);
}

/** No plan buys less than what the areas alone take of the usable width, beside all that is in hand. */
function leastByArea({ plan, cloth, wanted, tried }: Given, count: number): number {
  const { inHand, toBuy } = bedsOf(plan, cloth);
  if (!toBuy) return 0;
  const plies = toBuy.lay.kind === 'folded' ? 2 : 1;
  const area = [...wanted, ...times(tried.set, count)].reduce(
    (sum, { size, copies }) => sum + size.width * size.length * copies,
    0,
  );
  const held = inHand.reduce((sum, bed) => sum + bed.width * bed.length, 0);
  // A hair is taken off, so that rounding never refuses what just fits.
  const length = Math.floor((area - held) / (plies === 2 ? cloth.width : toBuy.usable)) - 1;
  return length <= 0 ? 0 : buyFor(cloth, length).bought;
}

function told(given: Given, count: number, more: Ticks, options: UsesOptions): Foreseen | undefined {
  const { cloth, tried, without, base } = given;
  const { wish, source, finished } = tried;
  const alone = boughtWith(given, [], count - without, options);
  // What takes no less than it would alone is another purchase, and no use of a leftover.
  if (alone === undefined || more >= alone) return undefined;
  return {
    ...{ wish, source, finished, count, without, more, alone, given },
    ...(cloth.price && { cost: costOf(cloth.price, ticks(base + more)) - costOf(cloth.price, base) }),
  };
}

/** As it turns out when it is planned whole, and proven. */
function sound({ given, count, wish }: Foreseen, options: UsesOptions): MoreToBuy | undefined {
  const found = soundWith(given, { wish, count }, options);
  const bought = found?.cloths[0]?.purchase?.bought;
  if (!found || bought === undefined || bought > given.base + MOST_STEPS * given.cloth.buy!.step)
    return undefined;
  const own = told(given, count, ticks(Math.max(0, bought - given.base)), options);
  if (!own) return undefined;
  const { given: _, ...more } = own;
  return { ...more, plan: found };
}

/** What has to be bought for some pieces and so many of a wish; undefined where they do not fit at all. */
function boughtWith(
  given: Given,
  wanted: readonly PieceWanted[],
  count: number,
  options: UsesOptions,
): Ticks | undefined {
  const extra = times(given.tried.set, count);
  const alike = extra.map(({ size, copies, grain, match, onFold, join }) => [
    size,
    copies,
    grain,
    match,
    onFold,
    join,
  ]);
  const key = JSON.stringify([wanted.length > 0, alike]);
  if (!given.known.has(key)) given.known.set(key, packedWith(given, wanted, count, options));
  return given.known.get(key);
}

function packedWith(
  given: Given,
  wanted: readonly PieceWanted[],
  count: number,
  options: UsesOptions,
): Ticks | undefined {
  const { plan, tried } = given;
  const pieces = [...wanted, ...times(tried.set, count)];
  // By themselves they are cut from a new length.
  const from = wanted.length > 0 ? given.cloth : { ...given.cloth, inHand: [] };
  const cloth = foldedAsAsked(plan, withStartReserve(from, pieces), pieces);
  const { beds, phase } = alignPrint(bedsOf(plan, cloth), cloth, pieces);
  const { kinds, issues } = sortIntoKinds(pieces, cloth, phase);
  if (issues.some(({ severity }) => severity === 'error')) return undefined;
  const { effort, ...pack } = packOf(options);
  const share = tried.source === 'list' ? effort : Math.ceil(effort / UNLISTED);
  const packed = packLaid(cloth, beds, kinds, { ...pack, effort: share, stages: plan.stages });
  if (!packed.ok) return undefined;
  return ticks(
    packed.beds.reduce(
      (total, own) => total + (own.bed.source === 'bought' ? buyFor(cloth, own.length).bought : 0),
      0,
    ),
  );
}

/** The plan of that cloth with them, proven; undefined where none is found. */
function soundWith(
  { plan, cloth, wanted }: Given,
  wished: Wished,
  options: UsesOptions,
): CutPlan | undefined {
  const asked: Plan = {
    ...habitsOf(plan),
    name: `${plan.name}: ${wished.wish.name} from ${cloth.name} too`,
    cloths: [cloth],
    makes: [orderFor(wished, cloth.name)],
    pieces: wanted.map(asLoose),
  };
  const found = options.planned(asked);
  return found && checkPlan(found).length === 0 ? found : undefined;
}

function asLoose({ id, copies, size, cloth, grain, match, onFold }: PieceWanted): LoosePiece {
  const asked = { ...(match && { match }), ...(onFold && { onFold }) };
  return { name: id, count: copies, size, cloth, grain, ...asked };
}

/** What the addition brings in money: their worth less what it costs. */
function gainOf({ wish, count, without, cost = 0 }: Omit<MoreToBuy, 'plan'>): number {
  return (count - without) * (wish.worth ?? 0) - cost;
}

function areaOf({ finished, count, without }: Omit<MoreToBuy, 'plan'>): number {
  return finished.width * finished.length * (count - without);
}
