import { lossBeforeCutting } from '../../cloth/washing.ts';
import type { Cloth } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { paretoPairs } from '../../packing/guillotine/pareto.ts';
import type { Kind, PackOptions } from '../../packing/instance.ts';
import { shortestLength } from '../../packing/pack.ts';
import { ticks } from '../../units/ticks.ts';
import { lengthToPack, sheetOf } from '../bed.ts';
import { type Beds, bedsOf } from '../beds.ts';
import { roomsOf } from '../choose-joins.ts';
import { forLay, type PieceKind, sortIntoKinds } from '../kinds.ts';
import { type PackedBeds, packAll } from '../pack-beds.ts';
import { packLaid } from '../pack-laid.ts';
import { joinings } from '../piecing.ts';
import { buyFor, costOf } from '../purchase.ts';
import { ClothLines, fitsSome, type LengthLine, lengthByLines, waysOf } from './cloth-lines.ts';
import type { Counts, Sort } from './shares.ts';

/** What is counted as the cost of a choice: money in hundredths, or ticks bought. */
export type Measure = 'money' | 'length';

/** Up to so many pairs of sub-multisets the packer answers exactly, at so many of them a node. */
const EXACT_PAIRS = 4_000_000;
const PAIRS_PER_NODE = 8;
/** So many times its share may an exact answer take. */
const EXACT_SHARES = 20;

/** Steps of the shop that a cloth needs for some counts. */
export interface StepsNeeded {
  /** Of the best packing found; undefined where none was. */
  readonly found: number | undefined;
  /** No packing needs fewer. Infinity where none exists. */
  readonly proven: number;
}

/** How many of the shop's steps one cloth needs for given pieces, found and proven, each asked of the packer once. */
export class ClothCost {
  readonly cloth: Cloth;
  /** Cost of one step, not rounded. */
  readonly perStep: number;
  /** Packings asked for so far. */
  asked = 0;
  readonly #plan: Plan;
  readonly #lines: ClothLines;
  readonly #sorts: readonly Sort[];
  readonly #beds: Beds;
  readonly #measure: Measure;
  readonly #cut: readonly boolean[];
  #onBolt: ClothCost | undefined;
  readonly #proofs: { readonly counts: Counts; readonly steps: number }[] = [];
  #known = new Map<string, StepsNeeded>();
  #least: { readonly counts: Counts; readonly steps: number; readonly onBolt: number } | undefined;

  constructor(plan: Plan, cloth: Cloth, sorts: readonly Sort[], cut: readonly boolean[], measure: Measure) {
    this.cloth = cloth;
    this.#plan = plan;
    this.#sorts = sorts;
    // A length in hand costs nothing here; whether it is better left whole is weighed when the cloth is laid out.
    const inHand = cloth.inHand.map(({ worth: _, ...length }) => length);
    this.#beds = bedsOf(plan, { ...cloth, inHand });
    this.#measure = measure;
    this.#cut = cut;
    this.#lines = new ClothLines(sorts, cloth, this.#beds, { rulerMark: plan.rulerMark, cut });
    this.perStep = this.canBuy ? exactCost(cloth, measure) : 0;
  }

  /**
   * What the packer does not see: these counts, and more, take so much length beside what is in hand, or on the bolt alone,
   * whatever the packing.
   */
  takesAtLeast(counts: Counts, length: number, onBolt: number): void {
    this.#least = { counts, steps: this.#stepsFor(length), onBolt };
    this.#proofs.push(this.#least);
    this.#known = new Map();
  }

  get lines(): readonly LengthLine[] {
    return this.#lines.lines;
  }

  /** A line that says more of these counts than any before, if there is one. */
  tailoredLine(counts: readonly number[]): LengthLine | undefined {
    return this.#lines.tailored(counts);
  }

  get canBuy(): boolean {
    return this.#beds.toBuy !== undefined && this.cloth.buy !== undefined;
  }

  costOfSteps(steps: number): number {
    if (steps === 0 || !this.canBuy) return 0;
    const bought = ticks(steps * this.cloth.buy!.step);
    return this.#measure === 'money' ? costOf(this.cloth.price!, bought) : bought;
  }

  /** No packing of these counts, or of more, needs fewer steps than this: by the lines and by all packings asked for. */
  provenSteps(counts: Counts): number {
    let proven = this.#stepsFor(lengthByLines(this.lines, counts));
    for (const proof of this.#proofs) {
      if (proof.steps > proven && proof.counts.every((copies, sort) => copies <= counts[sort]!))
        proven = proof.steps;
    }
    return proven;
  }

  /** Length that one more step gives to pack, at most; washing takes its part. Without a shop any number does. */
  packedPerStep(): number {
    if (!this.canBuy) return 1;
    const { numerator, denominator } = lossBeforeCutting(this.cloth).along;
    return (this.cloth.buy!.step * (denominator - numerator)) / denominator;
  }

  /** Steps that do for a single copy of a sort on a bought length of its own. */
  stepsAlone(sort: number, pack: PackOptions): number {
    const counts = this.#sorts.map((_, index) => (index === sort ? 1 : 0));
    const { size, join } = this.#sorts[sort]!;
    // A piece that must be joined is never in more parts than joins allow, each no longer than the piece is either way.
    const parts = (join?.mostJoins ?? 0) + 1;
    return (
      this.stepsOnBolt(counts, pack) ?? parts * parts * this.#stepsFor(Math.max(size.width, size.length))
    );
  }

