import type { ClothName } from '../model/cloth.ts';
import type { ClothedLot, ClothSet } from '../model/collection.ts';
import type { Report } from './plan-fault.ts';

/** What the things of one order are cut from. */
export interface ThingsOfOrder {
  readonly name: string;
  readonly lots: readonly ClothedLot[];
  /** Parts that are chosen together, unless a rule wants them unlike. */
  readonly whole: readonly string[];
}

/** That the cloths of one set keep its rules, thing by thing. */
export function checkRules(set: ClothSet, orders: readonly ThingsOfOrder[], report: Report): void {
  const { oneCloth, alike, unlike, noClothTwice } = set.rules;
  const fault = (rule: string, piece: string) => report('choice-rule', { rule, set: set.name }, { piece });
  for (const part of oneCloth) {
    const cloths = new Set(orders.flatMap(({ lots }) => clothsOf(lots, [part])));
    if (cloths.size > 1) fault('one cloth', part);
  }
  for (const { name, lots, whole } of orders) {
    const tied = whole.filter(
      (part) => !unlike.includes(part) || whole.filter((own) => unlike.includes(own)).length < 2,
    );
    for (const lot of lots) {
      if (new Set(clothsOf([lot], alike)).size > 1) fault('alike', name);
      if (new Set(clothsOf([lot], tied)).size > 1) fault('whole', name);
      const differing = clothsOf([lot], unlike);
      if (new Set(differing).size < differing.length) fault('unlike', name);
    }
  }
  if (isUsedTwice(set, orders, noClothTwice)) fault('no cloth twice', set.name);
}

/** Uses are counted once a thing, for parts that go together once, and throughout the set once where that is ruled. */
function isUsedTwice(
  { rules }: ClothSet,
  orders: readonly ThingsOfOrder[],
  parts: readonly string[],
): boolean {
  const uses = new Map<ClothName, Set<string>>();
  for (const { name, lots, whole } of orders) {
    const unlikeWhole = whole.filter((part) => rules.unlike.includes(part));
    const tied = unlikeWhole.length > 1 ? whole.filter((part) => !unlikeWhole.includes(part)) : whole;
    let thing = 0;
    for (const lot of lots) {
      for (let index = 0; index < lot.count; index += 1) {
        thing += 1;
        for (const part of parts) {
          const cloth = lot.cloths[part];
          if (cloth === undefined) continue;
          const group = groupOf(part, [rules.alike, tied]);
          const throughout = rules.oneCloth.find((own) => group.includes(own));
          const use = throughout === undefined ? `${name} ${thing} ${group.join('+')}` : `set ${throughout}`;
          uses.set(cloth, (uses.get(cloth) ?? new Set()).add(use));
        }
      }
    }
  }
  return [...uses.values()].some((own) => own.size > 1);
}

/** A part with all that are tied to it, directly or through another, in the order of their names. */
function groupOf(part: string, ties: readonly (readonly string[])[]): readonly string[] {
  let group = [part];
  for (;;) {
    const wider = [
      ...new Set([...group, ...ties.filter((tie) => tie.some((own) => group.includes(own))).flat()]),
    ];
    if (wider.length === group.length) return wider.sort();
    group = wider;
  }
}

function clothsOf(lots: readonly ClothedLot[], parts: readonly string[]): readonly ClothName[] {
  return lots.flatMap(({ cloths }) => parts.flatMap((part) => cloths[part] ?? []));
}
