import { scaleOf } from '../guillotine/pieces.ts';
import type { Kind, ShortestQuestion } from '../instance.ts';
import { overfills, type Stretching, stretchedArea, stretchings } from './area-bounds.ts';
import { type LaidSizes, laidSizes } from './laid-sizes.ts';
import { cheapSums } from './reachable.ts';

/** Work of one bound: products of images formed. */
const mostProducts = 1e7;
/** The longest axis whose reachable sums are listed. */
const longestAxis = 2e6;

/**
 * A length that the strip cannot go below, whatever the cuts; Infinity where a piece does not fit the width.
 *
 * In the caller's units. The work is bounded: of very many pieces only the quicker bounds are tried. Holds for free placement too, with forbidden boxes or without. The width is first cut down to
 * a sum of piece widths, which loses nothing (Herz 1972). Then, from the stretched area with the length left as it is,
 * each length that a pair of dual feasible functions refutes is passed over, up to the next sum of piece lengths.
 */
export function stripBound({ sheet, kinds }: ShortestQuestion): number {
  const wanted = kinds.filter(({ copies }) => copies > 0);
  if (wanted.length === 0) return 0;
  const scale = scaleOf(wanted);
  const scaled = wanted.map((kind) => ({
    ...kind,
    width: kind.width / scale.unitX,
    length: kind.length / scale.unitY,
  }));
  const width = usefulWidth(scaled, Math.floor(sheet.width / scale.unitX));
  const laid = laidSizes(scaled, width, Infinity);
  if (!laid) return Infinity;
  const across = stretchings(laid, 'width', width);
  const least = leastLength(laid, width, across);
  return improved(laid, scaled, width, across, least) * scale.unitY;
}

/** The greatest sum of piece sizes within the width. */
function usefulWidth(kinds: readonly Kind[], width: number): number {
  if (width > longestAxis) return width;
  return cheapSums(kinds.flatMap(sizesAcross), width)?.lastIndexOf(1) ?? width;
}

function sizesAcross({ width, length, copies, quarterTurn }: Kind): [size: number, copies: number][] {
  return quarterTurn
    ? [
        [width, copies],
        [length, copies],
      ]
    : [[width, copies]];
}

function sizesAlong({ width, length, copies, quarterTurn }: Kind): [size: number, copies: number][] {
  return quarterTurn
    ? [
        [width, copies],
        [length, copies],
      ]
    : [[length, copies]];
}

/** By the longest piece and by stretched widths alone: then the length may be any. */
function leastLength(laid: LaidSizes, width: number, across: Stretching): number {
  let least = 0;
  for (const open of laid.ways) least = Math.max(least, Math.min(...open.map((way) => way.length)));
  const along = Float64Array.from(laid.ways.flat(), (way) => way.length);
  across.functions.forEach((stretch, index) => {
    const room = stretch(width);
    if (room > 0)
      least = Math.max(least, Math.ceil(stretchedArea(laid, across.images[index]!, along) / room));
  });
  return least;
}

function improved(
  laid: LaidSizes,
  kinds: readonly Kind[],
  width: number,
  across: Stretching,
  least: number,
): number {
  const top = Math.min(longestAxis, 2 * least);
  const sums = top >= least ? cheapSums(kinds.flatMap(sizesAlong), top) : undefined;
  const next = (length: number): number => {
    const reached = sums ? sums.indexOf(1, length) : length;
    return reached < 0 ? length : reached;
  };
  let length = next(least);
  const each = across.functions.length ** 2 * across.images[0]!.length;
  for (let spent = each; spent <= mostProducts; spent += each) {
    if (!overfills(laid, width, length, across)) break;
    length = next(length + 1);
  }
  return length;
}
