import type { Cloth, ClothName } from '../../model/cloth.ts';
import type { ClothChoice } from '../../model/collection.ts';
import type { Issue, Outcome } from '../../model/issue.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { ticks } from '../../units/ticks.ts';
import { bedsOf } from '../beds.ts';
import { roomsOf } from '../choose-joins.ts';
import { sortIntoKinds } from '../kinds.ts';
import { leastForPanels } from '../panels/least-for-panels.ts';
import { panelledCloth } from '../panels/panelled-cloth.ts';
import { joinings } from '../piecing.ts';
import { blamed } from './blame.ts';
import { ClothCost, type Measure } from './cloth-cost.ts';
import { fitsSome, waysOf } from './cloth-lines.ts';
import { type Dealt, lotsOf } from './deal.ts';
import { dealOut } from './deal-out.ts';
import type { MasterOptions, Pool, PoolClash } from './master-question.ts';
import { namesFor, type Share, type Shares, type Sort, sharesOf } from './shares.ts';
import { leavesClothOpen, type Openings, type PartWanted, partsWanted } from './wanted.ts';

export interface ChooseOptions {
  readonly effort: number;
  readonly seed: number;
  readonly stop?: () => boolean;
  readonly onNode?: (nodes: number) => void;
}

/** A choice whose sums are those of the cloths that were chosen among, and no others. */
export interface ClothsChosen extends ClothChoice {
  readonly cloths: readonly ClothName[];
  /** What is proven beforehand of the cloths that there is no choice about. */
  readonly others: readonly { readonly cloth: ClothName; readonly least: number }[];
}

/** Shares of the effort: for one packing, and of nodes and packings to spend. */
const PER_PACKING = 20;
const PER_NODE = 80;
const PER_ASKING = 1000;

/**
 * Chooses the cloth of every part that the plan leaves open, so that what is bought costs least after each purchase is
 * rounded to its shop's step, and every rule is kept:
 *
 *     plan ──partsWanted──▶ parts ──sharesOf──▶ shares and limits ──poolsOf──▶ Master ──dealBack──▶ shares' cloths ──lotsOf──▶ lots
 *
 * Lengths in hand cost nothing here; prints are taken as if nothing were matched, and panels as if pieces could lie anywhere. The sums are of the packings found while choosing; laying out may still do better.
 */
export function chooseCloths(plan: Plan, openings: Openings, options: ChooseOptions): Outcome<ClothsChosen> {
  const outcome = choose(plan, openings, options);
  if (outcome.ok) return outcome;
  const { onNode: _, ...quietly } = options;
  const hasChoice = (other: Plan) => choose(other, openings, quietly).ok;
  return {
    ok: false,
    issues: outcome.issues.map((issue) =>
      issue.code === 'no-choice' ? blamed(plan, issue, hasChoice) : issue,
    ),
  };
}

function choose(plan: Plan, openings: Openings, options: ChooseOptions): Outcome<ClothsChosen> {
  const parts = partsWanted(plan, openings);
  const shares = sharesOf(plan, parts, holdsOf(plan));
  const impossible = shares.shares.flatMap((share) =>
    share.cloths.length === 0 ? [noCloth(plan, share, shares)] : [],
  );
  if (impossible.length > 0) return { ok: false, issues: impossible };
  if (shares.shares.every(({ cloths }) => cloths.length === 1)) {
    // Nothing to choose: the rules hold or they do not, and what each cloth takes is told when it is laid out.
    if (breaksLimits(shares)) return { ok: false, issues: [noChoice(plan)] };
    if (!leavesClothOpen(plan)) return { ok: true, value: NOTHING_CHOSEN, issues: [] };
  }
  const { measure, issues } = measureOf(plan, shares);
  const { pools, members, clashes, base } = poolsOf(plan, shares);
  const costs = plan.cloths.map((cloth, index) => {
    const cut = shares.sorts.map((_, sort) =>
      shares.shares.some(({ cloths, each }) => cloths.includes(index) && each[sort]! > 0),
    );
    const around = panelsFrom(cloth, parts);
    const cost = new ClothCost(plan, panelledCloth(cloth, around), shares.sorts, cut, measure);
    const onBolt = leastForPanels({ ...cloth, inHand: [] }, around);
    if (onBolt > 0) {
      cost.takesAtLeast(panelCounts(cloth.name, shares), leastForPanels(cloth, around), onBolt);
    }
    return cost;
  });
  const answer = dealOut({ pools, clashes, base, costs }, masterOptions(options));
  if (!answer.units) return { ok: false, issues: [...issues, noChoice(plan)] };
  const dealt = dealBack(shares, pools, members, answer.units);
  const lots = lotsOf(plan, shares, dealt);
  const chosenAmong = new Set(pools.flatMap(({ cloths }) => cloths));
  const value = {
    lots,
    measure,
    total: answer.cost,
    bound: answer.bound,
    cloths: plan.cloths.filter((_, index) => chosenAmong.has(index)).map(({ name }) => name),
    others: plan.cloths.flatMap(({ name }, index) => {
      if (chosenAmong.has(index)) return [];
      const cost = costs[index]!;
      cost.tailoredLine(base[index]!);
      const steps = cost.provenSteps(base[index]!);
      return Number.isFinite(steps) ? [{ cloth: name, least: cost.costOfSteps(steps) }] : [];
    }),
  };
  return { ok: true, value, issues };
}

