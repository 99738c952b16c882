import type { ClothName } from '../../model/cloth.ts';
import type { CutPlan } from '../../model/cut-plan.ts';
import type { Outcome } from '../../model/issue.ts';
import type { Plan } from '../../model/plan.ts';
import { lastOfEach, type PlanChange, withChanges } from './changes.ts';
import { canBeParted, Judge } from './judge.ts';
import type { Offer, RefitOptions } from './refit.ts';
import { fitsWith, OFFER_KINDS, type OfferKind, type Remedy, remediesOf } from './remedies.ts';
import { groupsOf, type Thing, thingsFrom } from './things.ts';

/** Share of the effort for judging one change. */
const JUDGE = 10;

type Cloths = ReadonlySet<ClothName>;

/** Looks for offers for cloths that are short, group by group, where no thing is cut from cloths of two groups. */
export class Seeking {
  readonly #plan: Plan;
  readonly #short: Cloths;
  readonly #options: RefitOptions;
  readonly #things: readonly Thing[];
  readonly #groups: readonly Cloths[];
  readonly #judge: Judge;
  readonly #made = new Map<string, Outcome<CutPlan>>();

  constructor(plan: Plan, short: Cloths, options: RefitOptions) {
    this.#plan = plan;
    this.#short = short;
    this.#options = options;
    this.#things = thingsFrom(plan, short);
    this.#groups = canBeParted(plan) ? groupsOf(this.#things, short) : [short];
    const { effort, seed, stop } = options;
    this.#judge = new Judge(short, { effort: Math.ceil(effort / JUDGE), seed, ...(stop && { stop }) });
  }

  /** One kind for every cloth that it saves, and what is mildest for the others; undefined where it saves none. */
  offer(kind: OfferKind): Offer | undefined {
    const settled = this.#groups.map((group) => this.#settled(group, kind));
    if (!settled.some((parts) => parts?.some((part) => part.kind === kind))) return undefined;
    return this.#assembled(kind, settled);
  }

