import type { CutForest } from './cut-forest.ts';

/** How places are compared; each suits some instances and none suits all. */
export const FIT_RULES = ['waste', 'short side', 'strip area', 'across', 'along'] as const;
export type FitRule = 0 | 1 | 2 | 3 | 4;

/** The best place found so far for one piece; `node` is -1 where there is none. */
export interface Place {
  node: number;
  width: number;
  length: number;
  score: number;
}

export interface FitOptions {
  readonly rule: FitRule;
  /** Deepest node that may hold parts across the last cut, from 0 at the sheet; Infinity for any number of stages. */
  readonly deepest: number;
  /** Only trimming is allowed below the deepest node: two stages. */
  readonly trimOnly: boolean;
  /** One place in so many is passed over, to vary the search; 0 for none. */
  readonly skip: number;
  /** Weight of strips cut up by growing a node. */
  readonly growth: number;
}

/** Least sizes of the pieces that are to be placed. */
export interface LeastSizes {
  readonly width: number;
  readonly length: number;
}

/**
 * The cut nodes that may take some piece, gone through for each piece. Most nodes of a full sheet can take nothing at
 * all, so they are sorted out once, and only nodes that come to be while pieces are placed are added. With each node
 * goes the largest piece it could take at first, grown if need be; placing pieces never makes that larger.
 */
export class OpenNodes {
  private readonly forest: CutForest;
  private readonly nodes: Int32Array;
  private readonly mostWidth: Int32Array;
  private readonly mostLength: Int32Array;
  private count = 0;

  constructor(forest: CutForest) {
    const capacity = forest.free.length;
    this.forest = forest;
    this.nodes = new Int32Array(capacity);
    this.mostWidth = new Int32Array(capacity);
    this.mostLength = new Int32Array(capacity);
  }

  /** Lists the nodes that can take a piece of at least these sizes. Cost O(nodes). */
  collect(least: LeastSizes): void {
    const { forest } = this;
    const { free } = forest;
    const { width, length } = least;
    const end = forest.marks[0];
    this.count = 0;
    for (let node = forest.pieces; node < end; node++) if (free[node] >= 0) this.add(node, width, length);
    forest.createdCount = 0;
  }

  /** Adds the nodes that came to be since the last call. */
  addCreated(): void {
    const { forest } = this;
    const { created, createdCount } = forest;
    for (let i = 0; i < createdCount; i++) this.add(created[i], 0, 0);
    forest.createdCount = 0;
  }

  private add(node: number, leastWidth: number, leastLength: number): void {
    const { free, extent, direction, parent } = this.forest;
    const way = direction[node];
    let along = free[node];
    let across = extent[2 * node + 1 - way];
    const above = parent[node];
    if (above >= 0) {
      across += free[above];
      const top = parent[above];
      if (top >= 0) along += free[top];
    }
    const width = way === 1 ? across : along;
    const length = way === 1 ? along : across;
    if (width < leastWidth || length < leastLength) return;
    const { count } = this;
    this.nodes[count] = node;
    this.mostWidth[count] = width;
    this.mostLength[count] = length;
    this.count = count + 1;
  }

  /**
   * Looks through the open nodes for a piece of the given size and keeps the best in `place`. A strip that is too small
   * counts as well where its node can grow (see `CutForest.place`).
   */
  find(width: number, length: number, options: FitOptions, draw: () => number, place: Place): void {
    const { forest, nodes, count, mostWidth, mostLength } = this;
    const { extent, free, direction, parent } = forest;
    const { rule, deepest, trimOnly, skip, growth } = options;
    const limited = deepest !== Infinity;
    for (let i = 0; i < count; i++) {
      if (width > mostWidth[i] || length > mostLength[i]) continue;
      const node = nodes[i];
      const strip = free[node];
      if (strip < 0) continue;
      const way = direction[node];
      const along = way === 1 ? length : width;
      const across = way === 1 ? width : length;
      const cross = extent[2 * node + 1 - way];
      const restAlong = strip - along;
      const restAcross = cross - across;
      let score: number;
      if (restAlong < 0 || restAcross < 0) {
        const above = parent[node];
        if (above < 0) continue;
        let cutUp = 0;
        if (restAcross < 0) {
          if (free[above] < -restAcross) continue;
          cutUp = -restAcross * (extent[2 * node + way] - strip);
        }
        if (restAlong < 0) {
          const top = parent[above];
          if (top < 0 || free[top] < -restAlong) continue;
          const aboveTotal = extent[2 * above + 1 - way] - free[above];
          cutUp += -restAlong * (aboveTotal - cross);
        }
        if (limited && !mayPlace(forest, node, restAcross !== 0, deepest, trimOnly)) continue;
        const waste = (cutUp * growth) / along + Math.max(restAcross, 0);
        switch (rule) {
          case 0:
            score = waste * along;
            break;
          case 1:
            score = waste;
            break;
          case 2:
            score = waste * along + (restAlong > 0 ? restAlong * cross : 0);
            break;
          case 3:
            score = waste * 4096 + Math.max(restAlong, 0);
            break;
          default:
            score = Math.max(restAlong, 0) * 4096 + waste;
        }
      } else {
        if (limited && !mayPlace(forest, node, restAcross !== 0, deepest, trimOnly)) continue;
        switch (rule) {
          case 0:
            score = restAcross * along;
            break;
          case 1:
            score = Math.min(restAlong, restAcross);
            break;
          case 2:
            score = strip * cross - along * across;
            break;
          case 3:
            score = restAcross * 4096 + restAlong;
            break;
          default:
            score = restAlong * 4096 + restAcross;
        }
      }
      if (score < place.score) {
        if (skip > 0 && draw() < skip) continue;
        place.node = node;
        place.width = width;
        place.length = length;
        place.score = score;
      }
    }
  }
}

/** Whether the stage limit lets `node` take another part, with a cut across it where `splits`. */
function mayPlace(
  forest: CutForest,
  node: number,
  splits: boolean,
  deepest: number,
  trimOnly: boolean,
): boolean {
  let depth = 0;
  for (let above = forest.parent[node]; above >= 0; above = forest.parent[above]) depth++;
  if (depth < deepest) return true;
  return depth === deepest && !trimOnly && !splits;
}
