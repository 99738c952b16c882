import type { PackOptions } from '../../packing/instance.ts';
import type { ClothCost } from './cloth-cost.ts';
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
