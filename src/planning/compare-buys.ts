import { walk } from '../geometry/walk.ts';
import type { Cloth } from '../model/cloth.ts';
import type { PieceId, PieceWanted, Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Kind, PackOptions } from '../packing/instance.ts';
import { mostFromSheet } from '../packing/pack.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, bedOf } from './bed.ts';
import { countKinds } from './count-kinds.ts';
import { sortIntoKinds } from './kinds.ts';
import { isKeepable } from './open-out.ts';
import { buyFor, costOf, packableOf } from './purchase.ts';
import { type OneSet, oneSetOf, SetsLadder, type SetsPacked } from './sets-ladder.ts';

/** What one buy comes to. Areas in square ticks, money in hundredths. */
export interface Buy {
  readonly bought: Ticks;
  /** Complete sets found, and the most that is not proven impossible; equal where the count is proven. */
  readonly sets: number;
  readonly setsAtMost: number;
  /** Single pieces that the leftovers of those sets still hold. */
  readonly over: readonly { readonly piece: PieceId; readonly copies: number }[];
  /** Area of the pieces of complete sets ÷ (length that can be packed × usable width), per cent. */
  readonly markerEfficiency: number;
  readonly keepableArea: number;
  readonly largestLeftover?: Size;
  readonly cost?: number;
  /** What the maker says the keepable leftover is worth. */
  readonly leftoverWorth: number;
  /** (cost − worth of the leftover) ÷ sets; absent without a price or a set. */
  readonly costPerSet?: number;
}

export interface BuysCompared {
  readonly cloth: Cloth;
  readonly set: OneSet;
  readonly buys: readonly Buy[];
  /** Index of the buy with the least money a set; absent without a price. Ties go to the shorter buy. */
  readonly bestValue?: number;
}

export interface CompareOptions {
  readonly pack: PackOptions;
  /** Buys the maker names, each rounded up to the shop's step; without any, `rungs` of the shop's steps from the least that yields a set. */
  readonly lengths?: readonly Ticks[];
  readonly rungs?: number;
  /** Hundredths a square metre of keepable leftover; 0 unless the maker has a use for it. */
  readonly leftoverWorth?: number;
  /** Told of each row as soon as it is known. */
  readonly onBuy?: (buy: Buy) => void;
}

const DEFAULT_RUNGS = 16;
const SQUARE_METRE = 320_000 ** 2;

/**
 * Compares buys of one cloth by what can be cut from them: each row packs complete sets on its own length, squaring
 * and washing included, never by dividing areas. Undefined where the cloth cannot be bought or holds no set at all.
 */
export function compareBuys(
  plan: Plan,
  cloth: Cloth,
  pieces: readonly PieceWanted[],
  options: CompareOptions,
): BuysCompared | undefined {
  const bed = bedOf(cloth, plan.rulerMark);
  const set = oneSetOf(pieces);
  if (!cloth.buy || !bed) return undefined;
  const ladder = new SetsLadder({ plan, cloth, bed, pieces, set, options: options.pack });
  const first = ladder.packed(1);
  if (!first) return undefined;
  const buys: Buy[] = [];
  const named = options.lengths?.map((length) => ceilTo(length, cloth.buy!.step));
  for (const bought of named ?? rungs(cloth, first, options.rungs ?? DEFAULT_RUNGS)) {
    const buy = buyOf({ plan, cloth, pieces, bed, ladder, set }, bought, options);
    buys.push(buy);
    options.onBuy?.(buy);
  }
  const best = bestValueOf(buys);
  return { cloth, set, buys, ...(best !== undefined && { bestValue: best }) };
}

function rungs(cloth: Cloth, first: SetsPacked, count: number): readonly Ticks[] {
  const { step, longest = Infinity } = cloth.buy!;
  const least = buyFor(cloth, first.length).bought;
  return Array.from({ length: count }, (_, rung) => ticks(least + rung * step)).filter(
    (length) => length <= longest,
  );
}

interface Compared {
  readonly plan: Plan;
  readonly cloth: Cloth;
  readonly pieces: readonly PieceWanted[];
  readonly bed: Bed;
  readonly ladder: SetsLadder;
  readonly set: OneSet;
}

