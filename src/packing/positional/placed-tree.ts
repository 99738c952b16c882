import type { Box } from '../instance.ts';
import type { SheetTree } from '../result.ts';

/** Cut trees whose parts have a place: siblings keep their order, and only what does not move anything is changed. */

export const REMNANT: SheetTree = { kind: 'remnant' };

export interface SizedTree {
  readonly tree: SheetTree;
  readonly size: number;
}

/** One cut of parts in their order: parts of the same direction are inlined, leftovers side by side become one. */
export function placedCut(direction: 'crosscut' | 'lengthwise', parts: readonly SizedTree[]): SheetTree {
  const kept: SizedTree[] = [];
  const add = (tree: SheetTree, size: number) => {
    if (size === 0) return;
    const last = kept.at(-1);
    if (last !== undefined && isLeftover(last.tree) && isLeftover(tree)) {
      kept[kept.length - 1] = { tree: REMNANT, size: last.size + size };
    } else {
      kept.push({ tree, size });
    }
  };
  for (const { tree, size } of parts) {
    if (tree.kind !== 'cut' || tree.direction !== direction) {
      add(tree, size);
      continue;
    }
    for (const inner of sizedParts(tree, size)) add(inner.tree, inner.size);
  }
  if (kept.length === 1) return kept[0]!.tree;
  const at: number[] = [];
  for (const { size } of kept.slice(0, -1)) at.push((at.at(-1) ?? 0) + size);
  return { kind: 'cut', direction, at, parts: kept.map(({ tree }) => tree) };
}

/**
 * A block made `whole` in the direction across `direction`: where it is cut in `direction`, each of its parts is
 * filled up by itself, so that no further stage of cuts comes between. `size` is the block's extent along
 * `direction`, `across` its other extent.
 */
export function filledParts(
  direction: 'crosscut' | 'lengthwise',
  tree: SheetTree,
  { size, across, whole }: { readonly size: number; readonly across: number; readonly whole: number },
): readonly SizedTree[] {
  const other = direction === 'crosscut' ? 'lengthwise' : 'crosscut';
  const parts =
    tree.kind === 'cut' && tree.direction === direction ? sizedParts(tree, size) : [{ tree, size }];
  return parts.map((part) => ({
    size: part.size,
    tree: placedCut(other, [
      { tree: part.tree, size: across },
      { tree: REMNANT, size: whole - across },
    ]),
  }));
}

export function isLeftover(tree: SheetTree): boolean {
  return tree.kind !== 'cut' && tree.kind !== 'piece';
}

/** The parts of a cut with their sizes along it; `extent` is the whole. */
export function sizedParts(tree: Extract<SheetTree, { kind: 'cut' }>, extent: number): readonly SizedTree[] {
  return tree.parts.map((part, index) => {
    const from = index === 0 ? 0 : tree.at[index - 1]!;
    const to = index === tree.at.length ? extent : tree.at[index]!;
    return { tree: part, size: to - from };
  });
}

/**
 * Builds a tree anew from its leaves up, by a stack: `visit` gets each part at its place, after its own parts were
 * built, and says what stands there instead. Parts for which `skip` answers true are kept as they are, unvisited.
 */
export function rebuilt(
  root: SheetTree,
  place: Box,
  visit: (tree: SheetTree, box: Box) => SheetTree,
  skip?: (tree: SheetTree) => boolean,
): SheetTree {
  const frames: Frame[] = [];
  let [tree, box] = [root, place];
  for (;;) {
    let made: SheetTree | undefined;
    if (skip?.(tree) === true) made = tree;
    else if (tree.kind === 'cut') frames.push({ tree, box, done: [] });
    else made = visit(tree, box);
    // What has been made goes up, for as long as it completes the cut above it.
    let frame = frames[frames.length - 1];
    for (; ; frame = frames[frames.length - 1]) {
      if (made !== undefined) {
        if (frame === undefined) return made;
        frame.done.push({
          tree: made,
          size: partEnd(frame, frame.done.length) - partStart(frame, frame.done.length),
        });
      }
      if (frame!.done.length < frame!.tree.parts.length) break;
      frames.pop();
      made = visit(placedCut(frame!.tree.direction, frame!.done), frame!.box);
    }
    const index = frame!.done.length;
    const [from, to] = [partStart(frame!, index), partEnd(frame!, index)];
    const { x0, y0, x1, y1 } = frame!.box;
    tree = frame!.tree.parts[index]!;
    box =
      frame!.tree.direction === 'crosscut'
        ? { x0, y0: y0 + from, x1, y1: y0 + to }
        : { x0: x0 + from, y0, x1: x0 + to, y1 };
  }
}

interface Frame {
  readonly tree: Extract<SheetTree, { kind: 'cut' }>;
  readonly box: Box;
  readonly done: SizedTree[];
}

function partStart({ tree }: Frame, index: number): number {
  return index === 0 ? 0 : tree.at[index - 1]!;
}

function partEnd({ tree, box }: Frame, index: number): number {
  if (index < tree.at.length) return tree.at[index]!;
  return tree.direction === 'crosscut' ? box.y1 - box.y0 : box.x1 - box.x0;
}

