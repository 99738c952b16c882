import type { PlainBox } from '../geometry/walk.ts';
import type { LengthPlan } from '../model/cut-plan.ts';
import type { CutTree } from '../model/cut-tree.ts';
import type { PieceId } from '../model/piece.ts';
import type { Tools } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { partsOf } from './joined.ts';
import { upperPly } from './upper-ply.ts';

type Tree = CutTree<PieceId>;
type CutTreeNode = Extract<Tree, { kind: 'cut' }>;

/** How the parts of one step are spread under the blade. */
export interface Spread {
  /** Folds that shorten the cut line until the ruler reaches: 0, 1 (two plies) or 2 (four). */
  readonly reachFolds: 0 | 1 | 2;
  /** Folded so that the cuts of one half fall on those of the other; measured from the part's near edge. */
  readonly mirrorAt?: Ticks;
  /** How many alike parts lie on top of each other. */
  readonly stacked: number;
  /** Plies under the blade, the folded lay's own two included. */
  readonly plies: number;
}

/** One turn at the mat: alike parts, one direction, the blade passing once for each setting and each stack. */
export interface CuttingStep {
  readonly number: number;
  readonly action: 'crosscut' | 'cut-lengthwise';
  /** True for the first cut of a length, which only squares its end. */
  readonly squaresEnd: boolean;
  /** Parts that are cut alike in this step, on the spread cloth. */
  readonly parts: readonly PlainBox<Ticks>[];
  readonly spread: Spread;
  /** Ruler settings in the order of the hands, each from the edge the cut before it left. */
  readonly settings: readonly Ticks[];
  /** Passes of the blade. */
  readonly strokes: number;
  /** `scissors` where even folding does not bring the cut within the ruler. */
  readonly blade: 'rotary' | 'scissors';
  /** Every line this step cuts, on the spread cloth; of a folded lay, on its upper ply. */
  readonly lines: readonly PlainBox<Ticks>[];
  /** Pieces that this step frees, all plies counted. */
  readonly frees: readonly { readonly piece: PieceId; readonly copies: number }[];
  /** Keepable leftovers that this step frees, all plies counted. */
  readonly remnants: number;
}

/** A part on the table that still has to be cut up. */
interface Waiting {
  readonly node: CutTreeNode;
  readonly box: PlainBox<Ticks>;
}

/**
 * The order of work for one length, read off its cut tree. A cut is made only where a piece lies on one of its sides:
 * a leftover keeps its selvedge until it is used. Parts that are cut alike come together, stacked as far as the
 * maker's most plies allow; a part whose cuts mirror each other is folded first and both are cut at once.
 */
export function cuttingSteps(length: LengthPlan, tools: Tools): readonly CuttingStep[] {
  const folded = length.lay.kind === 'folded';
  const near = length.lay.kind === 'folded' ? length.lay.foldAt : ticks(0);
  const tree = folded ? upperPly(length.tree, length.width, length.length, near) : length.tree;
  const lower = folded ? lowerPieces(length, near) : undefined;
  const steps: CuttingStep[] = [];
  const box = { x0: near, y0: ticks(0), x1: length.width, y1: length.length };
  const groups: (readonly Waiting[])[] =
    tree.kind === 'cut' && holdsPiece(tree) ? [[{ node: tree, box }]] : [];
  for (let group = groups.shift(); group; group = groups.shift()) {
    const { step, parts } = cutAlike(group, steps.length + 1, tools, folded ? 2 : 1, lower);
    if (step) steps.push(step);
    groups.unshift(...groupAlike(parts));
  }
  return steps;
}

/** Pieces of the lower ply by the place they have when folded over: mirrored x about the fold. */
function lowerPieces(length: LengthPlan, foldAt: Ticks): ReadonlyMap<string, PieceId> {
  const found = new Map<string, PieceId>();
  const waiting: { tree: Tree; box: PlainBox<Ticks> }[] = [
    { tree: length.tree, box: { x0: ticks(0), y0: ticks(0), x1: length.width, y1: length.length } },
  ];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.tree.kind === 'piece') {
      const x0 = ticks(2 * foldAt - next.box.x1);
      found.set(cornerOf({ ...next.box, x0 }), next.tree.piece);
    } else if (next.tree.kind === 'cut') waiting.push(...partsOf(next.tree, next.box));
  }
  return found;
}

function cornerOf(box: { readonly x0: number; readonly y0: number }): string {
  return `${box.x0} ${box.y0}`;
}

