import { findMake } from '../../makes/catalogue.ts';
import type { Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { floorTo, type Ticks, ticks } from '../../units/ticks.ts';
import type { PlanChange } from './changes.ts';
import type { Thing } from './things.ts';

/** What of a thing may be made smaller, as the maker says. */
export interface MayShrink {
  /** Order or loose piece. */
  readonly name: string;
  /** One measure of its make, or one side of its size; everything that tells its size unless said. */
  readonly measure?: string;
  /** By no more than this; an eighth of the measure unless said. */
  readonly most?: Ticks;
}

/** Unless the maker says more, nothing is made smaller by more than this part of it. */
const MOST_PART = 8;

type Side = 'across' | 'up' | 'both';

/** One measure of one thing, and how far it may come down the marks of the ruler. */
export interface Giving {
  readonly thing: Thing;
  readonly measure: string;
  readonly value: Size | Ticks;
  readonly side: Side;
  /** Marks. */
  readonly most: number;
}

interface Measured {
  readonly measure: string;
  readonly value: Size | Ticks;
  /** The one side that may give. */
  readonly only?: Side;
}

interface Named {
  readonly thing: Thing;
  readonly rule?: MayShrink;
}

/** What may give of these things: by itself, on both sides or on one, and what gives where all give together. */
export function givingsOf(
  plan: Plan,
  things: readonly Thing[],
  may: readonly MayShrink[],
): { readonly alone: readonly Giving[]; readonly together: readonly Giving[] } {
  const named = things.flatMap((thing): readonly Named[] => {
    if (may.length === 0) return [{ thing }];
    return may.filter(({ name }) => name === thing.name).map((rule) => ({ thing, rule }));
  });
  const alone = named.flatMap((own) => givingsOfOne(plan, own));
  const together = named.flatMap((own) =>
    givingsOfOne(plan, own).filter(({ side }) => side === 'both' || own.rule?.measure !== undefined),
  );
  return { alone: alone.filter(({ most }) => most > 0), together: together.filter(({ most }) => most > 0) };
}

/** A square stays a square; what is longer than wide may also give on one side alone. */
function givingsOfOne(plan: Plan, { thing, rule }: Named): readonly Giving[] {
  return measuresOf(plan, thing, rule?.measure).flatMap(({ measure, value, only }) =>
    sidesOf(value, only).map((side) => {
      const most = mostMarks(plan, value, side, rule?.most);
      return { thing, measure, value, side, most };
    }),
  );
}

function sidesOf(value: Size | Ticks, only: Side | undefined): readonly Side[] {
  if (typeof value === 'number') return ['both'];
  if (only) return [only];
  return value.width === value.length ? ['both'] : ['both', 'across', 'up'];
}

function measuresOf(plan: Plan, { list, index }: Thing, wanted: string | undefined): readonly Measured[] {
  const side: Side | undefined = wanted === 'across' || wanted === 'up' ? wanted : undefined;
  const only: { readonly only?: Side } = side === undefined ? {} : { only: side };
  if (list === 'pieces') {
    const fits = wanted === undefined || wanted === 'size' || side !== undefined;
    return fits ? [{ measure: 'size', value: plan.pieces[index]!.size, ...only }] : [];
  }
  const order = plan.makes[index]!;
  return Object.entries(findMake(order.make)!.spec.measures).flatMap(
    ([measure, spec]): readonly Measured[] => {
      const isNamed = wanted === measure || (side !== undefined && spec.kind === 'size');
      if (wanted === undefined ? spec.mayGive !== true : !isNamed) return [];
      const value = order.measures[measure];
      if (spec.kind === 'size' && typeof value === 'object')
        return [{ measure, value: value as Size, ...only }];
      return spec.kind === 'length' && typeof value === 'number' ? [{ measure, value: ticks(value) }] : [];
    },
  );
}

/** How many marks the shorter side given may come down. */
function mostMarks(plan: Plan, value: Size | Ticks, side: Side, most: Ticks | undefined): number {
  const given =
    typeof value === 'number'
      ? [value]
      : side === 'both'
        ? [value.width, value.length]
        : [side === 'across' ? value.width : value.length];
  const marks = given.map((length) => {
    const limit = most === undefined ? length / MOST_PART : Math.min(most, length - plan.rulerMark);
    return Math.floor((limit - (length - onMark(length, plan, 1)) + plan.rulerMark) / plan.rulerMark);
  });
  return Math.max(0, Math.min(...marks));
}

/** The measure so many marks smaller, where 1 is the first mark below it. */
function onMark(length: Ticks, { rulerMark }: Plan, marks: number): Ticks {
  return marks === 0 ? length : ticks(floorTo(ticks(length - 1), rulerMark) - (marks - 1) * rulerMark);
}

function smaller({ value, side }: Giving, plan: Plan, marks: number): Size | Ticks {
  if (typeof value === 'number') return onMark(value, plan, marks);
  return {
    width: side === 'up' ? value.width : onMark(value.width, plan, marks),
    length: side === 'across' ? value.length : onMark(value.length, plan, marks),
  };
}

/** How many marks each measure comes down. */
export type Marks = ReadonlyMap<Giving, number>;

/** The changes that so many marks make, one a measure, in the order of the plan. */
export function changesOf(plan: Plan, marks: Marks): readonly MeasureChange[] {
  const changes = new Map<string, MeasureChange>();
  for (const [giving, count] of marks) {
    if (count === 0) continue;
    const { thing, measure } = giving;
    const of = { list: thing.list, index: thing.index };
    const key = JSON.stringify([of, measure]);
    const value = least(smaller(giving, plan, count), changes.get(key)?.value);
    changes.set(key, { kind: 'measure', of, measure, value });
  }
  return [...changes.values()];
}

export type MeasureChange = PlanChange & { readonly kind: 'measure' };

function least(one: Size | Ticks, other: Size | Ticks | undefined): Size | Ticks {
  if (typeof one === 'number' || typeof other !== 'object') return one;
  return {
    width: ticks(Math.min(one.width, other.width)),
    length: ticks(Math.min(one.length, other.length)),
  };
}
