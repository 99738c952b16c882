import type { PackOptions } from '../../packing/instance.ts';
import type { ClothCost } from './cloth-cost.ts';
import { ClothHull } from './cloth-hull.ts';
import type { LengthLine } from './cloth-lines.ts';
import { DualSimplex } from './dual-simplex.ts';
import { OpenNodes, type Span } from './open-nodes.ts';
import type { Counts } from './shares.ts';

/** Units that are to be dealt out among cloths. */
export interface Pool {
  readonly units: number;
  readonly each: Counts;
  /** Indices of cloths, rising. */
  readonly cloths: readonly number[];
}

/** For each cloth: units of these pools, each times its weight, come to `most` at most. */
export interface PoolClash {
  readonly terms: readonly { readonly pool: number; readonly weight: number }[];
  readonly most: number;
}

export interface MasterQuestion {
  readonly pools: readonly Pool[];
  readonly clashes: readonly PoolClash[];
  /** What every cloth is cut into anyway, by cloth. */
  readonly base: readonly Counts[];
  readonly costs: readonly ClothCost[];
}

export interface MasterOptions {
  readonly pack: PackOptions;
  readonly mostNodes: number;
  readonly mostPackings: number;
  readonly stop?: () => boolean;
  readonly onNode?: (nodes: number) => void;
}

export interface MasterAnswer {
  /** Units by pool, then by place in the pool's cloths; undefined where no dealing out was found. */
  readonly units: readonly (readonly number[])[] | undefined;
  readonly cost: number;
  /** No dealing out costs less. Infinity where there is none at all. */
  readonly bound: number;
  readonly nodes: number;
}

const WHOLE = 1e-6;
const MOST_CUTS = 400;
/** Lines are made to measure at the first nodes; those further down have them all. */
const NODES_WITH_LINES = 60;
const NODES_WITH_HULLS = 60;
const MOST_PIVOTS = 3000;
/** Rounds of packing and cutting off at one node. */
const MOST_ROUNDS = 12;
/** One node in so many has its fractions rounded to find a dealing out. */
const ROUND_EVERY = 8;
/** More copies than this in one unit take too long to pack for every cloth beforehand. */
const MOST_COPIES_BEFOREHAND = 24;

/**
 * Deals units out among cloths for the least money, in whole steps of the shop for every cloth: logic-based Benders
 * decomposition (Hooker and Ottosson, "Logic-based Benders decomposition", Mathematical Programming 96 (2003), 33-60).
 *
 * The master is a small integer programme: units of each pool to each cloth, steps of each cloth, with the length lines
 * as rows. Where its answer is whole, the packer is asked what each cloth really needs; what it proves comes back as a
 * cut, and as a bound on every node that gives that cloth as much. Branch and bound, the least bound first, each
 * branch followed down; the same question and effort give the same answer.
 */
