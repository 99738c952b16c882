import type { Budget } from '../search/budget.ts';
import type { ParetoFronts } from './pareto.ts';

/** One sheet at hand, in scaled units. */
export interface SheetChoice {
  readonly width: number;
  readonly length: number;
  readonly cost: number;
}

export interface SheetCover {
  readonly cost: number;
  /** For each sheet opened: its index among the choices and the sub-multiset cut from it. */
  readonly uses: readonly { readonly choice: number; readonly state: number }[];
}

/** Splits looked at that count as one search node. */
const SPLITS_PER_NODE = 64;

/**
 * Cheapest way to cut all pieces out of some of the given sheets, exact for any number of stages: sheet by sheet, the
 * least cost of cutting each sub-multiset from the sheets so far. `undefined` as cover where no choice holds all;
 * undefined as outcome where the budget ended. Time O(sheets × sub-multisets²), memory O(sheets × sub-multisets).
 */
export function cheapestCover(
  fronts: ParetoFronts,
  choices: readonly SheetChoice[],
  budget: Budget,
): { readonly cover: SheetCover | undefined } | undefined {
  const { states } = fronts;
  let cost = new Float64Array(states).fill(Infinity);
  cost[0] = 0;
  const cutFrom: Int32Array[] = [];
  for (const choice of choices) {
    const fits = statesThatFit(fronts, choice);
    const better = cost.slice();
    const cut = new Int32Array(states);
    for (let rest = 0; rest < states; rest++) {
      if (cost[rest] === Infinity) continue;
      if (budget.spendMany(1 + Math.floor(fits.length / SPLITS_PER_NODE))) return undefined;
      const total = cost[rest] + choice.cost;
      for (const state of fits) {
        const whole = rest + state;
        if (whole >= states) break;
        if (total < better[whole] && addsUp(fronts, rest, state)) {
          better[whole] = total;
          cut[whole] = state;
        }
      }
    }
    cutFrom.push(cut);
    cost = better;
  }
  const all = states - 1;
  if (cost[all] === Infinity) return { cover: undefined };
  const uses: { choice: number; state: number }[] = [];
  let state = all;
  for (let choice = choices.length - 1; choice >= 0; choice--) {
    const cut = cutFrom[choice][state];
    if (cut > 0) uses.push({ choice, state: cut });
    state -= cut;
  }
  return { cover: { cost: cost[all], uses: uses.reverse() } };
}

function statesThatFit(fronts: ParetoFronts, choice: SheetChoice): number[] {
  const fits: number[] = [];
  for (let state = 1; state < fronts.states; state++) {
    if (fronts.leastLength(state, choice.width) <= choice.length) fits.push(state);
  }
  return fits;
}

/** Whether two sub-multisets add up without a carry, that is, within the copies of each kind. */
function addsUp(fronts: ParetoFronts, a: number, b: number): boolean {
  const { radix, states } = fronts;
  for (let i = 0; i < radix.length; i++) {
    const above = i + 1 < radix.length ? radix[i + 1] : states;
    if ((a % above) + (b % above) >= above) return false;
  }
  return true;
}
