/**
 * Dual feasible functions: they stretch sizes so that whatever fitted a length still fits, while awkward sizes come out
 * larger.
 *
 * Each f here is whole, rising and superadditive: sizes that add up to at most `x` have images that add up to at most
 * f(x). So pieces side by side in a capacity C have images within f(C), and so have parts that are themselves shorter.
 * The families: u(k) and U(ε) of Fekete & Schepers (2001), f(α) of Carlier, Clautiaux & Moukrim (2007); all are surveyed
 * and proven in Clautiaux, Alves & Valério de Carvalho (2010).
 */
export type SizeFunction = (size: number) => number;

/** u(k) for k up to this; larger ones rarely help. */
const mostDivisions = 12;
/** Thresholds tried for U(ε) and f(α): no more than this many sizes of pieces. */
const mostThresholds = 40;

/** The identity first, then functions made for a capacity and the sizes that occur. */
export function dualFeasibleFunctions(capacity: number, sizes: readonly number[]): SizeFunction[] {
  const thresholds = thresholdsOf(capacity, sizes);
  const functions: SizeFunction[] = [(size) => size];
  for (let divisions = 1; divisions <= mostDivisions; divisions += 1) {
    functions.push(rounding(capacity, divisions));
  }
  for (const least of thresholds) functions.push(dropping(capacity, least));
  for (const unit of thresholds) functions.push(counting(capacity, unit));
  return functions;
}

/** Sizes and complements at which U(ε) and f(α) change, evenly thinned out where there are many. */
function thresholdsOf(capacity: number, sizes: readonly number[]): number[] {
  const found = new Set<number>();
  for (const size of sizes) {
    if (size <= 0 || size > capacity) continue;
    if (2 * size <= capacity) found.add(size);
    else if (capacity - size + 1 <= capacity / 2) found.add(capacity - size + 1);
  }
  const rising = [...found].sort((a, b) => a - b);
  if (rising.length <= mostThresholds) return rising;
  return Array.from(
    { length: mostThresholds },
    (_, index) => rising[Math.floor((index * rising.length) / mostThresholds)]!,
  );
}

/** u(k): sizes are rounded down to (k+1)-ths of the capacity and counted in k-ths, exact multiples excepted. */
export function rounding(capacity: number, divisions: number): SizeFunction {
  return (size) => {
    const scaled = (divisions + 1) * size;
    return scaled % capacity === 0 ? size * divisions : Math.floor(scaled / capacity) * capacity;
  };
}

/** U(ε): what is smaller than `least` counts for nothing, and what leaves less than `least` for the whole capacity. */
export function dropping(capacity: number, least: number): SizeFunction {
  return (size) => {
    if (size > capacity - least) return capacity;
    return size >= least ? size : 0;
  };
}

/** f(α): how many units go into a size; for more than half the capacity, how many fewer go beside it. */
export function counting(capacity: number, unit: number): SizeFunction {
  const most = Math.floor(capacity / unit);
  return (size) => {
    if (2 * size > capacity) return 2 * (most - Math.floor((capacity - size) / unit));
    return 2 * size === capacity ? most : 2 * Math.floor(size / unit);
  };
}
