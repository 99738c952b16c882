import { findMake } from '../makes/catalogue.ts';
import type { Price } from '../model/cloth.ts';
import type { GoodsLine } from '../model/goods.ts';
import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { costOf } from './purchase.ts';

/** Something besides cloth to get. Money in hundredths. */
export interface GoodsToGet {
  readonly name: string;
  /** As its size is told, where it has one. */
  readonly size?: Size;
  /** How many, or how much in whole steps of the shop; 0 where all is at hand. */
  readonly get: { readonly count: number } | { readonly length: Ticks };
  /** Of what is needed, so much is at hand. */
  readonly have: number | Ticks;
  /** Of one, or of a length. */
  readonly price?: number | Price;
  /** Absent without a price. */
  readonly cost?: number;
  readonly shop?: string;
  readonly note?: string;
  /** Called for by a make, with the order; the plan says nothing of it. */
  readonly for?: string;
}

/** What the plan lists besides cloth; then what its makes call for and the plan does not list under that name. */
export function goodsToGet(plan: Plan): readonly GoodsToGet[] {
  const listed = (plan.goods ?? []).map(toGet);
  const called = plan.makes.flatMap((order): readonly GoodsToGet[] => {
    const { needs = [] } = findMake(order.make)?.spec ?? {};
    return needs
      .filter(({ what }) => !listed.some(({ name }) => isNamed(name, what)))
      .map(({ what, size, kept }) => ({
        name: what,
        size: (order.measures[kept] ?? order.measures[size]) as Size,
        get: { count: order.count },
        have: 0,
        for: order.name,
      }));
  });
  return [...listed, ...merged(called)];
}

/** What several orders call for in one size is one thing to get. */
function merged(called: readonly GoodsToGet[]): readonly GoodsToGet[] {
  const alike = new Map<string, GoodsToGet[]>();
  for (const own of called) {
    const key = JSON.stringify([own.name, own.size?.width, own.size?.length]);
    alike.set(key, [...(alike.get(key) ?? []), own]);
  }
  return [...alike.values()].map((all) => ({
    ...all[0]!,
    get: { count: all.reduce((sum, { get }) => sum + ('count' in get ? get.count : 0), 0) },
    for: listedFor(all.flatMap((own) => own.for ?? [])),
  }));
}

function listedFor(orders: readonly string[]): string {
  return orders.length < 2 ? orders.join('') : `${orders.slice(0, -1).join(', ')} and ${orders.at(-1)}`;
}

/** `pads of 18 in` tells of a pad. */
function isNamed(name: string, what: string): boolean {
  return new RegExp(`\\b${what}s?\\b`, 'i').test(name);
}

function toGet(line: GoodsLine): GoodsToGet {
  const common = {
    name: line.name,
    have: line.have,
    ...(line.shop !== undefined && { shop: line.shop }),
    ...(line.note !== undefined && { note: line.note }),
  };
  if (line.sold === 'each') {
    const count = line.count - line.have;
    const { price } = line;
    return { ...common, get: { count }, ...(price !== undefined && { price, cost: count * price }) };
  }
  const length = ceilTo(ticks(line.length - line.have), line.step);
  const { price } = line;
  return { ...common, get: { length }, ...(price && { price, cost: costOf(price, length) }) };
}
