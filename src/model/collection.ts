import type { ClothName } from './cloth.ts';

/**
 * What must hold of the cloths within one set of things. Every entry names a part of a make; parts that a make does not
 * have say nothing of it.
 */
export interface ClothRules {
  /** Each of these parts comes from one cloth throughout the set: all fronts alike, say. */
  readonly oneCloth: readonly string[];
  /** Within one thing, these parts are cut from the same cloth. */
  readonly alike: readonly string[];
  /** Within one thing, no two of these parts are cut from the same cloth. */
  readonly unlike: readonly string[];
  /** No cloth serves twice for these parts, anywhere in the set; a part that comes from one cloth throughout counts once. */
  readonly noClothTwice: readonly string[];
}

export const NO_RULES: ClothRules = { oneCloth: [], alike: [], unlike: [], noClothTwice: [] };

/** Orders that belong together, and what must hold of their cloths. An order is a set of its own unless it names one. */
export interface ClothSet {
  readonly name: string;
  readonly orders: readonly string[];
  readonly rules: ClothRules;
}

/** What a loose piece counts as where an order has parts. */
export const LOOSE_PART = 'piece';

/** So many things of one order that get their parts from the same cloths. */
export interface ClothedLot {
  /** Name of the order, or of the loose piece. */
  readonly order: string;
  readonly count: number;
  /** Every part that the order has, with its cloth. */
  readonly cloths: Readonly<Record<string, ClothName>>;
}

/** Which cloth each part is cut from, where the plan left that open. */
export interface ClothChoice {
  /** Orders with an open part, in the order of the plan; together the lots of an order are all of it. */
  readonly lots: readonly ClothedLot[];
  /** What is made least: money where every cloth that may be bought has a price, else the length bought. */
  readonly measure: 'money' | 'length';
  /** Of all that the plan buys: hundredths, or ticks. */
  readonly total: number;
  /** No choice that keeps the rules, however it is cut, comes to less than this. */
  readonly bound: number;
}
