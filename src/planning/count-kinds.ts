import type { Kind } from '../packing/instance.ts';
import type { SheetTree } from '../packing/result.ts';

/** Copies of each kind in a packed tree, by kind index. */
export function countKinds(tree: SheetTree): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  const waiting: SheetTree[] = [tree];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.kind === 'cut') waiting.push(...next.parts);
    else if (next.kind === 'piece') counts.set(next.piece, (counts.get(next.piece) ?? 0) + 1);
  }
  return counts;
}

/** The kinds with so many copies of each taken away; indices stay as they are. */
export function without(kinds: readonly Kind[], counts: ReadonlyMap<number, number>): readonly Kind[] {
  return kinds.map((kind, index) => ({ ...kind, copies: kind.copies - (counts.get(index) ?? 0) }));
}
