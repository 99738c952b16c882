import { reachableSums } from '../bounds/reachable.ts';
import type { Budget } from '../search/budget.ts';
import { measuresOf } from './measures.ts';
import { OutsideIn } from './outside-in.ts';
import { type BlockKind, type Gaps, ParetoFronts, paretoPairs } from './pareto.ts';
import { type Part, renumbered } from './part.ts';

export type ParetoOutcome =
  | { readonly status: 'best'; readonly part: Part }
  /** Proven: nothing fits the given width and length. */
  | { readonly status: 'none' }
  | { readonly status: 'ended' };

/** Most pieces whose subsets are kept as bit masks, and how many masks may stand for one pair of counts. */
const MASK_PIECES = 21;
const MASK_GAIN = 16;
/** From so many single pieces on, sheets are cut down from outside to half of the pieces. */
const LEAST_HALVED = 12;
/** Operations on one table of a measure, as a multiple of the programme's work, so that small programmes have none. */
const TABLE_SHARE = 2;
/** Longest sheet, width and length together, for which gaps beside blocks are listed. */
const MOST_GAPS = 2_000_000;
/** Most sub-multisets kept. */
const MOST_STATES = 4_000_000;

/**
 * Least length of a block of all copies that is at most `width` wide and at most `limit` long, exact for any number of
 * stages; blocks that waste more than the whole sheet can spare are left out.
 */
export function paretoShortest(
  kinds: readonly BlockKind[],
  width: number,
  limit: number,
  budget: Budget,
): ParetoOutcome {
  const area = kinds.reduce((sum, kind) => sum + kind.width * kind.length * kind.copies, 0);
  const spare = width * limit - area;
  if (spare < 0) return { status: 'none' };
  // Bit masks are gone through several times as fast as counts, which outweighs that there are more of them.
  const owner = kinds.flatMap(({ copies }, kind) => Array.from({ length: copies }, () => kind));
  const masks = owner.length <= MASK_PIECES && 3 ** owner.length / 2 < MASK_GAIN * paretoPairs(kinds);
  const used = masks ? owner.map((kind) => ({ ...kinds[kind], copies: 1 })) : kinds;
  const measures = measuresOf(kinds, width, limit, TABLE_SHARE * paretoWork(kinds));
  if (measures === 'none fits') return { status: 'none' };
  const usedMeasures = masks
    ? measures.map((measure) => ({
        ...measure,
        worth: Float64Array.from(owner, (kind) => measure.worth[kind]!),
      }))
    : measures;
  const listed = width + limit <= MOST_GAPS ? gapsBeside(kinds, width, limit) : undefined;
  if (masks && used.length >= LEAST_HALVED) {
    const half = used.length >> 1;
    const fronts = new ParetoFronts(
      used,
      { width, length: limit, spare, pieces: half },
      listed,
      usedMeasures,
    );
    if (!fronts.build(budget)) return { status: 'ended' };
    const whole = { width, length: limit, kinds: used, measures: usedMeasures, gaps: listed };
    const part = new OutsideIn(fronts, half, whole).run(budget);
    if (part === 'ended' || part === 'none') return { status: part };
    return { status: 'best', part: renumbered(part, (piece) => owner[piece]) };
  }
  const fronts = new ParetoFronts(used, { width, length: limit, spare }, listed, usedMeasures);
  if (!fronts.build(budget)) return { status: 'ended' };
  const part = fronts.shortest(fronts.states - 1, width);
  if (part === undefined) return { status: 'none' };
  return { status: 'best', part: masks ? renumbered(part, (piece) => owner[piece]) : part };
}

function gapsBeside(kinds: readonly BlockKind[], width: number, length: number): Gaps {
  const sizes = (across: boolean): [size: number, copies: number][] =>
    kinds.flatMap((kind): [number, number][] => {
      const { copies, turnable } = kind;
      const own = across ? kind.width : kind.length;
      const other = across ? kind.length : kind.width;
      return turnable
        ? [
            [own, copies],
            [other, copies],
          ]
        : [[own, copies]];
    });
  const gaps = (room: number, across: boolean): Int32Array => {
    const sums = reachableSums(sizes(across), room);
    const found = new Int32Array(room + 1);
    let reached = 0;
    for (let rest = 0; rest <= room; rest++) {
      if (sums[rest] === 1) reached = rest;
      found[room - rest] = rest - reached;
    }
    return found;
  };
  return { width: gaps(width, true), length: gaps(length, false) };
}

/** Work of the programme in pairs looked at, the masks' speed taken into account; Infinity where it is too large. */
export function paretoWork(kinds: readonly BlockKind[]): number {
  const pieces = kinds.reduce((sum, { copies }) => sum + copies, 0);
  const masks = pieces <= MASK_PIECES ? 3 ** pieces / 2 / MASK_GAIN : Infinity;
  const states = kinds.reduce((product, { copies }) => product * (copies + 1), 1);
  return states > MOST_STATES ? masks : Math.min(masks, paretoPairs(kinds));
}
