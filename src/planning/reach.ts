import { walk } from '../geometry/walk.ts';
import type { Sheet } from '../packing/instance.ts';
import type { SheetTree } from '../packing/result.ts';

/** The far edge of the farthest piece, in the sheet's own y; 0 without a piece. */
export function reachOf(
  tree: SheetTree,
  width: number,
  length: number,
  counts: (kind: number) => boolean = () => true,
): number {
  const { leaves } = walk(tree, width, length);
  return leaves.reduce(
    (far, { leaf, box }) => (leaf.kind === 'piece' && counts(leaf.piece) ? Math.max(far, box.y1) : far),
    0,
  );
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

/** Whether every cut lies a whole number of marks from the near edge of its part. */
function isOnMarks(tree: SheetTree, mark: number): boolean {
  if (tree.kind !== 'cut') return true;
  return tree.at.every((at) => at % mark === 0) && tree.parts.every((part) => isOnMarks(part, mark));
}

/**
 * The same tree with the slack of every section behind it and not within it, so that each crosscut lies where pieces end.
 * Only for sheets that are the same all along and pieces that may lie at any height.
 */
function drawnTogether(tree: SheetTree, width: number, length: number): SheetTree {
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

/** A stretch that pieces may not cross, in the sheet's x. */
interface Gap {
  readonly x0: number;
  readonly x1: number;
}

/**
 * The same tree with the slack of every lengthwise cut at its far side, so that each cut lies where pieces end; pieces
 * beyond a gap begin right behind it. Only for sheets that forbid nothing but gaps from left to right, and pieces that may lie at any x.
 */
function drawnAside(tree: SheetTree, width: number, length: number, gaps: readonly Gap[]): SheetTree {
  const visit = (part: SheetTree, x0: number, extent: number, high: number): SheetTree => {
    if (part.kind !== 'cut') return part;
    const edges = [0, ...part.at, part.direction === 'crosscut' ? high : extent];
    const extents = part.parts.map((_, index) => edges[index + 1]! - edges[index]!);
    if (part.direction === 'crosscut') {
      return { ...part, parts: part.parts.map((own, index) => visit(own, x0, extent, extents[index]!)) };
    }
    // A part that holds the gap within itself stays where it is, and all with it.
    const holdsGap = (index: number) =>
      gaps.some((gap) => x0 + edges[index]! < gap.x0 && x0 + edges[index + 1]! > gap.x1);
    if (part.parts.some((_, index) => holdsGap(index))) {
      const parts = part.parts.map((own, index) => visit(own, x0 + edges[index]!, extents[index]!, high));
      return { ...part, parts };
    }
    const at: number[] = [];
    const parts: SheetTree[] = [];
    let far = 0;
    const fill = (to: number) => {
      if (to <= far) return;
      parts.push({ kind: 'remnant' });
      far = to;
      at.push(far);
    };
    for (const [index, own] of part.parts.entries()) {
      for (const gap of gaps) {
        if (x0 + far < gap.x1 && x0 + edges[index]! >= gap.x1) fill(gap.x1 - x0);
      }
      const drawn = visit(own, x0 + far, extents[index]!, high);
      const reach = reachAcross(drawn, extents[index]!, high);
      if (reach === 0) continue;
      parts.push(cutAside(drawn, extents[index]!, reach));
      far += reach;
      at.push(far);
    }
    if (far < extent) parts.push({ kind: 'remnant' });
    else at.pop();
    return parts.length === 1 ? parts[0]! : { ...part, at, parts };
  };
  return visit(tree, 0, width, length);
}

/** The far edge of the farthest piece, in the part's own x; 0 without a piece. */
function reachAcross(tree: SheetTree, width: number, length: number): number {
  const { leaves } = walk(tree, width, length);
  return leaves.reduce((far, { leaf, box }) => (leaf.kind === 'piece' ? Math.max(far, box.x1) : far), 0);
}

/** A tree of `width` without what lies beyond `reach`, where no piece does; `reach` is above 0. */
function cutAside(tree: SheetTree, width: number, reach: number): SheetTree {
  if (tree.kind !== 'cut' || reach >= width) return tree;
  if (tree.direction === 'crosscut')
    return { ...tree, parts: tree.parts.map((part) => cutAside(part, width, reach)) };
  const kept = tree.at.filter((at) => at < reach);
  const from = kept.at(-1) ?? 0;
  const last = cutAside(tree.parts[kept.length]!, (tree.at[kept.length] ?? width) - from, reach - from);
  return kept.length === 0 ? last : { ...tree, at: kept, parts: [...tree.parts.slice(0, kept.length), last] };
}

/** The tree with its slack behind sections and beside parts where a cut would else lie between two ruler marks. */
export function slackBehind(tree: SheetTree, sheet: Sheet, mark: number): SheetTree {
  const { width, length, forbidden = [] } = sheet;
  if (isOnMarks(tree, mark) || !isAlikeAlong(sheet)) return tree;
  return drawnAside(drawnTogether(tree, width, length), width, length, forbidden);
}
