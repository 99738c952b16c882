import type { MasterQuestion } from './master-question.ts';
import type { Counts } from './shares.ts';

/** The columns of a master: one for each pool and cloth it may be cut from, then one for the steps of each cloth. */
export class MasterColumns {
  readonly columns: readonly { readonly pool: number; readonly place: number; readonly cloth: number }[];
  /** Units that may come to each column under the limits on a single cloth. */
  readonly mostUnits: readonly number[];
  readonly #question: MasterQuestion;
  readonly #firstOf: readonly number[];

  constructor(question: MasterQuestion) {
    this.#question = question;
    const { pools, clashes } = question;
    this.columns = pools.flatMap(({ cloths }, pool) =>
      cloths.map((cloth, place) => ({ pool, place, cloth })),
    );
    this.#firstOf = pools.map((_, pool) => this.columns.findIndex((own) => own.pool === pool));
    this.mostUnits = this.columns.map(({ pool }) =>
      clashes.reduce((least, { terms, most }) => {
        const weight = terms.reduce((total, term) => total + (term.pool === pool ? term.weight : 0), 0);
        return weight > 0 ? Math.min(least, Math.floor(most / weight)) : least;
      }, pools[pool]!.units),
    );
  }

  /** The column of the steps of a cloth. */
  stepsOf(cloth: number): number {
    return this.columns.length + cloth;
  }

  countsOf(dealt: ArrayLike<number>): readonly Counts[] {
    const counts = this.#question.base.map((base) => [...base]);
    for (const [column, { pool, cloth }] of this.columns.entries()) {
      const units = dealt[column]!;
      if (units === 0) continue;
      for (const [sort, copies] of this.#question.pools[pool]!.each.entries())
        counts[cloth]![sort]! += units * copies;
    }
    return counts;
  }

  columnsFrom(cloth: number): readonly number[] {
    return [...this.columns.keys()].filter((column) => this.columns[column]!.cloth === cloth);
  }

  columnsOf(pool: number): readonly number[] {
    const first = this.#firstOf[pool]!;
    return this.#question.pools[pool]!.cloths.map((_, place) => first + place);
  }

  columnOf(pool: number, cloth: number): number {
    const place = this.#question.pools[pool]!.cloths.indexOf(cloth);
    return place < 0 ? -1 : this.#firstOf[pool]! + place;
  }

  unitsOf(dealt: readonly number[] | undefined): readonly (readonly number[])[] | undefined {
    if (!dealt) return undefined;
    return this.#question.pools.map((_, pool) => this.columnsOf(pool).map((column) => dealt[column]!));
  }
}
