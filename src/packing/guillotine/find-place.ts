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

/**
 * Looks through all free strips for a piece of the given size and keeps the best in `place`. A strip that is too small
 * counts as well where its node can grow (see `CutForest.place`). Cost O(nodes).
 */
export function findPlace(
  forest: CutForest,
  width: number,
  length: number,
  options: FitOptions,
  draw: () => number,
  place: Place,
): void {
  const { extent, free, direction, parent } = forest;
  const { rule, deepest, trimOnly, skip, growth } = options;
  const end = forest.marks[0];
  const limited = deepest !== Infinity;
  for (let node = forest.pieces; node < end; node++) {
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
