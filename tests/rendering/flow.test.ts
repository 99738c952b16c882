import { describe, expect, it } from 'vitest';
import { Flow, PAPERS, paragraph } from '../../src/rendering/pdf/flow.ts';

describe('what goes on over a page', () => {
  const textsOf = (flow: Flow) =>
    flow.finish().map(({ shapes }) => shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])));

  it('has its title told again, once a page, and only while it lasts', () => {
    const flow = new Flow(PAPERS.letter);
    flow.newPage();
    flow.under('Steps for the net', () => {
      for (let step = 1; step <= 110; step++) flow.add(paragraph(`step ${step}`, flow.width));
    });
    flow.newPage();
    flow.add(paragraph('another matter', flow.width));
    const pages = textsOf(flow);
    expect(pages.length).toBe(4);
    expect(
      pages.map((texts) => texts.filter((text) => text === 'Steps for the net, continued').length),
    ).toEqual([0, 1, 1, 0]);
    expect(pages[1]![0]).toBe('Steps for the net, continued');
    expect(pages.flat().filter((text) => text.startsWith('step '))).toHaveLength(110);
  });
});
