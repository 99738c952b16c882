import type { ClothName } from '../../model/cloth.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { Issue, Outcome } from '../../model/issue.ts';
import type { Plan } from '../../model/plan.ts';
import type { Ticks } from '../../units/ticks.ts';
import { type PlanChange, withChanges } from './changes.ts';
import { Judge } from './judge.ts';
import { dropChanges, fewestByArea, leastDrops } from './least-drop.ts';
import { leastJoins } from './least-joins.ts';
import { leastShrinks, type MayShrink } from './least-shrink.ts';
import { areaOf, type Thing, thingsFrom } from './things.ts';

export type OfferKind = 'join' | 'shrink' | 'drop' | 'buy';

export const OFFER_KINDS: readonly OfferKind[] = ['join', 'shrink', 'drop', 'buy'];

/** One way out where the cloth no longer holds what is wanted, as a whole plan. */
export interface Offer {
  readonly kind: OfferKind;
  readonly changes: readonly PlanChange[];
  readonly cutPlan: CutPlan;
  /** More to pay, in hundredths; absent where something is bought that has no price. */
  readonly cost?: number;
  readonly bought: readonly { readonly cloth: ClothName; readonly length: Ticks }[];
  /** Things left out. */
  readonly dropped: number;
  /** Cut area that is no longer sewn, in square ticks. */
  readonly lost: number;
  /** Join lines to sew. */
  readonly joins: number;
  /** Whether nothing less of its kind would do. */
  readonly proven: boolean;
  /** Other ways that are as good: they leave out as few, or lose as little cloth. */
  readonly ties: readonly (readonly PlanChange[])[];
}

export interface Refit {
  /** Present where all fits as it is. */
  readonly asItIs?: CutPlan;
  /** Cloths that no longer hold what is wanted of them. */
  readonly short: readonly ClothName[];
  /** Least money first, then least left out, least lost, fewest joins. */
  readonly offers: readonly Offer[];
  /** Kinds of which there is no offer. */
  readonly none: readonly OfferKind[];
}

export interface RefitOptions {
  /** Search nodes per cloth for the plans that are offered; what is only tried takes a part of it. */
  readonly effort: number;
  readonly seed: number;
  readonly stop?: () => boolean;
  readonly may?: readonly MayShrink[];
  /** Which offers to look for; all unless said. */
  readonly kinds?: readonly OfferKind[];
  /** Makes and proves a plan; a plan that it gives is sound. */
  readonly make: (plan: Plan) => Outcome<CutPlan>;
}

/** Share of the effort for judging one change. */
const JUDGE = 10;

/** Problems that less to cut, or more cloth, may cure. */
const SHORT: readonly Issue['code'][] = [
  'too-wide',
  'cannot-join',
  'not-enough-cloth',
  'no-cloth-holds',
  'no-choice',
];

/**
 * Plans what is wanted on the cloth as it was measured; where it no longer fits, finds what is the least to join, to
 * shrink, to drop and to buy, each as a whole plan. Fails only with problems that none of these cures.
 */
export function refit(plan: Plan, options: RefitOptions): Outcome<Refit> {
  const asItIs = options.make(plan);
  if (asItIs.ok) return { ...asItIs, value: { asItIs: asItIs.value, short: [], offers: [], none: [] } };
  const errors = asItIs.issues.filter(({ severity }) => severity === 'error');
  if (!errors.every(({ code }) => SHORT.includes(code))) return asItIs;
  const short = shortOf(plan, errors);
  const seeking = new Seeking(plan, short, options);
  const kinds = options.kinds ?? OFFER_KINDS;
  const offers = kinds.flatMap((kind) => seeking.offer(kind) ?? []);
  const none = kinds.filter((kind) => !offers.some((offer) => offer.kind === kind));
  return { ok: true, value: { short: [...short], offers: offers.sort(byCost), none }, issues: asItIs.issues };
}

/** Cloths that problems name; all of them where a choice of cloths found none. */
function shortOf(plan: Plan, errors: readonly Issue[]): ReadonlySet<ClothName> {
  const named = errors.flatMap((issue) => ('cloth' in issue.details ? [String(issue.details.cloth)] : []));
  return new Set(named.length === errors.length ? named : plan.cloths.map(({ name }) => name));
}

function byCost(a: Offer, b: Offer): number {
  const [money, otherMoney] = [a.cost ?? Infinity, b.cost ?? Infinity];
  if (money !== otherMoney) return money < otherMoney ? -1 : 1;
  return a.dropped - b.dropped || a.lost - b.lost || a.joins - b.joins;
}

