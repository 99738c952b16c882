import type { Plan } from '../model/plan.ts';
import type { Refit } from '../planning/mat/refit.ts';
import type { Remedy } from '../planning/mat/remedies.ts';
import { formatBuy, formatMoney } from '../units/format.ts';
import { writeJson } from './json-text.ts';
import { measuredLines } from './measured-words.ts';
import { planJson } from './plan-json.ts';
import { changesWords, NO_OFFER, offerWords, partWords, shrinkRows } from './refit-words.ts';

/**
 * Whether the plan fits the cloth as it was measured, and what would make it fit: each offer with its words, what it costs,
 * and the whole cut plan as `plan.json` has it. Lengths in ticks and in the plan's unit, money in hundredths.
 */
export function writeRefitJson(refit: Refit, plan: Plan): string {
  const { asItIs, short, offers, none } = refit;
  return writeJson({
    format: 'laywright refit',
    version: 1,
    plan: plan.name,
    unit: plan.unit,
    currency: plan.currency,
    fits: asItIs !== undefined,
    measured: plan.cloths.flatMap((cloth) =>
      measuredLines(cloth, plan).map((words) => ({ cloth: cloth.name, words })),
    ),
    short,
    offers: offers.map((offer) => ({
      take: offer.kind,
      words: offerWords(offer, plan),
      cost:
        offer.cost === undefined
          ? null
          : { hundredths: offer.cost, shown: formatMoney(offer.cost, plan.currency) },
      bought: offer.bought.map(({ cloth, length }) => ({
        cloth,
        length: { ticks: length, shown: formatBuy(length, plan) },
      })),
      dropped: offer.dropped,
      joins: offer.joins,
      proven: offer.proven,
      asGood: offer.parts.length === 1 ? tiesOf(offer.parts[0]!, plan) : [],
      parts: offer.parts.map((part) => ({
        take: part.kind,
        cloths: part.cloths,
        words: partWords(part, offer, plan),
        proven: part.proven,
        ...(part.leastLost !== undefined && { leastLost: part.leastLost }),
        ...(part.provenOf && {
          smaller: shrinkRows(part, plan).map(([name, now], index) => ({
            name,
            size: now,
            proven: part.provenOf![index],
          })),
        }),
        asGood: tiesOf(part, plan),
      })),
      plan: planJson(offer.cutPlan),
    })),
    none: none.map((kind) => ({ kind, why: NO_OFFER[kind] })),
    ...(asItIs && { cutPlan: planJson(asItIs) }),
  });
}

function tiesOf({ ties }: Remedy, plan: Plan): readonly string[] {
  return ties.map((changes) => changesWords(changes, plan));
}
