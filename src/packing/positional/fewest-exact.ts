import type { Kind, PackOptions, Sheet, Stages } from '../instance.ts';
import type { PackedSheet, SheetTree } from '../result.ts';
import { Budget } from '../search/budget.ts';
import { Fronts } from './fronts.ts';
import { type Grid, gridOf } from './grid.ts';
import { GridProgramme, isExactSize, widestColumn } from './grid-programme.ts';
import { itemsOf } from './items.ts';
import { Multisets } from './multisets.ts';
import { isPlacedExactSize, PlacedProgramme } from './placed-programme.ts';
import type { Offer } from './sheet-choice.ts';

const EXACT_SHARE = 0.5;
const EXACT_NODES = 300_000;
const MOST_COVER_PAIRS = 20_000_000;

/** What one sheet can give: whether it holds a state of all kinds, its fixed pieces always among it. */
interface Holding {
  readonly holds: Uint8Array;
  readonly build: (state: number) => SheetTree;
}

/**
 * The cheapest sheets by an exact cover of the multiset of all pieces with what single sheets hold. Undefined where
 * that is too much work or the budget ended; `none` where nothing covers it.
 */
export function fewestExactly(
  offers: readonly Offer[],
  kinds: readonly Kind[],
  options: PackOptions,
  budget: Budget,
): { readonly cost: number; readonly sheets: readonly PackedSheet[] } | 'none' | undefined {
  if (kinds.some(({ withSheet }) => withSheet)) return undefined;
  const copies = kinds.map((kind) => kind.copies);
  const sheetCount = offers.reduce((sum, offer) => sum + offer.copies, 0);
  if (Multisets.pairs(copies) * sheetCount > MOST_COVER_PAIRS) return undefined;
  const sets = new Multisets(copies);
  const { stop, seed } = options;
  const effort = Math.min(EXACT_NODES, Math.floor(options.effort * EXACT_SHARE));
  const own = new Budget({ effort, seed, ...(stop ? { stop } : {}) });
  const holdings = holdingsOf(offers, kinds, sets, options, own);
  budget.spendMany(own.nodes);
  return holdings && cover(offers, holdings, sets);
}

/** What each sheet holds; undefined where one of them is too much work. The fronts serve all grids among them. */
function holdingsOf(
  offers: readonly Offer[],
  kinds: readonly Kind[],
  sets: Multisets,
  options: PackOptions,
  budget: Budget,
): readonly Holding[] | undefined {
  const stages = options.stages ?? 'any';
  const latticed = kinds.some(({ lattice }) => lattice !== undefined);
  const grids = offers.map(({ sheet }) => (latticed ? undefined : gridOf(sheet)));
  const own = grids.filter((grid) => grid !== undefined);
  const columns = own.reduce((sum, grid) => sum + grid.columns.length, 0);
  let fronts: Fronts | undefined;
  if (own.length > 0) {
    if (!isExactSize(kinds, columns, options.effort)) return undefined;
    const length = Math.max(...own.map((grid) => grid.length));
    fronts = new Fronts(kinds, { width: widestColumn(own), length, spare: Number.POSITIVE_INFINITY }, stages);
    if (!fronts.run(budget)) return undefined;
  }
  const holdings: Holding[] = [];
  for (const [index, { sheet }] of offers.entries()) {
    const grid = grids[index];
    const holding =
      grid && fronts ? cellHolding(grid, fronts) : placedHolding(sheet, kinds, sets, stages, budget);
    if (holding === undefined) return undefined;
    holdings.push(holding);
  }
  return holdings;
}

function cellHolding(grid: Grid, fronts: Fronts): Holding {
  const programme = new GridProgramme(grid, fronts);
  const fits = programme.fits();
  return { holds: fits.at(-1)!, build: (state) => programme.build(state, fits, grid.length) };
}

function placedHolding(
  sheet: Sheet,
  kinds: readonly Kind[],
  sets: Multisets,
  stages: Stages,
  budget: Budget,
): Holding | undefined {
  const items = itemsOf(kinds, [sheet]);
  if (!isPlacedExactSize(items)) return undefined;
  const programme = new PlacedProgramme(sheet, items, stages, budget);
  const holds = new Uint8Array(sets.states);
  const stateOf = new Map<number, number>();
  for (let state = 0; state < programme.sets.states; state++) {
    const digits = programme.sets.digits(state);
    if (items.some(({ place }, index) => place !== undefined && digits[index] === 0)) continue;
    const counts = kinds.map(() => 0);
    for (const [index, { kind }] of items.entries()) counts[kind]! += digits[index]!;
    if (counts.some((count, kind) => count > kinds[kind]!.copies)) continue;
    if (programme.least(state) > sheet.length) continue;
    const whole = sets.stateOf(counts);
    holds[whole] = 1;
    stateOf.set(whole, state);
  }
  if (programme.ended) return undefined;
  return { holds, build: (whole) => programme.build(stateOf.get(whole)!, sheet.length) };
}

function cover(
  offers: readonly Offer[],
  holdings: readonly Holding[],
  sets: Multisets,
): { cost: number; sheets: PackedSheet[] } | 'none' {
  let costs = new Float64Array(sets.states).fill(Number.POSITIVE_INFINITY);
  costs[0] = 0;
  const steps: { offer: number; taken: Int32Array }[] = [];
  for (const [index, { copies, cost }] of offers.entries()) {
    const { holds } = holdings[index]!;
    for (let copy = 0; copy < copies; copy++) {
      const after = costs.slice();
      const taken = new Int32Array(sets.states).fill(-1);
      let changed = false;
      for (let state = 1; state < sets.states; state++) {
        sets.eachSub(state, (part) => {
          if (part === 0 || holds[part] === 0) return;
          const total = costs[state - part]! + cost;
          if (total >= after[state]!) return;
          after[state] = total;
          taken[state] = part;
          changed = true;
        });
      }
      if (!changed) break;
      costs = after;
      steps.push({ offer: index, taken });
    }
  }
  let state = sets.states - 1;
  if (costs[state] === Number.POSITIVE_INFINITY) return 'none';
  const cost = costs[state]!;
  const sheets: PackedSheet[] = [];
  for (const { offer, taken } of steps.reverse()) {
    const part = taken[state]!;
    if (part < 0) continue;
    const { sheet, index } = offers[offer]!;
    sheets.push({
      sheet: index,
      width: sheet.width,
      length: sheet.length,
      tree: holdings[offer]!.build(part),
    });
    state -= part;
  }
  return { cost, sheets: sheets.reverse() };
}
