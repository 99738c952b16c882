import type { Cloth } from '../model/cloth.ts';
import type { Issue } from '../model/issue.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { Kind, Lattice } from '../packing/instance.ts';
import { ceilTo, floorTo, type Ticks, ticks } from '../units/ticks.ts';
import { type Bed, fits, lengthToPack, roomAtFold, singlePly, widestPart } from './bed.ts';
import { forLay, type PieceKind, sortIntoKinds } from './kinds.ts';

/** One kind as the packer is to lay it. */
export interface LaidKind {
  readonly kind: Kind;
  /** Index of the kind of piece that it yields. */
  readonly of: number;
  /** In one ply; in two, so that a place yields two copies; or half of it at the fold: opened out it is the whole piece. */
  readonly plies: 'one' | 'two' | 'fold';
  /** How many pieces are wanted of it; in two plies an odd number leaves a spare. */
  readonly pieces: number;
  /** Beside a fold off the middle: one more than wanted, where no cloth in one ply holds the odd copy, nor the fold. */
  readonly spare?: 1;
  /** Of half a piece: whether the piece lies a quarter turn round. */
  readonly turned: boolean;
}

/** What becomes of an odd copy in a folded lay: it is cut twice, and one is spare; or it is cut once, across the fold. */
export type OddCopies = 'spare' | 'on-fold';

/** Farther than any cloth is wide: a place that comes again only there is the fold itself. */
const BEYOND = 1e9;

/**
 * All kinds as they are to be laid. A piece goes across the fold where it is asked for there, where half the width cannot
 * hold it but the whole can, and, with `on-fold`, where its number is odd; so it does beside a fold off the middle where no cloth
 * in one ply holds the odd copy. Undefined where a piece that is asked for on
 * the fold cannot lie there.
 */
export function laidKinds(
  kinds: readonly PieceKind[],
  cloth: Cloth,
  beds: readonly Bed[],
  odd: OddCopies,
): readonly LaidKind[] | undefined {
  if (cloth.lay === 'flat') {
    if (kinds.some(({ onFold }) => onFold)) return undefined;
    return inOnePly(kinds);
  }
  const laid: LaidKind[] = [];
  for (const [of, { kind, onFold }] of kinds.entries()) {
    const half = halfAtFold(kind, beds);
    const pairs = forLay(kind, cloth);
    const fitsInPly = beds.some(
      (bed) => fits(kind, roomOf(bed)) || (bed.beside && fits(kind, roomOf(singlePly(bed, bed.beside)))),
    );
    if (onFold && !half) return undefined;
    const oddCopy = kind.copies % 2 === 1;
    const inPairs = oddCopy && isHeldInPairs(kind, beds);
    const oddAcross = oddCopy && (odd === 'on-fold' || inPairs);
    const across = !half ? 0 : onFold || !fitsInPly ? kind.copies : oddAcross ? 1 : 0;
    const inPlies = across === 0 ? pairs.copies : Math.floor((kind.copies - across) / 2);
    if (inPlies > 0) {
      const pieces = kind.copies - across;
      laid.push({
        ...{ kind: { ...kind, copies: inPlies }, of, plies: 'two', pieces, turned: false },
        ...(inPairs && across === 0 && { spare: 1 }),
      });
    }
    if (across > 0) {
      const laidHalf = { ...half!.kind, copies: across };
      laid.push({ kind: laidHalf, of, plies: 'fold', pieces: across, turned: half!.turned });
    }
  }
  return laid;
}

/** Whether a cloth that is folded off its middle holds a kind in two plies alone, as what lies in one is too narrow for it. */
function isHeldInPairs(kind: Kind, beds: readonly Bed[]): boolean {
  const besides = beds.flatMap((bed) => (bed.beside ? [singlePly(bed, bed.beside)] : []));
  return besides.length > 0 && !besides.some((bed) => fits(kind, roomOf(bed)));
}

