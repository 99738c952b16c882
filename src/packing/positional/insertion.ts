import type { Box, Stages } from '../instance.ts';
import type { SheetTree } from '../result.ts';
import type { Random } from '../search/random.ts';
import { firstStart, type Item, lastStart, overlap, type Pose } from './items.ts';
import { placedCut, REMNANT } from './placed-tree.ts';

/** A leftover of a sheet where a piece may go, with the cut that made it: its direction and its stage. */
export interface OpenLeaf extends Box {
  readonly sheet: number;
  readonly crosscut: boolean;
  readonly level: number;
  /** Forbidden boxes that reach into it. */
  readonly boxes: readonly Box[];
  /** What was cut out of it since, and what stands there for it in the end. */
  filled?: FilledLeaf;
  /** The leaves that the filling opened: before and beyond the first cut, then within it; undefined where empty. */
  opened?: readonly (OpenLeaf | undefined)[];
}

export interface FilledLeaf {
  readonly item: number;
  readonly pose: Pose;
  readonly at: Box;
  readonly crosscutFirst: boolean;
}

export interface InsertionRule {
  /** 0: closest to a side of the leaf; 1: nearest the start of the sheet; 2: smallest leaf. */
  readonly choice: 0 | 1 | 2;
  /** Share of places passed over. */
  readonly skip: number;
  /** Share of choices of the first cut made at random. */
  readonly whim: number;
}

export interface Insertion {
  readonly leaf: OpenLeaf;
  readonly filled: FilledLeaf;
}

/** The best place for an item among the open leaves by a rule; undefined when it fits nowhere. */
export function bestInsertion(
  leaves: readonly OpenLeaf[],
  items: readonly Item[],
  index: number,
  { rule, stages, random }: { rule: InsertionRule; stages: Stages; random: Random },
): Insertion | undefined {
  const item = items[index]!;
  let best: Insertion | undefined;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const leaf of leaves) {
    if (stages !== 'any' && leaf.level > stages) continue;
    if (item.sheet !== undefined && item.sheet !== leaf.sheet) continue;
    for (const pose of item.poses) {
      if (leaf.x1 - leaf.x0 < pose.width || leaf.y1 - leaf.y0 < pose.length) continue;
      if (rule.skip > 0 && item.place === undefined && random.unit() < rule.skip) continue;
      const at = bestPlace(leaf, item, pose);
      if (at === undefined) continue;
      const cost = insertionCost(leaf, at, rule.choice);
      if (cost >= bestCost) continue;
      const crosscutFirst = firstCut(
        leaf,
        at,
        stages,
        rule.whim > 0 && random.unit() < rule.whim ? random : undefined,
      );
      if (crosscutFirst === undefined) continue;
      bestCost = cost;
      best = { leaf, filled: { item: index, pose, at, crosscutFirst } };
    }
  }
  return best;
}

/** Within a leaf: near its near corner, else behind a forbidden box, else as far as it will go. */
function bestPlace(leaf: OpenLeaf, item: Item, pose: Pose): Box | undefined {
  const near = placeAt(leaf, item, pose, leaf.x0, leaf.y0);
  if (near !== undefined && (leaf.boxes.length === 0 || !leaf.boxes.some((box) => overlap(box, near))))
    return near;
  if (leaf.boxes.length === 0) return undefined;
  let best: Box | undefined;
  const startsX = [leaf.x0, ...leaf.boxes.map(({ x1 }) => x1)];
  const startsY = [leaf.y0, ...leaf.boxes.map(({ y1 }) => y1)];
  for (const { x0 } of leaf.boxes) startsX.push(lastStart(item, pose, 'x', x0 - pose.width));
  for (const { y0 } of leaf.boxes) startsY.push(lastStart(item, pose, 'y', y0 - pose.length));
  for (const y of startsY) {
    if (y < leaf.y0 || (best !== undefined && y > best.y0)) continue;
    for (const x of startsX) {
      if (x < leaf.x0) continue;
      const at = placeAt(leaf, item, pose, x, y);
      if (at === undefined || leaf.boxes.some((box) => overlap(box, at))) continue;
      if (best === undefined || at.y0 < best.y0 || (at.y0 === best.y0 && at.x0 < best.x0)) best = at;
    }
  }
  return best;
}

function placeAt(leaf: Box, item: Item, pose: Pose, fromX: number, fromY: number): Box | undefined {
  const x0 = firstStart(item, pose, 'x', fromX);
  const y0 = firstStart(item, pose, 'y', fromY);
  const at = { x0, y0, x1: x0 + pose.width, y1: y0 + pose.length };
  return at.x1 <= leaf.x1 && at.y1 <= leaf.y1 ? at : undefined;
}

function insertionCost(leaf: OpenLeaf, at: Box, choice: InsertionRule['choice']): number {
  const across = leaf.x1 - leaf.x0 - (at.x1 - at.x0);
  const along = leaf.y1 - leaf.y0 - (at.y1 - at.y0);
  if (choice === 0) return Math.min(across, along) + 1e-6 * Math.max(across, along);
  if (choice === 1) return at.y1 + 1e-6 * (at.x0 + leaf.x1 - leaf.x0) + 1e9 * leaf.sheet;
  return (leaf.x1 - leaf.x0) * (leaf.y1 - leaf.y0);
}

