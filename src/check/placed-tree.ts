import type { CutNode, CutTree } from '../model/cut-tree.ts';
import type { Box, PieceId } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { Report } from './plan-fault.ts';

export type Leaf = Exclude<CutTree<PieceId>, { kind: 'cut' }>;

export interface PlacedPart<Tree extends CutTree<PieceId> = CutTree<PieceId>> {
  readonly tree: Tree;
  /** Where it lies on the opened length. */
  readonly box: Box;
  /** Place of the cut that made it in the list of parts; -1 for the whole length. */
  readonly from: number;
}

/**
 * Every part of a tree where it lies, each cut before what it yields and near parts before far ones. By a stack, so that
 * a deep tree is as good as a flat one. A cut whose positions make no sense is reported and left out, and the cloth below
 * it is then missing from the sum of the leaves. O(parts).
 */
export function placeTree(
  tree: CutTree<PieceId>,
  width: Ticks,
  length: Ticks,
  report: Report,
): readonly PlacedPart[] {
  const placed: PlacedPart[] = [];
  const waiting: PlacedPart[] = [
    { tree, box: { x0: ticks(0), y0: ticks(0), x1: width, y1: length }, from: -1 },
  ];
  let covered = 0n;
  for (let part = waiting.pop(); part !== undefined; part = waiting.pop()) {
    if (part.tree.kind !== 'cut') {
      placed.push(part);
      covered += areaOf(part.box);
      continue;
    }
    const boxes = cutUp(part.tree, part.box, report);
    if (boxes.length === 0) continue;
    const from = placed.push(part) - 1;
    for (let index = boxes.length - 1; index >= 0; index--) {
      waiting.push({ tree: part.tree.parts[index]!, box: boxes[index]!, from });
    }
  }
  const whole = areaOf({ x0: ticks(0), y0: ticks(0), x1: width, y1: length });
  if (covered !== whole) report('cloth-lost', { found: Number(covered), whole: Number(whole) });
  return placed;
}

export function isLeaf(part: PlacedPart): part is PlacedPart<Leaf> {
  return part.tree.kind !== 'cut';
}

export function isCut(part: PlacedPart): part is PlacedPart<CutNode<PieceId>> {
  return part.tree.kind === 'cut';
}

function cutUp({ direction, at, parts }: CutNode<PieceId>, box: Box, report: Report): readonly Box[] {
  if (at.length === 0 || parts.length !== at.length + 1) {
    report('cut-parts', { cuts: at.length, parts: parts.length }, { box });
    return [];
  }
  const lengthwise = direction === 'lengthwise';
  const [near, far] = lengthwise ? [box.x0, box.x1] : [box.y0, box.y1];
  const edges: number[] = [near];
  for (const position of at) {
    const after = edges.at(-1)! - near;
    if (!Number.isSafeInteger(position) || position <= after || position >= far - near) {
      report('cut-position', { at: position, after, before: far - near }, { box });
      return [];
    }
    edges.push(near + position);
  }
  edges.push(far);
  return parts.map((_, index) => {
    const [low, high] = [ticks(edges[index]!), ticks(edges[index + 1]!)];
    return lengthwise ? { ...box, x0: low, x1: high } : { ...box, y0: low, y1: high };
  });
}

function areaOf({ x0, y0, x1, y1 }: Box): bigint {
  return BigInt(x1 - x0) * BigInt(y1 - y0);
}
