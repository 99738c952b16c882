import { type Expanded, expandMakes, letterOf } from '../../makes/expand.ts';
import { leavesOpening, OPENING } from '../../makes/openings.ts';
import type { ClothName } from '../../model/cloth.ts';
import { type ClothedLot, LOOSE_PART } from '../../model/collection.ts';
import type { OpeningSplit, PieceWanted } from '../../model/piece.ts';
import type { MakeOrder, Plan } from '../../model/plan.ts';

/** What one part of an order is cut into for a single thing of it; a loose piece is an order of one part. */
export interface PartWanted {
  readonly order: string;
  readonly part: string;
  /** Things ordered. */
  readonly count: number;
  /** `copies` is for one thing; `cloth` says nothing yet. */
  readonly pieces: readonly PieceWanted[];
  /** Its one cloth, where it is no part of a thing but what all fronts with a panel are cut into, over all things. */
  readonly panelsOf?: ClothName;
}

/** How many covers of an order close which way, where that was left to the planner. */
export type Openings = ReadonlyMap<string, OpeningSplit>;

/** Whether the plan leaves the cloth of any part open. */
export function leavesClothOpen({ makes, pieces }: Plan): boolean {
  return (
    makes.some(({ choices }) => choices !== undefined) || pieces.some(({ choices }) => choices !== undefined)
  );
}

/**
 * The plan with every opening that was left to the planner closed level, in orders whose cloth is open as well: one
 * choice at a time.
 */
export function withOpeningsClosed(plan: Plan): Plan {
  const makes = plan.makes.map((order) =>
    order.choices !== undefined && leavesOpening(order)
      ? { ...order, measures: { ...order.measures, [OPENING]: 'level' } }
      : order,
  );
  return { ...plan, makes };
}

/**
 * Every part of every order that can be made, in the order of the plan. Covers of one order that close in different
 * ways are one thing, all of them together.
 */
export function partsWanted(plan: Plan, openings: Openings): readonly PartWanted[] {
  const parts = new Map<string, PieceWanted[]>();
  for (const piece of expandMakes(partsForCloths(plan), openings).pieces) {
    const key = JSON.stringify([piece.order, piece.cloth]);
    parts.set(key, [...(parts.get(key) ?? []), piece]);
  }
  // The cloth of a part with panels is settled, and what it is cut into hangs on them.
  for (const { name, panels = {}, cloths } of plan.makes) {
    for (const part of Object.keys(panels)) {
      if (cloths[part] !== undefined) parts.set(JSON.stringify([name, part]), []);
    }
  }
  for (const { name, panel } of plan.pieces) if (panel) parts.set(JSON.stringify([name, LOOSE_PART]), []);
  const split = new Set(plan.makes.filter(leavesOpening).map(({ name }) => name));
  const counts = new Map([...plan.makes, ...plan.pieces].map(({ name, count }) => [name, count] as const));
  const own = [...parts].map(([key, pieces]): PartWanted => {
    const [order, part] = JSON.parse(key) as [string, string];
    const count = split.has(order) ? 1 : counts.get(order)!;
    return {
      order,
      part,
      count,
      pieces: pieces.map((piece) => ({ ...piece, copies: piece.copies / count })),
    };
  });
  return [...own, ...panelParts(plan, openings)];
}

/** What fronts with a panel are cut into, by the cloth: the panels themselves, and what they are mounted with. */
function panelParts(plan: Plan, openings: Openings): readonly PartWanted[] {
  const parts = new Map<string, PartWanted & { readonly pieces: PieceWanted[] }>();
  for (const piece of expandMakes(plan, openings).pieces) {
    if (!piece.panel && !piece.mount) continue;
    const { order, cloth } = piece;
    const key = JSON.stringify([order, cloth]);
    const known = parts.get(key) ?? {
      order,
      part: `panels from ${cloth}`,
      count: 1,
      pieces: [],
      panelsOf: cloth,
    };
    known.pieces.push(piece);
    parts.set(key, known);
  }
  return [...parts.values()];
}

/** The pieces wanted when the cloths are chosen: one for each cloth that a piece is cut from. */
export function expandChosen(
  plan: Plan,
  lots: readonly ClothedLot[],
  openings: Openings,
  expanded: Expanded,
): Expanded {
  const named = expandMakes(partsForCloths(plan), openings).pieces;
  const parts = new Map(named.map(({ id, cloth }) => [id, cloth] as const));
  const counts = new Map([...plan.makes, ...plan.pieces].map(({ name, count }) => [name, count] as const));
  const pieces = expanded.pieces.flatMap((piece) =>
    asChosen(piece, parts.get(piece.id)!, counts.get(piece.order)!, lots),
  );
  return { ...expanded, pieces: pieces.map((piece, index) => ({ ...piece, letter: letterOf(index) })) };
}

/** Each piece then names its part where it would name its cloth. */
function partsForCloths(plan: Plan): Plan {
  const byPart = (order: MakeOrder): MakeOrder => ({
    ...order,
    cloths: Object.fromEntries(Object.keys(order.cloths).map((part) => [part, part])),
  });
  return {
    ...plan,
    cloths: [],
    makes: plan.makes.map(byPart),
    pieces: plan.pieces.map((piece) => ({ ...piece, cloth: LOOSE_PART })),
  };
}

/** It bears the names of its cloths where there are several. */
function asChosen(
  piece: PieceWanted,
  part: string,
  ordered: number,
  lots: readonly ClothedLot[],
): readonly PieceWanted[] {
  if (piece.panel || piece.mount) return [piece];
  const counts = new Map<string, number>();
  for (const lot of lots) {
    const cloth = lot.order === piece.order ? lot.cloths[part] : undefined;
    if (cloth !== undefined) counts.set(cloth, (counts.get(cloth) ?? 0) + lot.count);
  }
  if (counts.size === 0) return [piece];
  return [...counts].map(([cloth, count]) => ({
    ...piece,
    part,
    id: counts.size === 1 ? piece.id : `${piece.id}, ${cloth}`,
    cloth,
    copies: (piece.copies / ordered) * count,
  }));
}
