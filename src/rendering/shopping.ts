import type { Cloth, Price } from '../model/cloth.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import { type GoodsToGet, goodsToGet } from '../planning/goods-to-get.ts';
import { lengthInHand } from '../planning/length-in-hand.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { DIRECTION_WORDS } from './direction-words.ts';
import { counterWords } from './panel-words.ts';
import { shelfSize, widthWords } from './wash-words.ts';

/** One line at the counter: so many lengths of one cloth. */
export interface ToBuy {
  readonly cloth: string;
  readonly width: Ticks;
  /** As it was measured: `54 in wide`. */
  readonly wide: string;
  readonly direction: Cloth['direction'];
  readonly lengths: readonly Ticks[];
  /** Part of it that the wash is reckoned to take, by what it takes along the length; 0 where nothing is washed first. */
  readonly washedAway: Ticks;
  readonly price?: Price;
  /** In hundredths; absent without a price. */
  readonly cost?: number;
  readonly shop?: string;
  readonly note?: string;
  /** How the shop is to cut it, where its printed panels matter: all lengths, and each by itself; else empty. */
  readonly counter: { readonly all: string; readonly each: readonly string[] };
}

export interface FromHand {
  readonly cloth: string;
  readonly length: string;
  readonly size: { readonly width: Ticks; readonly length: Ticks };
  /** Where it lies, of what comes from the cupboard. */
  readonly where?: string;
}

export interface ShoppingList {
  readonly plan: CutPlan['plan'];
  readonly toBuy: readonly ToBuy[];
  readonly goods: readonly GoodsToGet[];
  readonly inHand: readonly FromHand[];
  readonly cupboard: readonly FromHand[];
  /** Of all that has a price. */
  readonly total: number;
  /** What is to be bought and has no price. */
  readonly unpriced: readonly string[];
}

/** What to bring home and what is at hand already, in the order of the plan's cloths and goods. */
export function shoppingList(cutPlan: CutPlan): ShoppingList {
  const { plan } = cutPlan;
  const toBuy = cutPlan.cloths.flatMap((clothPlan): readonly ToBuy[] => {
    const { cloth: name, purchase } = clothPlan;
    const cloth = plan.cloths.find((own) => own.name === name)!;
    if (!purchase) return [];
    const { along } = cloth.washing?.washed === 'before-cutting' ? cloth.washing : NO_WASH;
    return [
      {
        cloth: name,
        width: cloth.width,
        wide: widthWords(cloth, plan),
        direction: cloth.direction,
        lengths: purchase.lengths.map(({ bought }) => bought),
        washedAway: ticks(Math.ceil((purchase.bought * along.numerator) / along.denominator)),
        ...(cloth.price && { price: cloth.price }),
        ...(purchase.cost !== undefined && { cost: purchase.cost }),
        ...(cloth.shop !== undefined && { shop: cloth.shop }),
        ...(cloth.note !== undefined && { note: cloth.note }),
        counter: {
          all: counterWords(cutPlan, clothPlan),
          each: purchase.lengths.map(({ bought }) => counterWords(cutPlan, clothPlan, [bought])),
        },
      },
    ];
  });
  const goods = goodsToGet(plan);
  const wanted = goods.filter((own) => amountOf(own) > 0);
  const hands = handsOf(cutPlan);
  return {
    plan,
    toBuy,
    goods,
    inHand: hands.filter(({ entry }) => !entry).map(({ hand }) => hand),
    cupboard: hands.filter(({ entry }) => entry).map(({ hand }) => hand),
    total: [...toBuy, ...wanted].reduce((sum, { cost = 0 }) => sum + cost, 0),
    unpriced: [
      ...toBuy.flatMap(({ cloth, cost }) => (cost === undefined ? [cloth] : [])),
      ...wanted.flatMap((own) => (own.cost === undefined ? [namedFor(own)] : [])),
    ],
  };
}

/** `pad for bench covers`: of several orders, each calls for its own. */
function namedFor({ name, for: order }: GoodsToGet): string {
  return order === undefined ? name : `${name} for ${order}`;
}

/** What all that has a price comes to, and what is not in it: `Total $24.60, the price of thread not counted`. */
export function totalWords({ plan, total, unpriced }: ShoppingList): string {
  const last = unpriced.at(-1);
  if (last === undefined) return `Total ${formatMoney(total, plan.currency)}`;
  const names = unpriced.length === 1 ? last : `${unpriced.slice(0, -1).join(', ')} and ${last}`;
  return `Total ${formatMoney(total, plan.currency)}, not counting what has no price: ${names}`;
}

const NO_WASH = { along: { numerator: 0, denominator: 1 } };

