import type { Cloth, Crease } from '../model/cloth.ts';
import type { Box, PieceId, PieceWanted } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { cutLines } from './check-marks.ts';
import { isCut, type PlacedPart } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import type { TableCloth } from './table-cloth.ts';

export interface FoldAsked {
  readonly cloth: Cloth;
  readonly wanted: ReadonlyMap<PieceId, PieceWanted>;
}

type Stretch = readonly [from: number, to: number];

/**
 * That a length folded at `foldAt` lays like on like: every piece has one of its size at the mirrored place, and every
 * cut its mirror image, as far as both plies are usable cloth (beyond that, unequal selvedges differ). A piece that lies
 * evenly over the fold is its own mirror image. Two pieces of one size may mirror each other: one cut frees both.
 * A fold off the middle leaves cloth in one ply beyond the narrower side, of which nothing is asked where `mayLieOnce`.
 */
export function checkFold(
  parts: readonly PlacedPart[],
  table: TableCloth,
  crease: Crease,
  foldAt: Ticks,
  mayLieOnce: boolean,
  report: Report,
): void {
  if (!foldsHere(table, crease, foldAt)) {
    report('fold-misplaced', { foldAt, width: table.width });
    return;
  }
  const usable = Math.min(foldAt - table.left, table.width - table.right - foldAt);
  const both = mayLieOnce ? Math.min(usable, upToCrease(table, foldAt)) : usable;
  // Beyond a crease that is kept off, pieces lie in two plies again as far as both reach.
  checkPieces(parts, foldAt, mayLieOnce ? usable : Infinity, report);
  checkLengthwiseCuts(parts, foldAt, both, report);
  checkCrosscuts(parts, foldAt, both, report);
}

/**
 * That a cloth lies folded where the plan asks for it: a folded lay at the place it names; with its middle line on the fold
 * a piece that is asked for there.
 */
export function checkFoldAsked(
  parts: readonly PlacedPart[],
  { width, twiceCrease }: TableCloth,
  { cloth, wanted }: FoldAsked,
  foldAt: Ticks | undefined,
  report: Report,
): void {
  if (cloth.lay === 'folded' && foldAt === undefined) report('fold-missing', {});
  const before = Math.min(Math.floor(width / 2), Math.floor(twiceCrease / 2));
  const asked = cloth.foldAt !== undefined && cloth.foldAt < before ? cloth.foldAt : undefined;
  if (foldAt !== undefined && asked !== undefined && foldAt !== asked)
    report('fold-not-as-asked', { foldAt, asked });
  for (const { tree, box } of parts) {
    if (tree.kind !== 'piece' || !wanted.get(tree.piece)?.onFold) continue;
    if (foldAt !== undefined && box.x0 + box.x1 === 2 * foldAt) continue;
    report('piece-off-fold', { middle: (box.x0 + box.x1) / 2 }, { piece: tree.piece, box });
  }
}

/** Whether cloth may lie in one ply beside a fold: only where the plan names its place, or a piece asks for one. */
export function mayLieOnce({ cloth, wanted }: FoldAsked): boolean {
  if (cloth.foldAt !== undefined) return true;
  return [...wanted.values()].some((piece) => piece.cloth === cloth.name && piece.onFold);
}

/** How far from a fold clear of it a kept-off crease begins, which ends what lies double; Infinity where none does. */
function upToCrease({ twiceCrease, keptOff }: TableCloth, foldAt: Ticks): number {
  if (keptOff === undefined || Math.abs(2 * foldAt - twiceCrease) <= 1) return Infinity;
  return Math.floor((Math.abs(2 * foldAt - twiceCrease) - 2 * keptOff) / 2);
}

/** At the crease (to the tick below or above where it falls between two), or clear of a kept-off strip. */
function foldsHere({ width, keptOff, twiceCrease }: TableCloth, crease: Crease, foldAt: Ticks): boolean {
  if (foldAt <= 0 || foldAt >= width) return false;
  const fromCrease = Math.abs(2 * foldAt - twiceCrease);
  return crease.kind !== 'keep-off' || fromCrease <= 1 || fromCrease >= 2 * keptOff!;
}

/** Beyond the narrower ply the cloth lies once: what is cut there has no fellow. */
function checkPieces(parts: readonly PlacedPart[], foldAt: Ticks, both: number, report: Report): void {
  const pieces = parts.filter(
    ({ tree, box }) => tree.kind === 'piece' && box.x0 < foldAt + both && box.x1 > foldAt - both,
  );
  const nameOf = (x0: number, x1: number, { y0, y1 }: Box) => [x0, y0, x1, y1].join(' ');
  const places = new Set(pieces.map(({ box }) => nameOf(box.x0, box.x1, box)));
  for (const { tree, box } of pieces) {
    if (tree.kind !== 'piece' || places.has(nameOf(2 * foldAt - box.x1, 2 * foldAt - box.x0, box))) continue;
    report('fold-piece-alone', { foldAt }, { piece: tree.piece, box });
  }
}

function checkLengthwiseCuts(
  parts: readonly PlacedPart[],
  foldAt: Ticks,
  both: number,
  report: Report,
): void {
  const lines = new Map<number, Stretch[]>();
  for (const { tree, box } of parts.filter(isCut)) {
    if (tree.direction !== 'lengthwise') continue;
    for (const at of cutLines(tree, box)) addTo(lines, at, [box.y0, box.y1]);
  }
  const offsets = new Set([...lines.keys()].map((at) => Math.abs(at - foldAt)));
  for (const offset of offsets) {
    if (offset === 0 || offset >= both) continue;
    const [near, far] = [lines.get(foldAt - offset) ?? [], lines.get(foldAt + offset) ?? []];
    if (sameStretches(near, far)) continue;
    const at = ticks(near.length > 0 ? foldAt - offset : foldAt + offset);
    report('fold-cut-alone', { direction: 'lengthwise', at, foldAt });
  }
}

function checkCrosscuts(parts: readonly PlacedPart[], foldAt: Ticks, both: number, report: Report): void {
  const lines = new Map<number, Stretch[]>();
  for (const { tree, box } of parts.filter(isCut)) {
    if (tree.direction !== 'crosscut') continue;
    const from = Math.max(box.x0, foldAt - both);
    const to = Math.min(box.x1, foldAt + both);
    if (from < to) for (const at of cutLines(tree, box)) addTo(lines, at, [from, to]);
  }
  for (const [at, stretches] of lines) {
    const mirrored = stretches.map(([from, to]): Stretch => [2 * foldAt - to, 2 * foldAt - from]);
    if (sameStretches(stretches, mirrored)) continue;
    report('fold-cut-alone', { direction: 'crosscut', at: ticks(at), foldAt });
  }
}

function addTo(lines: Map<number, Stretch[]>, at: number, stretch: Stretch): void {
  const known = lines.get(at);
  if (known) known.push(stretch);
  else lines.set(at, [stretch]);
}

function sameStretches(one: readonly Stretch[], other: readonly Stretch[]): boolean {
  return joined(one).join(' ') === joined(other).join(' ');
}

/** Stretches that touch become one: two cuts end to end are as good as one long cut. */
function joined(stretches: readonly Stretch[]): readonly Stretch[] {
  const result: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0] || a[1] - b[1])) {
    const last = result.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else result.push([from, to]);
  }
  return result;
}
