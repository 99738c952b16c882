import type { Cloth, ClothName, Worth } from '../model/cloth.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { PackOptions } from '../packing/instance.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { buyOf } from './buy-of-length.ts';
import { type Buy, bestValueOf } from './compare-buys.ts';
import { mostOf } from './leftovers/most-of.ts';
import { type NamedSet, piecesOfSet, setsWanted } from './named-set.ts';
import { buyFor } from './purchase.ts';
import { DEFAULT_RUNGS } from './rungs.ts';
import { type OneSet, SetsLadder } from './sets-ladder.ts';

/** What to buy of every cloth for so many complete sets. */
export interface WholeBuy {
  /** That all cloths together allow, and the most that is not proven impossible. */
  readonly sets: number;
  readonly setsAtMost: number;
  /** Of each cloth that is bought, in the plan's order. */
  readonly lengths: readonly { readonly cloth: ClothName; readonly buy: Buy }[];
  /** Cloths that hold no set more. */
  readonly limitedBy: readonly ClothName[];
  /** Of all together; absent where one has no price. */
  readonly cost?: number;
  readonly leftoverWorth: number;
  /** Of the sets that the buys add to those in hand. */
  readonly costPerSet?: number;
}

export interface WholeCompared {
  readonly set: NamedSet;
  readonly buys: readonly WholeBuy[];
  /** Index of the buy with the least money a set; ties go to fewer sets. */
  readonly bestValue?: number;
  /** Cloths of which so many sets are in hand and no more can be had. */
  readonly inHandOnly: readonly {
    readonly cloth: ClothName;
    readonly sets: number;
    readonly proven: boolean;
  }[];
}

export interface WholeOptions {
  readonly pack: PackOptions;
  readonly rungs?: number;
  readonly leftoverWorth?: Worth;
  readonly onBuy?: (buy: WholeBuy) => void;
}

/**
 * The ladder of a whole plan: for one complete set and more, up to what the plan wants, the least buy of every cloth that
 * yields them, and how many sets those buys allow together. Undefined where a piece cannot be shared out among sets, or no
 * set can be had at all.
 */
export function compareWholePlan(
  cutPlan: CutPlan,
  set: NamedSet,
  options: WholeOptions,
): WholeCompared | undefined {
  const asked = clothsOf(cutPlan, set, options);
  if (!asked) return undefined;
  const { ladders, inHandOnly } = asked;
  const most = Math.min(setsWanted(cutPlan.plan, set), ...inHandOnly.map(({ sets }) => sets));
  const buys: WholeBuy[] = [];
  for (const sets of spread(most, options.rungs ?? DEFAULT_RUNGS)) {
    const buy = wholeBuy(cutPlan, ladders, asked, sets, options);
    if (!buy) break;
    // Buys in whole steps often allow more than they were made for.
    if (buy.sets <= (buys.at(-1)?.sets ?? 0)) continue;
    buys.push(buy);
    options.onBuy?.(buy);
  }
  if (buys.length === 0) return undefined;
  const best = bestValueOf(buys);
  return { set, buys, inHandOnly, ...(best !== undefined && { bestValue: best }) };
}

interface ClothLadder {
  readonly cloth: Cloth;
  readonly pieces: readonly PieceWanted[];
  readonly set: OneSet;
  readonly ladder: SetsLadder;
}

interface Asked {
  readonly ladders: readonly ClothLadder[];
  readonly inHandOnly: WholeCompared['inHandOnly'];
}

function clothsOf(
  { plan, pieces, cloths }: CutPlan,
  set: NamedSet,
  { pack }: WholeOptions,
): Asked | undefined {
  const ladders: ClothLadder[] = [];
  const inHandOnly: WholeCompared['inHandOnly'][number][] = [];
  for (const { cloth: name } of cloths) {
    const cloth = plan.cloths.find((own) => own.name === name)!;
    const all = pieces.filter((piece) => piece.cloth === name);
    const one = piecesOfSet(plan, all, set);
    if (!one) return undefined;
    const own = all.filter(({ id }) => one.has(id));
    if (own.length === 0) continue;
    if (cloth.buy) {
      const ladder = SetsLadder.of({ plan, cloth, pieces: own, set: one, options: pack });
      if (!ladder) return undefined;
      ladders.push({ cloth, pieces: own, set: one, ladder });
    } else {
      const wanted = own.map((piece) => ({ ...piece, copies: one.get(piece.id)! }));
      const { count, proven } = mostOf(plan, cloth, { set: wanted }, setsWanted(plan, set), pack);
      inHandOnly.push({ cloth: name, sets: count, proven });
    }
  }
  return { ladders, inHandOnly };
}

/** One set at a time, or further apart where so many rungs would not reach the last. */
function spread(most: number, rungs: number): readonly number[] {
  if (most < 1) return [];
  const count = Math.min(most, rungs);
  return Array.from({ length: count }, (_, rung) =>
    count === 1 ? most : 1 + Math.round((rung * (most - 1)) / (count - 1)),
  );
}

function wholeBuy(
  { plan }: CutPlan,
  ladders: readonly ClothLadder[],
  { inHandOnly }: Asked,
  sets: number,
  options: WholeOptions,
): WholeBuy | undefined {
  const rows: { readonly own: ClothLadder; readonly buy: Buy }[] = [];
  for (const own of ladders) {
    const packed = own.ladder.packed(sets);
    if (!packed) return undefined;
    const { cloth } = own.ladder;
    const bought: Ticks = packed.length === 0 ? ticks(0) : buyFor(cloth, packed.length).bought;
    const { pack, leftoverWorth } = options;
    const asked = { pack, ...(leftoverWorth && { leftoverWorth }) };
    rows.push({ own, buy: buyOf({ plan, ...own }, bought, asked) });
  }
  const held = [
    ...rows.map(({ own, buy }) => ({ cloth: own.cloth.name, sets: buy.sets, atMost: buy.setsAtMost })),
    ...inHandOnly.map((own) => ({ ...own, atMost: own.proven ? own.sets : Number.POSITIVE_INFINITY })),
  ];
  const found = Math.min(...held.map((own) => own.sets));
  const free = Math.min(...rows.map(({ buy }) => buy.setsInHand), ...inHandOnly.map((own) => own.sets));
  const cost = rows.every(({ buy }) => buy.cost !== undefined)
    ? rows.reduce((total, { buy }) => total + buy.cost!, 0)
    : undefined;
  const leftoverWorth = rows.reduce((total, { buy }) => total + buy.leftoverWorth, 0);
  return {
    sets: found,
    setsAtMost: Math.min(...held.map((own) => own.atMost)),
    lengths: rows.map(({ own, buy }) => ({ cloth: own.cloth.name, buy })),
    limitedBy: held.filter((own) => own.sets === found).map((own) => own.cloth),
    leftoverWorth,
    ...(cost !== undefined && { cost }),
    ...(cost !== undefined && found > free && { costPerSet: (cost - leftoverWorth) / (found - free) }),
  };
}
