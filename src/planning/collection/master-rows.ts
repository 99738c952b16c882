import type { PackOptions } from '../../packing/instance.ts';
import type { ClothCost, StepsNeeded } from './cloth-cost.ts';
import { ClothHull } from './cloth-hull.ts';
import type { LengthLine } from './cloth-lines.ts';
import { DualSimplex } from './dual-simplex.ts';
import type { MasterColumns } from './master-columns.ts';
import type { MasterQuestion } from './master-question.ts';
import type { Span } from './open-nodes.ts';
import type { Counts } from './shares.ts';

const WHOLE = 1e-6;
const MOST_CUTS = 400;
/** More copies than this in one unit take too long to pack for every cloth beforehand. */
const MOST_COPIES_BEFOREHAND = 24;

/** Packings that a master asks for, counted. */
export interface MasterPacker {
  readonly pack: PackOptions;
  readonly packed: (cost: ClothCost, counts: Counts) => StepsNeeded;
  /** Whether packings may still be asked for that only sharpen a bound. */
  readonly mayPrepare: () => boolean;
}

/** The linear programme of a master and all that is known of its cloths as rows. */
export class MasterRows {
  readonly programme: DualSimplex;
  readonly #question: MasterQuestion;
  readonly #at: MasterColumns;
  readonly #packer: MasterPacker;
  /** Rows that stand for length lines: cloth, and how much more its bolt must give once it is cut at all, in steps. */
  readonly #lineRows: {
    readonly row: number;
    readonly cloth: number;
    readonly least: number;
    readonly squared: number;
  }[] = [];
  readonly #hulls = new Map<number, ClothHull>();
  readonly #seenCuts = new Set<string>();

  constructor(question: MasterQuestion, at: MasterColumns, packer: MasterPacker) {
    this.#question = question;
    this.#at = at;
    this.#packer = packer;
    const { costs, base } = question;
    const { mostUnits } = at;
    const sure = costs.map((cost, cloth) => packer.packed(cost, base[cloth]!).proven);
    const least = sure.map((steps) => (Number.isFinite(steps) ? steps : 0));
    const most = costs.map((cost, cloth) =>
      Math.max(least[cloth]!, cost.canBuy ? this.#mostSteps(cost, cloth) : 0),
    );
    this.programme = new DualSimplex(
      [...mostUnits.map(() => 0), ...costs.map((cost) => cost.perStep)],
      [...mostUnits.map(() => 0), ...least],
      [...mostUnits, ...most],
    );
    this.#addRows();
  }

  set(span: Span, bestCost: number): void {
    const { programme } = this;
    programme.least.set(span.least);
    programme.most.set(span.most);
    for (const { row, cloth, least, squared } of this.#lineRows) {
      programme.rowLeast[row] = least + (span.least[this.#at.stepsOf(cloth)]! >= 1 ? squared : 0);
    }
    // More steps of any cloth than the best plan's money buys are of no use.
    for (const [cloth, { perStep }] of this.#question.costs.entries()) {
      if (perStep > 0 && Number.isFinite(bestCost)) {
        const most = Math.floor((bestCost + 1) / perStep);
        programme.most[this.#at.stepsOf(cloth)] = Math.max(
          Math.min(span.most[this.#at.stepsOf(cloth)]!, most),
          span.least[this.#at.stepsOf(cloth)]!,
        );
      }
    }
  }

  /**
   * Stacked one after the other, two lengths hold what each holds. So a cloth that needs so many steps for what is dealt
   * to it needs at most as many fewer, with some units less, as those units need by themselves.
   */
  addCut(cloth: number, dealt: readonly number[], proven: number, values: Float64Array): boolean {
    if (this.#seenCuts.size >= MOST_CUTS) return false;
    const { pools, costs } = this.#question;
    const entries: [number, number][] = [[this.#at.stepsOf(cloth), 1]];
    let least = proven;
    let activity = values[this.#at.stepsOf(cloth)]!;
    for (const [column, own] of this.#at.columns.entries()) {
      if (own.cloth !== cloth || dealt[column] === 0) continue;
      const { each, units } = pools[own.pool]!;
      const alone = costs[cloth]!.stepsOnBolt(each, this.#packer.pack);
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
    this.programme.addRow({ entries, least, most: Number.POSITIVE_INFINITY });
    return true;
  }

  #addRows(): void {
    const { pools, clashes, costs } = this.#question;
    const programme = this.programme;
    for (const [pool, { units }] of pools.entries()) {
      const entries = this.#at.columnsOf(pool).map((column) => [column, 1] as const);
      programme.addRow({ entries, least: units, most: units });
    }
    for (const { terms, most } of clashes) {
      for (const cloth of costs.keys()) {
        const entries = terms.flatMap(({ pool, weight }) => {
          const column = this.#at.columnOf(pool, cloth);
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
    const own = this.#at.columns.flatMap(({ pool, cloth: its }, column) =>
      its === cloth ? [[column, -lengthOf(pools[pool]!.each) / perStep] as const] : [],
    );
    const least = (lengthOf(base[cloth]!) - inHand) / perStep;
    const squared = cost.canBuy ? (2 * cost.cloth.squaring) / perStep : 0;
    this.#lineRows.push({ row: this.programme.rows.length, cloth, least, squared });
    const entries = [[this.#at.stepsOf(cloth), 1] as const, ...own];
    this.programme.addRow({ entries, least, most: Number.POSITIVE_INFINITY });
  }

  /** Lines that say more than the master believes of the counts it has just dealt out, whole or not. */
  addTailoredLines(values: Float64Array): boolean {
    let added = false;
    const counts = this.#at.countsOf(values);
    for (const [cloth, cost] of this.#question.costs.entries()) {
      const line = cost.tailoredLine(counts[cloth]!);
      if (!line) continue;
      this.#addLine(cloth, line);
      added = true;
    }
    return added;
  }

  addHullCuts(values: Float64Array): boolean {
    let added = false;
    for (const cloth of this.#question.costs.keys()) {
      const hull = this.#hullOf(cloth);
      if (!hull) continue;
      const columns = this.#at.columnsFrom(cloth);
      const units = columns.map((column) => values[column]!);
      const cut = hull.cutAt(units, values[this.#at.stepsOf(cloth)]!, () => this.#packer.mayPrepare());
      if (!cut) continue;
      const entries = columns.map((column, index) => [column, -cut.slopes[index]!] as const);
      this.programme.addRow({
        entries: [[this.#at.stepsOf(cloth), 1], ...entries.filter(([, slope]) => slope !== 0)],
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
    const columns = this.#at.columnsFrom(cloth);
    const most = columns.map((column) => this.#at.mostUnits[column]!);
    if (!cost.canBuy || !ClothHull.isSmall(most)) return undefined;
    const countsOf = (units: readonly number[]) => {
      const counts = [...base[cloth]!];
      for (const [index, column] of columns.entries()) {
        const { each } = this.#question.pools[this.#at.columns[column]!.pool]!;
        for (const [sort, copies] of each.entries()) counts[sort]! += copies * units[index]!;
      }
      return counts;
    };
    const hull = new ClothHull(
      most,
      (units) => cost.provenSteps(countsOf(units)),
      (units) => this.#packer.packed(cost, countsOf(units)).proven,
    );
    this.#hulls.set(cloth, hull);
    return hull;
  }

  /** A cloth that has a unit at all has whole steps for it; told where a pool is one unit and nothing is cut anyway. */
  #addFirstUnits(cloth: number, cost: ClothCost): void {
    if (!cost.canBuy || this.#question.base[cloth]!.some((copies) => copies > 0)) return;
    for (const [column, { pool, cloth: its }] of this.#at.columns.entries()) {
      const { each, units } = this.#question.pools[pool]!;
      const copies = each.reduce((total, own) => total + own, 0);
      if (its !== cloth || units !== 1 || copies > MOST_COPIES_BEFOREHAND) continue;
      const { proven } = this.#packer.packed(cost, each);
      if (proven === 0 || !Number.isFinite(proven)) continue;
      this.programme.addRow({
        entries: [
          [this.#at.stepsOf(cloth), 1],
          [column, -proven],
        ],
        least: 0,
        most: Number.POSITIVE_INFINITY,
      });
    }
  }

  /** Enough steps for all that might come to a cloth, each copy on a length of its own. */
  #mostSteps(cost: ClothCost, cloth: number): number {
    const { pools, base } = this.#question;
    const all = [...base[cloth]!];
    for (const { cloths, each, units } of pools) {
      if (cloths.includes(cloth)) for (const [sort, copies] of each.entries()) all[sort]! += copies * units;
    }
    return all.reduce(
      (total, copies, sort) => total + copies * (copies > 0 ? cost.stepsAlone(sort, this.#packer.pack) : 0),
      0,
    );
  }
}
