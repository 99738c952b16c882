import { lossBeforeCutting } from '../../cloth/washing.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import { ceilDiv, type Ticks, ticks } from '../../units/ticks.ts';
import { isPanelled } from './panel-rooms.ts';

/**
 * The cloth as it is to be planned: without its panels where none is taken and they may be used as plain cloth; else, where
 * a shop cuts anywhere in their repeat, with a whole one in reserve, since the worst start takes that.
 */
export function panelledCloth(cloth: Cloth, pieces: readonly PieceWanted[]): Cloth {
  const { panels, ...plain } = cloth;
  if (!isPanelled(cloth, pieces)) {
    return { ...plain, inHand: cloth.inHand.map(({ panels: _, ...length }) => length) };
  }
  const startReserve = startReserveOf(cloth);
  return startReserve === 0 ? cloth : { ...cloth, startReserve, reservedForPanels: true };
}

/** A whole repeat of the panels, as it lies on the table, where a shop cuts anywhere in it; else 0. */
export function startReserveOf(cloth: Cloth): Ticks {
  const { panels, buy } = cloth;
  if (!buy || panels?.every === undefined || panels.sold !== 'anywhere') return ticks(0);
  const { numerator, denominator } = lossBeforeCutting(cloth).along;
  return ceilDiv(panels.every * (denominator - numerator), denominator);
}
