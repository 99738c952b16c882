import { expandMakes } from '../../makes/expand.ts';
import { leavesOpening } from '../../makes/openings.ts';
import type { Cloth, ClothName } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { Kind, PackOptions } from '../../packing/instance.ts';
import { fewestSheets, mostFromSheet } from '../../packing/pack.ts';
import { alignPrint, withStartReserve } from '../align-print.ts';
import { type Bed, lengthToPack, sheetOf } from '../bed.ts';
import { bedsOf } from '../beds.ts';
import { leavesClothOpen } from '../collection/wanted.ts';
import { sortIntoKinds } from '../kinds.ts';
import { layOutCloth } from '../lay-out.ts';
import { tooLarge } from '../lay-out-faults.ts';
import { question } from '../pack-beds.ts';
import { isPanelled } from '../panels/panel-rooms.ts';
import { makeCutPlan } from '../plan.ts';

/** `open`: no plan was found, and none is proven impossible. */
export type Verdict = 'fits' | 'impossible' | 'open';

export interface JudgeOptions {
  readonly effort: number;
  readonly seed: number;
  readonly stop?: () => boolean;
}

/** Whether cloths can be judged one by one: not where which cloth, or which opening, is left to the plan. */
export function canBeParted(plan: Plan): boolean {
  return !leavesClothOpen(plan) && !plan.sets && !plan.makes.some(leavesOpening);
}

/**
 * Says quickly whether a changed plan still fits the cloths that were short. What the packer proves is remembered by
 * what it was asked, so that the same pieces on the same cloth are packed once.
 */
export class Judge {
  readonly #short: ReadonlySet<ClothName>;
  readonly #options: JudgeOptions;
  readonly #known: Map<string, Verdict>;

  constructor(short: ReadonlySet<ClothName>, options: JudgeOptions, known = new Map<string, Verdict>()) {
    this.#short = short;
    this.#options = options;
    this.#known = known;
  }

  /** One that looks at some of the cloths alone, and shares what is known. */
  only(cloths: ReadonlySet<ClothName>): Judge {
    return new Judge(cloths, this.#options, this.#known);
  }

  of(plan: Plan): Verdict {
    // Nothing left to sew is no answer to anything.
    if (plan.makes.length + plan.pieces.length === 0) return 'impossible';
    if (!canBeParted(plan)) return this.#bySearch(plan);
    const { pieces, issues } = expandMakes(plan);
    if (issues.some(({ severity }) => severity === 'error')) return 'impossible';
    let verdict: Verdict = 'fits';
    for (const cloth of plan.cloths) {
      if (!this.#short.has(cloth.name)) continue;
      const own = this.#onCloth(
        plan,
        cloth,
        pieces.filter((piece) => piece.cloth === cloth.name),
      );
      if (own === 'impossible') return own;
      if (own === 'open') verdict = own;
    }
    return verdict;
  }

  /** The whole pipeline, for what only it decides: then nothing is ever proven impossible. */
  #bySearch(plan: Plan): Verdict {
    const { effort, seed, stop } = this.#options;
    return makeCutPlan(plan, { effort, seed, ...(stop && { stop }) }).ok ? 'fits' : 'open';
  }

  #onCloth(plan: Plan, given: Cloth, pieces: readonly PieceWanted[]): Verdict {
    if (pieces.length === 0) return 'fits';
    const { seed, stop, effort } = this.#options;
    const pack: PackOptions = { effort, seed, stages: plan.stages, ...(stop && { stop }) };
    const key = JSON.stringify([
      given.name,
      given.buy,
      pieces.map(({ id, size, copies, join }) => [id, size, copies, join]),
    ]);
    const known = this.#known.get(key);
    if (known) return known;
    const joinable = pieces.some(({ join }) => join !== undefined);
    let verdict = isPanelled(given, pieces) ? 'open' : laidFlat(plan, given, pieces, pack);
    if (verdict === 'impossible' && joinable) verdict = 'open';
    // What fits flat may not fit folded; what cannot be cut flat cannot be cut folded either, which opens out into flat.
    const folded = given.lay === 'folded' || pieces.some(({ onFold }) => onFold);
    if (verdict === 'open' || (verdict === 'fits' && folded))
      verdict = layOutCloth(plan, given, pieces, { pack }).ok ? 'fits' : 'open';
    this.#known.set(key, verdict);
    return verdict;
  }
}

/** Whether a cloth laid flat holds whole pieces; `open` where more of it can be bought, since then only its width counts. */
function laidFlat(plan: Plan, given: Cloth, wanted: readonly PieceWanted[], pack: PackOptions): Verdict {
  const pieces = wanted.map(({ onFold: _, ...piece }) => piece);
  const { foldAt: __, ...unfolded } = given;
  const cloth = withStartReserve({ ...unfolded, lay: 'flat' }, pieces);
  const { beds, phase } = alignPrint(bedsOf(plan, cloth), cloth, pieces);
  const { kinds, issues } = sortIntoKinds(pieces, cloth, phase);
  if ([...issues, ...tooLarge(kinds, beds, cloth, plan.rulerMark)].length > 0) return 'impossible';
  if (beds.toBuy) return 'open';
  const inHand = beds.inHand.filter((bed) => lengthToPack(bed) > 0);
  return holdAll(
    inHand,
    kinds.map(({ kind }) => kind),
    pack,
  );
}

/** Whether lengths in hand hold all copies. Of a single length the packer is asked for complete sets, which it may refute. */
function holdAll(beds: readonly Bed[], kinds: readonly Kind[], pack: PackOptions): Verdict {
  const { status } = fewestSheets(question(beds, kinds), pack);
  if (status === 'best' || status === 'found') return 'fits';
  if (status === 'impossible') return status;
  const [bed, second] = beds;
  if (!bed || second) return 'open';
  const set = kinds.map(({ copies }) => copies);
  const most = mostFromSheet({ sheet: sheetOf(bed), kinds, set }, pack);
  return 'bound' in most && most.bound < 1 ? 'impossible' : 'open';
}
