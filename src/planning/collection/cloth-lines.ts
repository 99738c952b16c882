import { turnsAllowed } from '../../cloth/directions.ts';
import type { Cloth } from '../../model/cloth.ts';
import { type Bed, lengthToPack, widestPart } from '../bed.ts';
import type { Beds } from '../beds.ts';
import type { Counts, Sort } from './shares.ts';

/**
 * A proven lower bound on the length to pack from the bolt, linear in how many of each sort are cut from a cloth:
 * length ≥ Σ perCopy · copies − inHand, all in ticks.
 */
export interface LengthLine {
  readonly perCopy: readonly number[];
  readonly inHand: number;
}

/** A way to lie: extent across the cloth and along it. */
interface Way {
  readonly across: number;
  readonly along: number;
}

/** Bounds are lowered by this part of themselves, far more than doubles can err. */
const SLACK = 1e-9;

/** Most functions that are kept for one cloth. */
const MOST_LINES = 8;

/**
 * Every line across a cloth crosses pieces whose widths come to no more than its usable width. So for any weights of
 * widths, Σ weight · length of all pieces is at most the largest weight that fits a line, times the length there is.
 * The weights are widths themselves (area) and dual feasible functions of them, as in Fekete and Schepers, "New classes
 * of fast lower bounds for bin packing problems", Mathematical Programming 91 (2001), 11-31; what a line can carry is
 * found exactly, by a knapsack over the widths that occur, so it may be less than the whole width.
 */
export function lengthLines(
  sorts: readonly Sort[],
  cloth: Cloth,
  beds: Beds,
  { rulerMark, cut }: { readonly rulerMark: number; readonly cut: readonly boolean[] },
): readonly LengthLine[] {
  const folded = cloth.lay === 'folded';
  const ways = sorts.map((sort, index) => (cut[index] ? waysOf(sort, cloth) : []));
  const whole = sorts.map((_, index) => fitsSome(ways[index]!, beds));
  const bolt = beds.toBuy ?? beds.inHand[0];
  if (!bolt) return [];
  const width = bolt.packable;
  const widths = new Set<number>();
  for (const [index, own] of ways.entries())
    if (whole[index]) for (const { across } of own) widths.add(across);
  // A piece that must be joined may be joined from parts of any width: only its area is sure.
  const anyWidth = ways.some((own, index) => own.length > 0 && !whole[index]);
  const lines = weightsFor(width, [...widths]).flatMap((weight, first) => {
    const carried = (bed: Bed) =>
      anyWidth && first === 0
        ? spansOf(bed).reduce((total, span) => total + span, 0) / width
        : spansOf(bed).reduce((total, span) => total + mostCarried(span, [...widths], weight, rulerMark), 0);
    const most = carried(bolt);
    if (most <= 0) return [];
    const perCopy = ways.map((own, index) => {
      if (own.length === 0 || (!whole[index] && first > 0)) return 0;
      const each = Math.min(...own.map(({ across, along }) => weight(across) * along));
      return (Math.max(0, each) / most) * (folded ? 1 / 2 : 1) * (1 - SLACK);
    });
    const inHand = beds.inHand.reduce((total, bed) => total + (carried(bed) / most) * lengthToPack(bed), 0);
    return [{ perCopy, inHand: inHand * (1 + SLACK) }];
  });
  return undominated(lines).slice(0, MOST_LINES);
}

/** Least length to pack from the bolt for these counts, by the best of the lines; 0 where lengths in hand may do. */
export function lengthByLines(lines: readonly LengthLine[], counts: Counts): number {
  return lines.reduce(
    (most, { perCopy, inHand }) =>
      Math.max(
        most,
        perCopy.reduce((total, each, sort) => total + each * counts[sort]!, -inHand),
      ),
    0,
  );
}

/** The ways that a sort may lie on a cloth; none where its grain forbids the cloth. */
export function waysOf({ size, grain }: Sort, cloth: Cloth): readonly Way[] {
  const allowed = turnsAllowed({ grain }, cloth);
  const upright = { across: size.width, along: size.length };
  const turned = { across: size.length, along: size.width };
  if (allowed.kind === 'against-print') return [];
  if (allowed.kind === 'either-way') return [upright, turned];
  return allowed.turns === 0 ? [upright] : [turned];
}

/** Whether some bed of a cloth is large enough for a sort as it may lie. */
export function fitsSome(ways: readonly Way[], beds: Beds): boolean {
  const all = [...beds.inHand, ...(beds.toBuy ? [beds.toBuy] : [])];
  return ways.some(({ across, along }) =>
    all.some((bed) => across <= widestPart(bed) && along <= lengthToPack(bed)),
  );
}

/** Weights of a width, area first. */
function weightsFor(width: number, widths: readonly number[]): readonly ((across: number) => number)[] {
  const share = (across: number) => across / width;
  const stepped = [1, 2, 3, 4, 5].map((parts) => (across: number) => {
    const scaled = ((parts + 1) * across) / width;
    return Number.isInteger(scaled) ? across / width : Math.floor(scaled) / parts;
  });
  const cutOff = widths
    .filter((own) => 2 * own <= width)
    .sort((one, other) => other - one)
    .slice(0, 4)
    .map((least) => (across: number) => {
      if (across > width - least) return 1;
      return across < least ? 0 : across / width;
    });
  return [share, ...stepped, ...cutOff];
}

/** The largest weight of widths that fit side by side into a span: an unbounded knapsack in marks of the ruler. */
function mostCarried(
  span: number,
  widths: readonly number[],
  weight: (across: number) => number,
  mark: number,
): number {
  const room = Math.floor(span / mark);
  const items = widths
    .map((across) => ({ marks: Math.floor(across / mark), weight: weight(across) }))
    .filter((item) => item.weight > 0 && item.marks <= room);
  const best = new Float64Array(room + 1);
  for (let marks = 1; marks <= room; marks++) {
    let most = best[marks - 1]!;
    for (const item of items) {
      if (item.marks <= marks) most = Math.max(most, best[marks - item.marks]! + item.weight);
    }
    best[marks] = most;
  }
  return best[room]!;
}

/** The usable stretches of a bed, either side of a crease that is kept off. */
function spansOf({ gap, packable }: Bed): readonly number[] {
  return gap ? [gap.x0, packable - gap.x1] : [packable];
}

function undominated(lines: readonly LengthLine[]): readonly LengthLine[] {
  const covers = (one: LengthLine, other: LengthLine) =>
    one.inHand <= other.inHand && one.perCopy.every((each, sort) => each >= other.perCopy[sort]!);
  return lines.filter(
    (line, index) =>
      !lines.some((other, at) => at !== index && covers(other, line) && (at < index || !covers(line, other))),
  );
}
