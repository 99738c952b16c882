import type { Cloth, LengthInHand } from './cloth.ts';
import type { Issue } from './issue.ts';
import type { Plan } from './plan.ts';
import { turnedAbout } from './turned-length.ts';

/**
 * The plan with every length that is folded along a crease right of its middle turned about, so that the ply on top is
 * the wider one, as all folded lays are told. What cannot be turned, since its print knows up from down or its panels and
 * motifs are told from one end, is told as an error.
 */
export function foldedAtCreases(plan: Plan): { readonly plan: Plan; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const cloths = plan.cloths.map((cloth) => {
    if (cloth.lay !== 'folded' || cloth.foldAt !== undefined) return cloth;
    if (!cloth.inHand.some(creaseIsRight)) return cloth;
    return {
      ...cloth,
      inHand: cloth.inHand.map((own) => {
        if (!creaseIsRight(own)) return own;
        const held = whatHolds(cloth, own);
        if (held === undefined) return turnedAbout(own);
        issues.push({
          code: 'fold-right-of-middle',
          severity: 'error',
          path: ['cloths', cloth.name, 'lay'],
          details: { cloth: cloth.name, length: own.name, held },
        });
        return own;
      }),
    };
  });
  return { plan: issues.length > 0 ? plan : { ...plan, cloths }, issues };
}

function creaseIsRight({ crease, width }: LengthInHand): boolean {
  return crease.kind === 'keep-off' && crease.at !== undefined && 2 * crease.at > width;
}

function whatHolds(cloth: Cloth, own: LengthInHand): 'direction' | 'print' | 'panels' | undefined {
  if (cloth.panels || own.panels) return 'panels';
  if (cloth.repeat) return 'print';
  return cloth.direction === 'one-way' || cloth.direction === 'nap' ? 'direction' : undefined;
}
