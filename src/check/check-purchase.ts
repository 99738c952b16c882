import type { Cloth, Price } from '../model/cloth.ts';
import type { ClothPlan, Purchase } from '../model/cut-plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { LengthFound } from './check-length.ts';
import type { Report } from './plan-fault.ts';
import { beforeWashing } from './table-cloth.ts';

/**
 * What is bought: needed is exactly what the cuts, the squaring of both ends and the washing take; bought is that in
 * whole steps of the shop; the cost is rounded half up to the hundredth; the bound stands below, and `best` is claimed
 * only where no fewer steps could do.
 */
export function checkPurchase(
  clothPlan: ClothPlan,
  cloth: Cloth,
  bought: LengthFound | undefined,
  report: Report,
): void {
  const { purchase, bound } = clothPlan;
  if (purchase === undefined) {
    if (bought) report('purchase-missing', {});
    if (bound !== undefined) report('bound-without-purchase', { bound });
    return;
  }
  if (!bought) report('purchase-without-length', {});
  else checkNeeded(purchase, cloth, bought, report);
  if (cloth.buy === undefined) report('purchase-not-sold', {});
  else checkBought(purchase, cloth.buy, report);
  const cost = cloth.price && costOf(purchase.bought, cloth.price);
  if (purchase.cost !== cost) report('cost-wrong', { found: purchase.cost, wanted: cost });
  checkBound(clothPlan, purchase, cloth, report);
}

function checkNeeded(purchase: Purchase, cloth: Cloth, { reach }: LengthFound, report: Report): void {
  const washed = cloth.washing?.washed === 'before-cutting' ? cloth.washing : undefined;
  const onTable = ticks(reach + cloth.squaring);
  const wanted = washed ? beforeWashing(onTable, washed.along) : onTable;
  if (purchase.needed !== wanted) report('needed-wrong', { found: purchase.needed, wanted });
}

function checkBought(
  { needed, bought }: Purchase,
  { step, longest }: NonNullable<Cloth['buy']>,
  report: Report,
): void {
  const wanted = wholeSteps(needed, step);
  if (bought !== wanted) report('bought-wrong', { found: bought, wanted });
  if (longest !== undefined && bought > longest) report('bought-too-long', { found: bought, longest });
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
