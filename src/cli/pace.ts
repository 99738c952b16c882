export interface PaceOptions {
  /** In the order in which they are planned. */
  readonly cloths: readonly string[];
  /** For all cloths together; no limit when undefined. */
  readonly seconds: number | undefined;
  readonly isInterrupted: () => boolean;
  /** Milliseconds, never falling. */
  readonly clock: () => number;
}

export interface Pace {
  /** Whether the search for this cloth, or a first look at several, is to end. */
  readonly stop: (cloth?: string) => boolean;
  readonly ranOut: () => boolean;
}

/** What a cloth still gets when its turn comes after an interrupt: its first plan alone would waste cloth. */
export const LAST_LOOK_MILLISECONDS = 500;

/** A first look at all cloths may take this part of the time. */
const FIRST_LOOK = 1 / 8;

/**
 * Shares the time of a search among the cloths: each begins with an equal share of what is left, so that none is left
 * with a hasty plan because another took long. After an interrupt the cloth at work ends at once.
 */
export function paceSearch(options: PaceOptions): Pace {
  const { cloths, clock, isInterrupted } = options;
  const limit = options.seconds === undefined ? Number.POSITIVE_INFINITY : options.seconds * 1000;
  const start = clock();
  const ends = new Map<string, { readonly at: number; readonly afterInterrupt: boolean }>();
  let ranOut = false;
  const isOver = (at: number) => {
    if (clock() < at) return false;
    ranOut = true;
    return true;
  };
  return {
    ranOut: () => ranOut,
    stop: (cloth) => {
      if (cloth === undefined) return isInterrupted() || isOver(start + limit * FIRST_LOOK);
      const end = ends.get(cloth);
      if (end !== undefined) return isOver(end.at) || (isInterrupted() && !end.afterInterrupt);
      const now = clock();
      const afterInterrupt = isInterrupted();
      const share = (start + limit - now) / (cloths.length - ends.size);
      const allowed = afterInterrupt ? LAST_LOOK_MILLISECONDS : Math.max(LAST_LOOK_MILLISECONDS, share);
      ends.set(cloth, { at: now + allowed, afterInterrupt });
      return false;
    },
  };
}