class Seeking {
  readonly #plan: Plan;
  readonly #short: ReadonlySet<ClothName>;
  readonly #options: RefitOptions;
  readonly #things: readonly Thing[];
  readonly #judge: Judge;

  constructor(plan: Plan, short: ReadonlySet<ClothName>, options: RefitOptions) {
    this.#plan = plan;
    this.#short = short;
    this.#options = options;
    this.#things = thingsFrom(plan, short);
    const { effort, seed, stop } = options;
    this.#judge = new Judge(short, { effort: Math.ceil(effort / JUDGE), seed, ...(stop && { stop }) });
  }

  offer(kind: OfferKind): Offer | undefined {
    if (kind === 'join') return this.#join();
    if (kind === 'shrink') return this.#shrink();
    return kind === 'drop' ? this.#drop() : this.#buy();
  }

  /** Of the ways that fit, the one with the fewest joins. */
  #join(): Offer | undefined {
    // Joins only take up more cloth.
    if (fewestByArea(this.#plan, this.#things, this.#short) > 0) return undefined;
    const ways = [...leastJoins(this.#plan, this.#things, this.#judge)];
    const offers = ways.flatMap((changes) => this.#made('join', changes, { proven: false }) ?? []);
    return offers.sort((a, b) => a.joins - b.joins)[0];
  }

  #shrink(): Offer | undefined {
    const { may = [] } = this.#options;
    const found = leastShrinks(this.#plan, this.#things, may, this.#judge);
    for (const { changes, lost, proven } of found) {
      const ties = found.flatMap((own) =>
        own.changes !== changes && own.lost === lost ? [own.changes] : [],
      );
      const offer = this.#made('shrink', changes, { proven, lost, ties });
      if (offer) return offer;
    }
    return undefined;
  }

  #drop(): Offer | undefined {
    const layers = leastDrops(this.#plan, this.#things, this.#short, this.#judge);
    let refused = false;
    for (const { dropped, ways, proven } of layers) {
      for (const left of ways) {
        const lost = left.reduce((sum, count, place) => sum + count * areaOf(this.#things[place]!), 0);
        const ties = ways.filter((way) => way !== left).map((way) => dropChanges(this.#things, way));
        const figures = { dropped, lost, ties, proven: proven && !refused };
        const offer = this.#made('drop', dropChanges(this.#things, left), figures);
        if (offer) return offer;
        refused = true;
      }
    }
    return undefined;
  }

  /** As little more as can be found of every cloth that is short. */
  #buy(): Offer | undefined {
    const buys = [...this.#short].filter(
      (name) => this.#plan.cloths.find((cloth) => cloth.name === name)?.measured?.reckoned.buy,
    );
    if (buys.length === 0) return undefined;
    const changes = buys.map((cloth): PlanChange => ({ kind: 'buy-more', cloth }));
    const offer = this.#made('buy', changes, { proven: false });
    const proven = offer?.cutPlan.cloths.every(
      ({ cloth, answer, purchase }) => !purchase || !this.#short.has(cloth) || answer === 'best',
    );
    return offer && { ...offer, proven: proven === true };
  }

  #made(kind: OfferKind, changes: readonly PlanChange[], figures: Partial<Offer>): Offer | undefined {
    const outcome = this.#options.make(withChanges(this.#plan, changes));
    if (!outcome.ok) return undefined;
    const cutPlan = outcome.value;
    const bought = cutPlan.cloths.flatMap(({ cloth, purchase }) =>
      purchase && this.#short.has(cloth) ? [{ cloth, length: purchase.bought }] : [],
    );
    const costs = cutPlan.cloths.flatMap(({ cloth, purchase }) =>
      purchase && this.#short.has(cloth) ? [purchase.cost] : [],
    );
    const priced = costs.every((cost) => cost !== undefined);
    return {
      ...{ kind, changes, cutPlan, bought },
      ...(priced && { cost: costs.reduce<number>((sum, cost) => sum + (cost ?? 0), 0) }),
      ...{ dropped: 0, lost: 0, proven: false, ties: [] },
      joins: joinsIn(cutPlan),
      ...figures,
    };
  }
}

function joinsIn({ joined }: CutPlan): number {
  return joined.reduce((sum, { copies, parts }) => sum + copies * (parts.length - 1), 0);
}
