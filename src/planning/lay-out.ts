import { beforeWashing, lossBeforeCutting } from '../cloth/washing.ts';
import { isSimpleOutline } from '../geometry/outline.ts';
import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan, LengthPlan, Purchase } from '../model/cut-plan.ts';
import type { Issue, Outcome } from '../model/issue.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions, Stages } from '../packing/instance.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { alignPrint, withStartReserve } from './align-print.ts';
import { type Bed, fits, lengthToPack, widestPart } from './bed.ts';
import { type Beds, bedsOf } from './beds.ts';
import { better, type Wishes, wishesOf } from './choose.ts';
import { chooseJoins, type PiecesToCut } from './choose-joins.ts';
import {
  fitsAcrossFold,
  foldIsUsable,
  foldsToTry,
  inOnePly,
  type LaidKind,
  laidKinds,
  notOnFold,
  type OddCopies,
  oddMayLieOnFold,
} from './fold-kinds.ts';
import { type Copy, type PieceKind, sortIntoKinds } from './kinds.ts';
import { openOut } from './open-out.ts';
import { packAside } from './pack-aside.ts';
import { type PackedBed, type PackedBeds, packBeds } from './pack-beds.ts';
import { packPanelled } from './panels/pack-panelled.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { panelsAsked, panelTrouble } from './panels/panel-trouble.ts';
import { panelledCloth } from './panels/panelled-cloth.ts';
import { buyFor, purchaseOf } from './purchase.ts';
import { inSections } from './sections.ts';
import { waysToLay } from './ways.ts';

export type Packed = Extract<PackedBeds, { ok: true }>;

export interface LayOutOptions {
  readonly pack: PackOptions;
}

export interface LaidOut extends PiecesToCut {
  readonly plan: ClothPlan;
}

/** Share of the effort for a first look at each way of joining, or of closing a cover. */
export const LOOK = 20;

/**
 * Plans one cloth: which pieces to join, which lengths in hand to open, how much to buy, and where every cut goes.
 * Lengths in hand are used before anything is bought, unless using them is worth more than buying costs; what is bought is the least number of the shop's steps found.
 */
export function layOutCloth(
  plan: Plan,
  given: Cloth,
  pieces: readonly PieceWanted[],
  options: LayOutOptions,
): Outcome<LaidOut> {
  const crossing = crossingOutlines(given);
  if (crossing.length > 0) return { ok: false, issues: crossing };
  let cloth = panelledCloth(withStartReserve(given, pieces), pieces);
  let beds = bedsOf(plan, cloth);
  const look = { ...options.pack, effort: Math.ceil(options.pack.effort / LOOK) };
  const toCut = chooseJoins(plan, cloth, pieces, beds, (tried) => {
    const outcome = layOutPieces(
      { ...plan, stages: plan.stages === 'any' ? 3 : plan.stages },
      cloth,
      beds,
      tried,
      look,
    );
    return outcome.ok ? outcome.value.best : undefined;
  });
  cloth = foldedFor(plan, cloth, toCut.pieces, look);
  beds = bedsOf(plan, cloth);
  const outcome = layOutPieces(plan, cloth, beds, toCut.pieces, options.pack);
  if (outcome.ok) {
    const otherLay = laidOtherwise(cloth);
    const unfolded = toCut.pieces.map(({ onFold: _, ...piece }) => piece);
    const other = layOutPieces(plan, otherLay, bedsOf(plan, otherLay), unfolded, look);
    // A folded lay opens out into a flat one, so what is proven of all flat ones holds for it.
    const flatBound = cloth.lay === 'folded' && other.ok ? other.value.best.bound : undefined;
    const best = withBound(cloth, outcome.value.best, flatBound);
    const tried = [...outcome.value.tried, ...(other.ok ? other.value.tried : [])];
    const folded = cloth.lay === 'flat' && other.ok ? other.value.best : undefined;
    const found = folded && isBetterFolded(plan, folded, best) ? provenAs(best, folded) : best;
    const unreserved = panelledCloth(given, pieces);
    const matching = matchingCosts(found, toCut.pieces, (unmatched) =>
      layOutPieces(plan, unreserved, bedsOf(plan, unreserved), unmatched, look),
    );
    const told = { ...found, ...matching, ways: waysToLay(plan, found, tried) };
    return { ...outcome, value: { ...toCut, plan: told } };
  }
  // A piece that could be joined in no way is told so, not that it is too large as well.
  const told = toCut.issues.map((issue) => (issue.code === 'cannot-join' ? issue.details.piece : ''));
  const others = outcome.issues.filter(
    (issue) => issue.code !== 'too-wide' || !told.includes(issue.details.piece),
  );
  return { ok: false, issues: [...toCut.issues, ...others] };
}

