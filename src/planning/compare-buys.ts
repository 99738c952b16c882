import type { Cloth, Worth } from '../model/cloth.ts';
import type { PieceId, PieceWanted, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { buyOf } from './buy-of-length.ts';
import { buyFor, costOf, packableOf } from './purchase.ts';
import { DEFAULT_RUNGS } from './rungs.ts';
import { type OneSet, oneSetOf, SetsLadder, type SetsPacked } from './sets-ladder.ts';

/** What one buy comes to. Areas in square ticks, money in hundredths. */
export interface Buy {
  /** 0 where the lengths in hand are all. */
  readonly bought: Ticks;
  /** Complete sets found, and the most that is not proven impossible; equal where the count is proven. */
  readonly sets: number;
  readonly setsAtMost: number;
  /** Of them, those that the lengths in hand hold without any buy. */
  readonly setsInHand: number;
  /** Single pieces that the leftovers of those sets still hold. */
  readonly over: readonly { readonly piece: PieceId; readonly copies: number }[];
  /** Area of the pieces of complete sets ÷ (length that can be packed × usable width), lengths in hand that are cut counted, per cent. */
  readonly markerEfficiency: number;
  readonly keepableArea: number;
  readonly largestLeftover?: Size;
  readonly cost?: number;
  /** What the maker says the keepable leftover is worth, by its area or by what it would become, whichever is more. */
  readonly leftoverWorth: number;
  /** What it would become, where that is what counts. */
  readonly leftoverUses: readonly { readonly name: string; readonly count: number }[];
  /** (cost − worth of the leftover) ÷ sets that the buy adds to those in hand; absent without a price or such a set. */
  readonly costPerSet?: number;
}

export interface BuysCompared {
  readonly cloth: Cloth;
  readonly set: OneSet;
  readonly buys: readonly Buy[];
  /** Steps of the shop between those buys that are not listed, since the ladder has to reach further than its rungs. */
  readonly between: number;
  /** The least that was found to yield one set more than those in hand; its cost in hundredths, absent without a price. */
  readonly leastForOne: { readonly bought: Ticks; readonly cost?: number };
  /** Index of the buy with the least money a set; absent without a price. Ties go to the shorter buy. */
  readonly bestValue?: number;
}

export interface CompareOptions {
  readonly pack: PackOptions;
  /** How a buy that the maker names is laid out, and one that holds what the plan wants, for what it leaves; as `pack` unless said. */
  readonly layOut?: PackOptions;
  /** Buys the maker names, each rounded up to the shop's step; without any, `rungs` of the shop's steps from the least that yields a set. */
  readonly lengths?: readonly Ticks[];
  readonly rungs?: number;
  /** A length that the ladder must reach: then its rungs lie further apart, where so many single steps fall short of it. */
  readonly reach?: Ticks;
  /** Copies of each piece in one set; the smallest set of the cloth by itself unless said. */
  readonly set?: OneSet;
  /** What a keepable leftover is worth, in the place of what the plan says. */
  readonly leftoverWorth?: Worth;
  /** Told of each row as soon as it is known. */
  readonly onBuy?: (buy: Buy) => void;
}

/**
 * Compares buys of one cloth by what can be cut from them and from the lengths in hand: each row packs complete sets on its
 * own length, squaring, washing and matching included, never by dividing areas. Undefined where the cloth cannot be bought,
 * holds no set at all, or has no part in the set.
 */
export function compareBuys(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  options: CompareOptions,
): BuysCompared | undefined {
  const set = options.set ?? oneSetOf(pieces);
  const asked = pieces.filter(({ id }) => (set.get(id) ?? 0) > 0);
  if (!cloth.buy || asked.length === 0) return undefined;
  const ladder = SetsLadder.of({ plan, cloth, pieces: asked, set, options: options.pack });
  const first = ladder?.packed(1);
  if (!ladder || !first) return undefined;
  const buys: Buy[] = [];
  const named = options.lengths?.map((length) => ceilTo(length, cloth.buy!.step));
  const climbed = named ? undefined : rungs(ladder.cloth, first, options);
  for (const rung of named ?? climbed!.lengths) {
    const isSnapped = climbed && climbed.between > 0 && rung !== climbed.lengths.at(-1);
    const bought = isSnapped ? leastForTheSame(ladder, rung, buys.at(-1)) : rung;
    const buy = buyOf({ plan, pieces: asked, ladder, set }, bought, options);
    buys.push(buy);
    options.onBuy?.(buy);
  }
  const best = bestValueOf(buys);
  const leastForOne = leastFor(ladder);
  return {
    cloth,
    set,
    buys,
    between: climbed?.between ?? 0,
    leastForOne,
    ...(best !== undefined && { bestValue: best }),
  };
}

/** Where steps are passed over: the least buy that yields as many sets as a rung does, unless it is listed already. */
function leastForTheSame(ladder: SetsLadder, rung: Ticks, before: Buy | undefined): Ticks {
  const packed = ladder.packed(ladder.on(packableOf(ladder.cloth, rung)).sets);
  if (!packed || packed.length === 0) return rung;
  const { bought } = buyFor(ladder.cloth, packed.length);
  return bought > (before?.bought ?? 0) && bought < rung ? bought : rung;
}

function leastFor(ladder: SetsLadder): BuysCompared['leastForOne'] {
  const { cloth } = ladder;
  const packed = ladder.packed(ladder.setsInHand() + 1) ?? ladder.packed(1)!;
  const bought = packed.length === 0 ? ticks(0) : buyFor(cloth, packed.length).bought;
  return { bought, ...(cloth.price && { cost: costOf(cloth.price, bought) }) };
}

/**
 * Single steps of the shop from the least that yields a set; wider apart where so many would not reach what must be reached.
 * `between`: how many steps are passed over then.
 */
function rungs(
  cloth: Cloth,
  { length }: SetsPacked,
  options: CompareOptions,
): { readonly lengths: readonly Ticks[]; readonly between: number } {
  const { rungs: count = DEFAULT_RUNGS, reach = ticks(0) } = options;
  const { step, longest = Infinity } = cloth.buy!;
  const least = length === 0 ? 0 : Math.round(buyFor(cloth, length).bought / step);
  const last = Math.max(least + count - 1, Math.ceil(reach / step));
  const steps = Array.from({ length: count }, (_, rung) =>
    count === 1 ? last : least + Math.round((rung * (last - least)) / (count - 1)),
  );
  const lengths = steps.map((many) => ticks(many * step)).filter((bought) => bought <= longest);
  const listed = (lengths.at(-1) ?? 0) / step - least + 1;
  return { lengths, between: Math.max(0, listed - lengths.length) };
}

/** Index of the buy with the least money a set, the first of those that come to the same hundredth. */
export function bestValueOf(buys: readonly { readonly costPerSet?: number }[]): number | undefined {
  let best: number | undefined;
  for (const [index, { costPerSet }] of buys.entries()) {
    if (costPerSet === undefined) continue;
    if (best === undefined || Math.round(costPerSet) < Math.round(buys[best]!.costPerSet!)) best = index;
  }
  return best;
}