interface CutLevels {
  readonly first: number;
  readonly second: number;
}

/** The stages of the two cuts around a piece; a cut in the direction of the one that made the leaf adds none. */
function cutLevels(leaf: OpenLeaf, at: Box, crosscutFirst: boolean): CutLevels {
  const along = at.y0 > leaf.y0 || at.y1 < leaf.y1;
  const across = at.x0 > leaf.x0 || at.x1 < leaf.x1;
  let { level, crosscut } = leaf;
  if ((crosscutFirst ? along : across) && crosscut !== crosscutFirst) {
    level += 1;
    crosscut = crosscutFirst;
  }
  const first = level;
  if ((crosscutFirst ? across : along) && crosscut === crosscutFirst) level += 1;
  return { first, second: level };
}

/** Which way to cut first: the one that leaves the larger rectangle, as far as stages allow. Undefined: neither. */
function firstCut(leaf: OpenLeaf, at: Box, stages: Stages, whim: Random | undefined): boolean | undefined {
  const preferred =
    whim !== undefined
      ? whim.below(2) === 0
      : Math.max(leaf.y1 - at.y1, at.y0 - leaf.y0) * (leaf.x1 - leaf.x0) >=
        Math.max(leaf.x1 - at.x1, at.x0 - leaf.x0) * (leaf.y1 - leaf.y0);
  if (stages === 'any') return preferred;
  // The last of the cuts may be the trimming one.
  if (cutLevels(leaf, at, preferred).second <= stages + 1) return preferred;
  return cutLevels(leaf, at, !preferred).second <= stages + 1 ? !preferred : undefined;
}

/** Cuts the piece out of its leaf; returns the leaves that are open around it. */
export function fill(leaf: OpenLeaf, filled: FilledLeaf): readonly OpenLeaf[] {
  const { at, crosscutFirst } = filled;
  const { first, second } = cutLevels(leaf, at, crosscutFirst);
  const open = (box: Box, crosscut: boolean, level: number): OpenLeaf | undefined => {
    if (box.x0 >= box.x1 || box.y0 >= box.y1) return undefined;
    const boxes = leaf.boxes.filter((other) => overlap(other, box));
    return { ...box, sheet: leaf.sheet, crosscut, level, boxes };
  };
  const { x0, y0, x1, y1 } = leaf;
  const opened = crosscutFirst
    ? [
        open({ x0, y0, x1, y1: at.y0 }, true, first),
        open({ x0, y0: at.y1, x1, y1 }, true, first),
        open({ x0, y0: at.y0, x1: at.x0, y1: at.y1 }, false, second),
        open({ x0: at.x1, y0: at.y0, x1, y1: at.y1 }, false, second),
      ]
    : [
        open({ x0, y0, x1: at.x0, y1 }, false, first),
        open({ x0: at.x1, y0, x1, y1 }, false, first),
        open({ x0: at.x0, y0, x1: at.x1, y1: at.y0 }, true, second),
        open({ x0: at.x0, y0: at.y1, x1: at.x1, y1 }, true, second),
      ];
  leaf.filled = filled;
  leaf.opened = opened;
  return opened.filter((inner) => inner !== undefined);
}

/** The trees of leaves and of all that was opened in them; `leaves` in the order in which they were opened. */
export function treesOf(leaves: readonly OpenLeaf[]): ReadonlyMap<OpenLeaf, SheetTree> {
  const trees = new Map<OpenLeaf, SheetTree>();
  for (let index = leaves.length - 1; index >= 0; index--) {
    const leaf = leaves[index]!;
    trees.set(leaf, leaf.filled === undefined ? REMNANT : filledTree(leaf, leaf.filled, trees));
  }
  return trees;
}

function filledTree(leaf: OpenLeaf, filled: FilledLeaf, trees: ReadonlyMap<OpenLeaf, SheetTree>): SheetTree {
  const { item, pose, at, crosscutFirst } = filled;
  const [before, beyond, near, far] = leaf.opened!.map((inner) => (inner && trees.get(inner)) ?? REMNANT);
  const piece: SheetTree = { kind: 'piece', piece: item, quarterTurns: pose.turned ? 1 : 0 };
  const inner = (tree: SheetTree, crosscut: boolean, [first, last]: readonly [SheetTree, SheetTree]) =>
    crosscut
      ? placedCut('crosscut', [
          { tree: first, size: at.y0 - leaf.y0 },
          { tree, size: at.y1 - at.y0 },
          { tree: last, size: leaf.y1 - at.y1 },
        ])
      : placedCut('lengthwise', [
          { tree: first, size: at.x0 - leaf.x0 },
          { tree, size: at.x1 - at.x0 },
          { tree: last, size: leaf.x1 - at.x1 },
        ]);
  return inner(inner(piece, !crosscutFirst, [near!, far!]), crosscutFirst, [before!, beyond!]);
}
