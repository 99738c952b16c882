import { DualSimplex } from './dual-simplex.ts';

/** A way to lie: extent across the cloth and along it, in any one unit. */
export interface Way {
  readonly across: number;
  readonly along: number;
}

/** Rounds of adding the line that is most overfull. */
const MOST_ROUNDS = 200;

/**
 * Weights of widths, at most 1 on any line, that make Σ weight · length of given pieces largest when each lies as suits
 * it best: the dual of covering the strip with lines (Gilmore and Gomory, "A linear programming approach to the
 * cutting-stock problem", Operations Research 9 (1961), 849-859), solved by adding overfull lines.
 *
 * @param ways of each kind of piece, none where it is not wanted
 * @param widths that a line may hold side by side, in whole units; `room` is the width of the line
 */
export function bestWeights(
  kinds: readonly { readonly copies: number; readonly ways: readonly Way[] }[],
  room: number,
): ReadonlyMap<number, number> {
  const widths = [...new Set(kinds.flatMap(({ ways }) => ways.map(({ across }) => across)))].filter(
    (own) => own <= room,
  );
  const column = new Map(widths.map((width, index) => [width, index] as const));
  const wanted = kinds.filter(({ copies, ways }) => copies > 0 && ways.length > 0);
  // In units of the longest piece, so that every figure is near 1.
  const longest = Math.max(1, ...wanted.flatMap(({ ways }) => ways.map(({ along }) => along)));
  const most = wanted.map(({ ways }) => Math.min(...ways.map(({ along }) => along)) / longest);
  // Columns: the weight of each width; then by how much each kind falls short of the most it could count for.
  const programme = new DualSimplex(
    [...widths.map(() => 0), ...wanted.map(({ copies }) => copies)],
    [...widths.map(() => 0), ...wanted.map(() => 0)],
    [...widths.map(() => 1), ...most],
  );
  for (const [index, { ways }] of wanted.entries()) {
    for (const { across, along } of ways) {
      const at = column.get(across);
      if (at === undefined) continue;
      const entries = [[at, along / longest] as const, [widths.length + index, 1] as const];
      programme.addRow({ entries, least: most[index]!, most: Number.POSITIVE_INFINITY });
    }
  }
  let weights = new Map<number, number>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const solved = programme.solve(5000);
    if (solved.status === 'infeasible') break;
    weights = new Map(widths.map((width, index) => [width, Math.max(0, solved.values[index]!)] as const));
    const { counts, weight } = fullestLine(weights, room);
    if (weight <= 1 + 1e-7) break;
    const entries = [...counts].map(([width, count]) => [column.get(width)!, count] as const);
    programme.addRow({ entries, least: Number.NEGATIVE_INFINITY, most: 1 });
  }
  return weights;
}

/** The line of the largest weight: an unbounded knapsack. */
export function fullestLine(
  weights: ReadonlyMap<number, number>,
  room: number,
): { readonly counts: ReadonlyMap<number, number>; readonly weight: number } {
  const items = [...weights].filter(([width, weight]) => weight > 0 && width <= room);
  const best = new Float64Array(room + 1);
  const taken = new Int32Array(room + 1);
  for (let at = 1; at <= room; at++) {
    best[at] = best[at - 1]!;
    for (const [width, weight] of items) {
      if (width > at || best[at - width]! + weight <= best[at]!) continue;
      best[at] = best[at - width]! + weight;
      taken[at] = width;
    }
  }
  const counts = new Map<number, number>();
  for (let at = room; at > 0; ) {
    const width = taken[at]!;
    if (width === 0) at -= 1;
    else {
      counts.set(width, (counts.get(width) ?? 0) + 1);
      at -= width;
    }
  }
  return { counts, weight: best[room]! };
}
