import type { Cloth } from '../../model/cloth.ts';
import { type Cupboard, type CupboardEntry, copyNames } from '../../model/cupboard.ts';
import { lengthOf } from '../../model/cupboard-draw.ts';
import type { ClothUses, Left, LeftOfCloth } from '../../model/leftover-use.ts';
import type { Plan } from '../../model/plan.ts';
import { ticks } from '../../units/ticks.ts';
import { hasPanels } from '../panels/panel-rooms.ts';
import { triedOn, type UsesOptions } from './tried.ts';
import { usesOf } from './uses-of.ts';

/**
 * What the entries of a cupboard could become, cloth by cloth. A plan tells what the maker would like and how its cloths
 * are washed and squared; a cloth that it does not know is taken as it lies.
 *
 * @param cloth only entries of this cloth; all where it is undefined
 */
export function usesInCupboard(
  cupboard: Cupboard,
  plan: Plan,
  cloth: string | undefined,
  options: UsesOptions,
): readonly ClothUses[] {
  const entries = cupboard.entries.filter(
    (entry) => (cloth === undefined || entry.cloth === cloth) && !staysWhole(entry, plan),
  );
  return groupsOf(entries).map((group): ClothUses => {
    const left = leftIn(group, plan);
    // Along a grain that is not known nothing can be cut; what may lie either way can.
    const knowsGrain = group.every(({ grain }) => grain !== 'unknown');
    const tried = triedOn(plan, left, options).filter(
      ({ set }) => knowsGrain || set.every(({ grain }) => grain === 'either'),
    );
    const mayBeCut = knowsGrain || left.cloth.direction === 'plain';
    return { ...usesOf(plan, left, options, mayBeCut ? tried : []), more: [] };
  });
}

/** Whether an entry is kept for its printed panels, as its cloth says; one that no plan knows is. */
function staysWhole({ panels, panelsBegin, cloth }: CupboardEntry, plan: Plan): boolean {
  const known = plan.cloths.find(({ name }) => name === cloth);
  const has = panels ? panels.length > 0 : panelsBegin !== undefined || (known && hasPanels(known));
  return has === true && known?.panels?.untaken !== 'use';
}

/** Entries that may be cut as one cloth: alike in name, in print and in what is known of their grain. */
function groupsOf(entries: readonly CupboardEntry[]): readonly (readonly CupboardEntry[])[] {
  const groups = new Map<string, CupboardEntry[]>();
  for (const entry of entries) {
    const known = entry.grain === 'unknown' ? 'unknown' : 'known';
    const key = JSON.stringify([entry.cloth, entry.direction ?? 'plain', runsAcross(entry), known]);
    groups.set(key, [...(groups.get(key) ?? []), entry]);
  }
  return [...groups.values()];
}

function leftIn(group: readonly CupboardEntry[], plan: Plan): LeftOfCloth {
  const [first] = group;
  const inHand = group.map((entry) => lengthOf(entry, false));
  const own = inHand[0]!;
  const known = plan.cloths.find(({ name }) => name === first!.cloth);
  const cloth: Cloth = {
    name: first!.cloth,
    width: own.width,
    selvedge: own.selvedge,
    crease: own.crease,
    direction: first!.direction ?? 'plain',
    printRuns: runsAcross(first!) ? 'across' : 'along',
    squaring: known?.squaring ?? ticks(0),
    ...(known?.washing && { washing: known.washing }),
    inHand,
    lay: 'flat',
  };
  const left = inHand.flatMap(({ name, copies, width, length }) =>
    copyNames(name, copies).map((each): Left => ({ name: each, size: { width, length } })),
  );
  return { cloth, left };
}

/** Whether its print stands across the lengthwise grain. */
function runsAcross({ printRuns = 'along', grain, direction = 'plain' }: CupboardEntry): boolean {
  return direction !== 'plain' && (printRuns === 'across') !== (grain === 'crosswise');
}
