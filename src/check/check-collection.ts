import type { ClothName } from '../model/cloth.ts';
import { type ClothedLot, type ClothSet, LOOSE_PART } from '../model/collection.ts';
import type { CutPlan } from '../model/cut-plan.ts';
import type { PieceWanted } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { checkRules, type ThingsOfOrder } from './check-cloth-rules.ts';
import { wholePieces } from './check-joins.ts';
import type { Report } from './plan-fault.ts';

/** An order, or a loose piece, and what each of its parts may be cut from. */
interface Permitted {
  readonly name: string;
  readonly count: number;
  readonly cloths: Readonly<Record<string, readonly ClothName[]>>;
  readonly open: boolean;
  /** Parts with panels, whose pieces are checked with what they are mounted with. */
  readonly panelled: readonly string[];
}

/**
 * That every thing whose cloth the plan left open has a cloth for each part, one that is permitted; that the rules of
 * every set hold; that the pieces are cut from those cloths, as often as the choice says; and that the sum is right.
 */
export function checkCollection(cutPlan: CutPlan, report: Report): void {
  const { plan, choice } = cutPlan;
  const orders = permittedOf(plan);
  const open = orders.filter((order) => order.open);
  for (const { order } of choice?.lots ?? []) {
    if (!open.some(({ name }) => name === order)) report('choice-unasked', {}, { piece: order });
  }
  if (open.length === 0 && choice?.lots.length === 0) report('choice-unasked', {}, { piece: plan.name });
  if (open.length > 0 && choice === undefined) {
    for (const { name } of open) report('choice-missing', {}, { piece: name });
    return;
  }
  for (const order of open) {
    const lots = (choice?.lots ?? []).filter((lot) => lot.order === order.name);
    checkLots(order, lots, report);
    checkPieces(order, lots, cutPlan, report);
  }
  const things = orders.map((order): ThingsOfOrder => {
    const lots = (choice?.lots ?? []).filter((lot) => lot.order === order.name);
    const made = plan.makes.find(({ name }) => name === order.name);
    const only = Object.fromEntries(Object.entries(order.cloths).map(([part, [first]]) => [part, first!]));
    return {
      name: order.name,
      lots: order.open ? lots : [{ order: order.name, count: order.count, cloths: only }],
      whole: made?.whole === true ? Object.keys(made.choices ?? {}) : [],
    };
  });
  for (const set of setsWithRules(plan, orders)) {
    checkRules(
      set,
      things.filter(({ name }) => set.orders.includes(name)),
      report,
    );
  }
  if (open.length > 0 && choice !== undefined) checkSum(cutPlan, choice, report);
}

function permittedOf(plan: Plan): readonly Permitted[] {
  const made = plan.makes.map(({ name, count, cloths, choices = {}, panels = {} }): Permitted => {
    const each = Object.entries(cloths).map(([part, cloth]) => [part, choices[part] ?? [cloth]] as const);
    const open = Object.keys(choices).length > 0;
    return { name, count, cloths: Object.fromEntries(each), open, panelled: Object.keys(panels) };
  });
  const loose = plan.pieces.map(
    ({ name, count, cloth, choices }): Permitted => ({
      name,
      count,
      cloths: { [LOOSE_PART]: choices ?? [cloth] },
      open: choices !== undefined,
      panelled: [],
    }),
  );
  return [...made, ...loose];
}

/** Orders under no rules are sets of their own, for the sake of choices that stand for the whole thing. */
function setsWithRules(plan: Plan, orders: readonly Permitted[]): readonly ClothSet[] {
  const sets = plan.sets ?? [];
  const bound = new Set(sets.flatMap((set) => set.orders));
  const rules = { oneCloth: [], alike: [], unlike: [], noClothTwice: [] };
  const others = orders.filter(({ name }) => !bound.has(name));
  return [...sets, ...others.map(({ name }) => ({ name, orders: [name], rules }))];
}

function checkLots(order: Permitted, lots: readonly ClothedLot[], report: Report): void {
  const where = { piece: order.name };
  const found = lots.reduce((total, { count }) => total + count, 0);
  const sound = lots.every(({ count }) => Number.isSafeInteger(count) && count > 0);
  if (!sound || found !== order.count) report('choice-lots', { found, wanted: order.count }, where);
  const parts = Object.keys(order.cloths);
  for (const { cloths } of lots) {
    for (const part of new Set([...parts, ...Object.keys(cloths)])) {
      const cloth = cloths[part];
      if (cloth === undefined || !parts.includes(part)) report('choice-part', { part }, where);
      else if (!order.cloths[part]!.includes(cloth)) report('choice-cloth', { part }, { ...where, cloth });
    }
  }
}

/** Of each piece of a part, from each cloth, the same number for every thing whose part is of that cloth. */
function checkPieces(
  order: Permitted,
  lots: readonly ClothedLot[],
  { pieces, joined }: CutPlan,
  report: Report,
): void {
  const asked = [...pieces.filter(({ partOf }) => partOf === undefined), ...wholePieces(joined)];
  const own = asked.filter((piece) => piece.order === order.name && !piece.panel && !piece.mount);
  for (const part of Object.keys(order.cloths)) {
    if (order.panelled.includes(part)) continue;
    const ofPart = own.filter((piece) => piece.part === part);
    if (ofPart.length === 0)
      report('choice-pieces', { found: 0, wanted: order.count }, { piece: order.name });
    for (const name of new Set(ofPart.map((piece) => piece.name))) {
      const named = ofPart.filter((piece) => piece.name === name);
      checkPiece(named, part, lots, report);
    }
  }
  for (const { id, part } of own) {
    if (part === undefined || order.cloths[part] === undefined) {
      report('choice-pieces', { found: 0, wanted: order.count }, { piece: id });
    }
  }
}

function checkPiece(
  named: readonly PieceWanted[],
  part: string,
  lots: readonly ClothedLot[],
  report: Report,
): void {
  const things = lots.reduce((total, { count }) => total + count, 0);
  // Lots that are missing are told already.
  if (things === 0) return;
  const copies = named.reduce((total, piece) => total + piece.copies, 0);
  const each = copies / things;
  const cloths = new Set([...named.map(({ cloth }) => cloth), ...lots.map((lot) => lot.cloths[part]!)]);
  for (const cloth of cloths) {
    const found = named.reduce((total, piece) => total + (piece.cloth === cloth ? piece.copies : 0), 0);
    const dealt = lots.reduce((total, lot) => total + (lot.cloths[part] === cloth ? lot.count : 0), 0);
    const wanted = Math.max(1, Math.round(each)) * dealt;
    if (found !== wanted) report('choice-pieces', { found, wanted }, { piece: named[0]!.name, cloth });
  }
}

function checkSum(
  { plan, cloths }: CutPlan,
  { measure, total, bound }: NonNullable<CutPlan['choice']>,
  report: Report,
): void {
  const purchases = cloths.flatMap(({ purchase }) => purchase ?? []);
  const unpriced = measure === 'money' && purchases.some(({ cost }) => cost === undefined);
  const paid = purchases.reduce((sum, own) => sum + (measure === 'money' ? (own.cost ?? 0) : own.bought), 0);
  if (unpriced || total !== paid)
    report('choice-total', { found: total, wanted: paid }, { piece: plan.name });
  if (!(Number.isSafeInteger(bound) && bound >= 0 && bound <= total))
    report('choice-bound', { bound, total }, { piece: plan.name });
}
