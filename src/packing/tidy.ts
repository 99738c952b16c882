import type { Box, Kind, Preferences, Sheet, Stages } from './instance.ts';
import { openTree } from './positional/mirror.ts';
import {
  isLeftover,
  placedCut,
  REMNANT,
  rebuilt,
  type SizedTree,
  sizedParts,
} from './positional/placed-tree.ts';
import type { PackedSheet, SheetTree } from './result.ts';
import { keepsStages } from './tidy/measure.ts';
import { tidyFree } from './tidy/tidy-free.ts';
import { sheetTree, workTree } from './tidy/work-tree.ts';

/** What `tidy` must know of the question that the sheet answers. */
export interface TidyQuestion {
  readonly kinds: readonly Kind[];
  /** The sheet asked about, for what stays in place in it; absent when nothing does. */
  readonly sheet?: Sheet;
  readonly stages?: Stages;
  /** Moves to try; default 1500. The same effort and seed give the same tree on every machine. */
  readonly effort?: number;
  readonly seed?: number;
}

/** Large leftovers before all, then work saved. Whole numbers of equal kind, so that a caller can set them against each other. */
export const STANDARD_PREFERENCES: Preferences = {
  largeRemnants: 20,
  fewCuts: 1,
  alikeHalves: 2,
  fewSettings: 1,
  withinReach: 10,
};

/**
 * The same pieces in the same rectangle, cut more to the maker's liking: leftovers merged into few large rectangles,
 * equal parts side by side, few cuts at few settings, none longer than `reach` where another way is found. Neither
 * value nor length changes, and what the sheet holds in place (forbidden boxes, fixed pieces, lattices, the mirror)
 * stays in place.
 *
 * The tree that comes back is canonical: no cut directly within one of the same direction, leftovers that touch
 * within one cut joined; where nothing is held in place, equal parts lie together, larger first, and the leftover last.
 */
export function tidy(
  packed: PackedSheet,
  question: TidyQuestion,
  preferences: Preferences = STANDARD_PREFERENCES,
): PackedSheet {
  const { width, length } = packed;
  const { sheet, stages = 'any' } = question;
  const whole = { x0: 0, y0: 0, x1: width, y1: length };
  const placed = rebuilt(packed.tree, whole, (tree) => (isLeftover(tree) ? REMNANT : tree));
  const held = (sheet?.forbidden?.length ?? 0) > 0 || (sheet?.fixed?.length ?? 0) > 0;
  const mirrorAt = sheet?.mirrorAt;
  const latticed = question.kinds.some(({ lattice }) => lattice !== undefined);
  if (mirrorAt === undefined && !held && !latticed) {
    return { ...packed, tree: tidyPart(placed, whole, question, preferences) };
  }
  if (mirrorAt !== undefined) {
    if (held || latticed || stages !== 'any' || 2 * mirrorAt !== width) return { ...packed, tree: placed };
    const half = halfOf(placed, mirrorAt, length);
    if (half === undefined) return { ...packed, tree: placed };
    const better = tidyPart(half, { ...whole, x1: mirrorAt }, question, preferences);
    return {
      ...packed,
      tree: openTree(better, length, {
        margin: 0,
        halfWidth: mirrorAt,
        gap: 0,
        farMargin: 0,
        onFold: new Map(),
      }),
    };
  }
  return { ...packed, tree: stages === 'any' ? tidyInPlace(placed, whole, question, preferences) : placed };
}

/** Tidies a part in which nothing is held in place; keeps it where the search finds nothing that keeps the stages. */
function tidyPart(tree: SheetTree, box: Box, question: TidyQuestion, preferences: Preferences): SheetTree {
  const { kinds, stages = 'any', effort = 1500, seed = 1 } = question;
  const start = workTree(tree, box.x1 - box.x0, box.y1 - box.y0);
  const best = tidyFree(start, { kinds, preferences, stages, effort, seed });
  return keepsStages(best, stages) ? sheetTree(best) : tree;
}

/** Tidies each largest part that touches no forbidden box and holds no piece with a place of its own. */
function tidyInPlace(
  tree: SheetTree,
  whole: Box,
  question: TidyQuestion,
  preferences: Preferences,
): SheetTree {
  const { sheet, kinds } = question;
  const bound = new Set<SheetTree>();
  const isBound = (part: SheetTree, { x0, y0, x1, y1 }: Box): boolean => {
    if (part.kind === 'cut') {
      if (part.parts.some((inner) => bound.has(inner))) return true;
    } else if (part.kind === 'piece') {
      if (kinds[part.piece]?.lattice !== undefined) return true;
      if (sheet?.fixed?.some((at) => at.kind === part.piece && at.x0 === x0 && at.y0 === y0)) return true;
    }
    return (sheet?.forbidden ?? []).some((box) => x0 < box.x1 && box.x0 < x1 && y0 < box.y1 && box.y0 < y1);
  };
  // A part is tidied when the part above it is bound but it is not; the root decides for itself.
  const tidyIfFree = (part: SheetTree, box: Box) =>
    part.kind === 'cut' ? tidyPart(part, box, question, preferences) : part;
  const built = rebuilt(tree, whole, (part, box) => {
    // Leaves are shared objects at times, so each stands for itself here.
    let own: SheetTree = { ...part };
    if (!isBound(own, box)) return own;
    if (own.kind === 'cut') {
      const { direction } = own;
      const crosscut = direction === 'crosscut';
      let from = crosscut ? box.y0 : box.x0;
      const parts: SizedTree[] = sizedParts(own, crosscut ? box.y1 - box.y0 : box.x1 - box.x0).map(
        (inner) => {
          const to = from + inner.size;
          const at = crosscut ? { ...box, y0: from, y1: to } : { ...box, x0: from, x1: to };
          from = to;
          return { tree: bound.has(inner.tree) ? inner.tree : tidyIfFree(inner.tree, at), size: inner.size };
        },
      );
      own = { ...placedCut(direction, parts) };
    }
    bound.add(own);
    return own;
  });
  return bound.has(built) ? built : tidyIfFree(built, whole);
}

/** The near half of a tree cut at the mirror; undefined when a piece lies across it. */
function halfOf(root: SheetTree, mirrorAt: number, length: number): SheetTree | undefined {
  let across = false;
  const half = rebuilt(root, { x0: 0, y0: 0, x1: 2 * mirrorAt, y1: length }, (tree, { x0, x1 }) => {
    if (tree.kind === 'piece' && x0 < mirrorAt && x1 > mirrorAt) across = true;
    if (tree.kind !== 'cut' || tree.direction !== 'lengthwise' || x0 >= mirrorAt || x1 <= mirrorAt)
      return tree;
    const parts: SizedTree[] = [];
    let from = x0;
    for (const { tree: part, size } of sizedParts(tree, x1 - x0)) {
      if (from < mirrorAt) parts.push({ tree: part, size: Math.min(size, mirrorAt - from) });
      from += size;
    }
    return placedCut('lengthwise', parts);
  });
  return across ? undefined : half;
}
