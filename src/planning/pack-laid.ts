import type { Cloth } from '../model/cloth.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import type { SheetTree } from '../packing/result.ts';
import { lengthToPack } from './bed.ts';
import { type Beds, bedsOf } from './beds.ts';
import {
  foldIsUsable,
  foldsToTry,
  type LaidKind,
  laidKinds,
  type OddCopies,
  oddMayLieOnFold,
} from './fold-kinds.ts';
import { type PieceKind, sortIntoKinds } from './kinds.ts';
import { packAside } from './pack-aside.ts';
import { type PackedBeds, packAll } from './pack-beds.ts';

/**
 * All kinds on the beds of one cloth as it is laid, flat or folded, in whichever way buys least: odd copies of a folded lay spare
 * or across the fold. Leaves of the trees name the kinds given. Not for cloths with panels.
 */
export function packLaid(
  cloth: Cloth,
  beds: Beds,
  kinds: readonly PieceKind[],
  pack: PackOptions,
): PackedBeds {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const odds: readonly OddCopies[] = oddMayLieOnFold(kinds, cloth, all) ? ['spare', 'on-fold'] : ['spare'];
  const isAside = all.some(({ beside }) => beside);
  let best: PackedBeds = { ok: false, leftOut: kinds.map((_, kind) => kind) };
  for (const odd of odds) {
    const laid = laidKinds(kinds, cloth, all, odd);
    if (!laid || (isAside && pack.stages === 2)) continue;
    const found = isAside
      ? packAside(cloth, beds, laid, pack)
      : packAll(
          cloth,
          beds,
          laid.map(({ kind }) => kind),
          pack,
        );
    const packed = asPieces(found, laid);
    if (!best.ok || (packed.ok && boughtOf(packed) < boughtOf(best))) best = packed;
  }
  return best.ok && foldIsUsable(all) && !isAside ? withAreaBound(best, beds, kinds) : best;
}

/** Nodes for a first look at each way to fold. */
const FIRST_LOOK = 2000;

/** The cloth, folded for pieces that are asked for on a fold where it does not lie so already, as buys least at a first look. */
export function foldedAsAsked(plan: Plan, cloth: Cloth, pieces: readonly PieceWanted[]): Cloth {
  const pack = { effort: FIRST_LOOK, seed: 1, stages: plan.stages };
  const tried = foldsToTry(cloth, pieces, plan.rulerMark).flatMap((folded) => {
    const packed = packLaid(folded, bedsOf(plan, folded), sortIntoKinds(pieces, folded).kinds, pack);
    return packed.ok ? [{ folded, bought: boughtOf(packed) }] : [];
  });
  const least = Math.min(...tried.map(({ bought }) => bought));
  return tried.find(({ bought }) => bought === least)?.folded ?? cloth;
}

function asPieces(packed: PackedBeds, laid: readonly LaidKind[]): PackedBeds {
  if (!packed.ok) return { ...packed, leftOut: packed.leftOut.map((kind) => laid[kind]!.of) };
  const named = (tree: SheetTree): SheetTree => {
    if (tree.kind === 'piece') return { ...tree, piece: laid[tree.piece]!.of };
    return tree.kind === 'cut' ? { ...tree, parts: tree.parts.map(named) } : tree;
  };
  return {
    ...packed,
    beds: packed.beds.map((own) => ({
      ...own,
      tree: named(own.tree),
      ...(own.beside && { beside: named(own.beside) }),
    })),
  };
}

function boughtOf({ beds }: Extract<PackedBeds, { ok: true }>): number {
  return beds.reduce((total, own) => total + (own.bed.source === 'bought' ? own.length : 0), 0);
}

/** Where pieces may lie across the fold, any number of each may lie there: only area bounds all such lays. */
export function withAreaBound(
  packed: Extract<PackedBeds, { ok: true }>,
  { inHand, toBuy }: Beds,
  kinds: readonly PieceKind[],
): Extract<PackedBeds, { ok: true }> {
  if (packed.bound === undefined || !toBuy) return { ...packed, proven: false };
  const area = kinds.reduce((total, { kind }) => total + kind.width * kind.length * kind.copies, 0);
  const held = inHand.reduce((total, bed) => total + bed.usable * lengthToPack(bed), 0);
  return { ...packed, bound: Math.max(0, Math.ceil((area - held) / toBuy.usable)) };
}
