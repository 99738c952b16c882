import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { clearRooms, crosses, fitLabelClear } from '../../src/rendering/marker/clear-rooms.ts';
import type { Page, PageBox } from '../../src/rendering/marker/shapes.ts';
import { markerSheet } from '../../src/rendering/marker/sheet.ts';
import { textBox } from '../../src/rendering/marker/text-width.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { markerPages } from '../../src/rendering/pdf/marker-pages.ts';
import { plannedText } from '../support/planned-text.ts';
import { pageFaults, textsOf } from './page-faults.ts';

/** Panels of every size and state: taken, left whole, and cut into where they are used as plain cloth. */
const states = (untaken: string, every: number) => `
plan: The lamp room
unit: in
cloths:
  tide plates:
    width: 45
    selvedge: 1/2
    crease: use
    direction: two-way
    buy: yes
    panels:
      every: ${every}
      untaken: ${untaken}
      areas:
        - { name: storm lantern with keeper, from edge: 2, from end: 2, size: 12 x 12 }
        - { name: fog horn, from edge: 16, from end: 2, size: 9 x 9 }
        - { name: bell, from edge: 28, from end: 10, size: 5 x 5 }
        - { name: knot, from edge: 37, from end: 2, size: 3 x 3 }
        - { name: oar, from edge: 2, from end: 19, size: 26 x 3 }
pieces:
  - { name: seat, count: 1, size: 13 x 13, cloth: tide plates, panel: storm lantern with keeper }
  - { name: square, count: 1, size: 9 x 9, cloth: tide plates, panel: bell }
  - { name: band, count: 2, size: 6 x 21, cloth: tide plates }
  - { name: patch, count: 3, size: 7 x 7, cloth: tide plates }
`;

const layout = (name: string) => readFileSync(`layouts/${name}/plan.yaml`, 'utf8');

const PLANS: Readonly<Record<string, string>> = {
  'the sail loft': layout('sail-loft-panels'),
  'the sail loft, cut anywhere': layout('sail-loft-panels').replace(/sold: in repeats/, 'sold: anywhere'),
  'the reading nook': layout('reading-nook-mounted'),
  'the chart room': layout('chart-room-panels'),
  'panels kept whole': states('kept whole', 40),
  'panels as plain cloth': states('plain cloth', 40),
};

const outlinesOf = (page: Page): PageBox[] =>
  page.shapes.filter((shape) => shape.kind === 'rect' && shape.role === 'panel') as PageBox[];

const within = (inner: PageBox, outer: PageBox) =>
  inner.x >= outer.x &&
  inner.y >= outer.y &&
  inner.x + inner.width <= outer.x + outer.width &&
  inner.y + inner.height <= outer.y + outer.height;

describe('a drawing with printed panels', () => {
  it.each(Object.entries(PLANS))('has no label across an outline, and whole names: %s', (_, text) => {
    const cutPlan = plannedText(text);
    const panels = new Set(
      cutPlan.plan.cloths
        .flatMap((cloth) => [
          ...(cloth.panels?.areas ?? []),
          ...cloth.inHand.flatMap((length) => length.panels ?? []),
        ])
        .map(({ name }) => name),
    );
    let named = 0;
    for (const clothPlan of cutPlan.cloths) {
      const sheet = markerSheet(drawMarker(cutPlan, clothPlan.cloth)).page;
      for (const page of [...markerPages(cutPlan, clothPlan, { width: 612, height: 792 }), sheet]) {
        expect(pageFaults(page)).toEqual([]);
        const outlines = outlinesOf(page);
        const labels = ['piece-label', 'remnant-label'].flatMap((role) => textsOf(page, role));
        for (const label of labels) {
          const over = outlines.filter((outline) => crosses(textBox(label), outline));
          expect([label.text, over]).toEqual([label.text, []]);
        }
        const names = textsOf(page, 'panel-name');
        for (const name of names) {
          expect(panels).toContain(name.text);
          expect(outlines.some((outline) => within(textBox(name), outline))).toBe(true);
        }
        named += names.length;
      }
    }
    expect(named).toBeGreaterThan(2);
  });

  it('names in its key the panel that a piece is cut around', () => {
    const cutPlan = plannedText(states('kept whole', 40));
    const sheet = markerSheet(drawMarker(cutPlan, 'tide plates')).page;
    expect(textsOf(sheet, 'key').map(({ text }) => text)).toContain('square, around bell');
  });
});

describe('room for a label beside outlines', () => {
  const room = { x: 0, y: 0, width: 100, height: 40 };

  it('is worked by hand: inside, and on each side that is left', () => {
    // 1.2 points are kept on both sides of an outline from 30 to 60 that leaves nothing above or below.
    const tenths = (outline: PageBox) =>
      clearRooms(room, [outline]).map(({ x, y, width, height }) =>
        [x, y, width, height].map((value) => Math.round(10 * value) / 10),
      );
    expect(tenths({ x: 30, y: -5, width: 30, height: 60 })).toEqual([
      [61.2, 0, 38.8, 40],
      [0, 0, 28.8, 40],
      [31.2, 0, 27.6, 40],
    ]);
    expect(tenths({ x: 10, y: 10, width: 80, height: 20 })).toEqual([
      [11.2, 11.2, 77.6, 17.6],
      [0, 0, 100, 8.8],
      [0, 31.2, 100, 8.8],
      [0, 0, 8.8, 40],
      [91.2, 0, 8.8, 40],
    ]);
  });

  it('is the middle where that is clear, and where nothing is', () => {
    const line = [{ text: 'remnant', size: 9, weight: 'regular' as const }];
    const middle = fitLabelClear(room, [], [line], 'remnant-label')!;
    expect(fitLabelClear(room, [{ x: 0, y: 0, width: 5, height: 5 }], [line], 'remnant-label')).toEqual(
      middle,
    );
    const bars = Array.from({ length: 11 }, (_, index) => ({ x: 9 * index, y: -5, width: 6, height: 60 }));
    expect(fitLabelClear(room, bars, [line], 'remnant-label')!.box.width).toBe(middle.box.width);
    const aside = fitLabelClear(room, [{ x: 45, y: -5, width: 6, height: 60 }], [line], 'remnant-label')!;
    expect(aside.box.x).toBeGreaterThan(52);
  });
});
