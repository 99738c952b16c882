import type { CutForest } from './cut-forest.ts';
import type { Part } from './part.ts';

/** Places a part, all of whose pieces are out, into the free strip of a node with room for it. Own stack. */
export function placePart(forest: CutForest, part: Part, node: number): void {
  const waiting = [{ part, node }];
  for (let task = waiting.pop(); task !== undefined; task = waiting.pop()) {
    const { part: block, node: into } = task;
    if (block.kind === 'piece') {
      forest.place(block.piece, into, block.width, block.length);
      continue;
    }
    const direction = forest.direction[into];
    const cell =
      block.direction === direction
        ? into
        : forest.openCell(into, direction === 1 ? block.length : block.width);
    for (const child of block.parts) waiting.push({ part: child, node: cell });
  }
}

/** Writes the pieces below `node` to `into` from `found` on; stops beyond `most`. Returns how many there are. */
export function piecesBelow(
  forest: CutForest,
  node: number,
  into: Int32Array,
  found: number,
  most: number,
): number {
  const { first, next, pieces } = forest;
  if (node < pieces) {
    into[found] = node;
    return found + 1;
  }
  let count = found;
  let at = first[node];
  while (count <= most) {
    if (at >= pieces) {
      at = first[at];
      continue;
    }
    into[count++] = at;
    while (at !== node && next[at] < 0) at = forest.parent[at];
    if (at === node) break;
    at = next[at];
  }
  return count;
}
