import type { Cloth } from '../model/cloth.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { greatestCommonDivisor } from '../units/ticks.ts';
import { alignPrint, withStartReserve } from './align-print.ts';
import type { Bed } from './bed.ts';
import { type Beds, bedsOf } from './beds.ts';
import { type PieceKind, sortIntoKinds } from './kinds.ts';
import type { LaidSets } from './left-of-sets.ts';
import type { PackedBed } from './pack-beds.ts';
import { foldedAsAsked, packLaid } from './pack-laid.ts';
import { packPanelled } from './panels/pack-panelled.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { panelsAsked, panelTrouble } from './panels/panel-trouble.ts';
import { panelledCloth } from './panels/panelled-cloth.ts';
import { type PrintPhase, printStarts } from './print-phase.ts';

/** Copies of each piece of one cloth that make one complete set. */
export type OneSet = ReadonlyMap<PieceId, number>;

/** The smallest set whose whole multiples are what the plan wants of a cloth: its copies over their common divisor. */
export function oneSetOf(pieces: readonly PieceWanted[]): OneSet {
  const divisor = pieces.reduce((common, piece) => greatestCommonDivisor(common, piece.copies), 0);
  return new Map(pieces.map((piece) => [piece.id, piece.copies / divisor] as const));
}

/** So many sets on the lengths in hand and the least length to buy that was found, and what any plan of them must buy. */
export interface SetsPacked {
  readonly sets: number;
  /** Packed on what is bought; 0 where the lengths in hand hold them. */
  readonly length: number;
  readonly bound: number;
  readonly beds: readonly PackedBed[];
  readonly kinds: readonly PieceKind[];
}

interface Given {
  readonly plan: Plan;
  readonly cloth: Cloth;
  readonly pieces: readonly PieceWanted[];
  readonly set: OneSet;
  readonly options: PackOptions;
}

/**
 * Answers how many complete sets a bought length holds together with the lengths in hand, for rising lengths: each number of
 * sets is packed once, on the least to buy, and more sets never count as needing less. So the ladder never decreases.
 */
export class SetsLadder {
  readonly #packed: (SetsPacked | undefined)[] = [undefined];
  readonly #given: Given;
  readonly #beds: Beds;
  readonly #phase: PrintPhase | undefined;
  /** Layouts of so many sets, kept once they are made; undefined where none was found. */
  readonly laid = new Map<number, LaidSets | undefined>();
  /** As it was given. */
  readonly given: Cloth;
  /** With the reserve for a print whose start is not known. */
  readonly cloth: Cloth;
  /** What is still to be bought. */
  readonly bed: Bed;

  private constructor(given: Given, cloth: Cloth, bed: Bed, { beds, phase }: ReturnType<typeof alignPrint>) {
    this.#given = given;
    this.given = given.cloth;
    this.#beds = beds;
    this.#phase = phase;
    this.cloth = cloth;
    this.bed = bed;
  }

  /** Undefined where the cloth is not bought, none of a bought length is usable, or the panels asked for cannot be had. */
  static of(given: Given): SetsLadder | undefined {
    const { plan, pieces } = given;
    const printed = panelledCloth(withStartReserve(given.cloth, pieces), pieces);
    if (isPanelled(printed, pieces)) {
      const { beds, phase } = alignPrint(bedsOf(plan, printed), printed, pieces);
      const { kinds } = sortIntoKinds(pieces, printed, phase);
      if (panelTrouble(printed, beds, panelsAsked(pieces, kinds, printed), pieces).length > 0)
        return undefined;
      return beds.toBuy && new SetsLadder(given, printed, beds.toBuy, { beds, ...(phase && { phase }) });
    }
    const cloth = foldedAsAsked(plan, printed, pieces);
    const ladderAt = (start?: number) => {
      const aligned = alignPrint(bedsOf(plan, cloth), cloth, pieces, start === undefined ? {} : { start });
      const { toBuy } = aligned.beds;
      return toBuy && new SetsLadder(given, cloth, toBuy, aligned);
    };
    const { motifs } = printStarts(pieces, cloth);
    if (motifs.length < 2 || cloth.inHand.length > 0) return ladderAt();
    // Begun in its print as one set takes least.
    return motifs
      .flatMap((start) => ladderAt(start) ?? [])
      .reduce<SetsLadder | undefined>(
        (best, own) => (best && !own.isShorterThan(best) ? best : own),
        undefined,
      );
  }

  private isShorterThan(other: SetsLadder): boolean {
    const [own, best] = [this.packed(1), other.packed(1)];
    return own !== undefined && (best === undefined || own.length < best.length);
  }

  /** The packing of so many sets, at least 1; undefined where no single length to buy holds them. */
  packed(sets: number): SetsPacked | undefined {
    for (let next = this.#packed.length; next <= sets; next++) {
      // What does not fit is not looked for again with one set more.
      const lost = next > 1 && this.#packed[next - 1] === undefined;
      this.#packed.push(lost ? undefined : this.#pack(next));
    }
    return this.#packed[sets];
  }

  /** Most sets found for a length that can be packed on what is bought, and the most that is not proven impossible. */
  on(length: number): { readonly sets: number; readonly atMost: number } {
    let sets = 0;
    while (this.#fits(sets + 1, length, 'length')) sets++;
    let atMost = sets;
    while (this.#fits(atMost + 1, length, 'bound')) atMost++;
    return { sets, atMost };
  }

  /** Sets that the lengths in hand hold by themselves. */
  setsInHand(): number {
    return this.#beds.inHand.length === 0 ? 0 : this.on(0).sets;
  }

  #fits(sets: number, length: number, by: 'length' | 'bound'): boolean {
    const packed = this.packed(sets);
    return packed !== undefined && packed[by] <= length;
  }

  #pack(sets: number): SetsPacked | undefined {
    const { plan, pieces, set, options } = this.#given;
    const wanted = pieces.flatMap((piece) => {
      const copies = sets * (set.get(piece.id) ?? 0);
      return copies > 0 ? [{ ...piece, copies }] : [];
    });
    const { kinds } = sortIntoKinds(wanted, this.cloth, this.#phase);
    const pack = { ...options, stages: plan.stages };
    const packed = isPanelled(this.cloth, pieces)
      ? packPanelled(
          this.cloth,
          this.#beds,
          kinds.map(({ kind }) => kind),
          panelsAsked(wanted, kinds, this.cloth),
          plan,
          pack,
        )
      : packLaid(this.cloth, this.#beds, kinds, pack);
    if (!packed.ok) return undefined;
    const bought = packed.beds.filter(({ bed }) => bed.source === 'bought');
    if (bought.length > 1) return undefined;
    const before = this.#packed[sets - 1];
    return {
      sets,
      length: Math.max(bought[0]?.length ?? 0, before?.length ?? 0),
      bound: Math.max(bought.length === 0 ? 0 : (packed.bound ?? 0), before?.bound ?? 0),
      beds: packed.beds,
      kinds,
    };
  }
}
