import { getWindow } from '@svgdotjs/svg.js';
import { describe, expect, it } from 'vitest';
import { textWidth } from '../../src/rendering/marker/text-width.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { SVG_MARK, writeSvg } from '../../src/rendering/svg.ts';
import { breakfastRoom, longCurtains, SAMPLES } from './sample-plans.ts';
import { emptySvgDocument } from './svg-document.ts';

const TICKS_TO_MM = 320;

const svgsOf = (make: (typeof SAMPLES)[string]) => {
  const plan = make();
  return plan.cloths.map(({ cloth }) => {
    const marker = drawMarker(plan, cloth);
    return { marker, svg: writeSvg(marker, emptySvgDocument()) };
  });
};

const attribute = (element: string, name: string): string =>
  new RegExp(`\\s${name}="([^"]*)"`).exec(element)?.[1] ?? '';

const elements = (svg: string, name: string, role: string): string[] =>
  [...svg.matchAll(new RegExp(`<${name}\\b[^>]*class="${role}"[^>]*>`, 'g'))].map(([found]) => found);

describe('writeSvg', () => {
  it.each(Object.entries(SAMPLES))(
    'draws %s to the scale it states, in its viewBox and on paper',
    (_, make) => {
      for (const { svg } of svgsOf(make)) {
        const root = /<svg[^>]*>/.exec(svg)![0];
        const [x, y, width, height] = attribute(root, 'viewBox').split(' ').map(Number) as [
          number,
          number,
          number,
          number,
        ];
        const oneTo = Number(attribute(root, 'data-scale').replace('1:', ''));
        expect([x, y]).toEqual([0, 0]);
        expect(attribute(root, 'width')).toMatch(/^[\d.]+mm$/);
        expect(Number.parseFloat(attribute(root, 'width')) * oneTo).toBeCloseTo(width, 1);
        expect(Number.parseFloat(attribute(root, 'height')) * oneTo).toBeCloseTo(height, 1);
      }
    },
  );

  it.each(Object.entries(SAMPLES))(
    'gives every piece of %s its size and place in millimetres of cloth',
    (_, make) => {
      for (const { marker, svg } of svgsOf(make)) {
        if (marker.lengths.length !== elements(svg, 'rect', 'ground').length) continue;
        const grounds = elements(svg, 'rect', 'ground').map((rect) => ({
          x: Number(attribute(rect, 'x')),
          y: Number(attribute(rect, 'y')),
        }));
        const drawn = elements(svg, 'rect', 'piece').map((rect) =>
          ['x', 'y', 'width', 'height'].map((name) => Number(attribute(rect, name))),
        );
        // The length runs to the right, the width downwards from the left-hand edge of the cloth.
        const expected = marker.lengths.flatMap((length, index) =>
          length.pieces.map(({ box }) => [
            grounds[index]!.x + (box.y0 - length.shown.y0) / TICKS_TO_MM,
            grounds[index]!.y + (box.x0 - length.shown.x0) / TICKS_TO_MM,
            (box.y1 - box.y0) / TICKS_TO_MM,
            (box.x1 - box.x0) / TICKS_TO_MM,
          ]),
        );
        expect(drawn.length).toBe(expected.length);
        for (const [index, box] of drawn.entries()) {
          for (const [side, value] of box.entries()) expect(value).toBeCloseTo(expected[index]![side]!, 2);
        }
      }
    },
  );

  it('draws a rule that is 100 mm on paper', () => {
    // CSS Values and Units 4, 6.2: a millimetre is 1/25.4 of an inch, an inch 96 px; the viewBox fills width and height.
    for (const { svg } of svgsOf(breakfastRoom)) {
      const [rule] = elements(svg, 'path', 'scale-100-mm');
      const [from, to] = [...attribute(rule!, 'd').matchAll(/[ML]([\d.]+) /g)].map(([, x]) => Number(x));
      const root = /<svg[^>]*>/.exec(svg)![0];
      const perUnit =
        Number.parseFloat(attribute(root, 'width')) / Number(attribute(root, 'viewBox').split(' ')[2]);
      expect((to! - from!) * perUnit).toBeCloseTo(100, 2);
    }
  });

  it('gives the same bytes for the same plan, whatever was drawn before', () => {
    const first = svgsOf(longCurtains).map(({ svg }) => svg);
    svgsOf(breakfastRoom);
    expect(svgsOf(longCurtains).map(({ svg }) => svg)).toEqual(first);
  });

  it('leaves the drawing library as it found it', () => {
    const before = getWindow();
    svgsOf(longCurtains);
    expect(getWindow()).toBe(before);
  });

  it('sets ids of its own, each once', () => {
    for (const { svg } of svgsOf(longCurtains)) {
      const ids = [...svg.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id!);
      expect(ids.every((id) => /^row-\d+-piece-\d+$/.test(id))).toBe(true);
      expect(new Set(ids).size).toBe(ids.length);
      expect(ids.length).toBeGreaterThan(11);
      expect(svg).not.toContain('svgjs');
    }
  });

  it('keeps names that would be markup as text', () => {
    const plan = breakfastRoom();
    const name = 'salt & <pepper> "tweed"';
    const cloths = plan.plan.cloths.map((cloth, index) => (index === 2 ? { ...cloth, name } : cloth));
    const clothPlans = plan.cloths.map((own, index) => (index === 2 ? { ...own, cloth: name } : own));
    const renamed = { ...plan, plan: { ...plan.plan, cloths }, cloths: clothPlans };
    const svg = writeSvg(drawMarker(renamed, name), emptySvgDocument());
    expect(svg).toContain('salt &amp; &lt;pepper>'.replace('>', '&gt;'));
    expect(svg).not.toMatch(/&(?!amp;|lt;|gt;|quot;|#)/);
    expect(svg).toContain(SVG_MARK);
  });

  it('holds each text to the length it was fitted by', () => {
    const { svg } = svgsOf(breakfastRoom)[0]!;
    const root = /<svg[^>]*>/.exec(svg)![0];
    const pointsPerUnit =
      ((Number.parseFloat(attribute(root, 'width')) / 25.4) * 72) /
      Number(attribute(root, 'viewBox').split(' ')[2]);
    const heading = /<text[^>]*class="row-heading"[^>]*>([^<]*)</.exec(svg)!;
    const length = Number(attribute(heading[0], 'textLength')) * pointsPerUnit;
    expect(length).toBeCloseTo(textWidth(heading[1]!, 9.5, 'bold'), 1);
  });
});
