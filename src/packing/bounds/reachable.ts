/** Sums that some of the pieces' sizes can have. */

/** Additions that one list of sums may take. */
const mostAdditions = 1e8;

/** Sizes that occur more than once are listed once, with all their copies. */
export function merged(
  sizes: readonly (readonly [size: number, copies: number])[],
): [size: number, copies: number][] {
  const together = new Map<number, number>();
  for (const [size, copies] of sizes) {
    if (size > 0 && copies > 0) together.set(size, (together.get(size) ?? 0) + copies);
  }
  return [...together];
}

/** `reachableSums` where that takes a moment at most; undefined where it would take long. */
export function cheapSums(
  sizes: readonly (readonly [size: number, copies: number])[],
  most: number,
): Uint8Array | undefined {
  const different = merged(sizes);
  return different.length * most <= mostAdditions ? reachableSums(different, most) : undefined;
}

/**
 * `reached[s]` is 1 where s is a sum of sizes, each at most as often as its copies say. O(sizes · most); `most` should
 * stay below some ten million.
 */
export function reachableSums(
  sizes: readonly (readonly [size: number, copies: number])[],
  most: number,
): Uint8Array {
  const reached = new Uint8Array(most + 1);
  const used = new Int32Array(most + 1);
  reached[0] = 1;
  for (const [size, copies] of sizes) {
    if (size <= 0) continue;
    used.fill(0);
    for (let at = size; at <= most; at += 1) {
      if (reached[at] === 1 || reached[at - size] === 0 || used[at - size]! >= copies) continue;
      reached[at] = 1;
      used[at] = used[at - size]! + 1;
    }
  }
  return reached;
}
