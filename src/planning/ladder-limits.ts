import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import { isPanelled } from './panels/panel-rooms.ts';

/**
 * Whether a ladder of sets can be read off packings of these pieces alone. It cannot where they are cut around printed panels or
 * across a fold, or where the cloth is folded off its middle: there a whole plan of the cloth is needed.
 */
export function hasLadder(cloth: Cloth, pieces: readonly PieceWanted[]): boolean {
  return !isPanelled(cloth, pieces) && cloth.foldAt === undefined && !pieces.some(({ onFold }) => onFold);
}
