import type { BuyTerms, Cloth, Price } from '../model/cloth.ts';
import type { ClothPlan, Purchase } from '../model/cut-plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { LengthFound } from './check-length.ts';
import type { Report } from './plan-fault.ts';
import { beforeWashing } from './table-cloth.ts';

/**
 * What is bought: needed is exactly what the cuts, the squaring of both ends and the washing take; bought is that in
 * whole steps of the shop, length by length; the cost is rounded half up to the hundredth; the bound stands below, and
 * `best` is claimed only where no fewer steps could do.
 *
 * @param mayPart whether pieces have places in the print, so that one length may not hold what several of no more length do
 * @param cut the bought lengths that are cut, in the order of the purchase
 */
export function checkPurchase(
  clothPlan: ClothPlan,
  cloth: Cloth,
  cut: readonly LengthFound[],
  report: Report,
  startReserve = 0,
  mayPart = startReserve > 0,
): void {
  const { purchase, bound } = clothPlan;
  if (purchase === undefined) {
    if (cut.length > 0) report('purchase-missing', {});
    if (bound !== undefined) report('bound-without-purchase', { bound });
    return;
  }
  const listed = purchase.lengths;
  if (listed.length !== cut.length || cut.length === 0) {
    report('purchase-lengths', { listed: listed.length, cut: cut.length });
  }
  for (const [index, { needed }] of listed.entries()) {
    const found = cut[index];
    if (found) checkNeeded(needed, cloth, found, { report, startReserve });
  }
  checkTotals(purchase, report);
  if (cloth.buy === undefined) report('purchase-not-sold', {});
  else checkBought(purchase, cloth.buy, report, mayPart);
  const cost = cloth.price && costOf(purchase.bought, cloth.price);
  if (purchase.cost !== cost) report('cost-wrong', { found: purchase.cost, wanted: cost });
  checkBound(clothPlan, purchase, cloth, report);
}

function checkNeeded(
  found: Ticks,
  cloth: Cloth,
  { reach, name, table }: LengthFound,
  { report, startReserve }: { readonly report: Report; readonly startReserve: number },
): void {
  const washed = cloth.washing?.washed === 'before-cutting' ? cloth.washing : undefined;
  // What goes at the near end to begin a print lies before the pieces.
  const beyond = Math.max(0, startReserve - (table.near - table.squaring));
  const onTable = ticks(reach + cloth.squaring + beyond);
  const wanted = washed ? beforeWashing(onTable, washed.along) : onTable;
  if (found !== wanted) report('needed-wrong', { found, wanted }, { length: name });
}

function checkTotals({ lengths, needed, bought }: Purchase, report: Report): void {
  const total = (each: 'needed' | 'bought') => lengths.reduce((sum, length) => sum + length[each], 0);
  for (const [of, found] of [['needed', needed] as const, ['bought', bought] as const]) {
    if (total(of) !== found) report('purchase-total', { of, found, wanted: ticks(total(of)) });
  }
}

function checkBought(
  { lengths, bought }: Purchase,
  { step, longest }: BuyTerms,
  report: Report,
  mayPart: boolean,
): void {
  for (const { needed, bought: found } of lengths) {
    const wanted = wholeSteps(needed, step);
    if (found !== wanted) report('bought-wrong', { found, wanted });
    if (longest !== undefined && found > longest) report('bought-too-long', { found, longest });
  }
  if (!mayPart && lengths.length > 1 && (longest === undefined || bought <= longest)) {
    report('bought-apart', { lengths: lengths.length, bought });
  }
}

function checkBound(clothPlan: ClothPlan, purchase: Purchase, cloth: Cloth, report: Report): void {
  const { bound, answer } = clothPlan;
  const { needed, bought } = purchase;
  if (bound === undefined) {
    report('bound-missing', {});
    return;
  }
  if (bound > needed) report('bound-over-needed', { bound, needed });
  const leastBought = cloth.buy ? wholeSteps(bound, cloth.buy.step) : bound;
  if (answer === 'best' && bound !== needed && leastBought !== bought) {
    report('best-unproven', { bound, needed, bought });
  }
}

function wholeSteps(length: Ticks, step: Ticks): Ticks {
  return ticks(Math.ceil(length / step) * step);
}

/** Hundredths, half up; in whole numbers throughout. */
function costOf(length: Ticks, { hundredths, per }: Price): number {
  const twice = 2n * BigInt(length) * BigInt(hundredths) + BigInt(per);
  return Number(twice / (2n * BigInt(per)));
}
