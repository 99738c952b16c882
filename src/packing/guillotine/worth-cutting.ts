import type { ParetoFronts } from './pareto.ts';
import { bitsOf, WORD_BITS } from './subset-words.ts';

/** Most words of flags kept. */
const MOST_WORDS = 24_000_000;

/** Flags, a bit a block, of the blocks that may be cut off a rectangle of a given extent across the cut. */
export interface WorthCutting {
  /** Blocks to be cut off beside the rest of a rectangle of this length. */
  besideAt(length: number): Int32Array;
  /** Blocks to be cut off above the rest of a rectangle of this width. */
  aboveAt(width: number): Int32Array;
}

/**
 * For each extent the blocks of up to `half` pieces that waste no more than the whole sheet can spare when a piece of
 * that extent is cut off for them; undefined where that takes too much memory. Extents are those of the whole at most.
 */
export function worthCutting(
  fronts: ParetoFronts,
  half: number,
  whole: { readonly width: number; readonly length: number },
): WorthCutting | undefined {
  const { states, start, end, widths, lengths, area } = fronts;
  const words = (states >>> WORD_BITS) + 1;
  if ((whole.width + whole.length + 2) * words > MOST_WORDS) return undefined;
  const spare = whole.width * whole.length - area[states - 1];
  const beside = Array.from({ length: whole.length + 1 }, () => new Int32Array(words));
  const above = Array.from({ length: whole.width + 1 }, () => new Int32Array(words));
  for (let block = 1; block < states; block++) {
    if (bitsOf(block) > half) continue;
    const word = block >>> WORD_BITS;
    const bit = 1 << (block & 31);
    const room = area[block] + spare;
    for (let at = start[block]; at < end[block]; at++) {
      const wider = at + 1 < end[block] ? widths[at + 1] - 1 : whole.width;
      const mostWidth = Math.min(wider, Math.floor(room / lengths[at]));
      for (let width = widths[at]; width <= mostWidth; width++) above[width][word] |= bit;
      const longer = at > start[block] ? lengths[at - 1] - 1 : whole.length;
      const mostLength = Math.min(longer, Math.floor(room / widths[at]));
      for (let length = lengths[at]; length <= mostLength; length++) beside[length][word] |= bit;
    }
  }
  return { besideAt: (length) => beside[length], aboveAt: (width) => above[width] };
}
