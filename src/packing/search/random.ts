/** A seeded source of random numbers: the same seed gives the same numbers on every machine. */
export interface Random {
  /** A whole number from 0 to `limit - 1`; `limit` from 1 to 2^31. */
  below(limit: number): number;
  /** A number from 0 (included) to 1 (excluded). */
  unit(): number;
}

/**
 * A 32-bit generator: a Weyl sequence whose counter is mixed twice by multiply and shift (Steele, Lea & Flood 2014,
 * "Fast splittable pseudorandom number generators", cut down to 32 bits). Quick and good enough to drive a search;
 * not for secrets.
 */
export function seededRandom(seed: number): Random {
  let counter = seed | 0;
  const next = (): number => {
    counter = (counter + 0x9e3779b9) | 0;
    let mixed = Math.imul(counter ^ (counter >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return (mixed ^ (mixed >>> 15)) >>> 0;
  };
  return {
    below: (limit) => Math.floor((next() / 0x100000000) * limit),
    unit: () => next() / 0x100000000,
  };
}
