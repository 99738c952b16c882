import { sheetsBound } from '../bounds/sheets-bound.ts';
import type { Kind, Sheet } from '../instance.ts';
import { gridOf } from './grid.ts';
import { freeArea } from './length-bounds.ts';

export interface Offer {
  readonly sheet: Sheet;
  /** Index among the sheets of the question. */
  readonly index: number;
  readonly cost: number;
  readonly copies: number;
  readonly area: number;
}

/** The sheets as they can be opened, no more copies than there are pieces. */
export function offersOf(sheets: readonly Sheet[], pieces: number): readonly Offer[] {
  return sheets.map((sheet, index) => ({
    sheet,
    index,
    cost: sheet.cost ?? sheet.width * sheet.length,
    copies: Math.min(sheet.copies ?? 1, pieces),
    area: freeArea(sheet),
  }));
}

/** A cost below which no choice of sheets has the area of all pieces; Infinity where all together lack it. */
export function areaCostBound(offers: readonly Offer[], kinds: readonly Kind[]): number {
  let left = kinds.reduce((sum, { width, length, copies }) => sum + width * length * copies, 0);
  let cost = 0;
  const cheapest = offers.filter(({ area }) => area > 0).sort((a, b) => a.cost / a.area - b.cost / b.area);
  for (const { area, copies, cost: each } of cheapest) {
    // In whole areas, so that no rounding of a quotient leaves a rest: areas are large, and their products exact.
    const enough = left <= copies * area;
    cost += (enough ? left / area : copies) * each;
    left = enough ? 0 : left - copies * area;
    if (enough) break;
  }
  if (left > 0) return Number.POSITIVE_INFINITY;
  // A little is given away, so that no rounding of the quotients claims too much.
  const safe = cost * (1 - 1e-12);
  return offers.every((offer) => Number.isInteger(offer.cost)) ? Math.ceil(safe) : safe;
}

/**
 * A cost below which the free cells of the offers cannot give the pieces, each cell of a sheet bought by itself at an
 * equal share of the sheet's cost: opening a sheet buys all of its cells. Costs must be whole numbers.
 */
export function cellCostBound(offers: readonly Offer[], kinds: readonly Kind[]): number {
  const cells = offers.map(({ sheet }) => freeCells(sheet));
  // Shares in whole numbers, so that no quotient is rounded.
  const shares = cells.reduce((product, own) => leastMultiple(product, Math.max(1, own.length)), 1);
  const sheets = offers.flatMap(({ copies, cost }, index) =>
    cells[index]!.map((cell) => ({ ...cell, copies, cost: (cost * shares) / cells[index]!.length })),
  );
  if (sheets.length === 0 || !sheets.every(({ cost }) => Number.isSafeInteger(cost))) return 0;
  return Math.ceil(sheetsBound({ sheets, kinds }) / shares);
}

/** The cells that strips from edge to edge leave; the whole sheet where other boxes lie in it. */
function freeCells(sheet: Sheet): readonly { readonly width: number; readonly length: number }[] {
  const grid = gridOf(sheet);
  if (grid === undefined) return [{ width: sheet.width, length: sheet.length }];
  return grid.rows.flatMap((row) =>
    grid.columns.map((column) => ({ width: column.to - column.from, length: row.to - row.from })),
  );
}

function leastMultiple(a: number, b: number): number {
  let [large, small] = [a, b];
  while (small > 0) [large, small] = [small, large % small];
  return (a / large) * b;
}

/** How many of each offer; the choices that have the area of the pieces and cost less than `below`, cheapest first. */
export function choices(
  offers: readonly Offer[],
  { area, below, most }: { readonly area: number; readonly below: number; readonly most: number },
): readonly (readonly number[])[] | undefined {
  const total = offers.reduce((product, { copies }) => product * (copies + 1), 1);
  if (total > most) return undefined;
  const found: { counts: number[]; cost: number }[] = [];
  const counts = offers.map(() => 0);
  for (let choice = 0; choice < total; choice++) {
    const cost = sum(offers, counts, (offer) => offer.cost);
    if (cost < below && sum(offers, counts, (offer) => offer.area) >= area) {
      found.push({ counts: [...counts], cost });
    }
    for (let digit = 0; digit < offers.length; digit++) {
      counts[digit]! += 1;
      if (counts[digit]! <= offers[digit]!.copies) break;
      counts[digit] = 0;
    }
  }
  const sheetCount = (one: readonly number[]) => one.reduce((a, b) => a + b, 0);
  return found
    .sort((a, b) => a.cost - b.cost || sheetCount(a.counts) - sheetCount(b.counts))
    .map((one) => one.counts);
}

/** Choices a step away from one: a sheet less, or one or two sheets for a cheaper one; those with enough area. */
export function cheaperChoices(
  offers: readonly Offer[],
  counts: readonly number[],
  area: number,
): readonly (readonly number[])[] {
  const cost = sum(offers, counts, (offer) => offer.cost);
  const found = new Map<string, { counts: readonly number[]; cost: number }>();
  const consider = (next: readonly number[]) => {
    const nextCost = sum(offers, next, (offer) => offer.cost);
    const allowed = next.every((count, index) => count >= 0 && count <= offers[index]!.copies);
    if (!allowed || nextCost >= cost || sum(offers, next, (offer) => offer.area) < area) return;
    found.set(next.join(), { counts: next, cost: nextCost });
  };
  const changed = (from: readonly number[], index: number, by: number) =>
    from.map((count, at) => (at === index ? count + by : count));
  for (const out of offers.keys()) {
    const less = changed(counts, out, -1);
    consider(less);
    for (const into of offers.keys()) {
      consider(changed(less, into, 1));
      for (const other of offers.keys()) consider(changed(changed(less, other, -1), into, 1));
    }
  }
  return [...found.values()].sort((a, b) => a.cost - b.cost).map((one) => one.counts);
}

export function sum(
  offers: readonly Offer[],
  counts: readonly number[],
  of: (offer: Offer) => number,
): number {
  return counts.reduce((total, count, index) => total + count * of(offers[index]!), 0);
}
