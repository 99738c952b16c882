import { describe, expect, it } from 'vitest';
import { panelsOf } from '../../src/planning/panels/panels-told.ts';
import { markerSheet } from '../../src/rendering/marker/sheet.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { composePages } from '../../src/rendering/pdf/compose.ts';
import { shoppingPages } from '../../src/rendering/pdf/shopping-page.ts';
import { planJson } from '../../src/rendering/plan-json.ts';
import { shoppingList } from '../../src/rendering/shopping.ts';
import { shoppingCsv, shoppingJson } from '../../src/rendering/shopping-data.ts';
import { shoppingText } from '../../src/rendering/shopping-text.ts';
import { summaryText } from '../../src/rendering/tables.ts';
import { plannedText } from '../support/planned-text.ts';
import { textsOf } from './page-faults.ts';

/** Gulls 16 in square from 2 1/2 in on, every 30 in of a cloth 40 in wide. */
const chartRoom = (keys: { panels?: string; buy?: string; fronts?: number; asks?: string } = {}) =>
  plannedText(`
plan: The chart room
unit: in
cloths:
  gull squares:
    width: 40
    selvedge: 1/2
    direction: one-way
    buy: ${keys.buy ?? 'yes'}
    panels: { every: 30, ${keys.panels ?? ''} areas: [{ name: gull, from edge: 6, from end: 2 1/2, size: 16 x 16 }] }
pieces:
  - { name: front, count: ${keys.fronts ?? 2}, size: 18 x 18, cloth: gull squares${keys.asks ?? ', panel: gull'} }
`);

const words = (page: Parameters<typeof textsOf>[0]) =>
  textsOf(page)
    .map(({ text }) => text)
    .join(' ');
const flat = (text: string) => text.replace(/\s+/g, ' ');

describe('what is said at the counter of a cloth with panels', () => {
  const asked = 'ask for 2 whole repeats of 30 in, cut where the panels begin, 2 1/2 in before the gull';
  const drawn = asked.replace('2 1/2', '2½');

  it('stands in the summary and in every form of the shopping list', () => {
    const cutPlan = chartRoom();
    expect(flat(summaryText(cutPlan))).toContain(`At the counter ${asked}`);
    const list = shoppingList(cutPlan);
    expect(flat(shoppingText(list, 80, 'shop'))).toContain(`; ${asked}; 40 in wide`);
    expect(shoppingCsv(list)).toContain(`"1 2/3 yd; ${asked}"`);
    expect(JSON.parse(shoppingJson(list)).toBuy[0].lengths[0].counter).toBe(asked);
    expect(flat(words(shoppingPages(list, 'shop')[0]!))).toContain(drawn);
  });

  it('stands on the first page, on the markers and in plan.json', () => {
    const cutPlan = chartRoom();
    const [first, ...pages] = composePages(cutPlan).map(words);
    expect(flat(first!)).toContain(drawn.replace('ask', 'Ask'));
    expect(pages.some((page) => flat(page).includes(drawn))).toBe(true);
    expect(flat(words(markerSheet(drawMarker(cutPlan, 'gull squares')).page))).toContain(drawn);
    expect(planJson(cutPlan).cloths[0]!.purchase!.lengths).toMatchObject([{ counter: asked }]);
  });

  it('is told of each length where the shop sells none that long', () => {
    const cutPlan = chartRoom({ buy: '{ longest: 65 }', fronts: 3 });
    expect(flat(summaryText(cutPlan))).toContain(
      'ask for lengths of 2 and 1 whole repeats of 30 in, cut where',
    );
    const counters = planJson(cutPlan).cloths[0]!.purchase!.lengths.map(({ counter }) => counter);
    expect(counters).toEqual([asked, asked.replace('2 whole repeats', 'one whole repeat')]);
  });

  it('is that it may be cut anywhere, where the shop does; then the marker says where it begins', () => {
    const cutPlan = chartRoom({ panels: 'sold: anywhere,' });
    const summary = flat(summaryText(cutPlan));
    expect(summary).toContain('may be cut anywhere: a whole repeat of 30 in is reckoned in for that');
    const begins = 'the near end is where the first whole repeat begins, 2 1/2 in before the gull';
    expect(summary).toContain(begins);
    expect(flat(words(markerSheet(drawMarker(cutPlan, 'gull squares')).page))).toContain(
      begins.replace('2 1/2', '2½'),
    );
    // The repeat in reserve may lie at either end, so no third gull is promised.
    const { cloths, plan } = cutPlan;
    expect(panelsOf(cutPlan, plan.cloths[0]!, cloths[0]!.lengths[0]!)).toHaveLength(2);
  });

  it('is the whole repeats alone where the panels are used as plain cloth', () => {
    const cutPlan = chartRoom({ panels: 'untaken: plain cloth,', asks: '' });
    const [row] = planJson(cutPlan).cloths[0]!.purchase!.lengths;
    expect(row!.counter).toBe('ask for one whole repeat of 30 in');
  });

  it('is nothing where nothing is printed', () => {
    const plain = plannedText(`
plan: The porch
unit: cm
cloths: { moss: { width: 140, selvedge: 1, buy: yes } }
pieces: [{ name: strip, count: 2, size: 20 x 30, cloth: moss }]
`);
    expect(planJson(plain).cloths[0]!.purchase!.lengths[0]).not.toHaveProperty('counter');
    expect(summaryText(plain)).not.toContain('At the counter');
  });
});