/** Whether an odd copy of any kind could be cut across the fold instead of leaving a spare. */
export function oddMayLieOnFold(kinds: readonly PieceKind[], cloth: Cloth, beds: readonly Bed[]): boolean {
  return (
    cloth.lay === 'folded' &&
    beds.every(({ beside }) => !beside) &&
    kinds.some(({ kind, onFold }) => !onFold && kind.copies % 2 === 1 && halfAtFold(kind, beds) !== undefined)
  );
}

/**
 * Half of a piece as it lies at the fold: half as wide, its near edge on the fold itself. Only where no strip is kept off
 * there, and where the half is a whole number of ruler marks, since it is set from the fold.
 */
function halfAtFold(
  kind: Kind,
  beds: readonly Bed[],
): { readonly kind: Kind; readonly turned: boolean } | undefined {
  const [first] = beds;
  if (!first || !foldIsUsable(beds) || kind.lattice?.x) return undefined;
  const ways = [
    { width: kind.width, length: kind.length, turned: false },
    ...(kind.quarterTurn ? [{ width: kind.length, length: kind.width, turned: true }] : []),
  ];
  const way = ways.find(
    ({ width, length }) =>
      isHalved(width, first.rulerMark) &&
      beds.some((bed) => width / 2 <= roomAtFold(bed) && length <= roomOf(bed).length),
  );
  if (!way) return undefined;
  const lattice: Lattice = { ...kind.lattice, x: { period: BEYOND, offsets: [0] } };
  return {
    kind: { ...kind, width: way.width / 2, length: way.length, quarterTurn: false, lattice },
    turned: way.turned,
  };
}

/** Whether half of an extent falls on a ruler mark. */
export function isHalved(extent: number, mark: Ticks): boolean {
  return extent % (2 * mark) === 0;
}

function roomOf(bed: Bed): { readonly width: number; readonly length: number } {
  return { width: widestPart(bed), length: lengthToPack(bed) };
}

/** Kinds as they lie on flat cloth. */
export function inOnePly(kinds: readonly PieceKind[]): readonly LaidKind[] {
  return kinds.map(({ kind }, of) => ({ kind, of, plies: 'one', pieces: kind.copies, turned: false }));
}

/** Whether a kind that no single ply holds may lie across the fold. */
export function fitsAcrossFold(kind: Kind, cloth: Cloth, beds: readonly Bed[]): boolean {
  return cloth.lay === 'folded' && halfAtFold(kind, beds) !== undefined;
}

/** Whether pieces may lie across the fold of all these beds: none keeps off a strip there. */
export function foldIsUsable(beds: readonly Bed[]): boolean {
  return beds.length > 0 && beds.every(({ acrossFold }) => acrossFold);
}

/** What is said of pieces that are asked for on a fold and cannot lie there. */
export function notOnFold(
  kinds: readonly PieceKind[],
  cloth: Cloth,
  beds: readonly Bed[],
  rulerMark: Ticks,
): readonly Issue[] {
  const names = kinds.flatMap(({ kind, copies, onFold }) =>
    onFold && !(cloth.lay === 'folded' && halfAtFold(kind, beds)) ? [{ kind, copies }] : [],
  );
  return names.flatMap(({ kind, copies }) =>
    [...new Set(copies.map(({ piece }) => piece))].map((piece): Issue => {
      const sides = kind.quarterTurn ? [kind.width, kind.length] : [kind.width];
      const halved = sides.some((side) => isHalved(side, rulerMark));
      const keptOff = cloth.lay === 'folded' ? !foldIsUsable(beds) : beds.some(({ gap }) => gap);
      const matched = kind.lattice?.x !== undefined;
      const why = matched ? 'matched' : !halved ? 'not-halved' : keptOff ? 'crease-kept-off' : 'too-large';
      const most = Math.max(0, ...beds.map((bed) => mostOnFold(bed, rulerMark)));
      return {
        code: 'cannot-lie-on-fold',
        severity: 'error',
        path: ['cloths', cloth.name],
        details: {
          piece,
          cloth: cloth.name,
          across: ticks(kind.width),
          mark: rulerMark,
          why,
          ...((why === 'crease-kept-off' || why === 'too-large') && most > 0 && { most: ticks(most) }),
        },
      };
    }),
  );
}