  /** For every cloth what is asked for it; undefined where that does not save one of them. */
  mixed(kinds: ReadonlyMap<ClothName, OfferKind>): Offer | undefined {
    const settled = this.#groups.map((group) => {
      const own = [...group].map((cloth) => kinds.get(cloth));
      const [kind] = own;
      const one = kind && own.every((other) => other === kind) && this.#first(kind, group, { group });
      return one ? [one] : this.#clothByCloth(group, kinds);
    });
    return this.#assembled([...kinds.values()][0]!, settled);
  }

  /** What makes a group fit: all of one kind where that can be, else as many cloths as can be. */
  #settled(group: Cloths, kind: OfferKind): readonly Remedy[] | undefined {
    // Joins belong to one cloth each, so they are sought cloth by cloth.
    const whole = kind !== 'join' || group.size === 1 || !canBeParted(this.#plan);
    const one = whole ? this.#first(kind, group, { group }) : undefined;
    if (one) return [one];
    const parts = group.size > 1 && canBeParted(this.#plan) ? this.#oneKind(group, kind) : [];
    const prior = parts.flatMap(({ changes }) => changes);
    const left = this.#stillShort(group, prior);
    if (left.size === 0) return this.#holds(group, prior) ? parts : undefined;
    for (const other of OFFER_KINDS) {
      const rest = other === kind ? undefined : this.#first(other, left, { group, prior });
      if (rest) return [...parts, rest];
    }
    return undefined;
  }

  #oneKind(group: Cloths, kind: OfferKind): readonly Remedy[] {
    const parts: Remedy[] = [];
    for (const cloth of group) {
      const prior = parts.flatMap(({ changes }) => changes);
      if (!this.#stillShort(group, prior).has(cloth)) continue;
      const own = this.#first(kind, new Set([cloth]), { prior });
      if (own) parts.push(own);
    }
    return parts;
  }

  #clothByCloth(group: Cloths, kinds: ReadonlyMap<ClothName, OfferKind>): readonly Remedy[] | undefined {
    const parts: Remedy[] = [];
    const all = () => parts.flatMap(({ changes }) => changes);
    for (const cloth of group) {
      const left = this.#stillShort(group, all());
      if (!left.has(cloth)) continue;
      const last = left.size === 1 ? { group } : {};
      const kind = kinds.get(cloth);
      const own = kind && this.#first(kind, new Set([cloth]), { prior: all(), ...last });
      if (!own) return undefined;
      parts.push(own);
    }
    return this.#holds(group, all()) ? parts : undefined;
  }

  /**
   * The best remedy of a kind that stands. Where it completes a group, the whole pipeline must plan the group with it;
   * until then only the judge can say, since the rest is still short.
   */
  #first(
    kind: OfferKind,
    cloths: Cloths,
    { group, prior = [] }: { readonly group?: Cloths; readonly prior?: readonly PlanChange[] },
  ): Remedy | undefined {
    const question = { plan: this.#plan, prior, cloths, judge: this.#judge, may: this.#options.may ?? [] };
    for (const remedy of remediesOf(kind, question)) {
      const changes = [...prior, ...remedy.changes];
      if (group ? this.#holds(group, changes) : fitsWith(question, changes)) return remedy;
    }
    return undefined;
  }

  #stillShort(group: Cloths, changes: readonly PlanChange[]): Cloths {
    if (changes.length === 0) return group;
    const changed = withChanges(this.#plan, changes);
    return new Set([...group].filter((cloth) => this.#judge.only(new Set([cloth])).of(changed) !== 'fits'));
  }

  /** Whether a group can be planned with these changes, once what other groups hold is left out. */
  #holds(group: Cloths, changes: readonly PlanChange[]): boolean {
    const others = this.#things.filter(({ areas }) => ![...areas.keys()].some((cloth) => group.has(cloth)));
    const without = others.map(
      ({ list, index }): PlanChange => ({ kind: 'count', of: { list, index }, count: 0 }),
    );
    return this.#make([...changes, ...(this.#groups.length === 1 ? [] : without)]).ok;
  }

  #make(changes: readonly PlanChange[]): Outcome<CutPlan> {
    const own = lastOfEach(changes);
    const key = JSON.stringify(own);
    const known = this.#made.get(key) ?? this.#options.make(withChanges(this.#plan, own));
    this.#made.set(key, known);
    return known;
  }

  #assembled(kind: OfferKind, settled: readonly (readonly Remedy[] | undefined)[]): Offer | undefined {
    if (settled.some((parts) => parts === undefined)) return undefined;
    const found = settled.flatMap((parts) => parts ?? []);
    const changes = lastOfEach(found.flatMap((part) => part.changes));
    const outcome = this.#make(changes);
    if (!outcome.ok) return undefined;
    const cutPlan = outcome.value;
    const parts = found.map((part) => ({ ...part, proven: isProven(part, cutPlan) }));
    const ofShort = cutPlan.cloths.filter(({ cloth, purchase }) => purchase && this.#short.has(cloth));
    const bought = ofShort.map(({ cloth, purchase }) => ({ cloth, length: purchase!.bought }));
    const costs = ofShort.map(({ purchase }) => purchase!.cost);
    return {
      ...{ kind, parts, changes, cutPlan, bought },
      ...(costs.every((cost) => cost !== undefined) && {
        cost: costs.reduce<number>((sum, cost) => sum + (cost ?? 0), 0),
      }),
      dropped: sumOf(parts, ({ dropped }) => dropped),
      lost: sumOf(parts, ({ lost }) => lost),
      joins: sumOf(cutPlan.joined, (own) => own.copies * (own.parts.length - 1)),
      proven: parts.every(({ proven }) => proven),
    };
  }
}

/** That less cannot be bought shows in the plan; all else is proven where it was found. */
function isProven({ kind, cloths, proven }: Remedy, { cloths: planned }: CutPlan): boolean {
  if (kind !== 'buy') return proven;
  return planned.every(
    ({ cloth, answer, purchase }) => !purchase || !cloths.includes(cloth) || answer === 'best',
  );
}

function sumOf<T>(all: readonly T[], value: (own: T) => number): number {
  return all.reduce((sum, own) => sum + value(own), 0);
}