/** The tree as it lies when its rectangle is turned over about a lengthwise line. */
export function mirrored(root: SheetTree, box: Box): SheetTree {
  return rebuilt(root, box, (tree, { x0, x1 }) => {
    if (tree.kind !== 'cut' || tree.direction !== 'lengthwise') return tree;
    return placedCut('lengthwise', [...sizedParts(tree, x1 - x0)].reverse());
  });
}

/**
 * A cut whose parts all have a leftover at the same outer side, with as much of it as they share cut off first: it can
 * then join the leftover beside it one level up. Nothing moves. A cut with a single kept part stays as it is, since
 * either way is as good there.
 */
export function lifted(tree: SheetTree, box: Box): SheetTree {
  if (tree.kind !== 'cut') return tree;
  const crosscut = tree.direction === 'crosscut';
  const across = crosscut ? box.x1 - box.x0 : box.y1 - box.y0;
  const along = crosscut ? box.y1 - box.y0 : box.x1 - box.x0;
  const kept = tree.parts.filter((part) => !isLeftover(part));
  if (kept.length < 2) return tree;
  let [near, far] = [across, across];
  for (const part of kept) {
    if (part.kind !== 'cut' || part.direction === tree.direction) return tree;
    near = Math.min(near, isLeftover(part.parts[0]!) ? part.at[0]! : 0);
    far = Math.min(far, isLeftover(part.parts.at(-1)!) ? across - part.at.at(-1)! : 0);
  }
  if (near === 0 && far === 0) return tree;
  const other = crosscut ? 'lengthwise' : 'crosscut';
  const inner = placedCut(
    tree.direction,
    sizedParts(tree, along).map(({ tree: part, size }) => ({
      tree: trimmedEnds(part, across, near, far),
      size,
    })),
  );
  return placedCut(other, [
    { tree: REMNANT, size: near },
    { tree: inner, size: across - near - far },
    { tree: REMNANT, size: far },
  ]);
}

/**
 * The opposite of lifting: the leftover at the far end of a cut is given to one part of it, which is brought beside it
 * and grows by it. Where that part has a leftover of its own, a larger piece then fits into the corner.
 * ```
 *   | a | b |   rest |        | a |  c   rest |
 *   |   |---|        |   ->   |   |-----------|      with b's place taken by c
 *   |   | c |        |        |   |  b   rest |
 * ```
 * `index` is the part to grow; undefined where the cut has no leftover at its far end or that part is not cut across.
 */
export function sunk(tree: SheetTree, box: Box, index: number): SheetTree | undefined {
  if (tree.kind !== 'cut') return undefined;
  const crosscut = tree.direction === 'crosscut';
  const parts = sizedParts(tree, crosscut ? box.y1 - box.y0 : box.x1 - box.x0);
  const grown = parts[index];
  const rest = parts.at(-1)!;
  if (!isLeftover(rest.tree) || grown?.tree.kind !== 'cut') return undefined;
  const across = crosscut ? box.x1 - box.x0 : box.y1 - box.y0;
  const filled = placedCut(
    grown.tree.direction,
    filledParts(grown.tree.direction, grown.tree, {
      size: across,
      across: grown.size,
      whole: grown.size + rest.size,
    }),
  );
  const others = parts.filter((_, at) => at !== index && at < parts.length - 1);
  return placedCut(tree.direction, [...others, { tree: filled, size: grown.size + rest.size }]);
}

function trimmedEnds(part: SheetTree, extent: number, near: number, far: number): SheetTree {
  if (part.kind !== 'cut') return part;
  const sizes = sizedParts(part, extent).map(({ tree, size }, index) => {
    const atNear = index === 0 ? near : 0;
    const atFar = index === part.parts.length - 1 ? far : 0;
    return { tree, size: size - atNear - atFar };
  });
  return placedCut(part.direction, sizes);
}

/** The tree of the near `length` of a rectangle; pieces that reach beyond it become leftovers. */
export function clipped(root: SheetTree, box: Box, length: number): SheetTree {
  const end = box.y0 + length;
  return rebuilt(root, box, (tree, { y0, y1 }) => {
    if (tree.kind === 'piece') return y1 > end ? REMNANT : tree;
    if (tree.kind !== 'cut' || tree.direction !== 'crosscut' || y1 <= end) return tree;
    let from = y0;
    const parts: SizedTree[] = [];
    for (const { tree: part, size } of sizedParts(tree, y1 - y0)) {
      if (from < end) parts.push({ tree: part, size: Math.min(size, end - from) });
      from += size;
    }
    return parts.length === 0 ? REMNANT : placedCut('crosscut', parts);
  });
}

/** How far along the length the pieces of a tree reach. */
export function usedLength(root: SheetTree, box: Box): number {
  let used = 0;
  rebuilt(root, box, (tree, { y1 }) => {
    if (tree.kind === 'piece') used = Math.max(used, y1 - box.y0);
    return tree;
  });
  return used;
}

/** How many pieces of each index the tree has. */
export function counted(root: SheetTree | undefined, kinds: number): number[] {
  const counts = Array.from({ length: kinds }, () => 0);
  const open = root === undefined ? [] : [root];
  for (let tree = open.pop(); tree !== undefined; tree = open.pop()) {
    if (tree.kind === 'piece') counts[tree.piece]! += 1;
    else if (tree.kind === 'cut') open.push(...tree.parts);
  }
  return counts;
}
