import { walk } from '../geometry/walk.ts';
import type { SheetTree } from '../packing/result.ts';

/** The far edge of the farthest piece, in the sheet's own y; 0 without a piece. */
export function reachOf(tree: SheetTree, width: number, length: number): number {
  const { leaves } = walk(tree, width, length);
  return leaves.reduce((far, { leaf, box }) => (leaf.kind === 'piece' ? Math.max(far, box.y1) : far), 0);
}

/** A tree of `length` without what lies beyond `reach`, where no piece does; `reach` is above 0. */
export function cutOff(tree: SheetTree, length: number, reach: number): SheetTree {
  if (tree.kind !== 'cut' || reach >= length) return tree;
  if (tree.direction === 'lengthwise') {
    return { ...tree, parts: tree.parts.map((part) => cutOff(part, length, reach)) };
  }
  const kept = tree.at.filter((at) => at < reach);
  const from = kept.at(-1) ?? 0;
  const last = cutOff(tree.parts[kept.length]!, (tree.at[kept.length] ?? length) - from, reach - from);
  return kept.length === 0 ? last : { ...tree, at: kept, parts: [...tree.parts.slice(0, kept.length), last] };
}
