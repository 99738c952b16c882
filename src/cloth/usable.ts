import type { Cloth, Crease, LengthInHand, Selvedges } from '../model/cloth.ts';
import { ceilTo, floorTo, type Ticks, ticks } from '../units/ticks.ts';
import { afterWashing, lossBeforeCutting } from './washing.ts';

/** A stretch across the width, in ticks from the left outer edge of the cloth. */
export interface Span {
  readonly x0: Ticks;
  readonly x1: Ticks;
}

/** The edges of one length of cloth, as it was measured before any washing. */
export interface Edges {
  readonly width: Ticks;
  readonly selvedge: Selvedges;
  readonly crease: Crease;
  /** Washed already: it keeps the width it was measured at. */
  readonly washed?: true;
}

/**
 * Where across the width pieces may lie. One span, or two where the crease is kept off; each is a whole number of
 * ruler marks wide, measured from its own left edge, so that what is planned can be set on the ruler.
 */
export interface UsableWidth {
  /** As it lies on the table, washed where it is washed. */
  readonly width: Ticks;
  readonly spans: readonly Span[];
}

export function edgesOf(cloth: Cloth, length?: LengthInHand): Edges {
  return length ?? cloth;
}

/** The usable width of a cloth or of one length in hand, spread flat. */
export function usableWidth(cloth: Cloth, edges: Edges, rulerMark: Ticks): UsableWidth {
  const width = afterWashing(edges.width, lossBeforeCutting(cloth, edges).across);
  const x0 = edges.selvedge.left;
  const x1 = ticks(width - edges.selvedge.right);
  if (edges.crease.kind !== 'keep-off') return { width, spans: wholeMarks([{ x0, x1 }], rulerMark) };
  const { each } = edges.crease;
  // Twice the middle is whole even where the middle is not; the strip widens to whole ticks.
  const twice = twiceTheCrease(cloth, edges);
  const nearSide = ticks(Math.floor((twice - 2 * each) / 2));
  const farSide = ticks(Math.ceil((twice + 2 * each) / 2));
  const left = { x0, x1: ticks(Math.min(nearSide, x1)) };
  // Cuts beyond the strip are set from the trimmed left edge too, so it ends on a mark counted from there.
  const begin =
    left.x1 - left.x0 >= rulerMark
      ? ceilTo(ticks(Math.max(farSide, x0) - x0), rulerMark) + x0
      : Math.max(farSide, x0);
  const right = { x0: ticks(begin), x1 };
  return { width, spans: wholeMarks([left, right], rulerMark) };
}

/** Twice the distance of the crease from the left outer edge, as it lies on the table; midway unless it is told where. */
export function twiceTheCrease(cloth: Cloth, edges: Edges): number {
  const { crease, width } = edges;
  const loss = lossBeforeCutting(cloth, edges).across;
  if (crease.kind === 'keep-off' && crease.at !== undefined) return 2 * afterWashing(crease.at, loss);
  return afterWashing(width, loss);
}

/** What shows when a length is folded lengthwise: two plies as wide as the narrower of them, and beyond it maybe one ply. */
export interface FoldedWidth {
  readonly width: Ticks;
  readonly foldAt: Ticks;
  /** Distance from the fold at which pieces may begin (the kept-off strip), and how far they may reach from there. */
  readonly from: Ticks;
  readonly usable: Ticks;
  /** Of a fold off the middle: where cloth lies in one ply, in distances from the fold, clear of a kept-off crease. */
  readonly single: readonly Span[];
  /** Of a fold off the middle: the kept-off crease, in distances from the fold. */
  readonly strip?: Span;
  /** The same on ruler marks, where cloth lies in two plies on both its sides. */
  readonly gap?: Span;
}

/**
 * The usable width of a length folded along its crease, or at `foldAt` from its left edge, where that lies within its left
 * half and before the crease. Two plies reach as far as the narrower one is usable, since both are cut as one; a kept-off crease in one
 * of them is kept off in both, and ends them where the edge that is folded over does not reach beyond it.
 */
