import type { CutPlan } from '../model/cut-plan.ts';
import { formatMoney, formatSize } from '../units/format.ts';
import {
  askFor,
  askForGoods,
  type Counter,
  countersOf,
  describe,
  describeGoods,
  type FromHand,
  goodsAtHand,
  priceWords,
  type ShoppingList,
  totalWords,
} from './shopping.ts';
import { rowsInColumns, wrapWords } from './text-columns.ts';

type Plan = CutPlan['plan'];
type Row = readonly [string, string];

/** The list for a terminal, or to be read out. */
export function shoppingText(list: ShoppingList, columns: number, by: 'shop' | 'cloth'): string {
  const { plan, inHand, cupboard } = list;
  const counters = countersOf(list, by);
  const named = counters.some(({ shop }) => shop !== undefined);
  return [
    `${plan.name}: to buy`,
    ...(counters.length === 0 ? ['  nothing'] : []),
    ...counters.flatMap((counter) => counterLines(counter, plan, columns, named)),
    ...(named ? [''] : []),
    ...wrapWords(totalWords(list), columns),
    ...handLines(
      'Already in hand',
      [...inHand.map((own) => handRow(own, plan)), ...goodsAtHand(list)],
      columns,
    ),
    ...handLines(
      'From the cupboard',
      cupboard.map((own) => handRow(own, plan)),
      columns,
    ),
  ].join('\n');
}

function counterLines(counter: Counter, plan: Plan, columns: number, named: boolean): readonly string[] {
  const money = (cost: number | undefined) =>
    cost === undefined ? 'no price' : formatMoney(cost, plan.currency);
  const line = (...parts: readonly string[]) => parts.filter((part) => part !== '').join(' ');
  const cloths = counter.toBuy.map(
    (item): Row => [
      item.cloth,
      `${line(askFor(item, plan), priceWords(item.price, plan))}, ${money(item.cost)}; ${describe(item, plan)}`,
    ],
  );
  const goods = counter.goods.map((item): Row => {
    const about = describeGoods(item, plan);
    const ask = `${line(askForGoods(item, plan), priceWords(item.price, plan))}, ${money(item.cost)}`;
    return [item.name, about === '' ? ask : `${ask}; ${about}`];
  });
  const rows = rowsInColumns([...cloths, ...goods], columns);
  if (!named) return rows;
  const heading = counter.shop ?? 'Anywhere';
  const priced = [...counter.toBuy, ...counter.goods].some(({ cost }) => cost !== undefined);
  return ['', priced ? `${heading}, ${formatMoney(counter.total, plan.currency)}` : heading, ...rows];
}

function handRow({ cloth, length, size, where }: FromHand, plan: Plan): Row {
  return [cloth, `${length}, ${formatSize(size, plan)}${where === undefined ? '' : `; ${where}`}`];
}

function handLines(heading: string, rows: readonly Row[], columns: number): readonly string[] {
  return rows.length === 0 ? [] : ['', heading, ...rowsInColumns(rows, columns)];
}
