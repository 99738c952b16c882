import type { OpeningSplit, PieceWanted } from '../model/piece.ts';
import type { MakeOrder } from '../model/plan.ts';
import type { MadeUp, PieceOfMake, Remark } from './make.ts';

export const OPENINGS = ['level', 'upright'] as const;
export type Opening = (typeof OPENINGS)[number];

/** Measure names that every make with an opening shares. */
export const OPENING = 'opening';
export const OPENING_CHOICE = 'opening choice';

/** A piece of an order whose opening was left to the planner. `covers` is how many of the order it serves. */
export type PieceOfSplit = PieceOfMake & Pick<PieceWanted, 'opening'> & { readonly covers: number };

export interface MadeUpSplit extends Omit<MadeUp, 'pieces'> {
  readonly pieces: readonly PieceOfSplit[];
}

/** Whether an order leaves it to the planner which way its covers close. */
export function leavesOpening(order: MakeOrder): boolean {
  return order.measures[OPENING] === 'either';
}

/** Whether each of its covers may close its own way, rather than the whole set one way. */
export function choosesEachCover(order: MakeOrder): boolean {
  return order.measures[OPENING_CHOICE] === 'each cover';
}

/**
 * An order of which so many covers close level and the others upright. Pieces that are alike either way are asked for
 * once; the others say which way their cover closes.
 *
 * @param expand makes up the order with one opening for all
 */
export function madeUpSplit(
  order: MakeOrder,
  split: OpeningSplit,
  expand: (order: MakeOrder) => MadeUp,
): MadeUpSplit {
  const made = {
    level: expand({ ...order, measures: { ...order.measures, [OPENING]: 'level' } }),
    upright: expand({ ...order, measures: { ...order.measures, [OPENING]: 'upright' } }),
  };
  const used = OPENINGS.filter((opening) => split[opening] > 0);
  const [one, other] = used.map((opening) => made[opening]);
  const mixed = one !== undefined && other !== undefined;
  const alike = made.level.pieces.filter((piece) => made.upright.pieces.some((own) => sameText(own, piece)));
  const pieces = used.flatMap((opening) =>
    made[opening].pieces
      .filter((piece) => !alike.some((own) => sameText(own, piece)))
      .map((piece) => ({
        ...piece,
        opening,
        name: mixed ? `${piece.name}, ${opening}` : piece.name,
        covers: split[opening],
      })),
  );
  const failed = used.some((opening) => made[opening].remarks.some(({ severity }) => severity === 'error'));
  const first = one ?? made.level;
  return {
    finished: first.finished,
    pieces: failed ? [] : [...alike.map((piece) => ({ ...piece, covers: order.count })), ...pieces],
    arithmetic: mixed ? eachWay(one.arithmetic, other.arithmetic, whatOf) : first.arithmetic,
    assembly: [told(split), ...(mixed ? eachWay(one.assembly, other.assembly, forThose) : first.assembly)],
    cautions: first.cautions,
    remarks: mixed ? distinct([...one.remarks, ...other.remarks]) : first.remarks,
  };
}

function told({ level, upright }: OpeningSplit): string {
  if (upright === 0) return 'All of these covers close level: the opening was left to the plan.';
  if (level === 0) return 'All of these covers close upright: the opening was left to the plan.';
  const [one, other] = [level, upright].map((count) => `${count} ${count === 1 ? 'closes' : 'close'}`);
  return `Of these covers ${one} level and ${other} upright: the openings were left to the plan. Keep their backs apart.`;
}

/** Lines that are the same either way once; the others for each way, where they first come. */
function eachWay<Line>(
  level: readonly Line[],
  upright: readonly Line[],
  marked: (line: Line, opening: Opening) => Line,
): readonly Line[] {
  const lines = Math.max(level.length, upright.length);
  return Array.from({ length: lines }, (_, index): readonly Line[] => {
    const [one, other] = [level[index], upright[index]];
    if (one !== undefined && other !== undefined && sameText(one, other)) return [one];
    return [
      ...(one === undefined ? [] : [marked(one, 'level')]),
      ...(other === undefined ? [] : [marked(other, 'upright')]),
    ];
  }).flat();
}

const whatOf = (line: MadeUp['arithmetic'][number], opening: Opening) => ({
  ...line,
  what: `${line.what}, closing ${opening}`,
});

const forThose = (sentence: string, opening: Opening) => `Those that close ${opening}: ${sentence}`;

function distinct(remarks: readonly Remark[]): readonly Remark[] {
  return remarks.filter((remark, index) => remarks.findIndex((own) => sameText(own, remark)) === index);
}

/** Plain records of numbers and words, built in one order of keys, are the same when they read the same. */
function sameText(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}