export function foldedWidth(
  cloth: Cloth,
  edges: Edges,
  rulerMark: Ticks,
  offCentre: Ticks | undefined = cloth.foldAt,
): FoldedWidth {
  const width = afterWashing(edges.width, lossBeforeCutting(cloth, edges).across);
  const twice = twiceTheCrease(cloth, edges);
  const centre = ticks(Math.floor(twice / 2));
  if (offCentre !== undefined && offCentre < Math.min(centre, Math.floor(width / 2))) {
    return foldedAside(edges, { width, twice, foldAt: offCentre }, rulerMark);
  }
  // An odd width leaves half a tick on one side; the strip kept off grows by it so that both plies stay clear, and out to a
  // mark of the ruler, since it is set from the fold.
  const from =
    edges.crease.kind === 'keep-off' ? ceilTo(ticks(edges.crease.each + (twice % 2)), rulerMark) : ticks(0);
  // The ply on top is the wider one; a length that is to be folded right of its middle has been turned about before.
  const topIsNarrower = 2 * centre > width + 1;
  const reach = topIsNarrower
    ? 0
    : Math.min(centre - edges.selvedge.left, width - centre - edges.selvedge.right);
  const usable = floorTo(ticks(Math.max(0, reach - from)), rulerMark);
  return { width, foldAt: centre, from, usable, single: [] };
}

/** `twice`: the distance of the crease from the left edge, doubled; it lies beyond the fold. */
function foldedAside(
  edges: Edges,
  { width, twice, foldAt }: { readonly width: Ticks; readonly twice: number; readonly foldAt: Ticks },
  rulerMark: Ticks,
): FoldedWidth {
  const { selvedge, crease } = edges;
  const over = ticks(Math.max(0, foldAt - selvedge.left));
  const end = ticks(width - selvedge.right - foldAt);
  // The strip kept off beside the crease, from the fold; a fold too near the crease leaves no cloth in two plies.
  const each = crease.kind === 'keep-off' ? crease.each : undefined;
  const strip = each !== undefined && {
    x0: ticks(Math.floor((twice - 2 * each) / 2) - foldAt),
    x1: ticks(Math.ceil((twice + 2 * each) / 2) - foldAt),
  };
  const gap = strip && gapBetween(strip, ticks(Math.min(over, end)), rulerMark);
  const twoPlies = ticks(Math.max(0, Math.min(over, end, strip && !gap ? strip.x0 : end)));
  const begin = ceilTo(over, rulerMark);
  const stretches = strip
    ? [
        { x0: begin, x1: ticks(Math.min(end, strip.x0)) },
        { x0: ceilTo(ticks(Math.max(begin, strip.x1)), rulerMark), x1: end },
      ]
    : [{ x0: begin, x1: end }];
  return {
    width,
    foldAt,
    from: ticks(0),
    usable: floorTo(twoPlies, rulerMark),
    single: wholeMarks(stretches, rulerMark),
    ...(strip && { strip }),
    ...(gap && { gap }),
  };
}

/** The strip out to marks from the fold, where cloth of at least a mark lies in two plies before it and beyond it. */
function gapBetween(strip: Span, reach: Ticks, rulerMark: Ticks): Span | undefined {
  if (strip.x0 < rulerMark) return undefined;
  const gap = { x0: floorTo(strip.x0, rulerMark), x1: ceilTo(strip.x1, rulerMark) };
  return reach - gap.x1 >= rulerMark ? gap : undefined;
}

function wholeMarks(spans: readonly Span[], rulerMark: Ticks): readonly Span[] {
  return spans
    .filter((span) => span.x1 - span.x0 >= rulerMark)
    .map((span) => ({ x0: span.x0, x1: ticks(span.x0 + floorTo(ticks(span.x1 - span.x0), rulerMark)) }));
}

/** Total of the spans' widths: the usable width of the marker. */
export function totalWidth(usable: UsableWidth): Ticks {
  return ticks(usable.spans.reduce((total, span) => total + span.x1 - span.x0, 0));
}

/** The widest stretch that one piece may take. */
export function widestSpan(usable: UsableWidth): Ticks {
  return ticks(usable.spans.reduce((widest, span) => Math.max(widest, span.x1 - span.x0), 0));
}
