import type { Cloth, LengthInHand } from '../model/cloth.ts';
import type { ClothPlan, CutPlan, LengthPlan } from '../model/cut-plan.ts';
import type { PieceId, PieceWanted } from '../model/piece.ts';
import type { Ticks } from '../units/ticks.ts';
import { checkCollection } from './check-collection.ts';
import { checkDemand, checkWanted } from './check-demand.ts';
import { checkJoins } from './check-joins.ts';
import { checkLength, type LengthFound } from './check-length.ts';
import { startReserve } from './check-match.ts';
import { checkMeasured } from './check-measured.ts';
import { checkOpenings } from './check-openings.ts';
import { checkOrders } from './check-orders.ts';
import { holdsPanels, panelReserve } from './check-panels.ts';
import { checkPurchase } from './check-purchase.ts';
import { checkStacks, stackEdges } from './check-stacks.ts';
import { checkUses } from './check-uses.ts';
import { checkWashedSizes } from './check-washed-sizes.ts';
import type { PlanFault, Report } from './plan-fault.ts';

/**
 * All that is wrong with a cut plan, from its trees and its plan alone; an empty list when it is sound.
 *
 * It shares no code with what makes plans: positions, usable cloth, washing, cost and steps are worked out anew here.
 * ```
 * orders ─▶ pieces wanted ─▶ joins ─▶ cloths ─▶ lengths: size · tree · pieces · leftovers · marks · stages · fold ─▶ counts ─▶ purchase
 * ```
 */
export function checkPlan(cutPlan: CutPlan): readonly PlanFault[] {
  const faults: PlanFault[] = [];
  const report: Report = (code, figures, where = {}) => {
    faults.push({ code, where, figures } as PlanFault);
  };
  const { plan, pieces, cloths } = cutPlan;
  checkWanted(pieces, plan.rulerMark, report);
  checkOrders(cutPlan, report);
  checkOpenings(cutPlan, report);
  checkCollection(cutPlan, report);
  checkStacks(cutPlan, report);
  checkJoins(pieces, cutPlan.joined, plan, report);
  checkCloths(cutPlan, report);
  const wanted = new Map(pieces.map((piece) => [piece.id, piece]));
  for (const clothPlan of cloths) {
    const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth);
    if (cloth) checkClothPlan(clothPlan, cloth, cutPlan, wanted, within(report, { cloth: cloth.name }));
  }
  checkWashedSizes(cutPlan, report);
  checkUses(cutPlan, checkPlan, report);
  return faults;
}

/** Every cloth that is cut is known, listed once and in the plan's order, and none that is wanted is left out. */
function checkCloths({ plan, pieces, cloths }: CutPlan, report: Report): void {
  const places = cloths.map(({ cloth }) => plan.cloths.findIndex(({ name }) => name === cloth));
  for (const [index, { cloth }] of cloths.entries()) {
    const before = places[index - 1] ?? -1;
    if (places[index] === -1) report('cloth-unknown', {}, { cloth });
    else if (cloths.findIndex((other) => other.cloth === cloth) < index)
      report('cloth-repeated', {}, { cloth });
    else if (places[index]! < before) report('cloth-out-of-order', {}, { cloth });
  }
  for (const cloth of new Set(pieces.map((piece) => piece.cloth))) {
    if (cloths.some((clothPlan) => clothPlan.cloth === cloth)) continue;
    const wanted = pieces.reduce((sum, piece) => sum + (piece.cloth === cloth ? piece.copies : 0), 0);
    report('cloth-left-out', { wanted }, { cloth });
  }
}

function checkClothPlan(
  clothPlan: ClothPlan,
  cloth: Cloth,
  cutPlan: CutPlan,
  wanted: ReadonlyMap<PieceId, PieceWanted>,
  report: Report,
): void {
  const { plan, pieces } = cutPlan;
  const counts = new Map<PieceId, number>();
  const bought: LengthFound[] = [];
  const pieceList = [...wanted.values()];
  // Where the plan says how the print lies beside panels, it begins where they do.
  const begins = holdsPanels(cloth, pieceList) && cloth.panels?.firstMotif !== undefined;
  const toBuy = clothPlan.lengths.filter(({ source }) => source === 'bought').length;
  const forPrint = begins ? 0 : startReserve(cloth, pieceList, Math.max(1, toBuy));
  const print = {
    reserve: holdsPanels(cloth, pieceList) ? 0 : forPrint,
    fellows: new Map(),
    turns: new Map(),
  };
  const asked = { plan, cloth, wanted, ...print, cut: clothPlan.lengths.length };
  for (const length of clothPlan.lengths) {
    const onLength = within(report, { length: length.name });
    const source = sourceOf(length, clothPlan, cloth);
    if (source === undefined) {
      onLength('length-unknown', { known: namesInHand(cloth) });
      continue;
    }
    const shared = stackEdges(cutPlan, cloth.name, length.name);
    checkMeasured(length, cloth, onLength);
    const found = checkLength(length, { ...asked, source, stackEdges: shared }, onLength);
    for (const [piece, copies] of found.counts) counts.set(piece, (counts.get(piece) ?? 0) + copies);
    if (length.source === 'bought') bought.push(found);
  }
  checkNames(clothPlan, report);
  const mine = pieces.filter((piece) => piece.cloth === cloth.name);
  checkDemand(clothPlan, mine, counts, report);
  const reserve = forPrint + panelReserve(cloth, pieceList);
  const hasPlaces = reserve > 0 || mine.some(({ match, panel }) => match || panel);
  checkPurchase(clothPlan, cloth, bought, report, reserve, hasPlaces);
}

/** No length is cut twice. With the names that may be used, that keeps lengths in hand to the number there are. */
function checkNames({ lengths }: ClothPlan, report: Report): void {
  const names = lengths.map(({ name }) => name);
  for (const name of new Set(names)) {
    const times = names.filter((other) => other === name).length;
    if (times > 1) report('length-repeated', { times }, { length: name });
  }
}

/** A bought length is named `bought`, or numbered in the order of the purchase: `bought 2`. */
function sourceOf(
  length: LengthPlan,
  { lengths, purchase }: ClothPlan,
  cloth: Cloth,
): LengthInHand | { readonly bought: Ticks } | undefined {
  if (length.source === 'in-hand') {
    return cloth.inHand.find((each) => numbered(each.name, each.copies).includes(length.name));
  }
  const bought = lengths.filter(({ source }) => source === 'bought');
  const place = bought.indexOf(length);
  if (numbered('bought', bought.length)[place] !== length.name) return undefined;
  return { bought: purchase?.lengths[place]?.bought ?? length.length };
}

function namesInHand({ inHand }: Cloth): readonly string[] {
  return inHand.flatMap(({ name, copies }) => numbered(name, copies));
}

/** Where there are several of one name, they are told apart by a number: `oddment 1`, `oddment 2`. */
function numbered(name: string, copies: number): readonly string[] {
  return copies === 1 ? [name] : Array.from({ length: copies }, (_, index) => `${name} ${index + 1}`);
}

function within(report: Report, place: PlanFault['where']): Report {
  return (code, figures, where) => report(code, figures, { ...place, ...where });
}
