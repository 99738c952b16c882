import { formatMoney } from '../../units/format.ts';
import type { Page } from '../marker/shapes.ts';
import { askFor, describe, type ShoppingList } from '../shopping.ts';
import { LINES, PAPER, SOFT, TYPE } from '../theme.ts';
import { beside, Flow, PAPERS, paragraph, stack } from './flow.ts';
import { sizeWords, withGlyphs } from './words.ts';

/** The shopping list on the plan's paper, with a box to tick before each line. */
export function shoppingPages(list: ShoppingList): readonly Page[] {
  const { plan, toBuy, inHand, total, unpriced } = list;
  const flow = new Flow(PAPERS[plan.paper]);
  flow.newPage();
  flow.paragraph('To buy', { size: TYPE.title, weight: 'bold' });
  flow.paragraph(plan.name, { ink: SOFT });
  flow.space(10);
  for (const item of toBuy) {
    const cost = item.cost === undefined ? '' : formatMoney(item.cost, plan.currency);
    line(flow, [withGlyphs(askFor(item, plan)), item.cloth, cost], withGlyphs(describe(item, plan)));
  }
  if (toBuy.length === 0) flow.paragraph('Nothing.');
  const without = unpriced.length > 0 ? `, without ${unpriced.join(', ')}` : '';
  flow.space(6);
  flow.paragraph(`Total ${formatMoney(total, plan.currency)}${without}`, { size: 12, weight: 'bold' });
  if (inHand.length > 0) {
    flow.heading('Already in hand', 60);
    for (const { cloth, length, size } of inHand) line(flow, [length, cloth, ''], sizeWords(size, plan));
  }
  return flow.pages.map((shapes) => ({
    width: flow.paper.width,
    height: flow.paper.height,
    shapes: [
      { kind: 'rect', x: 0, y: 0, width: flow.paper.width, height: flow.paper.height, fill: PAPER },
      ...shapes,
    ],
  }));
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
