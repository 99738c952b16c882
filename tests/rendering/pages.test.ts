import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { cuttingSteps } from '../../src/planning/steps.ts';
import { markerSheet } from '../../src/rendering/marker/sheet.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { composePages } from '../../src/rendering/pdf/compose.ts';
import { markerPages } from '../../src/rendering/pdf/marker-pages.ts';
import { formatSize } from '../../src/units/format.ts';
import { joinedPlan } from '../support/joined-plan.ts';
import { randomPlan } from '../support/random-plan.ts';
import { pageFaults, textsOf } from './page-faults.ts';
import { breakfastRoom, foldedBedroom, SAMPLES } from './sample-plans.ts';

const LETTER = { width: 612, height: 792 };

const cases = Object.entries(SAMPLES);

/** Every page and sheet that a plan is drawn on. */
const drawings = (plan: CutPlan) => [
  ...composePages(plan),
  ...plan.cloths.map(({ cloth }) => markerSheet(drawMarker(plan, cloth)).page),
];

describe('pages', () => {
  it.each(cases)('of %s have nothing outside and no two texts on each other', (_, make) => {
    expect(drawings(make()).flatMap(pageFaults)).toEqual([]);
  });

  it('are told faulty when they are', () => {
    const text = {
      kind: 'text',
      text: 'hem',
      size: 9,
      weight: 'regular',
      anchor: 'start',
      ink: '#000',
    } as const;
    const shapes = [
      { ...text, x: 40, y: 50 },
      { ...text, x: 44, y: 55 },
      { ...text, x: 95, y: 20 },
    ];
    expect(pageFaults({ width: 100, height: 80, shapes })).toHaveLength(2);
  });

  it.each(cases)('of %s name every piece with its size, and number every step', (_, make) => {
    const plan = make();
    for (const clothPlan of plan.cloths) {
      const pages = markerPages(plan, clothPlan, LETTER);
      const sheet = markerSheet(drawMarker(plan, clothPlan.cloth)).page;
      for (const drawing of [pages, [sheet]]) {
        const labels = drawing.flatMap((page) => textsOf(page, 'piece-label'));
        const key = drawing.flatMap((page) => textsOf(page, 'key')).map(({ text }) => text);
        for (const { piece, copies } of drawMarker(plan, clothPlan.cloth).kinds) {
          const size = formatSize(piece.size, { unit: plan.plan.unit, fractions: 'glyph' });
          expect(labels.some(({ text }) => text.split(' ')[0] === piece.letter)).toBe(true);
          expect(key).toContain(piece.letter);
          expect(key.some((text) => text.startsWith(size) && text.includes(`×${copies}`))).toBe(true);
        }
        const numbers = new Set(
          drawing.flatMap((page) => textsOf(page, 'cut-number')).map(({ text }) => text),
        );
        const steps = clothPlan.lengths.flatMap((length) => cuttingSteps(length, plan.plan.tools));
        expect([...numbers].sort()).toEqual([...new Set(steps.map(({ number }) => String(number)))].sort());
      }
    }
  });

  it.each(cases)('of %s write one label on every piece that is drawn whole', (_, make) => {
    const plan = make();
    for (const { cloth } of plan.cloths) {
      const marker = drawMarker(plan, cloth);
      const sheet = markerSheet(marker).page;
      const pieces = sheet.shapes.filter(({ role }) => role === 'piece');
      const halos = sheet.shapes.filter(({ role }) => role === 'halo').length;
      const remnants = textsOf(sheet, 'remnant-label').length;
      expect(pieces.length).toBeGreaterThanOrEqual(marker.lengths.flatMap((length) => length.pieces).length);
      expect(halos).toBeGreaterThanOrEqual(pieces.length);
      expect(remnants).toBeLessThanOrEqual(2 * marker.lengths.flatMap((length) => length.leftovers).length);
    }
  });

  it('say that a folded lay is double, and count it so', () => {
    const pages = composePages(foldedBedroom());
    const texts = pages.flatMap((page) => textsOf(page)).map(({ text }) => text);
    expect(texts.some((text) => text.includes('folded, 2 plies'))).toBe(true);
    expect(texts).toContain('4.2 × 31.5 cm  ×12, laid double');
    expect(texts.join(' ')).toContain('6 × 2 plies = 12, 1 of them spare');
    const boxes = pages.flatMap((page) => page.shapes.filter(({ role }) => role === 'tick-box'));
    const steps = foldedBedroom().cloths[0]!.lengths.flatMap((length) =>
      cuttingSteps(length, foldedBedroom().plan.tools),
    );
    expect(boxes).toHaveLength(6 + 6 + 12 + steps.length);
  });

  it('list what joins to what, each join with a box', () => {
    const pages = composePages(joinedPlan());
    const words = pages
      .flatMap((page) => textsOf(page))
      .map(({ text }) => text)
      .join(' ');
    // Two parts of 50 and 41.5 cm lapped by 1.5 cm make 90 cm.
    expect(words).toContain('Lap A1 over A2 by 1.5 cm, the join upright, and fuse: 90 × 21 cm.');
    expect(pages.flatMap(pageFaults)).toEqual([]);
    const boxes = pages.flatMap((page) => page.shapes.filter(({ role }) => role === 'tick-box'));
    const steps = joinedPlan().cloths[0]!.lengths.flatMap((length) =>
      cuttingSteps(length, joinedPlan().plan.tools),
    );
    expect(boxes).toHaveLength(2 + steps.length + 1);
  });

  it.each(cases)('of %s tell where each marker stands', (_, make) => {
    const plan = make();
    const pages = composePages(plan);
    const told = textsOf(pages[0]!, 'figure').flatMap(({ text }) => /^pages? \d+.*$/.exec(text) ?? []);
    const stands = plan.cloths.map(({ cloth }) => {
      const on = pages.flatMap((page, index) =>
        textsOf(page, 'cloth-name').some(({ text }) => text === cloth) ? [index + 1] : [],
      );
      return on.length === 1 ? `page ${on[0]}` : `pages ${on[0]} to ${on.at(-1)}`;
    });
    expect(told).toEqual(stands);
  });

  it('number themselves under the name of the plan', () => {
    const pages = composePages(breakfastRoom());
    for (const [index, page] of pages.entries()) {
      const footer = textsOf(page, 'footer').map(({ text }) => text);
      expect(footer).toEqual(['The Tern House: breakfast room', `page ${index + 1} of ${pages.length}`]);
    }
  });

  it('show measures along both edges, from nought to the last whole figure', () => {
    const plan = breakfastRoom();
    const [page] = markerPages(plan, plan.cloths[2]!, LETTER);
    const figures = textsOf(page!, 'ruler-figure').map(({ text }) => Number(text));
    // 43 in across and 40 1/2 in along, a figure every 3 in: 0 to 42 and 0 to 39.
    const along = Array.from({ length: 14 }, (_, index) => 3 * index);
    const across = [...along, 42];
    expect(figures.toSorted((a, b) => a - b)).toEqual([...along, ...across].toSorted((a, b) => a - b));
  });
});

