import type { ClothCost, StepsNeeded } from './cloth-cost.ts';
import { MasterColumns } from './master-columns.ts';
import type { MasterAnswer, MasterOptions, MasterQuestion } from './master-question.ts';
import { MasterRows } from './master-rows.ts';
import { OpenNodes, type Span } from './open-nodes.ts';
import type { Counts } from './shares.ts';

const WHOLE = 1e-6;
/** Lines are made to measure at the first nodes; those further down have them all. */
const NODES_WITH_LINES = 60;
const NODES_WITH_HULLS = 60;
const MOST_PIVOTS = 3000;
/** Rounds of packing and cutting off at one node. */
const MOST_ROUNDS = 12;
/** One node in so many has its fractions rounded to find a dealing out. */
const ROUND_EVERY = 8;

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
  readonly #at: MasterColumns;
  readonly #rows: MasterRows;
  #best: number[] | undefined;
  #bestCost = Number.POSITIVE_INFINITY;
  #nodes = 0;
  #packings = 0;

  constructor(question: MasterQuestion, options: MasterOptions) {
    this.#question = question;
    this.#options = options;
    this.#at = new MasterColumns(question);
    this.#rows = new MasterRows(question, this.#at, {
      pack: options.pack,
      packed: (cost, counts) => this.#packed(cost, counts),
      mayPrepare: () => this.#packings < options.mostPackings / 2,
    });
  }

  run(): MasterAnswer {
    const { mostNodes, stop, onNode, mostPackings } = this.#options;
    const { least, most } = this.#rows.programme;
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
    return { units: this.#at.unitsOf(this.#best), cost: this.#bestCost, bound, nodes: this.#nodes };
  }

  #visit(
    span: Span,
    above: number,
  ):
    | { readonly kind: 'closed' }
    | { readonly kind: 'unsettled'; readonly bound: number }
    | { readonly kind: 'branches'; readonly bound: number; readonly spans: readonly Span[] } {
    const programme = this.#rows.programme;
    let bound = above;
    for (let round = 0; ; round++) {
      if (!this.#propagate(span)) return { kind: 'closed' };
      this.#rows.set(span, this.#bestCost);
      const solved = programme.solve(MOST_PIVOTS);
      if (solved.status === 'infeasible') return { kind: 'closed' };
      bound = Math.max(bound, this.#wholeMoney(solved.bound, span));
      if (bound >= this.#bestCost) return { kind: 'closed' };
      const { values } = solved;
      if (this.#nodes <= NODES_WITH_LINES && round < MOST_ROUNDS && this.#rows.addTailoredLines(values))
        continue;
      if (this.#nodes <= NODES_WITH_HULLS && round < MOST_ROUNDS && this.#rows.addHullCuts(values)) continue;
      const split = this.#fractional(values);
      if (split >= 0) {
        if (this.#nodes % ROUND_EVERY === 1 && round === 0) this.#roundOff(values);
        if (bound >= this.#bestCost) return { kind: 'closed' };
        return { kind: 'branches', bound, spans: branches(span, split, values[split]!, false) };
      }
      const dealt = Array.from(this.#at.columns, (_, column) => Math.round(values[column]!));
      const { cut } = this.#tryOut(dealt, values);
      if (bound >= this.#bestCost) return { kind: 'closed' };
      if (cut && round < MOST_ROUNDS) continue;
      const steps = this.#at.columns.length;
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
    const steps = this.#at.columns.length;
    const counts = this.#at.countsOf(span.least);
    for (const [cloth, cost] of this.#question.costs.entries()) {
      const proven = cost.provenSteps(counts[cloth]!);
      if (proven > span.most[steps + cloth]!) return false;
      span.least[steps + cloth] = Math.max(span.least[steps + cloth]!, proven);
    }
    return true;
  }

  /** Money in whole hundredths that a bound on the unrounded cost comes to. */
  #wholeMoney(bound: number, span: Span): number {
    const steps = this.#at.columns.length;
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
    for (const [column, { pool, cloth }] of this.#at.columns.entries()) {
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
    for (const [column, { pool, cloth }] of this.#at.columns.entries()) {
      if (span.least[column] === span.most[column]) continue;
      const weight = Math.round(values[column]!) > 0 ? 1 + this.#unitCost(pool, cloth) : 0;
      if (weight > most) [best, most] = [column, weight];
    }
    return best;
  }

  /** Asks the packer what this dealing out costs, keeps the best, and adds what it proves against these values. */
  #tryOut(dealt: readonly number[], values: Float64Array): { readonly cut: boolean } {
    const { costs } = this.#question;
    const counts = this.#at.countsOf(dealt);
    let cost = 0;
    let cut = false;
    for (const [cloth, own] of costs.entries()) {
      const needed = this.#packed(own, counts[cloth]!);
      cost += needed.found === undefined ? Number.POSITIVE_INFINITY : own.costOfSteps(needed.found);
      const believed = values[this.#at.stepsOf(cloth)]!;
      if (needed.proven > believed + WHOLE && Number.isFinite(needed.proven)) {
        cut = this.#rows.addCut(cloth, dealt, needed.proven, values) || cut;
      }
    }
    if (cost < this.#bestCost) [this.#best, this.#bestCost] = [[...dealt], cost];
    return { cut };
  }

  /** Rounds the values to a dealing out that keeps the limits, the largest first, and asks the packer about it. */
  #roundOff(values: Float64Array): void {
    const { pools } = this.#question;
    const dealt = this.#at.columns.map((_, column) => Math.floor(values[column]! + WHOLE));
    const left = pools.map(
      ({ units }, pool) =>
        units - this.#at.columnsOf(pool).reduce((total, column) => total + dealt[column]!, 0),
    );
    const order = [...this.#at.columns.keys()].sort(
      (one, other) =>
        values[other]! - Math.floor(values[other]!) - (values[one]! - Math.floor(values[one]!)) ||
        one - other,
    );
    for (const pool of pools.keys()) {
      while (left[pool]! > 0) {
        const column = order.find((own) => this.#at.columns[own]!.pool === pool && this.#mayTake(own, dealt));
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
    const { pool, cloth } = this.#at.columns[column]!;
    return this.#question.clashes.every(({ terms, most }) => {
      const used = terms.reduce((total, term) => {
        const own = this.#at.columnOf(term.pool, cloth);
        return own < 0 ? total : total + term.weight * (dealt[own]! + (own === column ? 1 : 0));
      }, 0);
      return used <= most || !terms.some((term) => term.pool === pool);
    });
  }

  #provenCost(dealt: readonly number[]): number {
    const counts = this.#at.countsOf(dealt);
    return this.#question.costs.reduce(
      (total, cost, cloth) => total + cost.costOfSteps(this.#packed(cost, counts[cloth]!).proven),
      0,
    );
  }

  #packed(cost: ClothCost, counts: Counts): StepsNeeded {
    const before = cost.asked;
    const needed = cost.steps(counts, this.#options.pack);
    this.#packings += cost.asked - before;
    return needed;
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
