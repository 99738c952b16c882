import { type Ticks, ticks } from '../units/ticks.ts';
import { type CutThroughPart, type PliesUnder, pliesUnder } from './plies.ts';
import { type Blade, bladeReach, type ToolsOnCloth } from './tool-reach.ts';

/** How the parts of one step are spread under the blade. */
export interface Spread {
  /** Folds that shorten the cut line until the ruler reaches: 0, 1 (two plies) or 2 (four). */
  readonly reachFolds: 0 | 1 | 2;
  /** Folded so that the cuts of one half fall on those of the other; measured from the part's near edge. */
  readonly mirrorAt?: Ticks;
  /** How many alike parts lie on top of each other. */
  readonly stacked: number;
  /** Plies under the blade, those of a folded lay included, where they are most. */
  readonly plies: number;
  /** Under some of the cuts, or some of their length, there are fewer: beyond the edge that is folded over. */
  readonly pliesVary?: true;
}

/** A fold costs about as much as a cut, so it must save more than one. */
const WORTH_FOLDING = 4;

/**
 * Cuts on folded cloth after which the fold is laid true again, since every cut lets it creep a little (common practice,
 * no published source; three or four strips are usual, from memory).
 */
export const CUTS_BEFORE_SQUARING = 4;

export interface PartToSpread extends CutThroughPart {
  readonly cutLength: number;
  readonly alike: number;
  /** An end that is not square yet gives no true fold. */
  readonly squared: boolean;
  /** A tear there would run into a flaw. */
  readonly flawed?: boolean;
  /** The cloth is laid once for all its cuts. */
  readonly oneSpread?: boolean;
}

/**
 * With what alike parts are cut, and how they are spread for it: folded until the ruler reaches; where no fold that the
 * plies allow brings it there, torn if that serves, else cut with scissors. Then about the mirror of the cuts where that
 * saves enough, then stacked, never in more plies than the tools allow. A tear follows one thread, so in one ply.
 */
export function spreadFor(
  edges: readonly Ticks[],
  part: PartToSpread,
  tools: ToolsOnCloth,
): Spread & { readonly blade: Blade } {
  const asLaid = pliesUnder(part, { reachFolds: 0 });
  const other = tools.tears && asLaid.most === 1 && !part.flawed ? 'tear' : 'scissors';
  if (part.oneSpread) {
    const blade = part.cutLength <= bladeReach(tools) ? 'rotary' : other;
    return { blade, reachFolds: 0, stacked: 1, ...counted(asLaid, 1) };
  }
  const folded = foldsToReach(part, tools);
  if (folded === undefined && other === 'tear') return { blade: 'tear', reachFolds: 0, stacked: 1, plies: 1 };
  const reachFolds = folded ?? 0;
  const mirror = part.squared ? mirrorOf(edges, tools.rulerMark) : undefined;
  const mirrored = mirror !== undefined && { mirrorAt: mirror };
  const folds =
    mirrored && pliesUnder(part, { reachFolds, ...mirrored }).most <= tools.mostPlies
      ? { reachFolds, ...mirrored }
      : { reachFolds };
  const plies = pliesUnder(part, folds);
  const stacked = Math.max(1, Math.min(part.alike, Math.floor(tools.mostPlies / plies.most)));
  const blade = folded === undefined ? 'scissors' : 'rotary';
  return { blade, ...folds, stacked, ...counted(plies, stacked) };
}

function counted({ most, fewest }: PliesUnder, stacked: number): Pick<Spread, 'plies' | 'pliesVary'> {
  return { plies: most * stacked, ...(fewest < most && { pliesVary: true }) };
}

/** The fewest folds that bring the line within the ruler; undefined where the plies do not allow enough of them. */
function foldsToReach(part: PartToSpread, tools: ToolsOnCloth): Spread['reachFolds'] | undefined {
  const reach = bladeReach(tools);
  if (part.cutLength <= reach) return 0;
  const folds = [1, 2] as const;
  return folds.find(
    (reachFolds) =>
      part.cutLength <= reach * 2 ** reachFolds && pliesUnder(part, { reachFolds }).most <= tools.mostPlies,
  );
}

/** The line about which enough cuts mirror each other to be worth a fold, or undefined. A slit fold mirrors nothing. */
function mirrorOf(edges: readonly Ticks[], mark = ticks(1)): Ticks | undefined {
  if (edges.length < WORTH_FOLDING || edges[0] === 0) return undefined;
  const doubled = edges[0]! + edges.at(-1)!;
  const mirrors = edges.every((edge, index) => edge + edges[edges.length - 1 - index]! === doubled);
  if (!mirrors || doubled % 2 !== 0) return undefined;
  // The fold itself is found by laying edge on edge, but what is set from it must fall on a mark.
  const fold = doubled / 2;
  return edges.every((edge) => (edge - fold) % mark === 0) ? ticks(fold) : undefined;
}

/** From edge to edge as the hands go; folded at a mirror, outwards from the fold. */
export function settingsOf(edges: readonly Ticks[], { mirrorAt }: Spread): readonly Ticks[] {
  if (mirrorAt === undefined) return edges.map((edge, cut) => ticks(edge - (edges[cut - 1] ?? 0)));
  return edges.filter((edge) => edge >= mirrorAt).map((edge) => ticks(edge - mirrorAt));
}

/** Folds made for one step, besides the fold of a folded lay. */
export function foldsOf({ reachFolds, mirrorAt }: Spread): number {
  return reachFolds + (mirrorAt === undefined ? 0 : 1);
}

/** Cuts of one step after which its fold is laid true again; undefined where nothing is folded, or the cuts are few. */
export function squaringEvery(
  { plies, stacked }: Spread,
  cuts: number,
): typeof CUTS_BEFORE_SQUARING | undefined {
  const isFolded = plies > stacked;
  return isFolded && cuts > CUTS_BEFORE_SQUARING ? CUTS_BEFORE_SQUARING : undefined;
}