/** Folded for the pieces that are asked for on a fold, where the cloth is not: down the middle, or just wide enough for them. */
function foldedFor(plan: Plan, cloth: Cloth, pieces: readonly PieceWanted[], look: PackOptions): Cloth {
  let best: { readonly cloth: Cloth; readonly wishes: Wishes } | undefined;
  for (const tried of foldsToTry(cloth, pieces, plan.rulerMark)) {
    const outcome = layOutPieces(plan, tried, bedsOf(plan, tried), pieces, look);
    if (!outcome.ok) continue;
    const wishes = wishesOf(plan, outcome.value.best);
    if (!best || better(wishes, best.wishes)) best = { cloth: tried, wishes };
  }
  return best?.cloth ?? cloth;
}

/** The other lay that a maker may like to know of: flat for folded, folded down the middle for flat. */
function laidOtherwise(cloth: Cloth): Cloth {
  const { foldAt: _, ...rest } = cloth;
  return { ...rest, lay: cloth.lay === 'flat' ? 'folded' : 'flat' };
}

/** A plan with a bound that is proven of more plans than its own kind. */
function withBound(cloth: Cloth, found: ClothPlan, bound: Ticks | undefined): ClothPlan {
  const { purchase } = found;
  if (!purchase || bound === undefined || bound <= (found.bound ?? 0)) return found;
  const [only, second] = purchase.lengths;
  const step = cloth.buy?.step;
  const same = step !== undefined && only && !second && ceilTo(bound, step) === only.bought;
  return { ...found, bound, answer: same ? 'best' : found.answer };
}

/** Flaws whose outline bounds nothing certain. */
export function crossingOutlines(cloth: Cloth): readonly Issue[] {
  return cloth.inHand.flatMap(({ name, flaws = [] }, index) =>
    flaws.flatMap(({ outline }, flaw): readonly Issue[] =>
      isSimpleOutline(outline)
        ? []
        : [
            {
              code: 'outline-crosses',
              severity: 'error',
              path: ['cloths', cloth.name, 'lengths', index, 'flaws', flaw],
              details: { length: name, flaw: flaw + 1 },
            },
          ],
    ),
  );
}

/** What is bought beyond what the same pieces would need if nothing were matched. */
function matchingCosts(
  found: ClothPlan,
  pieces: readonly PieceWanted[],
  layOut: (unmatched: readonly PieceWanted[]) => Outcome<{ readonly best: ClothPlan }>,
): Pick<ClothPlan, 'matchingCosts'> {
  if (!pieces.some((piece) => piece.match) || !found.purchase) return {};
  const outcome = layOut(pieces.map(({ match: _, ...piece }) => piece));
  if (!outcome.ok) return {};
  const plain = outcome.value.best.purchase?.bought ?? 0;
  return { matchingCosts: ticks(Math.max(0, found.purchase.bought - plain)) };
}

/** A folded lay is a flat one too, so what is proven of all flat plans is what counts. */
function provenAs(flat: ClothPlan, chosen: ClothPlan): ClothPlan {
  if (chosen === flat) return chosen;
  const { bound: _, ...rest } = chosen;
  const same = flat.purchase?.bought === chosen.purchase?.bought;
  return {
    ...rest,
    answer: same ? flat.answer : 'found',
    ...(flat.bound !== undefined && { bound: flat.bound }),
  };
}

/** A folded lay opens out into a flat one: where it leaves no spare and meets the wishes better, it is the plan. */
function isBetterFolded(plan: Plan, folded: ClothPlan, flat: ClothPlan): boolean {
  return folded.surplus.length === 0 && better(wishesOf(plan, folded), wishesOf(plan, flat));
}

