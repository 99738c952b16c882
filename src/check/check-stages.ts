import type { CutDirection } from '../model/cut-tree.ts';
import type { Ticks } from '../units/ticks.ts';
import { isCut, type PlacedPart } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';

/**
 * Counts the cut stages above every piece, as Gilmore & Gomory (1965) do: cuts of one direction, however many, are one
 * stage, and a last cut that frees a single piece from leftovers only trims it to size. A cut that only takes trim away,
 * or yields no piece at all, is no stage either; nor are the cuts that take the used length off the rest of the cloth,
 * which is no part of the marker. Folded, two pieces that meet in the fold lie on each other and are trimmed as one.
 *
 * @param foldAt where the length is folded; undefined where it lies flat
 */
export function checkStages(
  parts: readonly PlacedPart[],
  most: 2 | 3,
  foldAt: Ticks | undefined,
  report: Report,
): void {
  const pieces = piecesBelow(parts);
  const stages: { readonly count: number; readonly direction: CutDirection | undefined }[] = [];
  const children = childrenOf(parts);
  for (const [index, part] of parts.entries()) {
    const above = stages[part.from] ?? { count: 0, direction: undefined };
    const yields = children[index]!;
    stages[index] = above;
    if (!isCut(part) || pieces[index] === 0) continue;
    if (yields.filter((child) => parts[child]!.tree.kind !== 'trim').length < 2) continue;
    if (
      index === 0 &&
      cutsLengthOff(
        part.tree.direction,
        yields.map((child) => pieces[child]!),
      )
    )
      continue;
    const { direction } = part.tree;
    const count = direction === above.direction ? above.count : above.count + 1;
    stages[index] = { count, direction };
    const freed = yields.map((child) => parts[child]!).filter(({ tree }) => tree.kind === 'piece');
    const trimsToSize =
      freed.length === pieces[index] && (freed.length === 1 || meetInFold(freed, direction, foldAt));
    if (count > most && !(count === most + 1 && trimsToSize)) {
      report('too-many-stages', { found: count, most }, { box: part.box });
    }
  }
}

function cutsLengthOff(direction: CutDirection, piecesOfParts: readonly number[]): boolean {
  return direction === 'crosscut' && piecesOfParts.filter((pieces) => pieces > 0).length === 1;
}

function meetInFold(
  [near, far, ...more]: readonly PlacedPart[],
  direction: CutDirection,
  foldAt: Ticks | undefined,
): boolean {
  if (!near || !far || more.length > 0 || direction !== 'lengthwise') return false;
  return near.box.x1 === foldAt && far.box.x0 === foldAt;
}

function piecesBelow(parts: readonly PlacedPart[]): readonly number[] {
  const pieces = parts.map(({ tree }) => (tree.kind === 'piece' ? 1 : 0) as number);
  for (let index = parts.length - 1; index > 0; index--) pieces[parts[index]!.from]! += pieces[index]!;
  return pieces;
}

function childrenOf(parts: readonly PlacedPart[]): readonly (readonly number[])[] {
  const children: number[][] = parts.map(() => []);
  for (const [index, { from }] of parts.entries()) children[from]?.push(index);
  return children;
}