/** The widest piece that lies on a fold of a bed: on the one it has, or on any fold of a flat one that keeps off its crease. */
function mostOnFold(bed: Bed, rulerMark: Ticks): number {
  if (bed.lay.kind === 'folded') return bed.acrossFold ? 2 * roomAtFold(bed) : 0;
  if (bed.gap) return floorTo(ticks(widestPart(bed)), ticks(2 * rulerMark));
  const { left, right } = bed.selvedgeTrim;
  return 2 * floorTo(ticks(Math.max(0, Math.floor(bed.width / 2) - Math.max(left, right))), rulerMark);
}

/**
 * How a cloth may be folded for pieces that are asked for on a fold, where the plan does not say so itself: down the middle,
 * unless the crease there is kept off; and just as far as the widest of them needs.
 */
export function foldsToTry(cloth: Cloth, pieces: readonly PieceWanted[], rulerMark: Ticks): readonly Cloth[] {
  const asked = pieces.filter(({ onFold }) => onFold);
  if (asked.length === 0 || cloth.foldAt !== undefined) return [];
  const { kinds } = sortIntoKinds(asked, cloth);
  const across = kinds.map(({ kind }) => (kind.quarterTurn ? Math.min(kind.width, kind.length) : kind.width));
  const half = ceilTo(ticks(Math.ceil(Math.max(0, ...across) / 2)), rulerMark);
  const keptOff = [cloth, ...cloth.inHand].some(({ crease }) => crease.kind === 'keep-off');
  const { width, selvedge, crease } = cloth;
  // As much double cloth as there can be on one side of a kept-off crease.
  const beside = crease.kind === 'keep-off' ? Math.floor((width / 2 - crease.each - selvedge.left) / 2) : 0;
  const folds = [...new Set([half, Math.max(half, floorTo(ticks(beside), rulerMark))])];
  return [
    ...(keptOff ? [] : [{ ...cloth, lay: 'folded' as const }]),
    ...folds.map((over): Cloth => ({ ...cloth, lay: 'folded', foldAt: ticks(selvedge.left + over) })),
  ];
}

/** Whether a kind is held to places of the print, not only to the fold. */
export function isMatched({ lattice }: Kind): boolean {
  return lattice !== undefined && (lattice.y !== undefined || lattice.x?.period !== BEYOND);
}

/**
 * Between flat and wholly folded: folded over by whole columns of the piece that is wanted most, so that about half the width
 * lies double and what has no fellow is cut from the rest. Undefined where that would be no other lay, or where the print or
 * the plan binds pieces otherwise.
 */
export function partlyFolded(plan: Plan, cloth: Cloth, pieces: readonly PieceWanted[]): Cloth | undefined {
  if (plan.stages === 2 || cloth.foldAt !== undefined || cloth.oneSpread) return undefined;
  if (pieces.some(({ match, onFold, panel }) => match || onFold || panel)) return undefined;
  const { kinds } = sortIntoKinds(pieces, cloth);
  const most = kinds.reduce(
    (found, own) => (own.kind.copies > (found?.kind.copies ?? 1) ? own : found),
    kinds[0],
  );
  if (!most || most.kind.copies < 2 || kinds.reduce((total, { kind }) => total + kind.copies, 0) < 4)
    return undefined;
  const { width: column } = most.kind;
  const quarter = cloth.width / 4 - cloth.selvedge.left;
  const over = ceilTo(ticks(Math.max(1, Math.floor(quarter / column)) * column), plan.rulerMark);
  const foldAt = ticks(cloth.selvedge.left + over);
  return 2 * foldAt < cloth.width - 1 ? { ...cloth, lay: 'folded', foldAt } : undefined;
}
