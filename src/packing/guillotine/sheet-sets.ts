import type { BoundSheet } from './simple-bounds.ts';

/** A choice of sheets: how many of each kind. */
export interface SheetSet {
  readonly counts: readonly number[];
  readonly cost: number;
  readonly area: number;
}

/**
 * Choices of sheets that cost less than `below` and have at least `area`, largest area first. Only those to which no
 * sheet can be added below that cost: whatever fits a smaller choice fits one of these. Stops at `most` choices looked
 * at, so that many kinds of sheet cannot stall it. Depth is the number of kinds, kept in an array, not on the stack.
 */
export function fullSheetSets(
  sheets: readonly BoundSheet[],
  area: number,
  below: number,
  most: number,
): SheetSet[] {
  const found: SheetSet[] = [];
  const counts = sheets.map(() => 0);
  let cost = 0;
  let held = 0;
  let kind = 0;
  let looked = 0;
  const take = (index: number, copies: number): void => {
    counts[index] += copies;
    cost += copies * sheets[index].cost;
    held += copies * sheets[index].width * sheets[index].length;
  };
  const affordable = ({ cost: each, copies }: BoundSheet): number =>
    each === 0 ? copies : Math.min(copies, Math.max(0, Math.ceil((below - cost) / each) - 1));
  // Odometer from the fullest choice down: `kind` walks forward filling, then back to the last kind that can give one.
  for (;;) {
    while (kind < sheets.length) {
      take(kind, affordable(sheets[kind]));
      kind++;
    }
    looked++;
    const full = sheets.every((sheet, index) => counts[index] === sheet.copies || cost + sheet.cost >= below);
    if (full && held >= area && cost < below) found.push({ counts: [...counts], cost, area: held });
    if (looked >= most) break;
    kind = sheets.length - 1;
    while (kind >= 0 && counts[kind] === 0) kind--;
    // The last kind never gives back: that alone would leave room for one more.
    if (kind === sheets.length - 1) {
      take(kind, -counts[kind]);
      kind--;
      while (kind >= 0 && counts[kind] === 0) kind--;
    }
    if (kind < 0) break;
    take(kind, -1);
    kind++;
  }
  return found.sort((a, b) => b.area - a.area || a.cost - b.cost);
}
