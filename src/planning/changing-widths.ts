import { type Edges, foldedWidth, type Span, usableWidth } from '../cloth/usable.ts';
import { afterWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';

/**
 * Overall widths on the table, rising, below what the given edges come to there, at which less is usable at some width from there
 * on than at any width from the next on. Beside a kept-off crease a little more width may make a mark less usable, since
 * cuts beyond the strip are set on marks from the left edge; so a width counts only where none above it has less.
 */
export function changingWidths(plan: Plan, cloth: Cloth, edges: Edges): readonly Ticks[] {
  const washed = afterWashing(edges.width, lossBeforeCutting(cloth, edges).across);
  const below = [...new Set(marksPassed(plan, cloth, edges, washed))].sort((a, b) => b - a);
  const parts = (width: Ticks) => usableParts(plan, cloth, { ...edges, width, washed: true });
  return [...atTheirLeast([washed, ...below], parts)].slice(1).reverse();
}

/** Of places from the best to the worst, those at which no part of what is usable is more than at any place before. */
export function atTheirLeast<Place>(
  places: readonly Place[],
  partsAt: (place: Place) => readonly number[],
): readonly Place[] {
  let least: readonly number[] = [];
  return places.filter((place, index) => {
    const parts = partsAt(place);
    if (index > 0 && parts.some((part, at) => part > (least[at] ?? 0))) return false;
    least = parts;
    return true;
  });
}

/** Widths of the stretches that pieces may take, widest first. */
export function usableParts(plan: Plan, cloth: Cloth, edges: Edges): readonly number[] {
  const widths = (spans: readonly Span[]) => spans.map(({ x0, x1 }) => x1 - x0).sort((a, b) => b - a);
  if (cloth.lay !== 'folded') return widths(usableWidth(cloth, edges, plan.rulerMark).spans);
  const { usable, gap, single } = foldedWidth(cloth, edges, plan.rulerMark);
  const double = gap ? [gap.x0, usable - gap.x1].sort((a, b) => b - a) : [usable, 0];
  return [...double, ...widths(single)];
}

/** Every width below `washed` at which some stretch may gain a mark, or lose one just above it. */
function* marksPassed(
  { rulerMark: mark }: Plan,
  { lay, foldAt }: Cloth,
  { selvedge: { left, right }, crease }: Edges,
  washed: Ticks,
): Generator<Ticks> {
  const each = crease.kind === 'keep-off' ? crease.each : 0;
  // What is measured from an edge, or from a fold that stays where it is, grows with the width; a half by half as much.
  const rows: (readonly [start: number, by: number])[] = [[left + right, mark]];
  if (crease.kind === 'keep-off' || lay === 'folded')
    rows.push([2 * (left + each), 2 * mark], [2 * (right + each), 2 * mark]);
  if (foldAt !== undefined) rows.push([right + foldAt, mark], [2 * (foldAt + each), 2 * mark]);
  // Where the far side of a strip in the middle passes a mark from the edge or the fold, what lies beyond begins a mark later.
  if (crease.kind === 'keep-off') {
    for (const from of foldAt === undefined ? [left] : [left, foldAt])
      rows.push([2 * (from - each) + 1, 2 * mark]);
  }
  for (const [start, by] of rows) {
    for (let width = start + by; width < washed; width += by) if (width > left + right) yield ticks(width);
  }
}
