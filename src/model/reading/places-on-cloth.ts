import type { Ticks } from '../../units/ticks.ts';
import type { Flaw } from '../cloth.ts';
import type { Path } from '../issue.ts';
import type { Located } from './cloth-checks.ts';

/** What lies on one length, as it is written: all measured from its left edge and its near end. */
export interface PlacesOnLength {
  readonly width: Ticks;
  readonly length: Ticks;
  readonly flaws?: readonly Flaw[] | undefined;
  readonly 'first motif'?: Ticks | undefined;
  readonly 'panels begin'?: Ticks | undefined;
}

/**
 * Places that are told of a length and lie nowhere on it. A flaw that reaches over an edge is one of the length all the same;
 * one that lies wholly beyond it was measured from somewhere else, or on another cloth.
 */
export function outsideFaults(places: PlacesOnLength, path: Path): readonly Located[] {
  const { width, length, flaws = [] } = places;
  const outside = (what: string, at: Path): Located => ({
    path: [...path, ...at],
    problem: { code: 'outside-cloth', details: { what, width, length } },
  });
  const begins = (['first motif', 'panels begin'] as const).filter((key) => (places[key] ?? 0) >= length);
  return [
    ...flaws.flatMap((flaw, index) =>
      reachesInto(flaw, width, length) ? [] : [outside(`flaw ${index + 1}`, ['flaws', index])],
    ),
    ...begins.map((key) =>
      outside(key === 'first motif' ? 'the first motif' : 'where the panels begin', [key]),
    ),
  ];
}

/** Whether an outline shares an area with the box from the origin to (width, length), where it is clipped to that box. */
function reachesInto({ outline }: Flaw, width: number, length: number): boolean {
  // What bounds nothing, or could not be read, is told by itself.
  const isRead = outline.length >= 3 && outline.every((corner) => corner?.x !== undefined);
  if (!isRead || outline.some(({ x, y }) => x < width && y < length)) return true;
  const inside = clipped(clipped(outline, 'x', width), 'y', length);
  const twiceArea = inside.reduce((sum, { x, y }, index) => {
    const next = inside[(index + 1) % inside.length]!;
    return sum + x * next.y - next.x * y;
  }, 0);
  return twiceArea !== 0;
}

type Corner = { readonly x: number; readonly y: number };

/** Corners up to a line across one axis (Sutherland and Hodgman 1974); corners on the line stay exactly there. */
function clipped(outline: readonly Corner[], axis: 'x' | 'y', most: number): readonly Corner[] {
  const other = axis === 'x' ? 'y' : 'x';
  return outline.flatMap((corner, index): readonly Corner[] => {
    const before = outline[(index + outline.length - 1) % outline.length]!;
    const crosses = corner[axis] > most !== before[axis] > most;
    const share = crosses ? (most - before[axis]) / (corner[axis] - before[axis]) : 0;
    const crossing = { [axis]: most, [other]: before[other] + share * (corner[other] - before[other]) };
    return [...(crosses ? [crossing as unknown as Corner] : []), ...(corner[axis] <= most ? [corner] : [])];
  });
}