function cutAlike(
  group: readonly Waiting[],
  number: number,
  tools: Tools,
  layPlies: 1 | 2,
  lower: ReadonlyMap<string, PieceId> | undefined,
): { readonly step?: CuttingStep; readonly parts: readonly Waiting[] } {
  const [first] = group as [Waiting, ...Waiting[]];
  const { node, box } = first;
  const edges = madeCuts(node, box);
  const freed = group.flatMap((own) => partsOf(own.node, own.box));
  const parts = freed.flatMap((part) =>
    part.tree.kind === 'cut' && holdsPiece(part.tree) ? [{ node: part.tree, box: part.box }] : [],
  );
  if (edges.length === 0) return { parts };
  const across = node.direction === 'crosscut';
  const cutLength = across ? box.x1 - box.x0 : box.y1 - box.y0;
  const spread = spreadFor(edges, cutLength, group.length, tools, layPlies);
  const passes = spread.mirrorAt === undefined ? edges.length : Math.ceil(edges.length / 2);
  const pieces = freed.flatMap((part) =>
    part.tree.kind === 'piece' ? [part.tree.piece, ...(lower ? [lower.get(cornerOf(part.box))!] : [])] : [],
  );
  const step: CuttingStep = {
    number,
    action: across ? 'crosscut' : 'cut-lengthwise',
    squaresEnd: isSquaring(node.parts[0]!) && edges.length > 0,
    parts: group.map((own) => own.box),
    spread,
    settings: settingsOf(edges, spread),
    strokes: passes * Math.ceil(group.length / spread.stacked),
    blade: cutLength / 2 ** spread.reachFolds > tools.rulerLength ? 'scissors' : 'rotary',
    lines: group.flatMap((own) => madeCuts(own.node, own.box).map((edge) => lineAt(own, edge))),
    frees: counted(pieces),
    remnants: layPlies * freed.filter((part) => part.tree.kind === 'remnant').length,
  };
  return { step, parts };
}

/** Distances from the near edge at which a cut is really made: those with a piece on one side or the other. */
function madeCuts(node: CutTreeNode, box: PlainBox<Ticks>): readonly Ticks[] {
  const parts = partsOf(node, box);
  return node.at.filter((_, cut) => holdsPiece(parts[cut]!.tree) || holdsPiece(parts[cut + 1]!.tree));
}

function spreadFor(
  edges: readonly Ticks[],
  cutLength: number,
  alike: number,
  tools: Tools,
  layPlies: 1 | 2,
): Spread {
  let reachFolds: 0 | 1 | 2 = 0;
  while (
    reachFolds < 2 &&
    cutLength / 2 ** reachFolds > tools.rulerLength &&
    layPlies * 2 ** (reachFolds + 1) <= tools.mostPlies
  ) {
    reachFolds = (reachFolds + 1) as 1 | 2;
  }
  let plies = layPlies * 2 ** reachFolds;
  const middle = mirrorOf(edges);
  const mirrored = middle !== undefined && plies * 2 <= tools.mostPlies;
  if (mirrored) plies *= 2;
  const stacked = Math.max(1, Math.min(alike, Math.floor(tools.mostPlies / plies)));
  return { reachFolds, stacked, plies: plies * stacked, ...(mirrored && { mirrorAt: middle }) };
}

/** A fold costs about as much as a cut, so it must save more than one. */
const WORTH_FOLDING = 4;

/** The line about which enough cuts mirror each other to be worth a fold, or undefined. */
function mirrorOf(edges: readonly Ticks[]): Ticks | undefined {
  if (edges.length < WORTH_FOLDING) return undefined;
  const doubled = edges[0]! + edges.at(-1)!;
  const mirrors = edges.every((edge, index) => edge + edges[edges.length - 1 - index]! === doubled);
  return mirrors && doubled % 2 === 0 ? ticks(doubled / 2) : undefined;
}

/** From edge to edge as the hands go; folded at a mirror, outwards from the fold. */
function settingsOf(edges: readonly Ticks[], spread: Spread): readonly Ticks[] {
  const { mirrorAt } = spread;
  if (mirrorAt === undefined) return edges.map((edge, cut) => ticks(edge - (edges[cut - 1] ?? 0)));
  return edges.filter((edge) => edge >= mirrorAt).map((edge) => ticks(edge - mirrorAt));
}

function lineAt(own: Waiting, edge: Ticks): PlainBox<Ticks> {
  const { box, node } = own;
  if (node.direction === 'crosscut') {
    const y = ticks(box.y0 + edge);
    return { x0: box.x0, y0: y, x1: box.x1, y1: y };
  }
  const x = ticks(box.x0 + edge);
  return { x0: x, y0: box.y0, x1: x, y1: box.y1 };
}

/** Alike parts have one size and are cut alike all the way down, whatever the pieces are called. */
function groupAlike(parts: readonly Waiting[]): (readonly Waiting[])[] {
  const groups = new Map<string, Waiting[]>();
  for (const part of parts) {
    const { x0, y0, x1, y1 } = part.box;
    const key = `${x1 - x0} ${y1 - y0} ${shapeOf(part.node)}`;
    groups.set(key, [...(groups.get(key) ?? []), part]);
  }
  return [...groups.values()];
}

function shapeOf(tree: Tree): string {
  if (tree.kind === 'cut')
    return `${tree.direction[0]}${tree.at.join(',')}(${tree.parts.map(shapeOf).join(' ')})`;
  return tree.kind === 'piece' ? 'p' : '-';
}

function holdsPiece(tree: Tree): boolean {
  return tree.kind === 'piece' || (tree.kind === 'cut' && tree.parts.some(holdsPiece));
}

function isSquaring(tree: Tree): boolean {
  return tree.kind === 'trim' && tree.of === 'squaring';
}

function counted(pieces: readonly PieceId[]): CuttingStep['frees'] {
  const counts = new Map<PieceId, number>();
  for (const piece of pieces) counts.set(piece, (counts.get(piece) ?? 0) + 1);
  return [...counts].map(([piece, copies]) => ({ piece, copies }));
}
