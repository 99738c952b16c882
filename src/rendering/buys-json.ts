import type { Fraction } from '../model/cloth.ts';
import type { Plan } from '../model/plan.ts';
import type { WidthAtRisk } from '../planning/at-risk.ts';
import type { Buy, BuysCompared } from '../planning/compare-buys.ts';
import type { WholeCompared } from '../planning/compare-whole.ts';
import type { LossAtRisk } from '../planning/loss-at-risk.ts';
import { formatBuy, formatLength } from '../units/format.ts';
import { writeJson } from './json-text.ts';

/** What is known of one cloth's buys. */
export interface ClothBuys {
  readonly compared: BuysCompared;
  readonly width: WidthAtRisk | undefined;
  readonly along: LossAtRisk | undefined;
  readonly across: LossAtRisk | undefined;
}

/** The comparison as JSON: lengths in ticks and in the plan's unit, areas in square ticks, money in hundredths. */
export function writeBuysJson(plan: Plan, cloths: readonly ClothBuys[], whole?: WholeCompared): string {
  return writeJson({
    format: 'laywright buys',
    version: 1,
    plan: plan.name,
    currency: plan.currency,
    cloths: cloths.map(({ compared, width, along, across }) => ({
      cloth: compared.cloth.name,
      set: Object.fromEntries(compared.set),
      leastForOne: {
        ticks: compared.leastForOne.bought,
        text: formatBuy(compared.leastForOne.bought, plan),
        cost: compared.leastForOne.cost ?? null,
      },
      buys: compared.buys.map((buy, index) => buyJson(buy, plan, index === compared.bestValue)),
      width: width && {
        steps: width.steps.map((step) => ({
          from: lengthJson(step.from, plan),
          bought: lengthJson(step.bought, plan),
          proven: step.proven,
          ends: step.ends,
        })),
        noneBelow: lengthJson(width.noneBelow, plan),
      },
      shrinkageAlong: along && lossJson(along, plan),
      shrinkageAcross: across && lossJson(across, plan),
    })),
    ...(whole && { together: wholeJson(whole, plan) }),
  });
}

function lossJson({ reckoned, steps, noneAbove }: LossAtRisk, plan: Plan) {
  return {
    reckonedMillionths: millionths(reckoned),
    steps: steps.map(({ upTo, bought, proven, ends }) => ({
      upToMillionths: millionths(upTo),
      bought: lengthJson(bought, plan),
      proven,
      ends,
    })),
    noneAboveMillionths: noneAbove ? millionths(noneAbove) : null,
  };
}

/** Rounded down, so that it still holds. */
function millionths({ numerator, denominator }: Fraction): number {
  return Math.floor((numerator * 1_000_000) / denominator);
}

function wholeJson({ set, buys, inHandOnly, bestValue }: WholeCompared, plan: Plan) {
  return {
    set: Object.fromEntries(set),
    inHandOnly,
    buys: buys.map((own, index) => ({
      sets: own.sets,
      setsAtMost: own.setsAtMost,
      lengths: own.lengths.map(({ cloth, buy }) => ({
        cloth,
        bought: { ticks: buy.bought, text: formatBuy(buy.bought, plan) },
        cost: buy.cost ?? null,
      })),
      limitedBy: own.limitedBy,
      cost: own.cost ?? null,
      leftoverWorth: own.leftoverWorth,
      costPerSet: own.costPerSet ?? null,
      bestValue: index === bestValue,
    })),
  };
}

function buyJson(buy: Buy, plan: Plan, bestValue: boolean) {
  return {
    bought: { ticks: buy.bought, text: formatBuy(buy.bought, plan) },
    sets: buy.sets,
    setsAtMost: buy.setsAtMost,
    setsInHand: buy.setsInHand,
    over: buy.over,
    markerEfficiency: Math.round(buy.markerEfficiency * 1000) / 1000,
    keepableArea: buy.keepableArea,
    largestLeftover: buy.largestLeftover ?? null,
    cost: buy.cost ?? null,
    leftoverWorth: buy.leftoverWorth,
    leftoverUses: buy.leftoverUses,
    costPerSet: buy.costPerSet ?? null,
    bestValue,
  };
}

function lengthJson(ticks: Buy['bought'], plan: Plan) {
  return { ticks, text: formatLength(ticks, plan) };
}
