import { type ClothRules, type ClothSet, LOOSE_PART, NO_RULES } from '../../model/collection.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { PartWanted } from './wanted.ts';

/** Pieces that no cloth can tell apart. */
export type Sort = Pick<PieceWanted, 'size' | 'grain' | 'join' | 'match'>;

/** Copies of each sort, by its index. */
export type Counts = readonly number[];

/** Parts that go to a cloth together, so many times over. */
export interface Share {
  /** Indices into the parts wanted. */
  readonly parts: readonly number[];
  /** True where its only unit is the parts of the whole set: one cloth throughout. */
  readonly throughout: boolean;
  readonly units: number;
  /** What one unit is cut into. */
  readonly each: Counts;
  /** Indices of the cloths it may be cut from, rising. */
  readonly cloths: readonly number[];
}

/** For each cloth: the units that these shares cut from it, each times its weight, come to `most` at most. */
export interface Clash {
  readonly terms: readonly { readonly share: number; readonly weight: number }[];
  readonly most: number;
  readonly set: string;
}

export interface Shares {
  readonly sorts: readonly Sort[];
  readonly parts: readonly PartWanted[];
  readonly shares: readonly Share[];
  readonly clashes: readonly Clash[];
}

/**
 * Sorts the parts of a plan into shares and turns its rules into limits.
 *
 * Parts that must be cut from the same cloth are one share. Within one thing, shares differ exactly where no cloth is
 * used more often than there are things: things can then be dealt their parts without a clash, as the edges of a
 * bipartite multigraph can be coloured with as many colours as its highest degree (Kőnig 1916). So a rule that parts
 * be unlike is a limit for each cloth, and nothing needs to be known of single things.
 */
export function sharesOf(
  plan: Plan,
  parts: readonly PartWanted[],
  holds: (sort: Sort, cloth: number) => boolean,
): Shares {
  const sorts: Sort[] = [];
  const sortOf = new Map<string, number>();
  const indexOf = (piece: PieceWanted) => {
    const key = JSON.stringify([piece.size, piece.grain, piece.join ?? null, piece.match ?? null]);
    const known = sortOf.get(key) ?? sorts.push(piece) - 1;
    sortOf.set(key, known);
    return known;
  };
  const pieces = parts.map((part) =>
    part.pieces.map((piece) => ({ sort: indexOf(piece), copies: piece.copies })),
  );
  const sets = setsOf(plan, parts);
  const joint = new Joint(parts.length);
  for (const set of sets) {
    for (const name of set.rules.oneCloth) joint.unite(partsNamed(set, [name], parts), true);
    for (const order of set.orders) {
      joint.unite(partsNamed({ orders: [order] }, set.rules.alike, parts), false);
      joint.unite(wholeOf(plan, order, set.rules, parts), false);
    }
  }
  const permitted = parts.map((part) =>
    namesFor(plan, part).map((name) => plan.cloths.findIndex((own) => own.name === name)),
  );
  const shareOf = new Map<number, number>();
  const shares = joint.groups().map(({ members, throughout }, index): Share => {
    for (const part of members) shareOf.set(part, index);
    const each = sorts.map(() => 0);
    for (const part of members) {
      const times = throughout ? parts[part]!.count : 1;
      for (const { sort, copies } of pieces[part]!) each[sort]! += copies * times;
    }
    const named = permitted[members[0]!]!.filter((cloth) =>
      members.every((part) => permitted[part]!.includes(cloth)),
    );
    // Where there is nothing to choose, laying out tells what is too large for its cloth.
    const cloths =
      named.length < 2
        ? named
        : named.filter((cloth) => each.every((copies, sort) => copies === 0 || holds(sorts[sort]!, cloth)));
    return { parts: members, throughout, units: throughout ? 1 : parts[members[0]!]!.count, each, cloths };
  });
  const clashes = sets.flatMap((set) => clashesOf(set, parts, shares, shareOf));
  return { sorts, parts, shares, clashes };
}

