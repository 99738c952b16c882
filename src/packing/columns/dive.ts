import type { Random } from '../search/random.ts';
import type { SheetColumn } from './column-generation.ts';
import { CoverProgramme } from './cover-programme.ts';

const MOST_PIVOTS = 1500;
/** Rounds of new columns at each step. */
const ROUNDS = 3;
/** A column used this much is taken as it is. */
const NEARLY_ONE = 0.9;
/** Columns taken at one step, as a part of those still to come. */
const AT_ONCE = 0.15;

/**
 * Whole columns near the solution of the programme: the most used are taken, the rest is solved again for what they
 * leave, and so on as long as the cost stays below `below`. Some noise makes each dive another.
 */
export function dive(
  columns: readonly SheetColumn[],
  needs: readonly number[],
  limits: readonly number[],
  {
    below,
    noise,
    random,
    more,
  }: {
    below: number;
    noise: number;
    random: Random;
    /** More columns for what is left, at these prices. */
    more: (left: readonly number[], prices: Float64Array) => SheetColumn[];
  },
): SheetColumn[] {
  const all = [...columns];
  const left = [...needs];
  const sheetsLeft = [...limits];
  const chosen: SheetColumn[] = [];
  let cost = 0;
  const dearest = Math.max(...columns.map((column) => column.cost));
  for (;;) {
    const programme = new CoverProgramme(left, sheetsLeft, 4 * dearest);
    const restricted = (column: SheetColumn) => {
      const rows = column.rows.filter((row) => left[row]! > 0);
      const usable = rows.length > 0 && sheetsLeft[column.sheet]! > 0 && cost + column.cost < below;
      if (!usable) return [];
      const counts = rows.map((row) => Math.min(left[row]!, column.counts[column.rows.indexOf(row)]!));
      return [{ column, rows, counts }];
    };
    const open = all.flatMap(restricted);
    if (open.length === 0) return chosen;
    for (const { column, rows, counts } of open) {
      programme.add({ rows, counts, sheet: column.sheet, cost: column.cost });
    }
    programme.solve(MOST_PIVOTS);
    for (let round = 0; round < ROUNDS; round++) {
      const fresh = more(left, programme.prices()).flatMap(restricted);
      if (fresh.length === 0) break;
      for (const entry of fresh) {
        open.push(entry);
        all.push(entry.column);
        programme.add({ ...entry, sheet: entry.column.sheet, cost: entry.column.cost });
      }
      programme.solve(MOST_PIVOTS);
    }
    const used = [...programme.values()].map(([index, value]) => ({
      column: open[index]!.column,
      rank: value + noise * random.unit(),
      value,
    }));
    used.sort((a, b) => b.rank - a.rank);
    if (used.length === 0) return chosen;
    const most = Math.max(1, Math.round(AT_ONCE * used.length));
    let taken = 0;
    for (const { column, value } of used) {
      if (taken >= most && value < NEARLY_ONE) break;
      if (cost + column.cost >= below || sheetsLeft[column.sheet] === 0) continue;
      chosen.push(column);
      cost += column.cost;
      sheetsLeft[column.sheet]! -= 1;
      column.rows.forEach((row, index) => {
        left[row] = Math.max(0, left[row]! - column.counts[index]!);
      });
      taken++;
    }
    if (taken === 0 || left.every((need) => need === 0)) return chosen;
  }
}