function layOutPieces(
  plan: Plan,
  cloth: Cloth,
  given: Beds,
  pieces: readonly PieceWanted[],
  options: PackOptions,
): Outcome<{ readonly best: ClothPlan; readonly tried: readonly ClothPlan[] }> {
  const { beds, phase } = alignPrint(given, cloth, pieces);
  const { kinds, issues } = sortIntoKinds(pieces, cloth, phase);
  const panels = isPanelled(cloth, pieces) ? panelsAsked(pieces, kinds, cloth) : undefined;
  const trouble = panels && issues.length === 0 ? panelTrouble(cloth, beds, panels, pieces) : [];
  const problems = [...issues, ...trouble, ...tooLarge(kinds, beds, cloth)];
  if (problems.some((issue) => issue.severity === 'error')) return { ok: false, issues: problems };
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const odds: readonly OddCopies[] = oddMayLieOnFold(kinds, cloth, all) ? ['on-fold', 'spare'] : ['spare'];
  const laids = odds.map((odd) => laidKinds(kinds, cloth, all, odd));
  // The cut between double and single cloth is a stage of its own.
  const isAside = all.some(({ beside }) => beside);
  if (isAside && plan.stages === 2) return { ok: false, issues: [...problems, foldTakesStage(cloth)] };
  const tries = laids.flatMap((laid) =>
    laid === undefined
      ? []
      : stagesToTry(plan.stages).flatMap((stages) => (isAside && stages === 2 ? [] : [{ laid, stages }])),
  );
  if (tries.length === 0)
    return { ok: false, issues: [...problems, ...notOnFold(kinds, cloth, all, plan.rulerMark)] };
  let best: { readonly plan: ClothPlan; readonly wishes: Wishes } | undefined;
  const tried: ClothPlan[] = [];
  let proof: Packed | undefined;
  let leftOut: readonly number[] = [];
  let aroundPanels = false;
  for (const { laid, stages } of tries) {
    // Fewer stages never fit where more did not.
    if (!best && stages !== plan.stages) continue;
    const pack = { ...options, effort: Math.ceil(options.effort / tries.length), stages };
    const wanted = laid.map(({ kind }) => kind);
    const packed = panels
      ? packPanelled(cloth, beds, wanted, panels, plan, pack)
      : isAside
        ? packAside(cloth, beds, laid, pack)
        : packBeds(cloth, beds, wanted, plan, pack);
    if (!packed.ok) {
      aroundPanels = packed.aroundPanels === true;
      leftOut = packed.leftOut.map((kind) => laid[kind]!.of);
      continue;
    }
    // A bound that holds for any number of stages holds for fewer too, never the other way round.
    proof ??= foldIsUsable(all) ? provenOfFolds(packed, kinds, all) : packed;
    const found = inSections(plan, clothPlan(plan, cloth, kinds, packed, proof, laid));
    tried.push(found);
    const wishes = wishesOf(plan, found);
    if (!best || better(wishes, best.wishes)) best = { plan: found, wishes };
  }
  if (best) return { ok: true, value: { best: best.plan, tried }, issues: problems };
  const shortOf = [...new Set(leftOut.flatMap((kind) => kinds[kind]!.copies.map((copy) => copy.piece)))];
  if (
    aroundPanels &&
    (cloth.buy || kinds.every((_, kind) => panels?.wanted.some((own) => own.kind === kind)))
  ) {
    return { ok: false, issues: [...problems, noWayAround(cloth, panels?.wanted[0]?.panel)] };
  }
  const issue: Issue = {
    code: 'not-enough-cloth',
    severity: 'error',
    path: ['cloths', cloth.name],
    details: { cloth: cloth.name, shortOf },
  };
  return { ok: false, issues: [...problems, issue] };
}

function noWayAround(cloth: Cloth, panel: string | undefined): Issue {
  const named = panel ?? cloth.panels?.areas[0]?.name ?? '';
  const details = { fault: 'no-way' as const, cloth: cloth.name, panel: named };
  return { code: 'panel-fault', severity: 'error', path: ['cloths', cloth.name], details };
}