/** Letters of pieces and numbers of steps that a cloth's drawing leaves out. */
function unnamed(plan: CutPlan, cloth: string): string[] {
  const marker = drawMarker(plan, cloth);
  const { page } = markerSheet(marker);
  const letters = new Set(textsOf(page, 'piece-label').flatMap(({ text }) => text.split(/[ /]+/)));
  const numbers = new Set(textsOf(page, 'cut-number').map(({ text }) => text));
  return [
    ...marker.kinds.map(({ piece }) => piece.letter).filter((letter) => !letters.has(letter)),
    ...marker.lengths
      .flatMap(({ cuts }) => cuts.map(({ step }) => `${step}`))
      .filter((step) => !numbers.has(step)),
  ];
}

describe('pages of random plans', () => {
  it('have nothing outside and no two texts on each other', { timeout: 300_000 }, () => {
    let planned = 0;
    for (const plan of fc.sample(randomPlan(), { numRuns: 26, seed: 1109 })) {
      const outcome = makeCutPlan(plan, { effort: 500, seed: 1 });
      if (!outcome.ok || checkPlan(outcome.value).length > 0) continue;
      planned += 1;
      expect(drawings(outcome.value).flatMap(pageFaults)).toEqual([]);
      for (const { cloth } of outcome.value.cloths) expect(unnamed(outcome.value, cloth)).toEqual([]);
    }
    expect(planned).toBeGreaterThan(10);
    expect(planned).toBeLessThan(26);
  });
});