function buyOf(compared: Compared, bought: Ticks, options: CompareOptions): Buy {
  const { plan, cloth, bed, ladder, set, pieces } = compared;
  const length = packableOf(cloth, bought);
  const { sets, atMost } = ladder.on(length);
  const leftovers = leftoversOf(bed, sets === 0 ? undefined : ladder.packed(sets), length);
  const keepable = leftovers.filter((size) => isKeepable(size.width, size.length, plan.keep));
  const keepableArea = keepable.reduce((total, size) => total + size.width * size.length, 0);
  const setArea = pieces.reduce(
    (total, { id, size }) => total + (set.get(id) ?? 0) * size.width * size.length,
    0,
  );
  const leftoverWorth = Math.floor(((options.leftoverWorth ?? 0) * keepableArea) / SQUARE_METRE);
  const cost = cloth.price && costOf(cloth.price, bought);
  return {
    bought,
    sets,
    setsAtMost: atMost,
    over: singlesOver(compared, leftovers, options.pack),
    markerEfficiency: length > 0 ? (100 * sets * setArea) / (length * bed.usable) : 0,
    keepableArea,
    ...(keepable[0] && { largestLeftover: keepable[0] }),
    ...(cost !== undefined && { cost }),
    leftoverWorth,
    ...(cost !== undefined && sets > 0 && { costPerSet: (cost - leftoverWorth) / sets }),
  };
}

/** Every leftover rectangle of the packed sets and of the length after them, on all plies, largest first. */
function leftoversOf(bed: Bed, packed: SetsPacked | undefined, length: number): readonly Size[] {
  const plies = bed.lay.kind === 'folded' ? 2 : 1;
  const used = packed?.length ?? 0;
  const spans = bed.gap ? [bed.gap.x0, bed.packable - bed.gap.x1] : [bed.packable];
  const end = spans.map((width) => ({ width: ticks(width), length: ticks(length - used) }));
  const inside = packed
    ? walk(packed.tree, bed.packable as number, used).leaves.flatMap(({ leaf, box }) =>
        leaf.kind === 'piece' ? [] : clearOfGap(bed, box),
      )
    : [];
  return [...inside, ...end]
    .filter((size) => size.width > 0 && size.length > 0)
    .flatMap((size) => Array.from({ length: plies }, () => size))
    .sort((a, b) => b.width * b.length - a.width * a.length);
}

function clearOfGap(bed: Bed, box: { x0: number; y0: number; x1: number; y1: number }): readonly Size[] {
  const length = ticks(box.y1 - box.y0);
  const { gap } = bed;
  if (!gap) return [{ width: ticks(box.x1 - box.x0), length }];
  return [
    { width: ticks(Math.max(0, Math.min(box.x1, gap.x0) - box.x0)), length },
    { width: ticks(Math.max(0, box.x1 - Math.max(box.x0, gap.x1))), length },
  ];
}

/** Single pieces that the leftovers hold, largest leftover first, never as many as would make another set. */
function singlesOver(compared: Compared, leftovers: readonly Size[], pack: PackOptions): Buy['over'] {
  const { pieces, cloth, set, plan } = compared;
  const { kinds } = sortIntoKinds(
    pieces.map((piece) => ({ ...piece, copies: set.get(piece.id) ?? 0 })),
    cloth,
  );
  const left = kinds.map(({ kind }): Kind => kind);
  const dealt = kinds.map(() => 0);
  for (const size of leftovers) {
    const result = mostFromSheet(
      {
        sheet: { width: size.width, length: size.length },
        kinds: left.map((kind, index) => ({ ...kind, copies: kind.copies - dealt[index]! })),
      },
      { ...pack, stages: plan.stages },
    );
    if (result.status !== 'best' && result.status !== 'found') continue;
    for (const [kind, copies] of countKinds(result.sheets[0]!.tree)) dealt[kind]! += copies;
  }
  const counts = new Map<PieceId, number>();
  for (const [kind, copies] of dealt.entries()) {
    for (const copy of kinds[kind]!.copies.slice(0, copies))
      counts.set(copy.piece, (counts.get(copy.piece) ?? 0) + 1);
  }
  return [...counts].map(([piece, copies]) => ({ piece, copies }));
}

function bestValueOf(buys: readonly Buy[]): number | undefined {
  let best: number | undefined;
  for (const [index, { costPerSet }] of buys.entries()) {
    if (costPerSet === undefined) continue;
    if (best === undefined || costPerSet < buys[best]!.costPerSet!) best = index;
  }
  return best;
}
