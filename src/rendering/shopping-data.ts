import type { Price } from '../model/cloth.ts';
import type { GoodsToGet } from '../planning/goods-to-get.ts';
import { formatBuy, formatLength, formatSize } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { writeJson } from './json-text.ts';
import { askForGoods, describeGoods, type FromHand, priceWords, type ShoppingList } from './shopping.ts';

type Cells = readonly (string | number)[];

/** One row a length or a thing, as RFC 4180 writes it: a field with a comma, a quote or a line break stands in quotes. */
export function shoppingCsv(list: ShoppingList): string {
  const { plan, toBuy, goods, inHand, cupboard } = list;
  const amount = (hundredths: number | undefined) =>
    hundredths === undefined ? '' : (hundredths / 100).toFixed(2);
  const hands = (get: string, all: readonly FromHand[]) =>
    all.map(({ cloth, length, size, where }): Cells => {
      const measures = [formatLength(size.width, plan), formatLength(size.length, plan)];
      return [get, where ?? '', cloth, ...measures, length, '', '', '', ''];
    });
  const rows: Cells[] = [
    ['get', 'where', 'what', 'width', 'length', 'ask for', 'price', 'cost', 'currency', 'note'],
    ...toBuy.flatMap((item) =>
      item.lengths.map((length, index): Cells => {
        const measures = [
          formatLength(item.width, plan),
          formatLength(length, plan),
          [formatBuy(length, plan), item.counter.each[index]!].filter((part) => part !== '').join('; '),
        ];
        // The cost of several lengths is asked once.
        const cost = index === 0 ? amount(item.cost) : '';
        const price = priceWords(item.price, plan).replace(/^at /, '');
        return ['buy', item.shop ?? '', item.cloth, ...measures, price, cost, plan.currency, item.note ?? ''];
      }),
    ),
    ...goods.map((item): Cells => {
      const price = priceWords(item.price, plan).replace(/^at /, '');
      const get = isAtHand(item) ? 'in hand' : 'buy';
      const about = describeGoods(item, plan);
      return [
        get,
        item.shop ?? '',
        item.name,
        '',
        '',
        askForGoods(item, plan),
        price,
        amount(item.cost),
        plan.currency,
        about,
      ];
    }),
    ...hands('in hand', inHand),
    ...hands('cupboard', cupboard),
  ];
  return rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');
}

function isAtHand({ get }: GoodsToGet): boolean {
  return ('count' in get ? get.count : get.length) === 0;
}

/** A cell that begins like a formula is kept from being run as one by the programs that open such files. */
function quoted(cell: string | number): string {
  const text = /^[=+\-@\t\r]/.test(String(cell)) ? `'${cell}` : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Lengths in ticks and in words, money in hundredths. */
export function shoppingJson(list: ShoppingList): string {
  const { plan, toBuy, goods, inHand, cupboard, total, unpriced } = list;
  const length = (own: Ticks) => ({ ticks: own, text: formatLength(own, plan) });
  const ask = (own: Ticks) => ({ ticks: own, text: formatBuy(own, plan) });
  const price = (own: Price | undefined) => own && { hundredths: own.hundredths, per: ask(ticks(own.per)) };
  const hands = (all: readonly FromHand[]) =>
    all.map((item) => ({
      cloth: item.cloth,
      length: item.length,
      size: { width: length(item.size.width), length: length(item.size.length) },
      where: item.where ?? null,
    }));
  return writeJson({
    format: 'laywright shopping list',
    version: 1,
    plan: plan.name,
    currency: plan.currency,
    toBuy: toBuy.map((item) => ({
      cloth: item.cloth,
      width: length(item.width),
      direction: item.direction,
      lengths: item.lengths.map((length, index) => ({
        ...ask(length),
        counter: item.counter.each[index] || null,
      })),
      washedAway: length(item.washedAway),
      price: price(item.price) ?? null,
      cost: item.cost ?? null,
      shop: item.shop ?? null,
      note: item.note ?? null,
    })),
    goods: goods.map((item) => ({
      name: item.name,
      ...('count' in item.get ? { count: item.get.count } : { length: ask(item.get.length) }),
      ...('count' in item.get ? { have: item.have } : { have: ask(ticks(item.have)) }),
      size: item.size ? formatSize(item.size, plan) : null,
      for: item.for ?? null,
      price:
        typeof item.price === 'number' ? { hundredths: item.price, per: 'one' } : (price(item.price) ?? null),
      cost: item.cost ?? null,
      shop: item.shop ?? null,
      note: item.note ?? null,
    })),
    inHand: hands(inHand),
    cupboard: hands(cupboard),
    total,
    unpriced,
  });
}
