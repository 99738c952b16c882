import type { ClothName } from '../../model/cloth.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { Issue, Outcome } from '../../model/issue.ts';
import type { PanelFault } from '../../model/panel.ts';
import type { Plan } from '../../model/plan.ts';
import type { Ticks } from '../../units/ticks.ts';
import type { PlanChange } from './changes.ts';
import type { MayShrink } from './givings.ts';
import { OFFER_KINDS, type OfferKind, type Remedy } from './remedies.ts';
import { Seeking } from './seeking.ts';

/** One way out where the cloth no longer holds what is wanted, as a whole plan. */
export interface Offer {
  /** What it was asked to be; where that saves only some of the cloths, the others have what is mildest. */
  readonly kind: OfferKind;
  /** What is done for which cloths; cloths that no thing connects are settled apart. */
  readonly parts: readonly Remedy[];
  /** All that its parts change. */
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
  /** Whether nothing less would do of any of its parts. */
  readonly proven: boolean;
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
  /** The one offer to look for: of one kind, or what to do for each cloth that is short. All kinds unless said. */
  readonly take?: OfferKind | ReadonlyMap<ClothName, OfferKind>;
  /** Makes and proves a plan; a plan that it gives is sound. */
  readonly make: (plan: Plan) => Outcome<CutPlan>;
}

/** Problems that less to cut, or more cloth, may cure. */
const SHORT: readonly Issue['code'][] = [
  'too-wide',
  'cannot-join',
  'not-enough-cloth',
  'motif-near-edge',
  'no-cloth-holds',
  'no-choice',
];

/**
 * Plans what is wanted on the cloth as it was measured; where it no longer fits, finds what is the least to join, to
 * shrink, to drop and to buy, cloth by cloth, each as a whole plan. Fails only with problems that none of these cures.
 */
export function refit(plan: Plan, options: RefitOptions): Outcome<Refit> {
  const asItIs = options.make(plan);
  if (asItIs.ok) return { ...asItIs, value: { asItIs: asItIs.value, short: [], offers: [], none: [] } };
  const errors = asItIs.issues.filter(({ severity }) => severity === 'error');
  if (!errors.every(isShort)) return asItIs;
  const short = shortOf(plan, errors);
  const seeking = new Seeking(plan, short, options);
  const { take } = options;
  if (typeof take === 'object') {
    const offer = seeking.mixed(take);
    const offers = offer ? [offer] : [];
    return { ok: true, value: { short: [...short], offers, none: [] }, issues: asItIs.issues };
  }
  const kinds = take ? [take] : OFFER_KINDS;
  const offers = kinds.flatMap((kind) => seeking.offer(kind) ?? []);
  const none = kinds.filter((kind) => !offers.some((offer) => offer.kind === kind));
  return { ok: true, value: { short: [...short], offers: offers.sort(byCost), none }, issues: asItIs.issues };
}

/** Of panels, that too few of them can be had, or none beside the others. */
const SHORT_OF_PANELS: readonly PanelFault[] = ['too-few', 'spoilt', 'crowded', 'no-way'];

function isShort({ code, details }: Issue): boolean {
  if (code === 'panel-fault') return SHORT_OF_PANELS.includes((details as { fault: PanelFault }).fault);
  return SHORT.includes(code);
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
