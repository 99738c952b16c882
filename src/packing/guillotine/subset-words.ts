/** Sets of at most thirty-one things as bit masks, and flags of sets, thirty-two in a word. */

/** Sub-multisets whose bits from the sixth on are alike share a word of flags. */
export const WORD_BITS = 5;
export const WORD = 1 << WORD_BITS;
/** For each set of five bits, the flags of its subsets. */
export const subsetsOf = Int32Array.from({ length: WORD }, (_, set) => {
  let flags = 0;
  for (let subset = 0; subset < WORD; subset++) if ((subset & set) === subset) flags |= 1 << subset;
  return flags;
});

/** How many bits are set. */
export function bitsOf(mask: number): number {
  let bits = mask - ((mask >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return (((bits + (bits >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/** Flags with the flag of each subset in the place of what the subset leaves of `set`. */
export function complemented(flags: number, set: number): number {
  let moved = flags;
  if (set & 1) moved = ((moved >>> 1) & 0x55555555) | ((moved & 0x55555555) << 1);
  if (set & 2) moved = ((moved >>> 2) & 0x33333333) | ((moved & 0x33333333) << 2);
  if (set & 4) moved = ((moved >>> 4) & 0x0f0f0f0f) | ((moved & 0x0f0f0f0f) << 4);
  if (set & 8) moved = ((moved >>> 8) & 0x00ff00ff) | ((moved & 0x00ff00ff) << 8);
  if (set & 16) moved = (moved >>> 16) | (moved << 16);
  return moved;
}
