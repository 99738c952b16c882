import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import type { PlanChange, ThingAt } from '../planning/mat/changes.ts';
import type { Offer, OfferKind } from '../planning/mat/refit.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import type { Ticks } from '../units/ticks.ts';

/** What an offer does, in one sentence without its end: `leave out 1 of 3 bench covers`. */
export function offerWords(offer: Offer, plan: Plan): string {
  if (offer.kind === 'buy') {
    const buys = offer.bought.map(({ cloth, length }) => `${formatBuy(length, plan)} more of ${cloth}`);
    return `buy ${listed(buys)}`;
  }
  return changesWords(offer.changes, plan);
}

/** The same, of changes alone. */
export function changesWords(changes: readonly PlanChange[], plan: Plan): string {
  const drops = changes.flatMap((change) => (change.kind === 'count' ? [dropWords(change, plan)] : []));
  const shrinks = changes.flatMap((change) => (change.kind === 'measure' ? [shrinkWords(change, plan)] : []));
  const joins = changes.flatMap((change) => (change.kind === 'join' ? [nameOf(change.of, plan)] : []));
  return [
    ...(drops.length > 0 ? [`leave out ${listed(drops)}`] : []),
    ...(shrinks.length > 0 ? [`make ${listed(shrinks)}`] : []),
    ...(joins.length > 0 ? [`let ${listed([...new Set(joins)])} be joined`] : []),
  ].join('; ');
}

/** What it costs, whether nothing less would do, and what else would do as well. */
export function offerRemarks(offer: Offer, plan: Plan): readonly string[] {
  const lines = offer.joins > 0 ? [`${offer.joins} ${offer.joins === 1 ? 'join' : 'joins'} to sew`] : [];
  const ties = offer.ties.slice(0, MOST_TIES).map((changes) => changesWords(changes, plan));
  const more = offer.ties.length - ties.length;
  return [
    costWords(offer, plan),
    ...lines,
    LESS[offer.kind][offer.proven ? 'proven' : 'found'],
    ...(ties.length === 0
      ? []
      : [`as good: ${ties.join(', or ')}${more > 0 ? `, or ${more} other ways` : ''}`]),
  ];
}

export function costWords({ cost, bought }: Offer, plan: Plan): string {
  if (bought.length === 0) return 'nothing to pay';
  return cost === undefined ? 'no price is told' : `costs ${formatMoney(cost, plan.currency)}`;
}

/** Why there is no offer of a kind. */
export const NO_OFFER: Readonly<Record<OfferKind, string>> = {
  join: 'no joins were found that would save it',
  shrink:
    'no size within the limits was found that would save it; --may-shrink tells what may give, and by how much',
  drop: 'nothing would be left to sew',
  buy: 'the plan does not say that more can be bought, or more of this width would not help',
};

const MOST_TIES = 3;

const LESS: Readonly<Record<OfferKind, { readonly proven: string; readonly found: string }>> = {
  join: { proven: 'no fewer joins would do, proven', found: 'the fewest joins found' },
  shrink: { proven: 'one mark larger would not fit, proven', found: 'the largest size found' },
  drop: { proven: 'no fewer would do, proven', found: 'the fewest found' },
  buy: { proven: 'no less would do, proven', found: 'the least found' },
};

function dropWords({ of, count }: PlanChange & { kind: 'count' }, plan: Plan): string {
  const before = (of.list === 'make' ? plan.makes : plan.pieces)[of.index]!.count;
  const name = nameOf(of, plan);
  if (count === 0) return before === 1 ? name : `all ${before} ${name}`;
  return `${before - count} of ${before} ${name}`;
}

function shrinkWords({ of, measure, value }: PlanChange & { kind: 'measure' }, plan: Plan): string {
  const before = of.list === 'pieces' ? plan.pieces[of.index]!.size : plan.makes[of.index]!.measures[measure];
  const what = typeof value === 'object' ? '' : `, ${measure}`;
  return `${nameOf(of, plan)}${what} ${measureWords(value, plan)}, not ${measureWords(before as Size | Ticks, plan)}`;
}

function measureWords(value: Size | Ticks, plan: Plan): string {
  return typeof value === 'object' ? formatSize(value, plan) : formatLength(value, plan);
}

export function nameOf({ list, index }: ThingAt, plan: Plan): string {
  return (list === 'make' ? plan.makes : plan.pieces)[index]!.name;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
