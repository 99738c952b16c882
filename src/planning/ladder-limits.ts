import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import { isPanelled } from './panels/panel-rooms.ts';

/**
 * Whether these pieces may be packed anywhere on the cloth. They may not where they are cut around printed panels, or beside
 * some that stay whole: there the cloth is laid out as a plan would lay it.
 */
export function hasLadder(cloth: Cloth, pieces: readonly PieceWanted[]): boolean {
  return !isPanelled(cloth, pieces);
}
