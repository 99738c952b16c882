/** Sums that some of the pieces' sizes can have. */

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
