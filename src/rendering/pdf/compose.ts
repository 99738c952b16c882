import type { CutPlan } from '../../model/cut-plan.ts';
import type { Page } from '../marker/shapes.ts';
import { shorten } from '../marker/text-width.ts';
import { SOFT, TYPE } from '../theme.ts';
import { cutList } from './cut-list.ts';
import { firstPage } from './first-page.ts';
import { Flow, MARGIN, PAPERS, textAt, widthOf } from './flow.ts';
import { cautions, makePages } from './make-pages.ts';
import { markerPages } from './marker-pages.ts';
import { usesMarkers, usesSection } from './uses-section.ts';

/**
 * All pages of a plan, as shapes in points:
 *
 *     what to buy, figures, scale check
 *     the marker of each cloth
 *     the cut list and the steps of each cloth, the sums and the assembly of each make, the cautions
 *     the markers of what the leftovers could become, where the plan lists what it would like
 */
export function composePages(cutPlan: CutPlan): Page[] {
  const paper = PAPERS[cutPlan.plan.paper];
  const flowed = (fill: (flow: Flow) => void): Page[] => {
    const flow = new Flow(paper);
    fill(flow);
    return flow.finish();
  };
  const markers = cutPlan.cloths.map((clothPlan) => markerPages(cutPlan, clothPlan, paper));
  const first = (withCautions: boolean, before: number) => {
    const places = pageWords(
      markers.map(({ length }) => length),
      before,
    );
    return flowed((flow) => firstPage(flow, cutPlan, { withCautions, places }));
  };
  // Cautions stand before the work where they have room on the first page, else at the end.
  const cautionsFirst = first(true, 1).length === 1;
  const pages = [
    ...first(cautionsFirst, first(cautionsFirst, 1).length),
    ...markers.flat(),
    ...flowed((flow) => {
      for (const clothPlan of cutPlan.cloths) cutList(flow, cutPlan, clothPlan);
      makePages(flow, cutPlan);
      usesSection(flow, cutPlan);
      if (!cautionsFirst) cautions(flow, cutPlan);
    }),
    ...usesMarkers(cutPlan, paper),
  ];
  return pages.map((page, index) => withFooter(page, cutPlan.plan.name, index + 1, pages.length));
}

/** `page 2`, `pages 3 to 5`: where each of some runs of pages stands that follow so many others. */
function pageWords(counts: readonly number[], before: number): string[] {
  let last = before;
  return counts.map((count) => {
    const from = last + 1;
    last += count;
    return count === 1 ? `page ${from}` : `pages ${from} to ${last}`;
  });
}

function withFooter(page: Page, planName: string, number: number, of: number): Page {
  const style = { size: TYPE.small, ink: SOFT, role: 'footer' } as const;
  const y = page.height - MARGIN + 4;
  const count = `page ${number} of ${of}`;
  const room = page.width - 2 * MARGIN - widthOf(count, style) - 20;
  return {
    ...page,
    shapes: [
      ...page.shapes,
      textAt(MARGIN, y, shorten(planName, room, style.size), style),
      textAt(page.width - MARGIN, y, count, { ...style, anchor: 'end' }),
    ],
  };
}
