import { afterWashing, lossBeforeCutting } from '../../cloth/washing.ts';
import { panelPlaces } from '../../geometry/panels.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';

/**
 * Length on the table that must be bought, in ticks, so that it holds the panels these pieces take and no length in hand
 * has: less than this reaches into too few repeats. 0 where the lengths in hand may do, or nothing is bought.
 */
export function leastForPanels(cloth: Cloth, pieces: readonly PieceWanted[]): number {
  const { panels, buy } = cloth;
  if (!buy || panels?.every === undefined) return 0;
  const wanted = new Map<string, number>();
  for (const { panel, copies } of pieces) {
    if (panel) wanted.set(panel.name, (wanted.get(panel.name) ?? 0) + copies);
  }
  const repeats = Math.max(
    0,
    ...[...wanted].map(([name, copies]) => {
      const each = panels.areas.filter((area) => area.name === name).length;
      const missing = Math.max(0, copies - inHandOf(cloth, name));
      return each === 0 ? 0 : Math.ceil(missing / each);
    }),
  );
  // Of the last repeat some of a panel at least.
  return repeats === 0 ? 0 : afterWashing(panels.every, lossBeforeCutting(cloth).along) * (repeats - 1) + 1;
}

function inHandOf(cloth: Cloth, name: string): number {
  return cloth.inHand.reduce((sum, own) => {
    const length = afterWashing(own.length, lossBeforeCutting(cloth, own).along);
    const found = panelPlaces(cloth, length, own).filter((place) => place.name === name);
    return sum + found.length * own.copies;
  }, 0);
}