function panelsFrom({ name }: Cloth, parts: readonly PartWanted[]): readonly PieceWanted[] {
  return parts.flatMap(({ panelsOf, pieces }) => (panelsOf === name ? pieces : []));
}

/** Copies of each sort that fronts with a panel are cut into, which always are cut from this cloth. */
function panelCounts(name: ClothName, { shares, parts, sorts }: Shares): readonly number[] {
  const own = shares.filter((share) => share.parts.every((part) => parts[part]!.panelsOf === name));
  return sorts.map((_, sort) => own.reduce((sum, { units, each }) => sum + units * each[sort]!, 0));
}

function masterOptions({ effort, seed, stop, onNode }: ChooseOptions): MasterOptions {
  return {
    pack: { effort: Math.max(300, Math.ceil(effort / PER_PACKING)), seed, ...(stop && { stop }) },
    mostNodes: Math.max(40, Math.ceil(effort / PER_NODE)),
    mostPackings: Math.max(40, Math.ceil(effort / PER_ASKING)),
    ...(stop && { stop }),
    ...(onNode && { onNode }),
  };
}

const NOTHING_CHOSEN: ClothsChosen = {
  lots: [],
  measure: 'money',
  total: 0,
  bound: 0,
  cloths: [],
  others: [],
};

/** Whether shares of one cloth each come to more of it than a limit allows. */
function breaksLimits({ shares, clashes }: Shares): boolean {
  return clashes.some(({ terms, most }) => {
    const used = new Map<number, number>();
    for (const { share, weight } of terms) {
      const { cloths, units } = shares[share]!;
      used.set(cloths[0]!, (used.get(cloths[0]!) ?? 0) + weight * units);
    }
    return [...used.values()].some((own) => own > most);
  });
}

function holdsOf(plan: Plan): (sort: Sort, cloth: number) => boolean {
  const beds = plan.cloths.map((cloth) => bedsOf(plan, cloth));
  return (sort, index) => {
    const cloth = plan.cloths[index]!;
    const { width, length } = sort.size;
    const finished = { x0: ticks(0), y0: ticks(0), x1: width, y1: length };
    const named = { id: '', letter: '', name: '', order: '', cloth: cloth.name, copies: 1, lines: [] };
    const piece = { ...named, ...sort, exactSize: sort.size, finished };
    if (sortIntoKinds([piece], cloth).issues.some(({ severity }) => severity === 'error')) return false;
    if (fitsSome(waysOf(sort, cloth), beds[index]!)) return true;
    if (sort.join === undefined) return false;
    return joinings(piece, cloth, roomsOf(beds[index]!), plan.rulerMark).length > 0;
  };
}

/** Money is compared only where every cloth that may be bought has a price. */
function measureOf(
  plan: Plan,
  { shares }: Shares,
): { readonly measure: Measure; readonly issues: readonly Issue[] } {
  const asked = new Set(shares.flatMap(({ cloths }) => cloths));
  const bought = plan.cloths.filter((cloth, index) => asked.has(index) && cloth.buy !== undefined);
  const unpriced = bought.filter(({ price }) => price === undefined).map(({ name }) => name);
  if (unpriced.length === 0) return { measure: 'money', issues: [] };
  if (unpriced.length === bought.length) return { measure: 'length', issues: [] };
  const details = { unpriced };
  return {
    measure: 'length',
    issues: [
      { code: 'choice-by-length', severity: 'warning', path: ['cloths', unpriced[0]!, 'price'], details },
    ],
  };
}