/**
 * Few stages are quick and easy to cut, any number of them saves most cloth. Since a shop sells in steps, the easier
 * plan often costs no more; so each is tried and the wishes decide. The least restricted comes first: it tells whether
 * there is a plan at all.
 */
export function stagesToTry(stages: Stages): readonly Stages[] {
  const all: readonly Stages[] = ['any', 3, 2];
  return all.slice(all.indexOf(stages));
}

function foldTakesStage(cloth: Cloth): Issue {
  const path = ['cloths', cloth.name, 'fold at'];
  return { code: 'fold-takes-stage', severity: 'error', path, details: { cloth: cloth.name } };
}

/** A piece that fits no bed in any way it may lie can never be planned; say which side is over, against the largest bed. */
export function tooLarge(kinds: readonly PieceKind[], beds: Beds, cloth: Cloth): readonly Issue[] {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  const sizes = all.map((bed) => ({
    width: widestPart(bed),
    length: bed.length - 2 * bed.squaring,
  }));
  return kinds.flatMap(({ kind, copies }) => {
    const ways = kind.quarterTurn ? [kind, { width: kind.length, length: kind.width }] : [kind];
    if (sizes.some((size) => fits(kind, size)) || fitsAcrossFold(kind, cloth, all)) return [];
    const width = Math.max(0, ...sizes.map((size) => size.width));
    const overWidth = ways.every((way) => way.width > width);
    const usable = overWidth ? width : Math.max(0, ...sizes.map((size) => size.length));
    const needs = overWidth
      ? Math.min(...ways.map((way) => way.width))
      : Math.min(...ways.filter((way) => way.width <= width).map((way) => way.length));
    return [...new Set(copies.map((copy) => copy.piece))].map(
      (piece): Issue => ({
        code: 'too-wide',
        severity: 'error',
        path: ['cloths', cloth.name],
        details: {
          piece,
          cloth: cloth.name,
          needs: ticks(needs),
          usable: ticks(usable),
          side: overWidth ? 'width' : 'length',
          ...(overWidth && all.some((bed) => bed.gap) && { besideCrease: true as const }),
        },
      }),
    );
  });
}

/**
 * What holds for every folded lay whose fold may be lain across: any number of each piece may lie in pairs and the rest on the
 * fold, so that only area bounds them all.
 */
function provenOfFolds(packed: Packed, kinds: readonly PieceKind[], beds: readonly Bed[]): Packed {
  if (packed.bound === undefined) return { ...packed, proven: false };
  const area = kinds.reduce((total, { kind }) => total + kind.width * kind.length * kind.copies, 0);
  const widest = Math.max(...beds.map(({ usable }) => usable));
  const inHand = beds.reduce(
    (total, bed) => total + (bed.source === 'in-hand' ? bed.usable * lengthToPack(bed) : 0),
    0,
  );
  return { ...packed, bound: Math.max(0, Math.ceil((area - inHand) / widest)) };
}

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
  const bought = new Map(packed.beds.map((own) => [own, boughtFor(cloth, own)] as const));
  const lengths = packed.beds.map((own): LengthPlan => {
    const length = bought.get(own)?.onTable ?? ticks(own.bed.length);
    return {
      name: own.name,
      source: own.bed.source,
      width: own.bed.width,
      length,
      lay: own.bed.lay,
      ...(cloth.oneSpread && { oneSpread: cloth.oneSpread }),
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
    ...(purchase && proof.bound !== undefined && { bound: boundOf(cloth, proof.bound) }),
  };
}

/** Bought: no plan needs fewer steps than the bound does. In hand: the packer has proven that none opens less. */
function isProven(cloth: Cloth, packed: Packed, proof: Packed, purchase: Purchase | undefined): boolean {
  if (packed.weighed) return false;
  if (!purchase) return packed === proof && packed.proven;
  return proof.bound !== undefined && buyFor(cloth, Math.ceil(proof.bound)).bought === purchase.bought;
}

function boughtFor(cloth: Cloth, own: PackedBed) {
  return own.bed.source === 'bought' ? buyFor(cloth, own.length) : undefined;
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
