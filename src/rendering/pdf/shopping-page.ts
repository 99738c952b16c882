import { formatMoney } from '../../units/format.ts';
import { withGlyphs } from '../glyphs.ts';
import type { Page } from '../marker/shapes.ts';
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
} from '../shopping.ts';
import { LINES, PAPER, SOFT, TYPE } from '../theme.ts';
import { beside, Flow, PAPERS, paragraph, stack } from './flow.ts';
import { sizeWords } from './words.ts';

/** The shopping list on the plan's paper, with a box to tick before each line. */
export function shoppingPages(list: ShoppingList, by: 'shop' | 'cloth'): readonly Page[] {
  const { plan, inHand, cupboard } = list;
  const flow = new Flow(PAPERS[plan.paper]);
  flow.newPage();
  flow.paragraph('To buy', { size: TYPE.title, weight: 'bold' });
  flow.paragraph(plan.name, { ink: SOFT });
  flow.space(10);
  const counters = countersOf(list, by);
  const named = counters.some(({ shop }) => shop !== undefined);
  for (const counter of counters) {
    if (named) flow.heading(counter.shop ?? 'Anywhere', 60);
    counterLines(flow, counter, plan);
    if (named && counter.total > 0)
      flow.paragraph(`Together ${formatMoney(counter.total, plan.currency)}`, { ink: SOFT, size: 11 });
  }
  if (counters.length === 0) flow.paragraph('Nothing.');
  flow.space(6);
  flow.paragraph(totalWords(list), { size: 12, weight: 'bold' });
  handLines(flow, 'Already in hand', inHand, plan, goodsAtHand(list));
  handLines(flow, 'From the cupboard', cupboard, plan);
  return flow.pages.map((shapes) => ({
    width: flow.paper.width,
    height: flow.paper.height,
    shapes: [
      { kind: 'rect', x: 0, y: 0, width: flow.paper.width, height: flow.paper.height, fill: PAPER },
      ...shapes,
    ],
  }));
}

function counterLines(flow: Flow, { toBuy, goods }: Counter, plan: ShoppingList['plan']): void {
  const money = (cost: number | undefined) => (cost === undefined ? '' : formatMoney(cost, plan.currency));
  const about = (...parts: readonly string[]) => withGlyphs(parts.filter((part) => part !== '').join('; '));
  for (const item of toBuy) {
    const words = about(priceWords(item.price, plan), describe(item, plan));
    line(flow, [withGlyphs(askFor(item, plan)), item.cloth, money(item.cost)], words);
  }
  for (const item of goods) {
    const words = about(priceWords(item.price, plan), describeGoods(item, plan));
    line(flow, [withGlyphs(askForGoods(item, plan)), item.name, money(item.cost)], words);
  }
}

function handLines(
  flow: Flow,
  heading: string,
  hands: readonly FromHand[],
  plan: ShoppingList['plan'],
  goods: readonly (readonly [name: string, words: string])[] = [],
): void {
  if (hands.length + goods.length === 0) return;
  flow.heading(heading, 60);
  for (const { cloth, length, size, where } of hands) {
    const lies = where === undefined ? '' : `; ${where}`;
    line(flow, [length, cloth, ''], `${sizeWords(size, plan)}${lies}`);
  }
  for (const [name, words] of goods) line(flow, [words, name, ''], '');
}

const BOX = 11;

function line(flow: Flow, [ask, cloth, cost]: readonly [string, string, string], about: string): void {
  const middle = flow.width * 0.34;
  const right = flow.width * 0.84;
  const box = {
    width: BOX,
    height: BOX + 4,
    shapes: [{ kind: 'rect', x: 0, y: 3, width: BOX, height: BOX, stroke: LINES.outline } as const],
  };
  const named = stack(
    [
      paragraph(cloth, right - middle - 8, { size: 12, weight: 'bold' }),
      paragraph(about, right - middle - 8, { size: TYPE.small, ink: SOFT }),
    ],
    right - middle,
  );
  flow.add(
    beside(
      [
        [0, box],
        [22, paragraph(ask, middle - 30, { size: 12.5, weight: 'bold' })],
        [middle, named],
        [right, paragraph(cost, flow.width - right, { size: 11 })],
      ],
      flow.width,
    ),
  );
  flow.space(8);
}
