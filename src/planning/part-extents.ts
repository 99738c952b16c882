import type { JoinRule } from '../model/piece.ts';
import { ceilTo, floorTo, type Ticks, ticks } from '../units/ticks.ts';

/** Cloth that one join takes up. */
export function takenByJoin(rule: JoinRule): Ticks {
  return rule.by === 'seam' ? ticks(2 * rule.allowance) : rule.allowance;
}

/**
 * Ways to divide an extent into parts that the cloth can yield, each on the ruler's marks and together exactly the
 * extent plus what the joins take up. With fewest parts first: parts alike, whole widths with the rest at the end, and
 * a whole width in the middle with the rest shared by the two outer edges (as curtain and bed-cover widths are joined).
 *
 * The number of parts follows the lap formula n = ceil((L − t) ÷ (w − t)) (exact; common practice, no published source).
 *
 * @param extent of the joined piece across its join lines, a whole number of marks
 * @param widest that one part may be
 */
export function partExtents(
  extent: Ticks,
  widest: Ticks,
  rule: JoinRule,
  mark: Ticks,
): readonly (readonly Ticks[])[] {
  const takes = ceilTo(takenByJoin(rule), mark);
  const most = floorTo(widest, mark);
  if (most <= takes) return [];
  const fewest = Math.max(2, Math.ceil((extent - takes) / (most - takes)));
  const found: (readonly Ticks[])[] = [];
  for (let parts = fewest; parts <= Math.min(fewest + 1, rule.mostJoins + 1); parts++) {
    const total = extent + (parts - 1) * takes;
    for (const way of [
      alike(total, parts, mark),
      restAtEnd(total, parts, most),
      restAtEdges(total, parts, most, mark),
    ]) {
      if (way && isAllowed(way, { extent, most, takes }, rule) && !found.some((known) => same(known, way))) {
        found.push(way);
      }
    }
  }
  return found;
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

function restAtEdges(total: number, parts: number, most: Ticks, mark: Ticks): readonly Ticks[] | undefined {
  if (parts < 3) return undefined;
  const rest = total - (parts - 2) * most;
  const left = ceilTo(ticks(Math.max(0, Math.ceil(rest / 2))), mark);
  return [left, ...Array.from({ length: parts - 2 }, () => most), ticks(rest - left)];
}

function isAllowed(
  way: readonly Ticks[],
  sizes: { readonly extent: Ticks; readonly most: Ticks; readonly takes: Ticks },
  rule: JoinRule,
): boolean {
  if (way.some((part) => part < Math.max(rule.narrowest, sizes.takes + 1) || part > sizes.most)) return false;
  return !rule.clearMiddle || !joinLines(way, sizes.takes).some((line) => 2 * line === sizes.extent);
}

/** Where the join lines lie in the joined piece: the seam itself, or the middle of the lap. */
export function joinLines(parts: readonly Ticks[], takes: Ticks): readonly number[] {
  const lines: number[] = [];
  let edge = 0;
  for (const part of parts.slice(0, -1)) {
    edge += part - takes;
    lines.push(edge + takes / 2);
  }
  return lines;
}

function same(a: readonly Ticks[], b: readonly Ticks[]): boolean {
  return a.length === b.length && a.every((part, index) => part === b[index]);
}
