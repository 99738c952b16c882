import { DualSimplex, type Row } from './dual-simplex.ts';

/** Steps ≥ constant + Σ slope · units, for every way in which units may be dealt to a cloth. */
export interface HullCut {
  readonly constant: number;
  readonly slopes: readonly number[];
}

/** More ways than this are not gone through one by one. */
export const MOST_WAYS = 256;

/** Packings asked for to sharpen one cut, and rounds of asking. */
const PACKED_AT_ONCE = 4;
const MOST_ROUNDS = 6;

/**
 * What is proven of one cloth for every way in which units can be dealt to it, and the cuts that follow: the convex hull
 * of all ways and their steps, seen from below. Most ways are known by the lines alone; those that carry a cut are
 * packed, as long as that helps.
 */
export class ClothHull {
  readonly #most: readonly number[];
  readonly #ways: readonly (readonly number[])[];
  readonly #proven: Float64Array;
  readonly #packed: Uint8Array;
  readonly #pack: (units: readonly number[]) => number;

  /**
   * @param most units of each pool that may come to the cloth
   * @param lower steps that are proven for given units without packing
   * @param pack steps that are proven for given units by packing
   */
  constructor(
    most: readonly number[],
    lower: (units: readonly number[]) => number,
    pack: (units: readonly number[]) => number,
  ) {
    this.#most = most;
    this.#ways = waysUpTo(most);
    this.#proven = Float64Array.from(this.#ways, lower);
    this.#packed = new Uint8Array(this.#ways.length);
    this.#pack = pack;
  }

  static isSmall(most: readonly number[]): boolean {
    return most.reduce((ways, each) => ways * (each + 1), 1) <= MOST_WAYS;
  }

  /** The deepest cut at these units, which need not be whole; undefined where the steps believed are as many. */
  cutAt(units: readonly number[], believed: number, mayPack: () => boolean): HullCut | undefined {
    let cut: HullCut | undefined;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      cut = this.#deepest(units);
      if (valueAt(cut, units) <= believed + 1e-6) return undefined;
      if (!this.#packCarriers(cut, mayPack)) break;
    }
    return cut;
  }

  /** The hyperplane below all ways that is highest at `units`. */
  #deepest(units: readonly number[]): HullCut {
    const highest = this.#proven.reduce(
      (most, steps) => (Number.isFinite(steps) ? Math.max(most, steps) : most),
      1,
    );
    // Each unknown is how far it lies below the most it could be, so that costs and bounds are 0 or more.
    const [top, steepest] = [highest, highest];
    const rows = this.#ways.flatMap((way, index): readonly Row[] => {
      const steps = this.#proven[index]!;
      if (!Number.isFinite(steps)) return [];
      const entries: (readonly [number, number])[] = [[0, 1]];
      let sum = 0;
      for (const [pool, each] of way.entries()) {
        if (each === 0) continue;
        entries.push([pool + 1, each]);
        sum += each;
      }
      return [{ entries, least: top + steepest * sum - steps, most: Number.POSITIVE_INFINITY }];
    });
    const programme = new DualSimplex(
      [1, ...units.map((each) => Math.max(0, each))],
      [0, ...units.map(() => 0)],
      [top + steepest * this.#most.reduce((total, each) => total + each, 0), ...units.map(() => steepest)],
      rows,
    );
    const solved = programme.solve(2000);
    const slopes = units.map((_, pool) =>
      solved.status === 'solved' ? Math.max(0, steepest - solved.values[pool + 1]!) : 0,
    );
    // The constant is worked out anew, so that the cut lies below every way whatever rounding did.
    const constant = this.#ways.reduce((least, way, index) => {
      const above = way.reduce((total, each, pool) => total + each * slopes[pool]!, 0);
      return Math.min(least, this.#proven[index]! - above);
    }, Number.POSITIVE_INFINITY);
    return { constant: constant - 1e-9 * (1 + Math.abs(constant)), slopes };
  }

  /** Packs ways that touch the cut; true where one proved to need more. */
  #packCarriers(cut: HullCut, mayPack: () => boolean): boolean {
    let raised = false;
    let packed = 0;
    for (const [index, way] of this.#ways.entries()) {
      if (packed >= PACKED_AT_ONCE || !mayPack()) break;
      if (this.#packed[index] === 1 || this.#proven[index]! > valueAt(cut, way) + 1e-5) continue;
      packed += 1;
      this.#packed[index] = 1;
      const steps = this.#pack(way);
      if (steps <= this.#proven[index]!) continue;
      raised = true;
      for (const [other, more] of this.#ways.entries()) {
        if (more.every((each, pool) => each >= way[pool]!)) {
          this.#proven[other] = Math.max(this.#proven[other]!, steps);
        }
      }
    }
    return raised || packed > 0;
  }
}

function valueAt({ constant, slopes }: HullCut, units: readonly number[]): number {
  return units.reduce((total, each, pool) => total + each * slopes[pool]!, constant);
}

function waysUpTo(most: readonly number[]): readonly (readonly number[])[] {
  return most.reduce<readonly (readonly number[])[]>(
    (ways, each) => ways.flatMap((way) => Array.from({ length: each + 1 }, (_, units) => [...way, units])),
    [[]],
  );
}
