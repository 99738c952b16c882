import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { Box } from '../model/piece.ts';
import { ticks } from '../units/ticks.ts';
import type { PlacedPart } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import { afterWashing } from './table-cloth.ts';

type Corner = readonly [x: number, y: number];
type Outline = readonly Corner[];

/** The flaws of a length as they lie on the table; none on a bought one. */
export function flawsOnTable(
  cloth: Cloth,
  source: LengthInHand | { readonly bought: number },
): readonly Outline[] {
  if ('bought' in source) return [];
  const washing =
    source.washed !== true && cloth.washing?.washed === 'before-cutting' ? cloth.washing : undefined;
  return (source.flaws ?? []).map(({ outline }) =>
    outline.map(
      ({ x, y }): Corner =>
        washing ? [afterWashing(x, washing.across), afterWashing(y, washing.along)] : [x, y],
    ),
  );
}

/**
 * That no piece and no keepable leftover lies over a flaw. Touching its edge is no fault.
 *
 * @param mayGo how much less than is drawn may go at the near end: all that is cut then lies up to so much nearer to it
 */
export function checkFlaws(
  parts: readonly PlacedPart[],
  flaws: readonly Outline[],
  report: Report,
  mayGo = 0,
): void {
  if (flaws.length === 0) return;
  for (const { tree, box } of parts) {
    if (tree.kind !== 'piece' && tree.kind !== 'remnant') continue;
    const flaw = flaws.findIndex((outline) => isOver(reaching(box, mayGo), outline));
    if (flaw < 0) continue;
    if (tree.kind === 'piece') report('piece-over-flaw', { flaw: flaw + 1 }, { piece: tree.piece, box });
    else report('remnant-over-flaw', { flaw: flaw + 1 }, { box });
  }
}

/** A box with all the places where it may lie. */
export function reaching(box: Box, mayGo: number): Box {
  return { ...box, y0: ticks(box.y0 - mayGo) };
}

/** Whether a box and an outline share an area: an edge runs through the box, or the box lies wholly inside. */
export function isOver(box: Box, outline: Outline): boolean {
  for (const [index, from] of outline.entries()) {
    if (runsThrough(box, from, outline[(index + 1) % outline.length]!)) return true;
  }
  return isInside([(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2], outline);
}

/** Whether an edge has a stretch inside the open box; exact, since only whole ticks are compared by cross products. */
function runsThrough(box: Box, [ax, ay]: Corner, [bx, by]: Corner): boolean {
  // The stretch of the edge between two parallel sides, as fractions of it, each kept as numerator and denominator.
  let from: Fraction = [0, 1];
  let to: Fraction = [1, 1];
  for (const [start, step, near, far] of [
    [ax, bx - ax, box.x0, box.x1],
    [ay, by - ay, box.y0, box.y1],
  ] as const) {
    if (step === 0) {
      if (start <= near || start >= far) return false;
      continue;
    }
    const enters: Fraction = step > 0 ? [near - start, step] : [start - far, -step];
    const leaves: Fraction = step > 0 ? [far - start, step] : [start - near, -step];
    if (less(from, enters)) from = enters;
    if (less(leaves, to)) to = leaves;
  }
  return less(from, to);
}

/** Denominators are above 0. */
type Fraction = readonly [numerator: number, denominator: number];

function less(a: Fraction, b: Fraction): boolean {
  return BigInt(a[0]) * BigInt(b[1]) < BigInt(b[0]) * BigInt(a[1]);
}

/** By the number of edges to the right of the point. */
function isInside([x, y]: Corner, outline: Outline): boolean {
  let inside = false;
  for (const [index, [ax, ay]] of outline.entries()) {
    const [bx, by] = outline[(index + 1) % outline.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}
