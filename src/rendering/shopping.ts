import type { Cloth } from '../model/cloth.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { DIRECTION_WORDS } from './direction-words.ts';
import { writeJson } from './json-text.ts';
import { rowsInColumns } from './text-columns.ts';
import { widthWords } from './wash-words.ts';

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
  /** In hundredths; absent without a price. */
  readonly cost?: number;
  readonly note?: string;
}

export interface FromHand {
  readonly cloth: string;
  readonly length: string;
  readonly size: { readonly width: Ticks; readonly length: Ticks };
}

export interface ShoppingList {
  readonly plan: CutPlan['plan'];
  readonly toBuy: readonly ToBuy[];
  readonly inHand: readonly FromHand[];
  /** Of all that has a price. */
  readonly total: number;
  /** Cloths to buy that have no price. */
  readonly unpriced: readonly string[];
}

/** What to bring home and what is at hand already, in the order of the plan's cloths. */
export function shoppingList(cutPlan: CutPlan): ShoppingList {
  const { plan } = cutPlan;
  const toBuy = cutPlan.cloths.flatMap(({ cloth: name, purchase }): readonly ToBuy[] => {
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
        ...(purchase.cost !== undefined && { cost: purchase.cost }),
        ...(cloth.note !== undefined && { note: cloth.note }),
      },
    ];
  });
  return {
    plan,
    toBuy,
    inHand: cutPlan.cloths.flatMap(({ cloth, lengths }) =>
      lengths
        .filter(({ source }) => source === 'in-hand')
        .map(({ name, width, length }) => ({ cloth, length: name, size: { width, length } })),
    ),
    total: toBuy.reduce((sum, { cost = 0 }) => sum + cost, 0),
    unpriced: toBuy.filter(({ cost }) => cost === undefined).map(({ cloth }) => cloth),
  };
}

const NO_WASH = { along: { numerator: 0, denominator: 1 } };

/** The words to say at the counter: `1 3/8 yd`, `1.5 m and 1.1 m`. */
export function askFor({ lengths }: ToBuy, plan: CutPlan['plan']): string {
  return lengths.map((length) => formatBuy(length, plan)).join(' and ');
}

/** `54 in wide, one-way print; the wash takes 2 in of it`. */
export function describe(item: ToBuy, plan: CutPlan['plan']): string {
  const wash = item.washedAway > 0 ? `; the wash takes ${formatLength(item.washedAway, plan)} of it` : '';
  return `${item.wide}, ${DIRECTION_WORDS[item.direction]}${wash}${item.note ? `; ${item.note}` : ''}`;
}

/** The list for a terminal, or to be read out. */
export function shoppingText(list: ShoppingList, columns: number): string {
  const { plan, toBuy, inHand, total, unpriced } = list;
  const money = (cost: number | undefined) =>
    cost === undefined ? 'no price' : formatMoney(cost, plan.currency);
  const bought = toBuy.map(
    (item) => [item.cloth, `${askFor(item, plan)}, ${money(item.cost)}; ${describe(item, plan)}`] as const,
  );
  const used = inHand.map(
    ({ cloth, length, size }) => [cloth, `${length}, ${formatSize(size, plan)}`] as const,
  );
  return [
    `${plan.name}: to buy`,
    ...(bought.length > 0 ? rowsInColumns(bought, columns) : ['  nothing']),
    `Total ${formatMoney(total, plan.currency)}${unpriced.length > 0 ? `, without ${unpriced.join(', ')}` : ''}`,
    ...(used.length > 0 ? ['', 'Already in hand', ...rowsInColumns(used, columns)] : []),
  ].join('\n');
}

/** One row a length, as RFC 4180 writes it: a field with a comma, a quote or a line break stands in quotes. */
export function shoppingCsv({ plan, toBuy, inHand }: ShoppingList): string {
  const rows: (readonly (string | number)[])[] = [
    ['get', 'cloth', 'width', 'length', 'ask for', 'cost', 'currency', 'note'],
    ...toBuy.flatMap((item) =>
      item.lengths.map((length, index) => [
        'buy',
        item.cloth,
        formatLength(item.width, plan),
        formatLength(length, plan),
        formatBuy(length, plan),
        // The cost of several lengths is asked once.
        index === 0 && item.cost !== undefined ? (item.cost / 100).toFixed(2) : '',
        plan.currency,
        item.note ?? '',
      ]),
    ),
    ...inHand.map(({ cloth, length, size }) => [
      'in hand',
      cloth,
      formatLength(size.width, plan),
      formatLength(size.length, plan),
      length,
      '',
      '',
      '',
    ]),
  ];
  return rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');
}

/** A cell that begins like a formula is kept from being run as one by the programs that open such files. */
function quoted(cell: string | number): string {
  const text = /^[=+\-@\t\r]/.test(String(cell)) ? `'${cell}` : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Lengths in ticks and in words, money in hundredths. */
export function shoppingJson({ plan, toBuy, inHand, total, unpriced }: ShoppingList): string {
  const length = (own: Ticks) => ({ ticks: own, text: formatLength(own, plan) });
  return writeJson({
    format: 'laywright shopping list',
    version: 1,
    plan: plan.name,
    currency: plan.currency,
    toBuy: toBuy.map((item) => ({
      cloth: item.cloth,
      width: length(item.width),
      direction: item.direction,
      lengths: item.lengths.map((own) => ({ ticks: own, text: formatBuy(own, plan) })),
      washedAway: length(item.washedAway),
      cost: item.cost ?? null,
      note: item.note ?? null,
    })),
    inHand: inHand.map((item) => ({
      cloth: item.cloth,
      length: item.length,
      size: { width: length(item.size.width), length: length(item.size.length) },
    })),
    total,
    unpriced,
  });
}
