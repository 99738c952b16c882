import { ticks } from '../units/ticks.ts';
import type { Flaw, LengthInHand } from './cloth.ts';

/** A length that was measured with its length across the cloth's grain, as it lies once its length runs along it. */
export function turnedAlong(length: LengthInHand): LengthInHand {
  return {
    ...length,
    width: length.length,
    length: length.width,
    ...(length.flaws && { flaws: length.flaws.map((flaw) => turnedFlaw(flaw, length)) }),
  };
}

/** A quarter turn to the left, as the whole length is turned; mirrored, it would lie wrong side up. */
function turnedFlaw({ outline }: Flaw, { length }: LengthInHand): Flaw {
  return { outline: outline.map(({ x, y }) => ({ x: ticks(Math.max(0, length - y)), y: x })) };
}
