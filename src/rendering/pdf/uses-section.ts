import type { CutPlan } from '../../model/cut-plan.ts';
import { withGlyphs } from '../glyphs.ts';
import type { Page } from '../marker/shapes.ts';
import { bestUsePlan, useRows } from '../uses-words.ts';
import { beside, type Flow, type Paper, paragraph } from './flow.ts';
import { markerPages } from './marker-pages.ts';

/** What the leftovers could become, where the plan lists what it would like. */
export function usesSection(flow: Flow, { uses = [], plan }: CutPlan): void {
  if (uses.length === 0) return;
  flow.heading('What the leftovers could become', 60);
  const name = flow.width * 0.24;
  for (const own of uses) {
    flow.need(44);
    flow.space(4);
    flow.paragraph(own.cloth.name, { size: 11, weight: 'bold' });
    for (const [what, words] of useRows(own, plan)) {
      flow.add(
        beside(
          [
            [0, paragraph(withGlyphs(what), name - 10, { weight: 'bold' })],
            [name, paragraph(withGlyphs(words), flow.width - name)],
          ],
          flow.width,
        ),
      );
    }
  }
}

/** The marker of the best use of every cloth's leftovers. */
export function usesMarkers({ uses = [] }: CutPlan, paper: Paper): Page[] {
  return uses.flatMap((own) => {
    const best = bestUsePlan(own);
    return best ? best.cloths.flatMap((clothPlan) => markerPages(best, clothPlan, paper)) : [];
  });
}
