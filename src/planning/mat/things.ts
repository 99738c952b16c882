import { expandMakes } from '../../makes/expand.ts';
import type { ClothName } from '../../model/cloth.ts';
import type { PieceWanted } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import type { ThingAt } from './changes.ts';

/** One line of the plan that wants cloth: an order of things to sew, or a loose piece. */
export interface Thing extends ThingAt {
  readonly name: string;
  readonly count: number;
  /** Cut area of one, in square ticks, by the cloth it takes. */
  readonly areas: ReadonlyMap<ClothName, number>;
}

/** What of a plan is cut, at least in part, from one of these cloths. */
export function thingsFrom(plan: Plan, cloths: ReadonlySet<ClothName>): readonly Thing[] {
  const { pieces } = expandMakes(plan);
  const ofOrder = new Map<string, PieceWanted[]>();
  for (const piece of pieces) ofOrder.set(piece.order, [...(ofOrder.get(piece.order) ?? []), piece]);
  const thing = (list: ThingAt['list'], { name, count }: { name: string; count: number }, index: number) => {
    const areas = new Map<ClothName, number>();
    for (const { cloth, size, copies } of ofOrder.get(name) ?? []) {
      areas.set(cloth, (areas.get(cloth) ?? 0) + (size.width * size.length * copies) / count);
    }
    return { list, index, name, count, areas };
  };
  const mayUse = ({ areas, list, index }: Thing) => {
    const choices =
      list === 'make'
        ? Object.values(plan.makes[index]!.choices ?? {}).flat()
        : (plan.pieces[index]!.choices ?? []);
    return [...areas.keys(), ...choices].some((cloth) => cloths.has(cloth));
  };
  return [
    ...plan.makes.map((order, index) => thing('make', order, index)),
    ...plan.pieces.map((piece, index) => thing('pieces', piece, index)),
  ].filter((own) => own.count > 0 && mayUse(own));
}

/** Cloths parted into groups of which no thing is cut from two, in the order of the plan. */
export function groupsOf(
  things: readonly Thing[],
  cloths: ReadonlySet<ClothName>,
): readonly ReadonlySet<ClothName>[] {
  return things.reduce<readonly ReadonlySet<ClothName>[]>(
    (groups, { areas }) => {
      const isLinked = (group: ReadonlySet<ClothName>) => [...group].some((cloth) => areas.has(cloth));
      const linked = groups.filter(isLinked);
      if (linked.length < 2) return groups;
      const joined = new Set(linked.flatMap((group) => [...group]));
      return groups.flatMap((group) => (group === linked[0] ? [joined] : isLinked(group) ? [] : [group]));
    },
    [...cloths].map((cloth) => new Set([cloth])),
  );
}

export function areaOf({ areas }: Thing): number {
  return [...areas.values()].reduce((sum, area) => sum + area, 0);
}
