import type { Cloth } from '../model/cloth.ts';
import type { ClothPlan } from '../model/cut-plan.ts';
import type { Issue, Outcome } from '../model/issue.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PackOptions, Stages } from '../packing/instance.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import { asItBegins } from './ahead.ts';
import { alignPrint, type Begun, withStartReserve } from './align-print.ts';
import { type Beds, bedsOf } from './beds.ts';
import { better, type Wishes, wishesOf } from './choose.ts';
import { chooseJoins, type PiecesToCut } from './choose-joins.ts';
import { clothPlan, type Packed } from './cloth-plan.ts';
import {
  foldIsUsable,
  foldsToTry,
  laidKinds,
  notOnFold,
  type OddCopies,
  oddMayLieOnFold,
  partlyFolded,
} from './fold-kinds.ts';
import { sortIntoKinds } from './kinds.ts';
import { crossingOutlines, foldTakesStage, noWayAround, tooLarge } from './lay-out-faults.ts';
import { motifsNearEdge } from './motif-near-edge.ts';
import { packAside } from './pack-aside.ts';
import { packBeds } from './pack-beds.ts';
import { withAreaBound } from './pack-laid.ts';
import { packPanelled } from './panels/pack-panelled.ts';
import { isPanelled } from './panels/panel-rooms.ts';
import { panelsAsked, panelTrouble } from './panels/panel-trouble.ts';
import { panelledCloth } from './panels/panelled-cloth.ts';
import { startsForJoins } from './print-over-joins.ts';
import { printStarts } from './print-phase.ts';
import { inSections } from './sections.ts';
import { waysToLay } from './ways.ts';

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
  const outcome = layOutOn(plan, given, pieces, options, false);
  const mayPart = given.buy?.longest !== undefined && pieces.some(({ match }) => match);
  if (outcome.ok) return outcome;
  if (!mayPart) return joinedOnPrint(plan, given, pieces, options) ?? outcome;
  // What one length does not hold several may, each with a reserve to begin it where its print does.
  const parted = layOutOn(plan, given, pieces, options, true);
  return parted.ok ? parted : outcome;
}

/**
 * What short lengths do not hold as they come they may hold if the print of all is begun as one of them has it, and the parts of
 * joined pieces are as long as that lets them be: the best of such plans. Nothing is proven of it.
 */
function joinedOnPrint(
  plan: Plan,
  given: Cloth,
  pieces: readonly PieceWanted[],
  options: LayOutOptions,
): Outcome<LaidOut> | undefined {
  const cloth = withStartReserve(given, pieces);
  let best: Extract<Outcome<LaidOut>, { ok: true }> | undefined;
  for (const start of startsForJoins(cloth, pieces, bedsOf(plan, cloth))) {
    const own = layOutOn(plan, given, pieces, options, false, { start, ahead: true });
    if (!own.ok) continue;
    const isBetter = !best || better(wishesOf(plan, own.value.plan), wishesOf(plan, best.value.plan));
    if (isBetter) best = own;
  }
  return best && { ...best, value: { ...best.value, plan: { ...best.value.plan, answer: 'found' } } };
}

