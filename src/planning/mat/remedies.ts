import type { ClothName } from '../../model/cloth.ts';
import type { Plan } from '../../model/plan.ts';
import { inPlace, type PlanChange, withChanges } from './changes.ts';
import type { MayShrink } from './givings.ts';
import { canBeParted, type Judge } from './judge.ts';
import { dropChanges, fewestByArea, leastDrops } from './least-drop.ts';
import { leastJoins } from './least-joins.ts';
import { leastShrinks } from './least-shrink.ts';
import { areaOf, type Thing, thingsFrom } from './things.ts';

export type OfferKind = 'join' | 'shrink' | 'drop' | 'buy';

/** The mildest first. */
export const OFFER_KINDS: readonly OfferKind[] = ['join', 'shrink', 'drop', 'buy'];

/** What makes everything fit on some of the cloths that are short. */
export interface Remedy {
  readonly kind: OfferKind;
  readonly cloths: readonly ClothName[];
  readonly changes: readonly PlanChange[];
  /** Things left out. */
  readonly dropped: number;
  /** Cut area that is no longer sewn, in square ticks. */
  readonly lost: number;
  /** Whether nothing less of its kind would do on these cloths; of what shrinks, whether that holds of every measure. */
  readonly proven: boolean;
  /** Of what shrinks, for each change: whether that measure one mark larger would not fit. */
  readonly provenOf?: readonly boolean[];
  /** Of what shrinks, where several measures may give: whether it is proven that no mixture of them loses less cloth. */
  readonly leastLost?: boolean;
  /** Other ways that are as good: they leave out as few, or lose as little cloth. */
  readonly ties: readonly (readonly PlanChange[])[];
}

export interface RemedyQuestion {
  readonly plan: Plan;
  /** What has been changed already; it stands, and what is found comes after it. */
  readonly prior: readonly PlanChange[];
  readonly cloths: ReadonlySet<ClothName>;
  readonly judge: Judge;
  readonly may: readonly MayShrink[];
}

/** Ways of one kind in which everything fits on these cloths as far as the judge can see, the best first. */
export function* remediesOf(kind: OfferKind, question: RemedyQuestion): Generator<Remedy> {
  const { cloths, judge, may } = question;
  const plan = inPlace(question.plan, question.prior);
  const things = thingsFrom(plan, cloths);
  const own = judge.only(cloths);
  const told = { kind, cloths: [...cloths], dropped: 0, lost: 0, proven: false, ties: [] };
  if (kind === 'join') {
    // Joins only take up more cloth.
    if (fewestByArea(plan, things, cloths) > 0) return;
    for (const changes of leastJoins(plan, things, own)) yield { ...told, changes };
  } else if (kind === 'shrink') {
    const apart = canBeParted(plan) ? [...cloths].map((cloth) => new Set([cloth])) : [cloths];
    const found = leastShrinks(plan, things, may, apart, own);
    for (const { changes, lost, proven, leastLost } of found) {
      const ties = found.flatMap((other) =>
        other.changes !== changes && other.lost === lost ? [other.changes] : [],
      );
      const claims = { proven: proven.every((each) => each), provenOf: proven };
      yield { ...told, changes, lost, ties, ...claims, ...(leastLost !== undefined && { leastLost }) };
    }
  } else if (kind === 'drop') yield* dropsOf(plan, things, question);
  else {
    const buys = [...cloths].filter(
      (name) => plan.cloths.find((cloth) => cloth.name === name)?.measured?.reckoned.buy,
    );
    // Whether no less is enough is known once it is planned.
    if (buys.length === cloths.size)
      yield { ...told, changes: buys.map((cloth): PlanChange => ({ kind: 'buy-more', cloth })) };
  }
}

function* dropsOf(
  plan: Plan,
  things: readonly Thing[],
  { cloths, judge }: RemedyQuestion,
): Generator<Remedy> {
  let refused = false;
  for (const { dropped, ways, proven } of leastDrops(plan, things, cloths, judge.only(cloths))) {
    for (const left of ways) {
      const lost = left.reduce((sum, count, place) => sum + count * areaOf(things[place]!), 0);
      const ties = ways.filter((way) => way !== left).map((way) => dropChanges(things, way));
      const changes = dropChanges(things, left);
      const figures = { dropped, lost, ties, proven: proven && !refused };
      yield { kind: 'drop', cloths: [...cloths], changes, ...figures };
      refused = true;
    }
  }
}

/** Whether everything fits on these cloths with so much changed, as far as the judge can see. */
export function fitsWith({ plan, judge, cloths }: RemedyQuestion, changes: readonly PlanChange[]): boolean {
  return judge.only(cloths).of(withChanges(plan, changes)) === 'fits';
}
