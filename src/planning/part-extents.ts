import type { JoinRule } from '../model/piece.ts';
import { ceilTo, floorTo, type Ticks, ticks } from '../units/ticks.ts';

/** More ways to make up one extent from unequal lengths than are worth laying out. */
const MOST_MIXTURES = 12;
/** Parts that are tried one after another for a print to run on over their joins. */
const MOST_TRIED = 2000;
/** Different widths that are looked at: the widest, since they need fewest joins. */
const MOST_WIDTHS = 6;

/** Cloth that one join takes up. */
export function takenByJoin(rule: Pick<JoinRule, 'by' | 'allowance'>): Ticks {
  return rule.by === 'seam' ? ticks(2 * rule.allowance) : rule.allowance;
}

/**
 * Fewest parts that reach over an extent: the lap formula n = ceil((L − t) ÷ (w − t)) (exact; common practice, no
 * published source).
 */
export function fewestParts(extent: Ticks, widest: Ticks, takes: Ticks): number {
  return Math.ceil((extent - takes) / (widest - takes));
}

/**
 * Ways to divide an extent into parts that the cloth can yield, each on the ruler's marks and together exactly the
 * extent plus what the joins take up. Fewest parts first, and of as many: parts alike, whole widths with the rest at the
 * end, wide parts with the narrowest strip that is allowed at the end, a whole width in the middle with the rest shared by the two outer edges (as curtain and bed-cover widths are
 * joined), and whole unequal widths one after the other (as a runner is joined from short lengths in hand).
 *
 * @param extent of the joined piece across its join lines, a whole number of marks
 * @param widths that one part may have at most, one for each stretch of cloth; repeats say how many stretches there are
 */
export function partExtents(
  extent: Ticks,
  widths: readonly Ticks[],
  rule: JoinRule,
  mark: Ticks,
): readonly (readonly Ticks[])[] {
  const takes = ceilTo(takenByJoin(rule), mark);
  const usable = widths
    .map((width) => floorTo(ticks(Math.min(width, extent)), mark))
    .filter((width) => width > takes)
    .sort((a, b) => b - a);
  const found: (readonly Ticks[])[] = [];
  const add = (way: readonly Ticks[] | undefined, most: Ticks) => {
    if (!way || !isAllowed(way, { extent, most, takes }, rule)) return;
    if (!found.some((known) => same(known, way))) found.push(way);
  };
  for (const most of [...new Set(usable)].slice(0, MOST_WIDTHS)) {
    const fewest = Math.max(2, fewestParts(extent, most, takes));
    for (let parts = fewest; parts <= Math.min(fewest + 1, rule.mostJoins + 1); parts++) {
      const total = extent + (parts - 1) * takes;
      add(alike(total, parts, mark), most);
      add(restAtEnd(total, parts, most), most);
      add(leastAtEnd(total, parts, rule.narrowest, mark), most);
      add(restAtEdges(total, parts, most, mark), most);
    }
  }
  for (const way of mixtures(extent, usable, takes, rule.mostJoins + 1)) add(way, usable[0]!);
  return found.sort((a, b) => a.length - b.length);
}

/** As equal as the marks allow, the wider ones first. */
function alike(total: number, parts: number, mark: Ticks): readonly Ticks[] {
  const marks = Math.round(total / mark);
  const wider = marks % parts;
  const base = (marks - wider) / parts;
  return Array.from({ length: parts }, (_, index) => ticks((base + (index < wider ? 1 : 0)) * mark));
}

function restAtEnd(total: number, parts: number, most: Ticks): readonly Ticks[] {
  return [...Array.from({ length: parts - 1 }, () => most), ticks(total - (parts - 1) * most)];
}

/** As wide as can be with the last as narrow as is allowed: wide parts and many strips may share the cloth better than halves. */
function leastAtEnd(
  total: number,
  parts: number,
  narrowest: Ticks,
  mark: Ticks,
): readonly Ticks[] | undefined {
  const last = ceilTo(narrowest, mark);
  return last < total ? [...alike(total - last, parts - 1, mark), last] : undefined;
}

function restAtEdges(total: number, parts: number, most: Ticks, mark: Ticks): readonly Ticks[] | undefined {
  if (parts < 3) return undefined;
  const rest = total - (parts - 2) * most;
  const left = ceilTo(ticks(Math.max(0, Math.ceil(rest / 2))), mark);
  return [left, ...Array.from({ length: parts - 2 }, () => most), ticks(rest - left)];
}

