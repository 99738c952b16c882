import { walk } from '../geometry/walk.ts';
import type { Sheet } from '../packing/instance.ts';
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

/** Whether every crosscut lies a whole number of marks from the near edge of its part. */
export function isOnMarks(tree: SheetTree, mark: number): boolean {
  if (tree.kind !== 'cut') return true;
  const own = tree.direction === 'lengthwise' || tree.at.every((at) => at % mark === 0);
  return own && tree.parts.every((part) => isOnMarks(part, mark));
}

/**
 * The same tree with the slack of every section behind it and not within it, so that each crosscut lies where pieces end.
 * Only for sheets that are the same all along and pieces that may lie at any height.
 */
export function drawnTogether(tree: SheetTree, width: number, length: number): SheetTree {
  if (tree.kind !== 'cut') return tree;
  const edges = [0, ...tree.at, tree.direction === 'crosscut' ? length : width];
  const extents = tree.parts.map((_, index) => edges[index + 1]! - edges[index]!);
  if (tree.direction === 'lengthwise') {
    return { ...tree, parts: tree.parts.map((part, index) => drawnTogether(part, extents[index]!, length)) };
  }
  const at: number[] = [];
  const parts: SheetTree[] = [];
  let far = 0;
  for (const [index, part] of tree.parts.entries()) {
    const own = drawnTogether(part, width, extents[index]!);
    const reach = reachOf(own, width, extents[index]!);
    if (reach === 0) continue;
    parts.push(cutOff(own, extents[index]!, reach));
    far += reach;
    at.push(far);
  }
  if (far < length) parts.push({ kind: 'remnant' });
  else at.pop();
  return parts.length === 1 ? parts[0]! : { ...tree, at, parts };
}

/** Whether nothing but strips along the whole length is kept off, so that a section may lie at any height. */
export function isAlikeAlong({ forbidden = [], fixed = [], length }: Sheet): boolean {
  return fixed.length === 0 && forbidden.every(({ y0, y1 }) => y0 <= 0 && y1 >= length);
}
