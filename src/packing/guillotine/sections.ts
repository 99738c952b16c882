import type { CutForest } from './cut-forest.ts';
import { piecesBelow } from './forest-parts.ts';
import { nodeToPart, type Part } from './part.ts';
import type { Pieces } from './pieces.ts';
import type { RuinAndRecreate } from './ruin-and-recreate.ts';

/** Parts of the first cuts of the first sheet. */
export function sectionsOf({ first, next, pieces }: CutForest): number[] {
  const found: number[] = [];
  for (let part = first[pieces]; part >= 0; part = next[part]) found.push(part);
  return found;
}

/** `stack` has room for all pieces. */
export function piecesOf(forest: CutForest, section: number, stack: Int32Array): number[] {
  const count = piecesBelow(forest, section, stack, 0, forest.pieces);
  return Array.from(stack.subarray(0, count));
}

export function lengthOf(forest: CutForest, section: number): number {
  return forest.extent[2 * section + 1];
}

export function partOf(forest: CutForest, section: number, pieces: Pieces): Part {
  const part = nodeToPart(forest, section, (piece, width) => width !== pieces.width[piece]);
  if (part === undefined) throw new Error(`section ${section} is empty`);
  return part;
}

/** Puts other parts, made of the same pieces, in the place of some sections. */
export function exchange(engine: RuinAndRecreate, sections: readonly number[], parts: readonly Part[]): void {
  for (const section of sections) engine.forest.detach(section);
  engine.put(parts);
}