/** Each stretch of cloth taken whole, but for the last, which gives the rest. Widths are sorted, the widest first. */
function mixtures(
  extent: Ticks,
  widths: readonly Ticks[],
  takes: Ticks,
  mostParts: number,
): readonly (readonly Ticks[])[] {
  if (new Set(widths).size < 2) return [];
  const found: (readonly Ticks[])[] = [];
  const visit = (taken: readonly Ticks[], reached: number, from: number): void => {
    // What the part after those taken would have to be, whole parts overlapping by what their joins take up.
    const rest = ticks(extent - reached + (taken.length > 0 ? takes : 0));
    if (taken.length > 0 && widths.some((width, index) => index >= from && width >= rest)) {
      found.push([...taken, rest]);
      return;
    }
    if (taken.length + 2 > mostParts) return;
    for (let index = from; index < widths.length && found.length < MOST_MIXTURES; index++) {
      if (index > from && widths[index] === widths[index - 1]) continue;
      const width = widths[index]!;
      if (width >= extent) continue;
      visit([...taken, width], reached + width - (taken.length > 0 ? takes : 0), index + 1);
    }
  };
  visit([], 0, 0);
  return found;
}

/**
 * Whole lengths one after the other in any order, each from where the print asks its part to start, so that it runs on over the
 * joins; the last gives the rest. Some of a length lies before that start, which what was taken before it decides.
 *
 * @param stretches of cloth, each as long as one part may be at most, and how far before it the print begins that all have in common
 * @param startOf how far from there a part has to start that begins so far on in the whole piece, below one repeat
 */
export function extentsOnPrint(
  extent: Ticks,
  stretches: readonly { readonly length: number; readonly ahead: number }[],
  rule: JoinRule,
  mark: Ticks,
  startOf: (further: number) => number,
): readonly (readonly Ticks[])[] {
  const takes = ceilTo(takenByJoin(rule), mark);
  const longest = [...stretches].sort((a, b) => b.length - a.length);
  const found: (readonly Ticks[])[] = [];
  let tried = 0;
  const visit = (taken: readonly Ticks[], further: number, used: readonly number[]): void => {
    longest.forEach(({ length, ahead }, index) => {
      const isSame =
        longest.findIndex(
          (own, other) => own.length === length && own.ahead === ahead && !used.includes(other),
        ) !== index;
      if (isSame || found.length >= MOST_MIXTURES || ++tried > MOST_TRIED) return;
      const most = length - startOf(further - ahead);
      if (most <= takes) return;
      const rest = ticks(extent - further);
      const part = rest <= most ? rest : floorTo(ticks(most), mark);
      const way = [...taken, part];
      if (part === rest) {
        const isKnown = found.some((known) => same(known, way));
        if (!isKnown && isAllowed(way, { extent, most: ticks(longest[0]!.length), takes }, rule))
          found.push(way);
      } else if (way.length <= rule.mostJoins) visit(way, further + part - takes, [...used, index]);
    });
  };
  visit([], 0, []);
  return found.sort((a, b) => a.length - b.length);
}

function isAllowed(
  way: readonly Ticks[],
  sizes: { readonly extent: Ticks; readonly most: Ticks; readonly takes: Ticks },
  rule: JoinRule,
): boolean {
  if (way.length - 1 > rule.mostJoins) return false;
  if (way.some((part) => part < Math.max(rule.narrowest, sizes.takes + 1) || part > sizes.most)) return false;
  return !rule.clearMiddle || !joinInMiddle(way, sizes);
}

/** Whether the middle of the joined piece falls within what a join takes up, its edges counted. */
function joinInMiddle(
  way: readonly Ticks[],
  { extent, takes }: { readonly extent: Ticks; readonly takes: Ticks },
): boolean {
  let edge = 0;
  return way.slice(0, -1).some((part) => {
    edge += part - takes;
    return 2 * edge <= extent && extent <= 2 * (edge + takes);
  });
}

function same(a: readonly Ticks[], b: readonly Ticks[]): boolean {
  return a.length === b.length && a.every((part, index) => part === b[index]);
}
