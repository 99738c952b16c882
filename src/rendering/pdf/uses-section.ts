import type { CutPlan } from '../../model/cut-plan.ts';
import { withGlyphs } from '../glyphs.ts';
import type { Page } from '../marker/shapes.ts';
import { bestUsePlan, useParts } from '../uses-words.ts';
import { beside, type Flow, type Paper, paragraph } from './flow.ts';
import { markerPages } from './marker-pages.ts';

/** What the leftovers could become, where the plan lists what it would like. */
export function usesSection(flow: Flow, { uses = [], usesAcross, plan }: CutPlan): void {
  if (uses.length === 0) return;
  flow.heading('What the leftovers could become', 60);
  const name = flow.width * 0.24;
  for (const { title, rows } of useParts(uses, plan, usesAcross)) {
    flow.need(44);
    flow.space(4);
    flow.paragraph(title, { size: 11, weight: 'bold' });
    for (const [what, words] of rows) {
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

/** The marker of the best use of every cloth's leftovers, and the markers of the best use of several cloths together. */
export function usesMarkers({ uses = [], usesAcross = [] }: CutPlan, paper: Paper): Page[] {
  const best = [...uses.map(bestUsePlan), usesAcross[0]?.plan].filter((plan) => plan !== undefined);
  return best.flatMap((plan) => plan.cloths.flatMap((clothPlan) => markerPages(plan, clothPlan, paper)));
}
