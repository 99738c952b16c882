/**
 * Counts of pieces packed into whole words, so that "together at most the copies at hand" is a few subtractions.
 *
 * Each kind has a field with one guard bit above it; limit − a − b borrows from the guard exactly where a + b is too
 * many (Lamport 1975, multiple byte processing with full-word instructions).
 */
export interface TallyFormat {
  readonly words: number;
  /** One copy of kind k adds `unit[k]` to word `word[k]`. */
  readonly word: Int32Array;
  readonly unit: Int32Array;
  readonly shift: Int32Array;
  readonly mask: Int32Array;
  /** Limits with every guard bit set, and the guard bits alone. */
  readonly limit: Int32Array;
  readonly guard: Int32Array;
}

export function tallyFormat(copies: Int32Array): TallyFormat {
  const kinds = copies.length;
  const word = new Int32Array(kinds);
  const shift = new Int32Array(kinds);
  const mask = new Int32Array(kinds);
  let words = 1;
  let used = 0;
  for (let kind = 0; kind < kinds; kind += 1) {
    const bits = 33 - Math.clz32(copies[kind]!);
    if (used + bits > 31) {
      words += 1;
      used = 0;
    }
    word[kind] = words - 1;
    shift[kind] = used;
    mask[kind] = (1 << (bits - 1)) - 1;
    used += bits;
  }
  const limit = new Int32Array(words);
  const guard = new Int32Array(words);
  const unit = new Int32Array(kinds);
  for (let kind = 0; kind < kinds; kind += 1) {
    unit[kind] = 1 << shift[kind]!;
    const high = (mask[kind]! + 1) << shift[kind]!;
    limit[word[kind]!]! += high + (copies[kind]! << shift[kind]!);
    guard[word[kind]!]! += high;
  }
  return { words, word, unit, shift, mask, limit, guard };
}

/** Copies of `kind` in the tally that starts at `at`. */
export function tallied(format: TallyFormat, tallies: Int32Array, at: number, kind: number): number {
  return (tallies[at + format.word[kind]!]! >>> format.shift[kind]!) & format.mask[kind]!;
}
