/**
 * Measures of what a block takes away from the rest of a sheet that must hold all pieces.
 *
 * Give each kind any worth. A block whose contents, with the most that fits around it (unlimited copies, value/outside.ts),
 * are worth less than all pieces together can be no part of a sheet that holds them all. Worths that come from dual
 * feasible functions (bounds/dual-feasible.ts) or from the area leave least room for waste.
 */
import { stretchedArea, stretchings } from '../bounds/area-bounds.ts';
import { laidSizes } from '../bounds/laid-sizes.ts';
import type { Kind } from '../instance.ts';
import { gridOf, operationsOf } from '../value/grid.ts';
import { outsideTable } from '../value/outside.ts';
import { valueTable } from '../value/unlimited.ts';
import type { BlockKind } from './pareto.ts';

export interface Measure {
  /** Worth of one copy of each kind. */
  readonly worth: Float64Array;
  /** Most worth around a block of `width` × `length`: `outside[column[width] * rows + row[length]]`. */
  readonly outside: Float64Array;
  /** Most worth within such a block, by the same index; the last is the whole sheet. */
  readonly inside: Float64Array;
  readonly column: Int32Array;
  readonly row: Int32Array;
  readonly rows: number;
  /** Worth of all pieces. */
  readonly total: number;
}

/** Measures beside the area. */
const MOST_MEASURES = 4;
/** Most operations on one table, whatever is allowed. */
const MOST_OPERATIONS = 6e7;

/**
 * The measures that leave least room, or none where a table would take more than so many operations; 'none fits' where
 * one refutes the sheet.
 */
export function measuresOf(
  kinds: readonly BlockKind[],
  width: number,
  length: number,
  operations: number,
): readonly Measure[] | 'none fits' {
  const asked = kinds.map(
    (kind): Kind => ({
      width: kind.width,
      length: kind.length,
      copies: kind.copies,
      quarterTurn: kind.turnable,
    }),
  );
  const laid = laidSizes(asked, width, length);
  if (laid === undefined) return 'none fits';
  // Listing the useful sizes alone takes so much.
  if ((width + length) * kinds.length > operations) return [];
  const grid = gridOf(asked, width, length);
  if (grid.coarse > 1 || operationsOf(grid) > Math.min(operations, MOST_OPERATIONS)) return [];
  const measures: Measure[] = [];
  for (const worth of worths(kinds, width, length)) {
    const table = valueTable(grid, worth, () => false)!;
    const total = kinds.reduce((sum, { copies }, kind) => sum + copies * worth[kind]!, 0);
    if (table.best[table.best.length - 1]! < total) return 'none fits';
    const outside = outsideTable(table, () => false)!;
    const { rows } = table;
    measures.push({ worth, outside, inside: table.best, column: grid.x.down, row: grid.y.down, rows, total });
  }
  return measures;
}

/** The area, and products of dual feasible functions, those first whose room is least beyond what all pieces take. */
function worths(kinds: readonly BlockKind[], width: number, length: number): Float64Array<ArrayBuffer>[] {
  const singles = kinds.map(
    (kind): Kind => ({ width: kind.width, length: kind.length, copies: 1, quarterTurn: kind.turnable }),
  );
  const laid = laidSizes(singles, width, length)!;
  laid.copies.set(kinds.map(({ copies }) => copies));
  const across = stretchings(laid, 'width', width);
  const along = stretchings(laid, 'length', length);
  const pairs: { i: number; j: number; filled: number }[] = [];
  across.functions.forEach((f, i) => {
    along.functions.forEach((g, j) => {
      const room = f(width) * g(length);
      if (room > 0) {
        pairs.push({ i, j, filled: stretchedArea(laid, across.images[i]!, along.images[j]!) / room });
      }
    });
  });
  pairs.sort((a, b) => b.filled - a.filled || a.i - b.i || a.j - b.j);
  const found = [Float64Array.from(kinds, (kind) => kind.width * kind.length)];
  const known = new Set<string>();
  for (const { i, j } of pairs) {
    if (found.length > MOST_MEASURES) break;
    const worth = leastImages(laid.ways, across.images[i]!, along.images[j]!);
    const key = proportions(worth);
    if (known.has(key)) continue;
    known.add(key);
    found.push(worth);
  }
  return found;
}

/** Of each kind the lesser of its ways. */
function leastImages(
  ways: readonly (readonly unknown[])[],
  across: Float64Array,
  along: Float64Array,
): Float64Array<ArrayBuffer> {
  let way = 0;
  return Float64Array.from(ways, (open) => {
    let least = Infinity;
    for (let turn = 0; turn < open.length; turn++, way++) least = Math.min(least, across[way]! * along[way]!);
    return least;
  });
}

function proportions(worth: Float64Array): string {
  const sum = worth.reduce((total, value) => total + value, 0);
  return Array.from(worth, (value) => Math.round((1000 * value) / sum)).join(' ');
}
