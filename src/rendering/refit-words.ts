import type { Size } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { keptOf, type PlanChange, type ThingAt } from '../planning/mat/changes.ts';
import type { Offer } from '../planning/mat/refit.ts';
import type { OfferKind, Remedy } from '../planning/mat/remedies.ts';
import { formatBuy, formatLength, formatMoney, formatSize } from '../units/format.ts';
import type { Ticks } from '../units/ticks.ts';
import { counterWords } from './panel-words.ts';

/** What an offer does, in one sentence without its end: `leave out 1 of 3 bench covers`. */
export function offerWords({ changes, bought, cutPlan }: Offer, plan: Plan): string {
  const words = changesWords(changes, plan);
  const buys = bought.map(({ cloth, length }) => {
    const own = cutPlan.cloths.find((clothPlan) => clothPlan.cloth === cloth);
    const counter = own ? counterWords(cutPlan, own) : '';
    return `${formatBuy(length, plan)} more of ${cloth}${counter === '' ? '' : ` (${counter})`}`;
  });
  return [...(words === '' ? [] : [words]), ...(buys.length === 0 ? [] : [`buy ${listed(buys)}`])].join('; ');
}

/** What one part of an offer does, for its cloths alone. */
export function partWords(part: Remedy, offer: Offer, plan: Plan): string {
  const bought = offer.bought.filter(({ cloth }) => part.kind === 'buy' && part.cloths.includes(cloth));
  return offerWords({ ...offer, changes: part.changes, bought }, plan);
}

/** The same, of changes alone. */
export function changesWords(changes: readonly PlanChange[], plan: Plan): string {
  const drops = changes.flatMap((change) => (change.kind === 'count' ? [dropWords(change, plan)] : []));
  const shrinks = changes.flatMap((change) => {
    if (change.kind !== 'measure') return [];
    const { name, now, before } = shrinkWords(change, plan);
    return [`${name} ${now}, not ${before}`];
  });
  const joins = changes.flatMap((change) => (change.kind === 'join' ? [nameOf(change.of, plan)] : []));
  return [
    ...(drops.length > 0 ? [`leave out ${listed(drops)}`] : []),
    ...(shrinks.length > 0 ? [`make ${listed(shrinks)}`] : []),
    ...(joins.length > 0 ? [`let ${listed([...new Set(joins)])} be joined`] : []),
  ].join('; ');
}

/** Whether nothing less would do, what stays as it was, and what else would do as well. */
export function partRemarks(part: Remedy, plan: Plan): readonly string[] {
  const { kind, proven, ties: all } = part;
  const ties = all.slice(0, MOST_TIES).map((changes) => changesWords(changes, plan));
  const more = all.length - ties.length;
  return [
    LESS[kind][proven ? 'proven' : 'found'],
    ...lostWords(part),
    ...keptWords(part, plan),
    ...(ties.length === 0
      ? []
      : [`as good: ${ties.join(', or ')}${more > 0 ? `, or ${counted(more, 'other way')}` : ''}`]),
  ];
}

/** Where several measures may give, whether another mixture of them may lose less cloth. */
export function lostWords({ leastLost }: Remedy): readonly string[] {
  if (leastLost === undefined) return [];
  return [leastLost ? 'no mixture of sizes loses less cloth, proven' : 'the least cloth lost that was found'];
}

/** Pads that are at hand, or bought by their size, do not shrink with their covers. */
function keptWords({ changes }: Remedy, plan: Plan): readonly string[] {
  return changes.flatMap((change) => {
    if (change.kind !== 'measure' || change.of.list === 'pieces') return [];
    const order = plan.makes[change.of.index]!;
    return Object.entries(keptOf(order, change.measure)).map(
      ([what, size]) => `the ${what} of ${order.name} stays ${formatSize(size, plan)} and sits tighter`,
    );
  });
}

/** What it costs, and how much there is to sew. */
export function toDoWords(offer: Offer, plan: Plan): readonly string[] {
  const { joins, cutPlan } = offer;
  const of = [...new Set(cutPlan.joined.map(({ piece }) => `${piece.order} of ${piece.cloth}`))];
  const sew = `${counted(joins, 'join')} to sew in ${listed(of)}`;
  return [costWords(offer, plan), ...(joins > 0 ? [sew] : [])];
}

/** What shrinks, one row a measure: its name, its size, what it was, and whether one mark larger is known not to fit. */
export function shrinkRows({ changes, provenOf = [] }: Remedy, plan: Plan): readonly (readonly string[])[] {
  return changes.flatMap((change, index) => {
    if (change.kind !== 'measure') return [];
    const { name, now, before } = shrinkWords(change, plan);
    return [[name, now, `not ${before}`, provenOf[index] ? 'proven' : 'found']];
  });
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

function shrinkWords({ of, measure, value }: PlanChange & { kind: 'measure' }, plan: Plan) {
  const before = of.list === 'pieces' ? plan.pieces[of.index]!.size : plan.makes[of.index]!.measures[measure];
  return {
    name: `${nameOf(of, plan)}${typeof value === 'object' ? '' : `, ${measure}`}`,
    now: measureWords(value, plan),
    before: measureWords(before as Size | Ticks, plan),
  };
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

function counted(count: number, one: string): string {
  return `${count} ${count === 1 ? one : `${one}s`}`;
}
