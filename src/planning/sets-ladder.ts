import type { Cloth } from '../model/cloth.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions } from '../packing/instance.ts';
import { shortestLength } from '../packing/pack.ts';
import type { SheetTree } from '../packing/result.ts';
import { greatestCommonDivisor } from '../units/ticks.ts';
import { type Bed, bedOf, lengthToPack, sheetOf } from './bed.ts';
import { forLay, type PieceKind, sortIntoKinds } from './kinds.ts';

/** Copies of each piece of one cloth that make one complete set. */
export type OneSet = ReadonlyMap<PieceId, number>;

/** The smallest set whose whole multiples are what the plan wants of a cloth: its copies over their common divisor. */
export function oneSetOf(pieces: readonly PieceWanted[]): OneSet {
  const divisor = pieces.reduce((common, piece) => greatestCommonDivisor(common, piece.copies), 0);
  return new Map(pieces.map((piece) => [piece.id, piece.copies / divisor] as const));
}

/** So many sets on the least length found, and the proven length below which they cannot be cut. */
export interface SetsPacked {
  readonly sets: number;
  readonly length: number;
  readonly bound: number;
  readonly tree: SheetTree;
  readonly kinds: readonly PieceKind[];
}

/**
 * Answers how many complete sets a length holds, for rising lengths: each number of sets is packed once, on its
 * shortest length, and more sets never count as needing less. So the ladder never decreases.
 */
export class SetsLadder {
  readonly #packed: (SetsPacked | undefined)[] = [undefined];
  readonly #plan: Plan;
  readonly #cloth: Cloth;
  readonly #pieces: readonly PieceWanted[];
  readonly #set: OneSet;
  readonly #options: PackOptions;
  readonly bed: Bed;

  constructor(given: {
    readonly plan: Plan;
    readonly cloth: Cloth;
    readonly bed: Bed;
    readonly pieces: readonly PieceWanted[];
    readonly set: OneSet;
    readonly options: PackOptions;
  }) {
    this.#plan = given.plan;
    this.#cloth = given.cloth;
    this.#pieces = given.pieces;
    this.#set = given.set;
    this.#options = given.options;
    this.bed = given.bed;
  }

  /** A ladder on the length still to be bought; undefined where none of it is usable. */
  static of(given: Omit<ConstructorParameters<typeof SetsLadder>[0], 'bed'>): SetsLadder | undefined {
    const bed = bedOf(given.cloth, given.plan.rulerMark);
    return bed && new SetsLadder({ ...given, bed });
  }

  /** The packing of so many sets, at least 1; undefined where no length of the bed holds them. */
  packed(sets: number): SetsPacked | undefined {
    for (let next = this.#packed.length; next <= sets; next++) this.#packed.push(this.#pack(next));
    return this.#packed[sets];
  }

  /** Most sets found for a length that can be packed, and the most that is not proven impossible. */
  on(length: number): { readonly sets: number; readonly atMost: number } {
    let sets = 0;
    while (this.#fits(sets + 1, length, 'length')) sets++;
    let atMost = sets;
    while (this.#fits(atMost + 1, length, 'bound')) atMost++;
    return { sets, atMost };
  }

  #fits(sets: number, length: number, by: 'length' | 'bound'): boolean {
    const packed = this.packed(sets);
    return packed !== undefined && packed[by] <= length;
  }

  #pack(sets: number): SetsPacked | undefined {
    const wanted = this.#pieces.map((piece) => ({ ...piece, copies: sets * (this.#set.get(piece.id) ?? 0) }));
    const { kinds } = sortIntoKinds(wanted, this.#cloth);
    const asked = kinds.map(({ kind }) => forLay(kind, this.#cloth));
    const sheet = sheetOf(this.bed, lengthToPack(this.bed));
    const result = shortestLength({ sheet, kinds: asked }, { ...this.#options, stages: this.#plan.stages });
    if (result.status !== 'best' && result.status !== 'found') return undefined;
    const before = this.#packed[sets - 1];
    return {
      sets,
      length: Math.max(result.value, before?.length ?? 0),
      bound: Math.max(result.bound, before?.bound ?? 0),
      tree: result.sheets[0]!.tree,
      kinds,
    };
  }
}