function layOutOn(
  plan: Plan,
  given: Cloth,
  pieces: readonly PieceWanted[],
  options: LayOutOptions,
  several: boolean,
  begun?: Begun,
): Outcome<LaidOut> {
  const crossing = crossingOutlines(given);
  if (crossing.length > 0) return { ok: false, issues: crossing };
  let cloth = panelledCloth(withStartReserve(given, pieces, several), pieces);
  let beds = bedsOf(plan, cloth);
  const look = { ...options.pack, effort: Math.ceil(options.pack.effort / LOOK) };
  const inFewStages = { ...plan, stages: plan.stages === 'any' ? 3 : plan.stages };
  const quickly = (tried: readonly PieceWanted[]) => {
    const outcome = layOutPieces(inFewStages, cloth, beds, tried, look, begun);
    return outcome.ok ? outcome.value.best : undefined;
  };
  const aligned = begun && alignPrint(beds, cloth, pieces, begun);
  const toCut = chooseJoins(plan, cloth, pieces, aligned?.beds ?? beds, quickly, aligned?.phase);
  // Tried after all else has failed, so that a look has to do.
  if (begun && !quickly(toCut.pieces)) return { ok: false, issues: toCut.issues };
  cloth = foldedFor(plan, cloth, toCut.pieces, look);
  beds = bedsOf(plan, cloth);
  const outcome = layOutPieces(plan, cloth, beds, toCut.pieces, options.pack, begun);
  if (outcome.ok) {
    const otherLay = laidOtherwise(cloth);
    const unfolded = toCut.pieces.map(({ onFold: _, ...piece }) => piece);
    const other = layOutPieces(plan, otherLay, bedsOf(plan, otherLay), unfolded, look, begun);
    // A folded lay opens out into a flat one, so what is proven of all flat ones holds for it.
    const flatBound = cloth.lay === 'folded' && other.ok ? other.value.best.bound : undefined;
    const best = withBound(cloth, outcome.value.best, flatBound);
    const between = partlyFolded(plan, cloth, toCut.pieces);
    const partly = between && layOutPieces(plan, between, bedsOf(plan, between), unfolded, look, begun);
    const tried = [outcome, other, ...(partly ? [partly] : [])].flatMap((own) =>
      own.ok ? own.value.tried : [],
    );
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

type LaidPieces = Outcome<{ readonly best: ClothPlan; readonly tried: readonly ClothPlan[] }>;

/** The best of the ways to begin the print, where some of it is bought and pieces lie in it in several ways; or as is said. */
function layOutPieces(
  plan: Plan,
  cloth: Cloth,
  given: Beds,
  pieces: readonly PieceWanted[],
  options: PackOptions,
  as?: Begun,
): LaidPieces {
  if (as) return layOutBegun(plan, cloth, given, pieces, options, as);
  const { motifs, all } = printStarts(pieces, cloth);
  if (motifs.length < 2 || !given.toBuy || cloth.panels)
    return layOutBegun(plan, cloth, given, pieces, options, {});
  const allTried = all && given.inHand.length === 0 && { allTried: true as const };
  const share = { ...options, effort: Math.ceil(options.effort / motifs.length) };
  // As a length in hand was measured, or as the first piece has it, and then as every other has it.
  const begun = [
    { ...allTried },
    ...motifs.slice(given.inHand.length > 0 ? 0 : 1).map((start) => ({ start, ...allTried })),
  ];
  const outcomes = begun.map((one) => layOutBegun(plan, cloth, given, pieces, share, one));
  const laid = outcomes.flatMap((outcome) => (outcome.ok ? [outcome.value] : []));
  const [first, ...more] = laid;
  if (!first) return outcomes[0]!;
  const chosen = more.reduce(
    (best, one) => (better(wishesOf(plan, one.best), wishesOf(plan, best.best)) ? one : best),
    first,
  );
  const bounds = laid.map(({ best }) => best.bound ?? ticks(0));
  // Each holds for the ways to begin that were tried, or else for all of them.
  const bound = allTried
    ? laid.length < outcomes.length
      ? ticks(0)
      : ticks(Math.min(...bounds))
    : ticks(Math.max(...bounds));
  const issues = outcomes.find((outcome) => outcome.ok)!.issues;
  const best = boundedBy(cloth, chosen.best, bound);
  return { ok: true, value: { best, tried: laid.flatMap(({ tried }) => tried) }, issues };
}

/** With what is proven of every way to begin the print in place of what is proven of its own. */
function boundedBy(cloth: Cloth, { bound: _, ...found }: ClothPlan, bound: Ticks): ClothPlan {
  if (!found.purchase) return found;
  return withBound(cloth, { ...found, answer: 'found' }, bound);
}

function layOutBegun(
  plan: Plan,
  cloth: Cloth,
  given: Beds,
  pieces: readonly PieceWanted[],
  options: PackOptions,
  begun: Begun,
): LaidPieces {
  const { beds, phase } = alignPrint(given, cloth, pieces, begun);
  const { kinds, issues } = sortIntoKinds(pieces, cloth, phase);
  const panels = isPanelled(cloth, pieces) ? panelsAsked(pieces, kinds, cloth) : undefined;
  const trouble = panels && issues.length === 0 ? panelTrouble(cloth, beds, panels, pieces) : [];
  const large = tooLarge(kinds, beds, cloth, plan.rulerMark);
  const problems = [...issues, ...trouble, ...large, ...motifsNearEdge(kinds, beds, cloth, pieces)];
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
    // Nodes of a search that is held to the fold take longer.
    const share = tries.length * (laid.some(({ plies }) => plies === 'fold') ? 4 : 1);
    const pack = { ...options, effort: Math.ceil(options.effort / share), stages };
    const wanted = laid.map(({ kind }) => kind);
    const asAsked = panels
      ? packPanelled(cloth, beds, wanted, panels, plan, pack)
      : isAside
        ? packAside(cloth, beds, laid, pack)
        : packBeds(cloth, beds, wanted, plan, pack);
    if (!asAsked.ok) {
      aroundPanels = asAsked.aroundPanels === true;
      leftOut = asAsked.leftOut.map((kind) => laid[kind]!.of);
      continue;
    }
    const packed = { ...asAsked, beds: asAsked.beds.map(asItBegins) };
    // A bound that holds for any number of stages holds for fewer too, never the other way round.
    proof ??= foldIsUsable(all) && !isAside ? withAreaBound(packed, beds, kinds) : packed;
    const asPacked = clothPlan(plan, cloth, kinds, packed, proof, laid);
    // Beside a fold off the middle the lengthwise cut comes first, so a crosscut before it would be a stage more.
    const found = isAside && plan.stages !== 'any' ? asPacked : inSections(plan, asPacked);
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
  const begins = beds.inHand.find((bed) => bed.begins)?.begins;
  const issue: Issue = {
    code: 'not-enough-cloth',
    severity: 'error',
    path: ['cloths', cloth.name],
    details: {
      cloth: cloth.name,
      shortOf,
      ...(cloth.measured && { measured: true }),
      ...(begins && { begins: begins.within }),
      ...(cloth.foldAt !== undefined && { foldAt: cloth.foldAt }),
      ...(cloth.buy && { sold: true as const }),
    },
  };
  return { ok: false, issues: [...problems, issue] };
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