describe('a mounted panel of a loose piece', () => {
  const hung = (mount: string) =>
    plannedText(`
plan: The chart room
unit: in
cloths:
  gull squares: { width: 40, selvedge: 1/2, buy: yes, panels: { every: 30, areas: [{ name: gull, from edge: 3, from end: 2, size: 14 x 15 }] } }
  oat linen: { width: 57, selvedge: 5/8, buy: yes }
pieces:
  - { name: hanging, count: 2, size: 21 x 23, cloth: gull squares, panel: { name: gull, ${mount}, cloth: oat linen } }
`);

  it('has its sums and its order of sewing, strips worked by hand', () => {
    const cutPlan = hung('mount: strips, seam: 3/8');
    const [sheet] = planJson(cutPlan).makes;
    // 14 + 2 × 3/8 = 14 3/4; (21 − 14 3/4 + 4 × 3/8) ÷ 2 = 3 7/8; 14 3/4 + 2 × 3 7/8 − 4 × 3/8 = 21.
    // 15 + 2 × 3/8 = 15 3/4; (23 − 15 3/4 + 4 × 3/8) ÷ 2 = 4 3/8.
    expect(sheet).toMatchObject({
      order: 'hanging',
      count: 2,
      loose: true,
      finished: { shown: '21 x 23 in' },
      arithmetic: [
        'hanging panel, across: 14 + 2 × 3/8 = 14 3/4',
        'hanging panel, up: 15 + 2 × 3/8 = 15 3/4',
        'hanging side strip, across: (21 − 14 3/4 + 4 × 3/8) ÷ 2, on the ruler = 3 7/8',
        'hanging end strip, across: 14 3/4 + 2 × 3 7/8 − 4 × 3/8 = 21',
        'hanging end strip, up: (23 − 15 3/4 + 4 × 3/8) ÷ 2, on the ruler = 4 3/8',
      ],
    });
    expect(sheet!.assembly).toHaveLength(2);
    expect(sheet!.assembly[0]).toContain(
      'a side strip to the left and to the right of the panel with a seam of 3/8 in',
    );
    expect(sheet!.assembly[1]).toContain('an end strip above and below panel and side strips');
    const summary = flat(summaryText(cutPlan));
    expect(summary).toContain(
      'Mounted panels hanging: 2 made up to 21 x 23 in hanging panel, across 14 + 2 × 3/8',
    );
    expect(summary).toContain(`2 ${sheet!.assembly[1]}`);
    const pages = flat(composePages(cutPlan).map(words).join(' '));
    expect(pages).toContain('Piece with its panel mounted, 2 to sew, made up to 21 × 23 in.');
    expect(pages).toContain('(21 − 14¾ + 4 × ⅜) ÷ 2, on the ruler = 3⅞');
    expect(pages).toContain('Putting it together');
  });

  it('on a ground says how far it lies from the edges', () => {
    const [sheet] = planJson(hung('mount: ground, turn: 5/16')).makes;
    // 14 + 2 × 5/16 = 14 5/8; (21 − 14) ÷ 2 = 3 1/2 and (23 − 15) ÷ 2 = 4.
    expect(sheet!.arithmetic).toEqual([
      'hanging panel, across: 14 + 2 × 5/16 = 14 5/8',
      'hanging panel, up: 15 + 2 × 5/16 = 15 5/8',
      'hanging ground, across, as its front: 21',
      'hanging ground, up, as its front: 23',
      'hanging ground, beside the panel, across: (21 − 14) ÷ 2 = 3 1/2',
      'hanging ground, beside the panel, up: (23 − 15) ÷ 2 = 4',
    ]);
    expect(sheet!.assembly[0]).toBe('Turn the panel under 5/16 in all round and press it.');
  });

  it('is told in the summary of a make too', () => {
    const cutPlan = plannedText(`
plan: The snug
unit: cm
cloths:
  gulls: { width: 100, selvedge: 1, buy: yes, panels: { every: 60, areas: [{ name: gull, from edge: 8, from end: 6, size: 30 x 30 }] } }
  moss: { width: 140, selvedge: 1, buy: yes }
make:
  - { name: covers, kind: envelope-cover, count: 1, size: 50 x 50, cloth: { front: gulls, backs: moss }, panel: { front: { name: gull, mount: strips, cloth: moss, seam: 1 } } }
`);
    const summary = flat(summaryText(cutPlan));
    expect(summary).toContain('Mounted panels covers: 1 front front panel, across 30 + 2 × 1 = 32');
    expect(planJson(cutPlan).makes).toHaveLength(1);
    expect(planJson(cutPlan).makes[0]).not.toHaveProperty('loose');
  });
});
