import { beforeWashing, lossBeforeCutting } from '../cloth/washing.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, LengthPlan, Purchase } from '../model/cut-plan.ts';
import type { PieceId } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { inOnePly, type LaidKind } from './fold-kinds.ts';
import type { Copy, PieceKind } from './kinds.ts';
import { openOut } from './open-out.ts';
import type { PackedBed, PackedBeds } from './pack-beds.ts';
import { buyFor, purchaseOf } from './purchase.ts';

export type Packed = Extract<PackedBeds, { ok: true }>;

/** One cloth from what was packed for it; `proof` is the packing with the least restricted bound. */
export function clothPlan(
  plan: Plan,
  cloth: Cloth,
  kinds: readonly PieceKind[],
  packed: Packed,
  proof: Packed,
  laid: readonly LaidKind[] = inOnePly(kinds),
): ClothPlan {
  const dealer = dealerOf(kinds, laid);
  const beds = begunWhereTheyMust(packed.beds);
  const bought = new Map(beds.map((own) => [own, boughtFor(cloth, own)] as const));
  const lengths = beds.map((own): LengthPlan => {
    const length = bought.get(own)?.onTable ?? ticks(own.bed.length);
    return {
      name: own.name,
      source: own.bed.source,
      width: own.bed.width,
      length,
      lay: own.bed.lay,
      ...(cloth.oneSpread && { oneSpread: cloth.oneSpread }),
      ...(own.bed.begins && { begins: own.bed.begins }),
      tree: openOut(own.bed, own, length, dealer, plan.keep),
    };
  });
  const counters = [...bought.values()].filter((own) => own !== undefined);
  const purchase = counters.length > 0 ? purchaseOf(cloth, counters) : undefined;
  return {
    cloth: cloth.name,
    lengths,
    ...(purchase && { purchase }),
    surplus: dealer.surplus(),
    answer: isProven(cloth, packed, proof, purchase) ? 'best' : 'found',
    ...(purchase && proof.bound !== undefined && { bound: boundOf(cloth, leastBound(packed, proof)) }),
  };
}

/** A length that is cut alone, and whose pieces are only to be like each other, may begin anywhere in its print. */
function begunWhereTheyMust(beds: readonly PackedBed[]): readonly PackedBed[] {
  const [only, second] = beds;
  if (!only?.bed.alike || second) return beds;
  const { begins: _, ...bed } = only.bed;
  return [{ ...only, bed }];
}

/** Bought: no plan needs fewer steps than the bound does. In hand: the packer has proven that none opens less. */
function isProven(cloth: Cloth, packed: Packed, proof: Packed, purchase: Purchase | undefined): boolean {
  if (packed.weighed) return false;
  if (!purchase) return proof.proven && opensTheSame(packed, proof);
  return proof.bound !== undefined && buyFor(cloth, Math.ceil(proof.bound)).bought === purchase.bought;
}

/** Cut otherwise, from the same lengths in hand. */
function opensTheSame(packed: Packed, proof: Packed): boolean {
  const opened = new Set(proof.beds.map(({ bed }) => bed.name));
  return packed.beds.length === opened.size && packed.beds.every(({ bed }) => opened.has(bed.name));
}

function boughtFor(cloth: Cloth, own: PackedBed) {
  return own.bed.source === 'bought' ? buyFor(cloth, own.length) : undefined;
}

/** What is proven of one length says nothing of several, each of which begins anew. */
function leastBound(packed: Packed, proof: Packed): number {
  const bought = packed.beds.filter(({ bed }) => bed.source === 'bought');
  return bought.length > 1 ? Math.min(proof.bound!, packed.bound ?? 0) : proof.bound!;
}

function boundOf(cloth: Cloth, packedBound: number): Ticks {
  return beforeWashing(
    ticks(Math.ceil(packedBound) + 2 * cloth.squaring + (cloth.startReserve ?? 0)),
    lossBeforeCutting(cloth).along,
  );
}

/** Deals the copies of each kind in turn; when they run out (a folded spare), the last piece again, noted as surplus. */
function dealerOf(kinds: readonly PieceKind[], laid: readonly LaidKind[]) {
  const dealt = kinds.map(() => 0);
  const spare = new Map<PieceId, number>();
  const nextOf = (kind: number): Copy => {
    const { copies } = kinds[kind]!;
    const index = dealt[kind]!;
    dealt[kind] = index + 1;
    if (index < copies.length) return copies[index]!;
    const last = copies.at(-1)!;
    spare.set(last.piece, (spare.get(last.piece) ?? 0) + 1);
    return last;
  };
  return {
    next(kind: number): Copy {
      const { of, turned } = laid[kind]!;
      const copy = nextOf(of);
      return turned ? { ...copy, turns: copy.whenTurned ?? 1 } : copy;
    },
    plies: (kind: number) => laid[kind]!.plies,
    surplus: () => [...spare].map(([piece, copies]) => ({ piece, copies })),
  };
}
