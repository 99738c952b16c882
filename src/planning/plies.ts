import type { CuttingStep } from './steps.ts';

/** A cut through one part, as far as its plies go. */
export interface CutThroughPart {
  readonly action: CuttingStep['action'];
  /** Across the width: how wide the part is, and how much of that from its near edge lies in two plies. */
  readonly width: number;
  readonly doubled: number;
  /** Distances of the cuts from the part's near edge. */
  readonly edges: readonly number[];
}

export interface PliesUnder {
  readonly most: number;
  readonly fewest: number;
}

/**
 * Plies of one part under the blade, once it is folded `reachFolds` times across the cuts, and about `mirrorAt` along them. Cloth
 * that is folded off its middle lies double up to the edge folded over and single beyond, so a crosscut meets both:
 * ```
 *   ════════─────────   folded once:   ════════
 *   x0    doubled   width              ─────────    3 plies near the fold of the lay, 2 at the other end
 * ```
 */
export function pliesUnder(
  { action, width, doubled, edges }: CutThroughPart,
  { reachFolds, mirrorAt }: { readonly reachFolds: number; readonly mirrorAt?: number },
): PliesUnder {
  const layers = 2 ** reachFolds;
  if (action === 'crosscut') {
    // Folded in halves, a stretch of the width is a layer; those that lie double anywhere do so over each other.
    const double = (layers * doubled) / width;
    const about = mirrorAt === undefined ? 1 : 2;
    return { most: about * (layers + Math.ceil(double)), fewest: about * (layers + Math.floor(double)) };
  }
  const plies = (edge: number) => (edge < doubled ? 2 : 1);
  const each = edges.map((edge) => plies(edge) + (mirrorAt === undefined ? 0 : plies(2 * mirrorAt - edge)));
  return { most: layers * Math.max(...each), fewest: layers * Math.min(...each) };
}
