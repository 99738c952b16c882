import { findMake } from '../../makes/catalogue.ts';
import { expandMakes } from '../../makes/expand.ts';
import type { Size } from '../../model/piece.ts';
import type { Plan } from '../../model/plan.ts';
import { floorTo, type Ticks, ticks } from '../../units/ticks.ts';
import { type PlanChange, withChanges } from './changes.ts';
import type { Judge } from './judge.ts';
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

export interface Shrunk {
  readonly changes: readonly PlanChange[];
  /** Cut area lost over all copies, in square ticks. */
  readonly lost: number;
  /** Whether one mark larger is proven impossible. */
  readonly proven: boolean;
}

/** Unless the maker says more, nothing is made smaller by more than this part of it. */
const MOST_PART = 8;

type Side = 'across' | 'up' | 'both';

/** One measure of one thing, and how far it may come down the marks of the ruler. */
interface Giving {
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

/**
 * The largest finished sizes at which all fits, by ruler marks: each thing that may give by itself, on both sides or on
 * one, and all together by as many marks. A smaller piece always lies where a larger one lay, so the marks are halved;
 * the least cloth lost comes first.
 */
export function leastShrinks(
  plan: Plan,
  things: readonly Thing[],
  may: readonly MayShrink[],
  judge: Judge,
): readonly Shrunk[] {
  const named = things.flatMap((thing): readonly Named[] => {
    if (may.length === 0) return [{ thing }];
    return may.filter(({ name }) => name === thing.name).map((rule) => ({ thing, rule }));
  });
  const alone = named.flatMap((own) => givingsOf(plan, own).map((giving) => [giving]));
  const together = named.flatMap((own) =>
    givingsOf(plan, own).filter(({ side }) => side === 'both' || own.rule?.measure !== undefined),
  );
  const tried = together.length > 1 ? [...alone, together] : alone;
  return tried.flatMap((givings) => leastOf(plan, givings, judge)).sort((a, b) => a.lost - b.lost);
}

/** A square stays a square; what is longer than wide may also give on one side alone. */
function givingsOf(plan: Plan, { thing, rule }: Named): readonly Giving[] {
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

function leastOf(plan: Plan, givings: readonly Giving[], judge: Judge): readonly Shrunk[] {
  const changesFor = (marks: number) =>
    givings.map((giving): PlanChange => {
      const { list, index } = giving.thing;
      const value = smaller(giving, plan, marks);
      return { kind: 'measure', of: { list, index }, measure: giving.measure, value };
    });
  const verdictAt = (marks: number) => judge.of(withChanges(plan, changesFor(marks)));
  const most = Math.min(...givings.map((giving) => giving.most));
  if (most < 1 || verdictAt(most) !== 'fits') return [];
  let [fits, fails] = [most, 0];
  while (fits - fails > 1) {
    const middle = Math.floor((fits + fails) / 2);
    if (verdictAt(middle) === 'fits') fits = middle;
    else fails = middle;
  }
  const proven = verdictAt(fits - 1) === 'impossible';
  const changes = changesFor(fits);
  return [{ changes, lost: lostBy(plan, changes), proven }];
}

function lostBy(plan: Plan, changes: readonly PlanChange[]): number {
  return cutArea(plan) - cutArea(withChanges(plan, changes));
}

function cutArea(plan: Plan): number {
  return expandMakes(plan).pieces.reduce(
    (sum, { size, copies }) => sum + size.width * size.length * copies,
    0,
  );
}
