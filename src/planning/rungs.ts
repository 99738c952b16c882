/** How many buys a ladder compares, unless set. */
export const DEFAULT_RUNGS = 16;
/** More than anybody reads. */
export const MOST_RUNGS = 200;
