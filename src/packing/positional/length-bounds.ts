import { stripBound } from '../bounds/strip-bound.ts';
import type { Kind, Lattice, Sheet } from '../instance.ts';
import { insideBoxes, type Span } from './grid.ts';

/** Most kinds for which the better bounds are made. */
const BOUNDED_KINDS = 600;

/**
 * A length below which no answer of *shortest length* can lie, whatever is held in place: the free cloth must have
 * the area of all pieces; pieces of one kind can lie only so many side by side, so that one file of them, each at the
 * next point of its lattice, must reach to a certain length; fixed pieces must be reached; and columns parted by strips
 * hold no more than one strip as wide as all of them, nor than one as wide as the widest and as long as all of them. Infinity where a piece fits nowhere.
 */
export function positionalLengthBound(sheet: Sheet, kinds: readonly Kind[]): number {
  let bound = lengthForArea(
    sheet,
    kinds.reduce((sum, { width, length, copies }) => sum + width * length * copies, 0),
  );
  // A fixed piece may lie in a way that its kind forbids, of which the bound for free pieces knows nothing.
  if ((sheet.fixed ?? []).length === 0 && kinds.length <= BOUNDED_KINDS) {
    const columns = columnsOf(sheet).map(({ from, to }) => to - from);
    const length = Number.POSITIVE_INFINITY;
    const width = columns.reduce((sum, own) => sum + own, 0);
    bound = Math.max(bound, stripBound({ sheet: { width, length }, kinds }));
    // Columns one beyond the other make one column as wide as the widest.
    const file = stripBound({ sheet: { width: Math.max(0, ...columns), length }, kinds });
    bound = Math.max(bound, Math.ceil(file / Math.max(1, columns.length)));
  }
  for (const kind of kinds) if (kind.copies > 0) bound = Math.max(bound, fileBound(sheet, kind));
  for (const { kind, y0, turned } of sheet.fixed ?? []) {
    const { width, length } = kinds[kind]!;
    bound = Math.max(bound, y0 + (turned ? width : length));
  }
  return bound;
}

/** What strips over the whole length leave free of the width. */
function columnsOf(sheet: Sheet): readonly Span[] {
  const strips = insideBoxes(sheet).filter(({ y0, y1 }) => y0 <= 0 && y1 >= sheet.length);
  return spansBetween(strips, sheet.width);
}

/** The least whole length at which the sheet has so much free area; Infinity where it never has. */
export function lengthForArea(sheet: Sheet, area: number): number {
  if (area <= 0) return 0;
  let left = area;
  for (const { from, to, free } of freeWidths(sheet)) {
    if (free <= 0) continue;
    if (free * (to - from) >= left) return from + Math.ceil(left / free);
    left -= free * (to - from);
  }
  return Number.POSITIVE_INFINITY;
}

/** All free area of a sheet of finite length. */
export function freeArea(sheet: Sheet): number {
  return freeWidths(sheet).reduce((sum, { from, to, free }) => sum + (free > 0 ? free * (to - from) : 0), 0);
}

type Axis = NonNullable<Lattice['x']>;

interface Stretch extends Span {
  readonly free: number;
}

/** Stretches of the length with the width that no forbidden box takes. */
function freeWidths(sheet: Sheet): readonly Stretch[] {
  const boxes = insideBoxes(sheet);
  const marks = new Set([0, sheet.length]);
  for (const { y0, y1 } of boxes) for (const y of [y0, y1]) if (y > 0 && y < sheet.length) marks.add(y);
  const sorted = [...marks].sort((a, b) => a - b);
  return sorted.slice(0, -1).map((from, index) => {
    const taken = boxes.filter(({ y0, y1 }) => y0 <= from && y1 > from).sort((a, b) => a.x0 - b.x0);
    let [free, at] = [0, 0];
    for (const { x0, x1 } of taken) {
      if (x0 > at) free += x0 - at;
      at = Math.max(at, x1);
    }
    return { from, to: sorted[index + 1]!, free: free + Math.max(0, sheet.width - at) };
  });
}

/**
 * At most `side` copies lie across any line over the width, so that the copies form `side` files of pieces one beyond
 * the other; the fullest file has at least copies ÷ side. Only strips over the whole length lessen `side`.
 */
function fileBound(sheet: Sheet, kind: Kind): number {
  const spans = columnsOf(sheet);
  const shortSide = kind.quarterTurn ? Math.min(kind.width, kind.length) : kind.width;
  const fixed = (sheet.fixed ?? []).length > 0;
  const across = fixed ? undefined : allPoints(kind.lattice, 'x');
  const along = fixed ? undefined : allPoints(kind.lattice, 'y');
  const side = spans.reduce((sum, span) => sum + mostBeside(span, shortSide, across), 0);
  if (side === 0) return Number.POSITIVE_INFINITY;
  const step = kind.quarterTurn
    ? leastStep(kind, Math.max(...spans.map(({ from, to }) => to - from)))
    : kind.length;
  let end = 0;
  for (let piece = 0; piece < Math.ceil(kind.copies / side); piece++) {
    // Fixed pieces need not lie on the lattice.
    end = nextPoint(along, end) + step;
  }
  return end;
}

/** All points of an axis, whatever they go together with on the other: a bound may allow more than there is. */
function allPoints(lattice: Lattice | undefined, axis: 'x' | 'y'): Axis | undefined {
  const [own, other] = [lattice?.[axis], lattice?.or?.[axis]];
  if (own === undefined || lattice?.or === undefined) return own;
  return other && { period: own.period, offsets: [...own.offsets, ...other.offsets] };
}

/** How many pieces lie side by side in a span, each at a point of the lattice: every one as near as it can be. */
function mostBeside({ from, to }: Span, width: number, points: Axis | undefined): number {
  if (points === undefined) return Math.floor((to - from) / width);
  let count = 0;
  for (let at = nextPoint(points, from); at + width <= to; at = nextPoint(points, at + width)) count += 1;
  return count;
}

function leastStep({ width, length }: Kind, widest: number): number {
  const steps = [];
  if (width <= widest) steps.push(length);
  if (length <= widest) steps.push(width);
  return Math.min(...steps);
}

/** What strips over the whole length leave free of the width. */
export function spansBetween(strips: readonly { x0: number; x1: number }[], width: number): readonly Span[] {
  const spans: Span[] = [];
  let from = 0;
  for (const { x0, x1 } of [...strips].sort((a, b) => a.x0 - b.x0)) {
    if (x0 > from) spans.push({ from, to: x0 });
    from = Math.max(from, x1);
  }
  if (from < width) spans.push({ from, to: width });
  return spans;
}

/** The first point of a lattice axis at or beyond `from`; `from` itself where there is no lattice. */
export function nextPoint(axis: Axis | undefined, from: number): number {
  if (axis === undefined || !Number.isFinite(from)) return from;
  let next = Number.POSITIVE_INFINITY;
  for (const offset of axis.offsets) {
    const behind = (((from - offset) % axis.period) + axis.period) % axis.period;
    next = Math.min(next, behind === 0 ? from : from + axis.period - behind);
  }
  return next;
}