/** The sets of the plan, and one without rules for every order that is bound by none. */
function setsOf(plan: Plan, parts: readonly PartWanted[]): readonly ClothSet[] {
  const sets = plan.sets ?? [];
  const bound = new Set(sets.flatMap(({ orders }) => orders));
  const free = [...new Set(parts.map(({ order }) => order))].filter((order) => !bound.has(order));
  return [...sets, ...free.map((order) => ({ name: order, orders: [order], rules: NO_RULES }))];
}

function partsNamed(
  { orders }: Pick<ClothSet, 'orders'>,
  names: readonly string[],
  parts: readonly PartWanted[],
): readonly number[] {
  return parts.flatMap(({ order, part }, index) =>
    orders.includes(order) && names.includes(part) ? [index] : [],
  );
}

/** Parts that share one choice, unless a rule wants them unlike. */
function wholeOf(
  plan: Plan,
  name: string,
  rules: ClothRules,
  parts: readonly PartWanted[],
): readonly number[] {
  const order = plan.makes.find((own) => own.name === name);
  if (order?.whole !== true) return [];
  const own = partsNamed({ orders: [name] }, Object.keys(order.choices ?? {}), parts);
  const unlike = own.filter((part) => rules.unlike.includes(parts[part]!.part));
  return unlike.length > 1 ? own.filter((part) => !unlike.includes(part)) : own;
}

/** Every cloth that a part may be cut from. */
export function namesFor(
  plan: Plan,
  { order, part, panelsOf }: Pick<PartWanted, 'order' | 'part' | 'panelsOf'>,
): readonly string[] {
  if (panelsOf !== undefined) return [panelsOf];
  const made = plan.makes.find((own) => own.name === order);
  if (made !== undefined) return made.choices?.[part] ?? [made.cloths[part]!];
  const loose = plan.pieces.find((own) => own.name === order && part === LOOSE_PART)!;
  return loose.choices ?? [loose.cloth];
}

function clashesOf(
  set: ClothSet,
  parts: readonly PartWanted[],
  shares: readonly Share[],
  shareOf: ReadonlyMap<number, number>,
): readonly Clash[] {
  const { unlike, noClothTwice } = set.rules;
  const sharesNamed = (names: readonly string[], orders: readonly string[]) => [
    ...new Set(partsNamed({ orders }, names, parts).map((part) => shareOf.get(part)!)),
  ];
  const within = set.orders.flatMap((order): Clash[] => {
    const named = partsNamed({ orders: [order] }, unlike, parts);
    const own = sharesNamed(unlike, [order]);
    if (named.length < 2) return [];
    const things = parts[named[0]!]!.count;
    // Two parts that must be alike can never be unlike: a limit of nothing says so.
    const most = own.length < named.length ? 0 : things;
    const terms = own.map((share) => ({ share, weight: shares[share]!.throughout ? things : 1 }));
    return [{ terms, most, set: set.name }];
  });
  const once = sharesNamed(noClothTwice, set.orders);
  if (once.length === 0) return within;
  return [...within, { terms: once.map((share) => ({ share, weight: 1 })), most: 1, set: set.name }];
}

/** Parts that are bound together, and whether they are so throughout the set. */
class Joint {
  readonly #leader: number[];
  readonly #throughout: boolean[];

  constructor(count: number) {
    this.#leader = Array.from({ length: count }, (_, index) => index);
    this.#throughout = this.#leader.map(() => false);
  }

  unite(members: readonly number[], throughout: boolean): void {
    if (members.length === 0) return;
    const leaders = members.map((member) => this.#leaderOf(member));
    const first = Math.min(...leaders);
    const bound = throughout || leaders.some((leader) => this.#throughout[leader]);
    for (const leader of leaders) this.#leader[leader] = first;
    this.#throughout[first] = bound;
  }

  groups(): readonly { readonly members: readonly number[]; readonly throughout: boolean }[] {
    const groups = new Map<number, number[]>();
    for (const member of this.#leader.keys()) {
      const leader = this.#leaderOf(member);
      groups.set(leader, [...(groups.get(leader) ?? []), member]);
    }
    return [...groups].map(([leader, members]) => ({ members, throughout: this.#throughout[leader]! }));
  }

  #leaderOf(member: number): number {
    let at = member;
    while (this.#leader[at] !== at) at = this.#leader[at]!;
    return at;
  }
}