  /** Steps that surely do for these counts on the bolt alone, whatever is in hand; undefined where none were found. */
  stepsOnBolt(counts: Counts, pack: PackOptions): number | undefined {
    if (!this.canBuy) return undefined;
    if (this.#beds.inHand.length === 0) return this.steps(counts, pack).found;
    const isNew = this.#onBolt === undefined;
    this.#onBolt ??= new ClothCost(
      this.#plan,
      { ...this.cloth, inHand: [] },
      this.#sorts,
      this.#cut,
      this.#measure,
    );
    if (isNew && this.#least)
      this.#onBolt.takesAtLeast(this.#least.counts, this.#least.onBolt, this.#least.onBolt);
    return this.#onBolt.steps(counts, pack).found;
  }

  /** Packs these counts, unless that was done before. */
  steps(counts: Counts, pack: PackOptions): StepsNeeded {
    const key = counts.join();
    const known = this.#known.get(key);
    if (known) return known;
    if (counts.some((copies) => copies > 0)) this.tailoredLine(counts);
    const asked = counts.every((copies) => copies === 0) ? { found: 0, proven: 0 } : this.#pack(counts, pack);
    const proven = Math.max(asked.proven, this.provenSteps(counts));
    const found = asked.found === undefined ? undefined : Math.max(asked.found, this.#leastOf(counts));
    const needed = { found, proven: Math.min(proven, found ?? proven) };
    this.#known.set(key, needed);
    this.#proofs.push({ counts, steps: needed.proven });
    return needed;
  }

  #leastOf(counts: Counts): number {
    const least = this.#least;
    if (!least) return 0;
    return least.counts.every((copies, sort) => copies <= counts[sort]!) ? least.steps : 0;
  }

  #pack(counts: Counts, pack: PackOptions): StepsNeeded {
    this.asked += 1;
    const { cloth } = this;
    const plan = this.#plan;
    const pieces = counts.flatMap((copies, sort) =>
      copies > 0 ? [pieceOf(this.#sorts[sort]!, sort, cloth, copies)] : [],
    );
    const toCut = pieces.flatMap((piece) => this.#inParts(piece));
    const { kinds } = sortIntoKinds(toCut, cloth);
    const asked = kinds.map(({ kind }) => forLay(kind, cloth));
    const options = { ...pack, effort: this.#effortFor(asked, pack.effort), stages: plan.stages };
    const needed = cloth.lay === 'folded' ? this.#packLaid(kinds, options) : this.#packKinds(asked, options);
    // What is proven of these parts says nothing of other ways to join.
    return toCut.length === pieces.length && toCut.every((piece, index) => piece === pieces[index])
      ? needed
      : { ...needed, proven: 0 };
  }

  #packKinds(kinds: readonly Kind[], options: PackOptions): StepsNeeded {
    const { toBuy, inHand } = this.#beds;
    if (toBuy && inHand.length === 0) {
      const result = shortestLength({ sheet: sheetOf(toBuy, lengthToPack(toBuy)), kinds }, options);
      if (result.status === 'best' || result.status === 'found')
        return { found: this.#stepsFor(result.value), proven: this.#stepsFor(result.bound) };
    }
    return this.#stepsOf(packAll(this.cloth, this.#beds, kinds, options));
  }

  /** A folded cloth may hold odd copies across its fold. */
  #packLaid(kinds: readonly PieceKind[], options: PackOptions): StepsNeeded {
    return this.#stepsOf(packLaid(this.cloth, this.#beds, kinds, options));
  }

  #stepsOf(packed: PackedBeds): StepsNeeded {
    if (!packed.ok) return { found: undefined, proven: 0 };
    const lengths = packed.beds.filter((own) => own.bed.source === 'bought').map((own) => own.length);
    return {
      found: lengths.reduce((total, length) => total + this.#stepsFor(length), 0),
      proven: lengths.length > 0 && packed.bound !== undefined ? this.#stepsFor(packed.bound) : 0,
    };
  }

  /** A piece that no bed holds whole, in the fewest parts that its rule allows; laying out may find better ones. */
  #inParts(piece: PieceWanted): readonly PieceWanted[] {
    if (fitsSome(waysOf(piece, this.cloth), this.#beds)) return [piece];
    const [first] = joinings(piece, this.cloth, roomsOf(this.#beds), this.#plan.rulerMark);
    return first?.parts ?? [piece];
  }

  /** Where the packer can be exact it is let be, for that is soon done; else it gets its share. */
  #effortFor(kinds: readonly Kind[], share: number): number {
    const pairs = paretoPairs(kinds.map((kind) => ({ ...kind, turnable: kind.quarterTurn })));
    const exact = Math.ceil(pairs / PAIRS_PER_NODE);
    return pairs <= EXACT_PAIRS && exact <= EXACT_SHARES * share ? share + exact : share;
  }

  /** Steps of a length that is packed; without a shop, any length at all is more than there is. */
  #stepsFor(packed: number): number {
    if (packed <= 0) return 0;
    if (!this.canBuy) return Number.POSITIVE_INFINITY;
    return Math.round(buyFor(this.cloth, Math.ceil(packed)).bought / this.cloth.buy!.step);
  }
}

function exactCost(cloth: Cloth, measure: Measure): number {
  const { step } = cloth.buy!;
  return measure === 'money' ? (cloth.price!.hundredths * step) / cloth.price!.per : step;
}

function pieceOf(sort: Sort, index: number, cloth: Cloth, copies: number): PieceWanted {
  const { size, grain, join } = sort;
  const id = `sort ${index}`;
  const { width, length } = size;
  const finished = { x0: ticks(0), y0: ticks(0), x1: width, y1: length };
  const common = { letter: '', name: id, order: id, exactSize: size, finished, lines: [] };
  return { ...common, id, cloth: cloth.name, size, grain, copies, ...(join && { join }) };
}
