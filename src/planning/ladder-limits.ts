import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import { isPanelled } from './panels/panel-rooms.ts';

/**
 * Whether a ladder of sets can be read off packings of these pieces alone. It cannot where they are cut around printed panels:
 * there a whole plan of the cloth is needed.
 */
export function hasLadder(cloth: Cloth, pieces: readonly PieceWanted[]): boolean {
  return !isPanelled(cloth, pieces);
}