export class Master {
  readonly #question: MasterQuestion;
  readonly #options: MasterOptions;
  readonly #columns: { readonly pool: number; readonly place: number; readonly cloth: number }[] = [];
  readonly #firstOf: number[] = [];
  readonly #programme: DualSimplex;
  /** Rows that stand for length lines: cloth, and how much more its bolt must give once it is cut at all, in steps. */
  readonly #lineRows: {
    readonly row: number;
    readonly cloth: number;
    readonly least: number;
    readonly squared: number;
  }[] = [];
  readonly #hulls = new Map<number, ClothHull>();
  readonly #mostUnits: readonly number[];
  readonly #seenCuts = new Set<string>();
  #best: number[] | undefined;
  #bestCost = Number.POSITIVE_INFINITY;
  #nodes = 0;
  #packings = 0;

  constructor(question: MasterQuestion, options: MasterOptions) {
    this.#question = question;
    this.#options = options;
    const { pools, costs, base } = question;
    for (const [pool, { cloths }] of pools.entries()) {
      this.#firstOf.push(this.#columns.length);
      for (const [place, cloth] of cloths.entries()) this.#columns.push({ pool, place, cloth });
    }
    const units = this.#columns.map(({ pool }) =>
      question.clashes.reduce((least, { terms, most }) => {
        const weight = terms.reduce((total, term) => total + (term.pool === pool ? term.weight : 0), 0);
        return weight > 0 ? Math.min(least, Math.floor(most / weight)) : least;
      }, pools[pool]!.units),
    );
    this.#mostUnits = units;
    const sure = costs.map((cost, cloth) => this.#packed(cost, base[cloth]!).proven);
    const most = costs.map((cost, cloth) => (cost.canBuy ? this.#mostSteps(cost, cloth) : 0));
    this.#programme = new DualSimplex(
      [...this.#columns.map(() => 0), ...costs.map((cost) => cost.perStep)],
      [...units.map(() => 0), ...sure.map((steps) => (Number.isFinite(steps) ? steps : 0))],
      [
        ...units,
        ...most.map((steps, cloth) => Math.max(steps, Number.isFinite(sure[cloth]!) ? sure[cloth]! : 0)),
      ],
    );
    this.#addRows();
  }

  run(): MasterAnswer {
    const { mostNodes, stop, onNode, mostPackings } = this.#options;
    const { least, most } = this.#programme;
    const open = new OpenNodes();
    let unsettled = Number.POSITIVE_INFINITY;
    let node: { span: Span; bound: number } | undefined = {
      span: { least: least.slice(), most: most.slice() },
      bound: 0,
    };
    while (node) {
      const enough = this.#nodes >= mostNodes || this.#packings >= mostPackings || stop?.() === true;
      if (enough && this.#best !== undefined) {
        unsettled = Math.min(unsettled, node.bound);
        break;
      }
      if (this.#nodes > 4 * mostNodes) {
        unsettled = Math.min(unsettled, node.bound);
        break;
      }
      this.#nodes += 1;
      onNode?.(this.#nodes);
      const outcome = this.#visit(node.span, node.bound);
      if (outcome.kind === 'unsettled') unsettled = Math.min(unsettled, outcome.bound);
      node = undefined;
      if (outcome.kind === 'branches') {
        const [first, ...others] = outcome.spans;
        for (const span of others) open.push({ span, bound: outcome.bound });
        node = { span: first!, bound: outcome.bound };
      } else {
        const next = open.pop();
        if (next && next.bound < this.#bestCost) node = next;
        else if (next) break;
      }
    }
    const left = open.leastBound();
    const bound = Math.min(this.#bestCost, unsettled, left);
    return { units: this.#unitsOf(this.#best), cost: this.#bestCost, bound, nodes: this.#nodes };
  }

  #visit(
    span: Span,
    above: number,
  ):
    | { readonly kind: 'closed' }
    | { readonly kind: 'unsettled'; readonly bound: number }
    | { readonly kind: 'branches'; readonly bound: number; readonly spans: readonly Span[] } {
    const programme = this.#programme;
    let bound = above;
    for (let round = 0; ; round++) {
      if (!this.#propagate(span)) return { kind: 'closed' };
      this.#set(span);
      const solved = programme.solve(MOST_PIVOTS);
      if (solved.status === 'infeasible') return { kind: 'closed' };
      bound = Math.max(bound, this.#wholeMoney(solved.bound, span));
      if (bound >= this.#bestCost) return { kind: 'closed' };
      const { values } = solved;
      if (this.#nodes <= NODES_WITH_LINES && round < MOST_ROUNDS && this.#addTailoredLines(values)) continue;
      if (this.#nodes <= NODES_WITH_HULLS && round < MOST_ROUNDS && this.#addHullCuts(values)) continue;
      const split = this.#fractional(values);
      if (split >= 0) {
        if (this.#nodes % ROUND_EVERY === 1 && round === 0) this.#roundOff(values);
        if (bound >= this.#bestCost) return { kind: 'closed' };
        return { kind: 'branches', bound, spans: branches(span, split, values[split]!, false) };
      }
      const dealt = Array.from(this.#columns, (_, column) => Math.round(values[column]!));
      const { cut } = this.#tryOut(dealt, values);
      if (bound >= this.#bestCost) return { kind: 'closed' };
      if (cut && round < MOST_ROUNDS) continue;
      const steps = this.#columns.length;
      const partSteps = this.#question.costs.findIndex((_, cloth) => {
        const value = values[steps + cloth]!;
        return (
          Math.abs(value - Math.round(value)) > WHOLE &&
          span.least[steps + cloth]! < span.most[steps + cloth]!
        );
      });
      if (partSteps >= 0)
        return {
          kind: 'branches',
          bound,
          spans: branches(span, steps + partSteps, values[steps + partSteps]!, false),
        };
      const free = this.#freeColumn(span, values);
      if (free < 0) return { kind: 'unsettled', bound: Math.max(bound, this.#provenCost(dealt)) };
      return { kind: 'branches', bound, spans: branches(span, free, Math.round(values[free]!), true) };
    }
  }

  /** Raises the steps of each cloth to what is proven for the units that it has for sure; false where that is too many. */
  #propagate(span: Span): boolean {
    const steps = this.#columns.length;
    const counts = this.#countsOf(span.least);
    for (const [cloth, cost] of this.#question.costs.entries()) {
      const proven = cost.provenSteps(counts[cloth]!);
      if (proven > span.most[steps + cloth]!) return false;
      span.least[steps + cloth] = Math.max(span.least[steps + cloth]!, proven);
    }
    return true;
  }

  #set(span: Span): void {
    const programme = this.#programme;
    programme.least.set(span.least);
    programme.most.set(span.most);
    const steps = this.#columns.length;
    for (const { row, cloth, least, squared } of this.#lineRows) {
      programme.rowLeast[row] = least + (span.least[steps + cloth]! >= 1 ? squared : 0);
    }
    // More steps of any cloth than the best plan's money buys are of no use.
    for (const [cloth, { perStep }] of this.#question.costs.entries()) {
      if (perStep > 0 && Number.isFinite(this.#bestCost)) {
        const most = Math.floor((this.#bestCost + 1) / perStep);
        programme.most[steps + cloth] = Math.max(
          Math.min(span.most[steps + cloth]!, most),
          span.least[steps + cloth]!,
        );
      }
    }
  }

  /** Money in whole hundredths that a bound on the unrounded cost comes to. */
  #wholeMoney(bound: number, span: Span): number {
    const steps = this.#columns.length;
    let whole = bound;
    for (const [cloth, cost] of this.#question.costs.entries()) {
      const [least, most] = [span.least[steps + cloth]!, span.most[steps + cloth]!];
      if (Number.isInteger(cost.perStep) || most === 0) continue;
      whole += least === most ? cost.costOfSteps(least) - cost.perStep * least : -1 / 2;
    }
    return Math.max(0, Math.ceil(whole - 1e-4));
  }

  /** The column of units that is furthest from whole, by the cloth that hangs on it; -1 where all are whole. */
  #fractional(values: Float64Array): number {
    let best = -1;
    let most = 0;
    for (const [column, { pool, cloth }] of this.#columns.entries()) {
      const part = values[column]! - Math.floor(values[column]!);
      if (part < WHOLE || part > 1 - WHOLE) continue;
      const weight = Math.min(part, 1 - part) * (1 + this.#unitCost(pool, cloth));
      if (weight > most) [best, most] = [column, weight];
    }
    return best;
  }

  #unitCost(pool: number, cloth: number): number {
    const cost = this.#question.costs[cloth]!;
    const { each } = this.#question.pools[pool]!;
    const [line] = cost.lines;
    if (!line || !cost.cloth.buy) return 0;
    return (
      (each.reduce((total, copies, sort) => total + copies * line.perCopy[sort]!, 0) * cost.perStep) /
      cost.cloth.buy.step
    );
  }

  /** A column that is not settled yet, though all are whole: in the cloth whose packing proved dearer than believed. */
  #freeColumn(span: Span, values: Float64Array): number {
    let best = -1;
    let most = -1;
    for (const [column, { pool, cloth }] of this.#columns.entries()) {
      if (span.least[column] === span.most[column]) continue;
      const weight = Math.round(values[column]!) > 0 ? 1 + this.#unitCost(pool, cloth) : 0;
      if (weight > most) [best, most] = [column, weight];
    }
    return best;
  }

  /** Asks the packer what this dealing out costs, keeps the best, and adds what it proves against these values. */
  #tryOut(dealt: readonly number[], values: Float64Array): { readonly cut: boolean } {
    const { costs } = this.#question;
    const counts = this.#countsOf(dealt);
    let cost = 0;
    let cut = false;
    for (const [cloth, own] of costs.entries()) {
      const needed = this.#packed(own, counts[cloth]!);
      cost += needed.found === undefined ? Number.POSITIVE_INFINITY : own.costOfSteps(needed.found);
      const believed = values[this.#columns.length + cloth]!;
      if (needed.proven > believed + WHOLE && Number.isFinite(needed.proven)) {
        cut = this.#addCut(cloth, dealt, needed.proven, values) || cut;
      }
    }
    if (cost < this.#bestCost) [this.#best, this.#bestCost] = [[...dealt], cost];
    return { cut };
  }

  /**
   * Stacked one after the other, two lengths hold what each holds. So a cloth that needs so many steps for what is dealt
   * to it needs at most as many fewer, with some units less, as those units need by themselves.
   */
  #addCut(cloth: number, dealt: readonly number[], proven: number, values: Float64Array): boolean {
    if (this.#seenCuts.size >= MOST_CUTS) return false;
    const { pools, costs } = this.#question;
    const entries: [number, number][] = [[this.#columns.length + cloth, 1]];
    let least = proven;
    let activity = values[this.#columns.length + cloth]!;
    for (const [column, own] of this.#columns.entries()) {
      if (own.cloth !== cloth || dealt[column] === 0) continue;
      const { each, units } = pools[own.pool]!;
      const alone = costs[cloth]!.stepsOnBolt(each, this.#options.pack);
      if (alone === undefined) return false;
      // (dealt - n)+ lies below the straight line from (0, dealt) to (units, 0).
      const slope = (alone * dealt[column]!) / units;
      least -= alone * dealt[column]!;
      entries.push([column, -slope]);
      activity -= slope * values[column]!;
    }
    const key = `${cloth}:${entries.join(';')}:${least}`;
    if (activity >= least - WHOLE || this.#seenCuts.has(key)) return false;
    this.#seenCuts.add(key);
    this.#programme.addRow({ entries, least, most: Number.POSITIVE_INFINITY });
    return true;
  }

  /** Rounds the values to a dealing out that keeps the limits, the largest first, and asks the packer about it. */
  #roundOff(values: Float64Array): void {
    const { pools } = this.#question;
    const dealt = this.#columns.map((_, column) => Math.floor(values[column]! + WHOLE));
    const left = pools.map(
      ({ units }, pool) => units - this.#columnsOf(pool).reduce((total, column) => total + dealt[column]!, 0),
    );
    const order = [...this.#columns.keys()].sort(
      (one, other) =>
        values[other]! - Math.floor(values[other]!) - (values[one]! - Math.floor(values[one]!)) ||
        one - other,
    );
    for (const pool of pools.keys()) {
      while (left[pool]! > 0) {
        const column = order.find((own) => this.#columns[own]!.pool === pool && this.#mayTake(own, dealt));
        if (column === undefined) return;
        dealt[column]! += 1;
        left[pool]! -= 1;
        order.splice(order.indexOf(column), 1);
        order.push(column);
      }
    }
    this.#tryOut(dealt, values);
  }

  #mayTake(column: number, dealt: readonly number[]): boolean {
    const { pool, cloth } = this.#columns[column]!;
    return this.#question.clashes.every(({ terms, most }) => {
      const used = terms.reduce((total, term) => {
        const own = this.#columnOf(term.pool, cloth);
        return own < 0 ? total : total + term.weight * (dealt[own]! + (own === column ? 1 : 0));
      }, 0);
      return used <= most || !terms.some((term) => term.pool === pool);
    });
  }

  #provenCost(dealt: readonly number[]): number {
    const counts = this.#countsOf(dealt);
    return this.#question.costs.reduce(
      (total, cost, cloth) => total + cost.costOfSteps(this.#packed(cost, counts[cloth]!).proven),
      0,
    );
  }

  #packed(cost: ClothCost, counts: Counts) {
    const before = cost.asked;
    const needed = cost.steps(counts, this.#options.pack);
    this.#packings += cost.asked - before;
    return needed;
  }

  #countsOf(dealt: ArrayLike<number>): readonly Counts[] {
    const counts = this.#question.base.map((base) => [...base]);
    for (const [column, { pool, cloth }] of this.#columns.entries()) {
      const units = dealt[column]!;
      if (units === 0) continue;
      for (const [sort, copies] of this.#question.pools[pool]!.each.entries())
        counts[cloth]![sort]! += units * copies;
    }
    return counts;
  }

  /** Enough steps for all that might come to a cloth, each copy on a length of its own. */
  #mostSteps(cost: ClothCost, cloth: number): number {
    const { pools, base } = this.#question;
    const all = [...base[cloth]!];
    for (const { cloths, each, units } of pools) {
      if (cloths.includes(cloth)) for (const [sort, copies] of each.entries()) all[sort]! += copies * units;
    }
    return all.reduce(
      (total, copies, sort) => total + copies * (copies > 0 ? cost.stepsAlone(sort, this.#options.pack) : 0),
      0,
    );
  }

  #addRows(): void {
    const { pools, clashes, costs } = this.#question;
    const programme = this.#programme;
    for (const [pool, { units }] of pools.entries()) {
      const entries = this.#columnsOf(pool).map((column) => [column, 1] as const);
      programme.addRow({ entries, least: units, most: units });
    }
    for (const { terms, most } of clashes) {
      for (const cloth of costs.keys()) {
        const entries = terms.flatMap(({ pool, weight }) => {
          const column = this.#columnOf(pool, cloth);
          return column < 0 ? [] : [[column, weight] as const];
        });
        const full = entries.reduce((total, [column, weight]) => total + weight * programme.most[column]!, 0);
        if (full > most) programme.addRow({ entries, least: Number.NEGATIVE_INFINITY, most });
      }
    }
    for (const [cloth, cost] of costs.entries()) {
      for (const line of cost.lines) this.#addLine(cloth, line);
      this.#addFirstUnits(cloth, cost);
    }
  }

  #addLine(cloth: number, { perCopy, inHand }: LengthLine): void {
    const { pools, costs, base } = this.#question;
    const cost = costs[cloth]!;
    const perStep = cost.packedPerStep();
    const lengthOf = (counts: Counts) =>
      counts.reduce((total, copies, sort) => total + copies * perCopy[sort]!, 0);
    const own = this.#columns.flatMap(({ pool, cloth: its }, column) =>
      its === cloth ? [[column, -lengthOf(pools[pool]!.each) / perStep] as const] : [],
    );
    const least = (lengthOf(base[cloth]!) - inHand) / perStep;
    const squared = cost.canBuy ? (2 * cost.cloth.squaring) / perStep : 0;
    this.#lineRows.push({ row: this.#programme.rows.length, cloth, least, squared });
    const entries = [[this.#columns.length + cloth, 1] as const, ...own];
    this.#programme.addRow({ entries, least, most: Number.POSITIVE_INFINITY });
  }

  /** Lines that say more than the master believes of the counts it has just dealt out, whole or not. */
  #addTailoredLines(values: Float64Array): boolean {
    let added = false;
    const counts = this.#countsOf(values);
    for (const [cloth, cost] of this.#question.costs.entries()) {
      const line = cost.tailoredLine(counts[cloth]!);
      if (!line) continue;
      this.#addLine(cloth, line);
      added = true;
    }
    return added;
  }

  #addHullCuts(values: Float64Array): boolean {
    let added = false;
    const steps = this.#columns.length;
    for (const cloth of this.#question.costs.keys()) {
      const hull = this.#hullOf(cloth);
      if (!hull) continue;
      const columns = this.#columnsFrom(cloth);
      const units = columns.map((column) => values[column]!);
      const cut = hull.cutAt(
        units,
        values[steps + cloth]!,
        () => this.#packings < this.#options.mostPackings / 2,
      );
      if (!cut) continue;
      const entries = columns.map((column, index) => [column, -cut.slopes[index]!] as const);
      this.#programme.addRow({
        entries: [[steps + cloth, 1], ...entries.filter(([, slope]) => slope !== 0)],
        least: cut.constant,
        most: Number.POSITIVE_INFINITY,
      });
      added = true;
    }
    return added;
  }

  #hullOf(cloth: number): ClothHull | undefined {
    const known = this.#hulls.get(cloth);
    if (known !== undefined) return known;
    const { costs, base } = this.#question;
    const cost = costs[cloth]!;
    const columns = this.#columnsFrom(cloth);
    const most = columns.map((column) => this.#mostUnits[column]!);
    if (!cost.canBuy || !ClothHull.isSmall(most)) return undefined;
    const countsOf = (units: readonly number[]) => {
      const counts = [...base[cloth]!];
      for (const [index, column] of columns.entries()) {
        const { each } = this.#question.pools[this.#columns[column]!.pool]!;
        for (const [sort, copies] of each.entries()) counts[sort]! += copies * units[index]!;
      }
      return counts;
    };
    const hull = new ClothHull(
      most,
      (units) => cost.provenSteps(countsOf(units)),
      (units) => this.#packed(cost, countsOf(units)).proven,
    );
    this.#hulls.set(cloth, hull);
    return hull;
  }

  #columnsFrom(cloth: number): readonly number[] {
    return [...this.#columns.keys()].filter((column) => this.#columns[column]!.cloth === cloth);
  }

  /** A cloth that has a unit at all has whole steps for it; told where a pool is one unit and nothing is cut anyway. */
  #addFirstUnits(cloth: number, cost: ClothCost): void {
    if (!cost.canBuy || this.#question.base[cloth]!.some((copies) => copies > 0)) return;
    for (const [column, { pool, cloth: its }] of this.#columns.entries()) {
      const { each, units } = this.#question.pools[pool]!;
      const copies = each.reduce((total, own) => total + own, 0);
      if (its !== cloth || units !== 1 || copies > MOST_COPIES_BEFOREHAND) continue;
      const { proven } = this.#packed(cost, each);
      if (proven === 0 || !Number.isFinite(proven)) continue;
      this.#programme.addRow({
        entries: [
          [this.#columns.length + cloth, 1],
          [column, -proven],
        ],
        least: 0,
        most: Number.POSITIVE_INFINITY,
      });
    }
  }

  #columnsOf(pool: number): readonly number[] {
    const first = this.#firstOf[pool]!;
    return this.#question.pools[pool]!.cloths.map((_, place) => first + place);
  }

  #columnOf(pool: number, cloth: number): number {
    const place = this.#question.pools[pool]!.cloths.indexOf(cloth);
    return place < 0 ? -1 : this.#firstOf[pool]! + place;
  }

  #unitsOf(dealt: readonly number[] | undefined): readonly (readonly number[])[] | undefined {
    if (!dealt) return undefined;
    return this.#question.pools.map((_, pool) => this.#columnsOf(pool).map((column) => dealt[column]!));
  }
}

/** At a fraction, below and above it, the nearer first; at a whole value, that value, below it and above it. */
function branches(span: Span, column: number, value: number, whole: boolean): readonly Span[] {
  const within = (least: number, most: number): Span[] => {
    if (least > most) return [];
    const part = { least: span.least.slice(), most: span.most.slice() };
    part.least[column] = least;
    part.most[column] = most;
    return [part];
  };
  const [least, most] = [span.least[column]!, span.most[column]!];
  if (whole) return [...within(value, value), ...within(least, value - 1), ...within(value + 1, most)];
  const down = within(least, Math.floor(value));
  const up = within(Math.floor(value) + 1, most);
  return value - Math.floor(value) < 1 / 2 ? [...down, ...up] : [...up, ...down];
}
