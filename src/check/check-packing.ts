import {
  checkSheet,
  type KindShape,
  type PackedShape,
  type PlacedLeaf,
  placedLeaves,
  type SheetProblem,
  type SheetShape,
  type StageLimit,
} from './check-sheet.ts';

/** What was asked, whichever of the three questions; `sheets` has one entry for a strip or a single sheet. */
export interface PackingAsked {
  readonly ask: 'shortest' | 'most' | 'fewest';
  readonly sheets: readonly SheetShape[];
  readonly kinds: readonly KindShape[];
  /** Copies of each kind in one complete set; then a *most* answer counts sets. */
  readonly set?: readonly number[];
  readonly stages?: StageLimit;
}

export interface PackingAnswered {
  readonly status: 'best' | 'found';
  readonly value: number;
  readonly bound: number;
  readonly sheets: readonly PackedShape[];
}

export type PackingProblem =
  | (SheetProblem & { readonly packed: number })
  | { readonly code: 'copies'; readonly kind: number; readonly found: number; readonly wanted: number }
  | { readonly code: 'copies-exceeded'; readonly kind: number; readonly found: number; readonly most: number }
  | { readonly code: 'sheet-count'; readonly sheet: number; readonly found: number; readonly most: number }
  | { readonly code: 'value'; readonly claimed: number; readonly found: number }
  | { readonly code: 'bound'; readonly value: number; readonly bound: number; readonly status: string };

/**
 * All that is wrong with a whole answer: every sheet (`checkSheet`), the copies of each kind, how many sheets were
 * opened, the value claimed, and that value and bound stand on the right sides of each other.
 *
 * Demands of *shortest* and *fewest* are met exactly. Where everything is cut twice (`mirrorAt`), a kind is cut in
 * pairs: an odd count is rounded up to the next pair, not counting fixed pieces that are their own mirror image; with
 * sheets of both sorts one copy too many per kind is let pass.
 */
export function checkPacking(asked: PackingAsked, answered: PackingAnswered): readonly PackingProblem[] {
  const problems: PackingProblem[] = [];
  const counts = asked.kinds.map(() => 0);
  const ownMirrors = asked.kinds.map(() => 0);
  const opened = asked.sheets.map(() => 0);
  for (const [index, packed] of answered.sheets.entries()) {
    const sheet = asked.sheets[packed.sheet];
    if (sheet === undefined) {
      problems.push({ code: 'sheet-unknown', sheet: packed.sheet, packed: index });
      continue;
    }
    opened[packed.sheet]! += 1;
    if (asked.ask !== 'shortest' && packed.length !== sheet.length) {
      problems.push({ code: 'sheet-length', found: packed.length, most: sheet.length, packed: index });
    }
    for (const problem of checkSheet(packed, sheet, asked.kinds, asked.stages)) {
      problems.push({ ...problem, packed: index });
    }
    for (const leaf of placedLeaves(packed)) countPiece(leaf, sheet, counts, ownMirrors);
  }
  for (const [index, sheet] of asked.sheets.entries()) {
    const most = asked.ask === 'fewest' ? (sheet.copies ?? 1) : 1;
    if (opened[index]! > most)
      problems.push({ code: 'sheet-count', sheet: index, found: opened[index]!, most });
  }
  checkCopies(asked, counts, ownMirrors, problems);
  checkValue(asked, answered, counts, problems);
  return problems;
}

function countPiece(leaf: PlacedLeaf, sheet: SheetShape, counts: number[], ownMirrors: number[]): void {
  if (leaf.leaf !== 'piece' || counts[leaf.kind] === undefined) return;
  counts[leaf.kind]! += 1;
  if (sheet.mirrorAt !== undefined && leaf.x0 + leaf.x1 === 2 * sheet.mirrorAt) ownMirrors[leaf.kind]! += 1;
}

function checkCopies(
  asked: PackingAsked,
  counts: readonly number[],
  ownMirrors: readonly number[],
  problems: PackingProblem[],
): void {
  const mirrored = asked.sheets.filter((sheet) => sheet.mirrorAt !== undefined).length;
  for (const [kind, { copies }] of asked.kinds.entries()) {
    const found = counts[kind]!;
    if (asked.ask === 'most') {
      if (found > copies) problems.push({ code: 'copies-exceeded', kind, found, most: copies });
      continue;
    }
    const singles = ownMirrors[kind]!;
    const paired = singles + 2 * Math.ceil(Math.max(0, copies - singles) / 2);
    const most = mirrored === 0 ? copies : paired;
    const least = mirrored === asked.sheets.length && mirrored > 0 ? paired : copies;
    if (found < least || found > most) problems.push({ code: 'copies', kind, found, wanted: least });
  }
}

function checkValue(
  asked: PackingAsked,
  answered: PackingAnswered,
  counts: readonly number[],
  problems: PackingProblem[],
): void {
  const { value, bound, status } = answered;
  const found = worth(asked, answered, counts);
  if (found !== value) problems.push({ code: 'value', claimed: value, found });
  const sides = asked.ask === 'most' ? bound >= value : bound <= value;
  if (!sides || (status === 'best') !== (bound === value))
    problems.push({ code: 'bound', value, bound, status });
}

function worth(asked: PackingAsked, answered: PackingAnswered, counts: readonly number[]): number {
  const { kinds, sheets, set } = asked;
  if (asked.ask === 'shortest') return answered.sheets.reduce((total, { length }) => total + length, 0);
  if (asked.ask === 'fewest') {
    const costOf = (sheet: SheetShape | undefined) =>
      sheet ? (sheet.cost ?? sheet.width * sheet.length) : 0;
    return answered.sheets.reduce((total, { sheet }) => total + costOf(sheets[sheet]), 0);
  }
  if (set !== undefined) {
    const ratios = set.flatMap((each, kind) => (each > 0 ? [Math.floor(counts[kind]! / each)] : []));
    return ratios.length === 0 ? 0 : Math.min(...ratios);
  }
  return kinds.reduce(
    (total, kind, index) => total + counts[index]! * (kind.value ?? kind.width * kind.length),
    0,
  );
}