/**
 * Shares that are alike in all respects and under no limit are one pool, since which of them gets which cloth makes no
 * difference; shares without a choice and without a limit are what their cloth is cut into anyway.
 */
function poolsOf(plan: Plan, { shares, sorts, clashes }: Shares) {
  const limited = new Set(clashes.flatMap(({ terms }) => terms.map(({ share }) => share)));
  const base = plan.cloths.map(() => sorts.map(() => 0));
  const pools: (Pool & { units: number })[] = [];
  const members: number[][] = [];
  const poolOf = new Map<string, number>();
  const ownPool = new Map<number, number>();
  for (const [index, { units, each, cloths }] of shares.entries()) {
    const [only, another] = cloths;
    if (another === undefined && !limited.has(index)) {
      for (const [sort, copies] of each.entries()) base[only!]![sort]! += copies * units;
      continue;
    }
    const key = limited.has(index) ? `share ${index}` : JSON.stringify([each, cloths]);
    const known = poolOf.get(key);
    if (known !== undefined) {
      pools[known]!.units += units;
      members[known]!.push(index);
      continue;
    }
    poolOf.set(key, pools.length);
    ownPool.set(index, pools.length);
    pools.push({ units, each, cloths });
    members.push([index]);
  }
  return {
    pools,
    members,
    base,
    clashes: clashes.map(
      ({ terms, most }): PoolClash => ({
        terms: terms.map(({ share, weight }) => ({ pool: ownPool.get(share)!, weight })),
        most,
      }),
    ),
  };
}

/** Gives each share its units of the pool, cloth after cloth, so that it comes from few cloths. */
function dealBack(
  { shares }: Shares,
  pools: readonly Pool[],
  members: readonly (readonly number[])[],
  units: readonly (readonly number[])[],
): Dealt {
  const dealt = shares.map(
    ({ cloths, units: own }) => new Map(cloths.length === 1 ? [[cloths[0]!, own]] : []),
  );
  for (const [pool, { cloths }] of pools.entries()) {
    const left = [...units[pool]!];
    let place = 0;
    for (const share of members[pool]!) {
      dealt[share]!.clear();
      for (let wanted = shares[share]!.units; wanted > 0; ) {
        while (left[place] === 0) place += 1;
        const given = Math.min(wanted, left[place]!);
        dealt[share]!.set(cloths[place]!, given);
        left[place]! -= given;
        wanted -= given;
      }
    }
  }
  return dealt;
}

function noCloth(plan: Plan, share: Share, { parts }: Shares): Issue {
  const own = share.parts.map((part) => parts[part]!);
  const cloths = namesFor(plan, own[0]!).filter((name) =>
    own.every((part) => namesFor(plan, part).includes(name)),
  );
  if (cloths.length === 0) return noChoice(plan, own);
  const holds = holdsOf(plan);
  const indices = cloths.map((name) => plan.cloths.findIndex((cloth) => cloth.name === name));
  const pieces = own.flatMap((part) => part.pieces);
  const piece = pieces.find((one) => indices.every((cloth) => !holds(one, cloth))) ?? pieces[0]!;
  const details = { piece: piece.id, cloths };
  return { code: 'no-cloth-holds', severity: 'error', path: pathOf(plan, own[0]!), details };
}

function noChoice(plan: Plan, own: readonly PartWanted[] = []): Issue {
  const orders = own.map(({ order }) => order);
  const sets = (plan.sets ?? []).filter(
    (set) => own.length === 0 || set.orders.some((order) => orders.includes(order)),
  );
  return { code: 'no-choice', severity: 'error', path: [], details: { sets: sets.map(({ name }) => name) } };
}

function pathOf(plan: Plan, { order }: PartWanted): Issue['path'] {
  const made = plan.makes.findIndex(({ name }) => name === order);
  if (made >= 0) return ['make', made, 'cloth'];
  return ['pieces', plan.pieces.findIndex(({ name }) => name === order), 'cloth'];
}
