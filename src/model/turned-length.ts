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

/** The length turned about on the table: its left edge lies at the right then, and its near end at the far one. */
export function turnedAbout(length: LengthInHand): LengthInHand {
  const { width, selvedge, crease, flaws } = length;
  return {
    ...length,
    selvedge: { left: selvedge.right, right: selvedge.left },
    crease:
      crease.kind === 'keep-off' && crease.at !== undefined
        ? { ...crease, at: ticks(width - crease.at) }
        : crease,
    ...(flaws && { flaws: flaws.map((flaw) => halfTurned(flaw, length)) }),
    turnedAbout: true,
  };
}

function halfTurned({ outline }: Flaw, { width, length }: LengthInHand): Flaw {
  return {
    outline: outline.map(({ x, y }) => ({
      x: ticks(Math.max(0, width - x)),
      y: ticks(Math.max(0, length - y)),
    })),
  };
}

/** A quarter turn to the left, as the whole length is turned; mirrored, it would lie wrong side up. */
function turnedFlaw({ outline }: Flaw, { length }: LengthInHand): Flaw {
  return { outline: outline.map(({ x, y }) => ({ x: ticks(Math.max(0, length - y)), y: x })) };
}