function handsOf({ plan, cloths }: CutPlan) {
  return cloths.flatMap(({ cloth: name, lengths }) => {
    const cloth = plan.cloths.find((own) => own.name === name)!;
    return lengths
      .filter(({ source }) => source === 'in-hand')
      .map((own) => {
        const shelf = lengthInHand(cloth, own);
        const entry = shelf?.entry;
        // As it lies there now, by which it is found, not as it is reckoned to come out of the wash.
        const { width, length } = shelf ? shelfSize(shelf, plan) : own;
        const where = entry?.where === undefined ? {} : { where: entry.where };
        return { entry, hand: { cloth: name, length: own.name, size: { width, length }, ...where } };
      });
  });
}

function amountOf({ get }: GoodsToGet): number {
  return 'count' in get ? get.count : get.length;
}

/** Goods of which enough is at hand, and how much that is in words. */
export function goodsAtHand({
  goods,
  plan,
}: ShoppingList): readonly (readonly [name: string, words: string])[] {
  return goods
    .filter((own) => amountOf(own) === 0)
    .map(
      (own) => [own.name, 'count' in own.get ? String(own.have) : formatBuy(ticks(own.have), plan)] as const,
    );
}

/** One heading of the list: a shop, or nothing where none is named. */
export interface Counter {
  readonly shop?: string;
  readonly toBuy: readonly ToBuy[];
  readonly goods: readonly GoodsToGet[];
  /** Of what has a price. */
  readonly total: number;
}

/** The list by shops, in the order in which they first come, what has none last; or all as one, by cloths. */
export function countersOf({ toBuy, goods }: ShoppingList, by: 'shop' | 'cloth'): readonly Counter[] {
  const wanted = goods.filter((own) => amountOf(own) > 0);
  const all = [...toBuy, ...wanted];
  const named = [...new Set(all.flatMap(({ shop }) => (shop === undefined ? [] : [shop])))];
  const shops: readonly (string | undefined)[] = by === 'cloth' ? [undefined] : [...named, undefined];
  return shops.flatMap((shop): readonly Counter[] => {
    const mine = (own: { readonly shop?: string }) => by === 'cloth' || own.shop === shop;
    const [cloths, others] = [toBuy.filter(mine), wanted.filter(mine)];
    if (cloths.length + others.length === 0) return [];
    const total = [...cloths, ...others].reduce((sum, { cost = 0 }) => sum + cost, 0);
    return [{ ...(shop !== undefined && { shop }), toBuy: cloths, goods: others, total }];
  });
}

/** The words to say at the counter: `1 3/8 yd`, `1.5 m and 1.1 m`. */
export function askFor({ lengths }: ToBuy, plan: CutPlan['plan']): string {
  return lengths.map((length) => formatBuy(length, plan)).join(' and ');
}

/** Likewise of goods: `8`, `2 1/2 yd`. */
export function askForGoods({ get }: GoodsToGet, plan: CutPlan['plan']): string {
  return 'count' in get ? String(get.count) : formatBuy(get.length, plan);
}

/** `ask for 2 whole repeats of 40 in; 54 in wide, one-way print; the wash takes about 2 in of it`. */
export function describe(item: ToBuy, plan: CutPlan['plan']): string {
  const wash =
    item.washedAway > 0
      ? `; the wash takes about ${formatLength(ceilTo(item.washedAway, plan.rulerMark), plan)} of it`
      : '';
  const counter = item.counter.all === '' ? '' : `${item.counter.all}; `;
  return `${counter}${item.wide}, ${DIRECTION_WORDS[item.direction]}${wash}${item.note ? `; ${item.note}` : ''}`;
}

/** `18 x 18 in, for bench covers; 2 at hand; in off-white`. */
export function describeGoods(
  { size, have, get, note, for: order }: GoodsToGet,
  plan: CutPlan['plan'],
): string {
  const atHand = 'count' in get ? String(have) : formatBuy(ticks(have), plan);
  const parts = [
    size && formatSize(size, plan),
    order === undefined ? undefined : `one for each of ${order}, unless you have them`,
    have > 0 ? `${atHand} at hand already` : undefined,
    note,
  ];
  return parts.filter((part) => part !== undefined).join('; ');
}

/** `at $16.40 per yd`, `at $1.20 each`; empty without a price. */
export function priceWords(price: number | Price | undefined, { unit, currency }: CutPlan['plan']): string {
  if (price === undefined) return '';
  if (typeof price === 'number') return `at ${formatMoney(price, currency)} each`;
  const per = formatBuy(ticks(price.per), { unit }).replace(/^1 /, '');
  return `at ${formatMoney(price.hundredths, currency)} per ${per}`;
}
