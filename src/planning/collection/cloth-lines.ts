import { turnsAllowed } from '../../cloth/directions.ts';
import type { Cloth } from '../../model/cloth.ts';
import { type Bed, lengthToPack, widestPart } from '../bed.ts';
import type { Beds } from '../beds.ts';
import { bestWeights, type Way } from './best-line.ts';
import type { Sort } from './shares.ts';

/**
 * A proven lower bound on the length to pack from the bolt, linear in how many of each sort are cut from a cloth:
 * length ≥ Σ perCopy · copies − inHand, all in ticks.
 */
export interface LengthLine {
  readonly perCopy: readonly number[];
  readonly inHand: number;
}

/** Bounds are lowered by this part of themselves, far more than doubles can err. */
const SLACK = 1e-9;

/** Most functions that are kept for one cloth. */
const MOST_LINES = 8;

/**
 * Every line across a cloth crosses pieces whose widths come to no more than its usable width. So for any weights of
 * widths, Σ weight · length of all pieces is at most the largest weight that fits a line, times the length there is.
 * The weights are widths themselves (area) and dual feasible functions of them, as in Fekete and Schepers, "New classes
 * of fast lower bounds for bin packing problems", Mathematical Programming 91 (2001), 11-31; and those that suit given
 * counts best. What a line can carry is found exactly, by a knapsack over the widths that occur.
 */
export class ClothLines {
  readonly lines: LengthLine[] = [];
  readonly #cloth: Cloth;
  readonly #beds: Beds;
  readonly #mark: number;
  readonly #ways: readonly (readonly Way[])[];
  /** Whether a sort is cut from this cloth whole. */
  readonly #whole: readonly boolean[];
  readonly #widths: readonly number[];

  /** @param cut which sorts may be cut from this cloth at all */
  constructor(
    sorts: readonly Sort[],
    cloth: Cloth,
    beds: Beds,
    { rulerMark, cut }: { readonly rulerMark: number; readonly cut: readonly boolean[] },
  ) {
    this.#cloth = cloth;
    this.#beds = beds;
    this.#mark = rulerMark;
    this.#ways = sorts.map((sort, index) => (cut[index] ? waysOf(sort, cloth) : []));
    this.#whole = this.#ways.map((ways) => fitsSome(ways, beds));
    const widths = this.#ways.flatMap((ways, index) =>
      this.#whole[index] ? ways.map(({ across }) => across) : [],
    );
    this.#widths = [...new Set(widths)];
    const bolt = this.#bolt;
    if (!bolt) return;
    const [area, ...others] = weightsFor(bolt.packable, this.#widths);
    const lines = [this.#areaLine(area!), ...others.map((weight) => this.#lineOf(weight))];
    this.lines.push(...undominated(lines.filter((line) => line !== undefined)).slice(0, MOST_LINES));
  }

  /** The line that is best for these counts, which need not be whole; kept where it says more than those before. */
  tailored(counts: readonly number[]): LengthLine | undefined {
    const bolt = this.#bolt;
    if (!bolt) return undefined;
    const mark = this.#mark;
    const kinds = this.#ways.map((ways, sort) => ({
      copies: this.#whole[sort] ? counts[sort]! : 0,
      ways: ways.map(({ across, along }) => ({ across: Math.floor(across / mark), along: along / mark })),
    }));
    const room = Math.floor(Math.max(...spansOf(bolt)) / mark);
    const weights = bestWeights(kinds, room);
    const line = this.#lineOf((across) => weights.get(Math.floor(across / mark)) ?? 1);
    if (!line || lengthByLines([line], counts) <= lengthByLines(this.lines, counts) + mark / 100)
      return undefined;
    this.lines.push(line);
    return line;
  }

  get #bolt(): Bed | undefined {
    return this.#beds.toBuy ?? this.#beds.inHand[0];
  }

  /** Where a piece must be joined its parts may be of any width: then only the whole width of a line is sure. */
  #areaLine(weight: (across: number) => number): LengthLine | undefined {
    const anyWidth = this.#ways.some((own, index) => own.length > 0 && !this.#whole[index]);
    if (!anyWidth) return this.#lineOf(weight);
    return this.#lineWith(
      weight,
      (bed) => spansOf(bed).reduce((total, span) => total + weight(span), 0),
      true,
    );
  }

  #lineOf(weight: (across: number) => number): LengthLine | undefined {
    const carried = (bed: Bed) =>
      spansOf(bed).reduce((total, span) => total + mostCarried(span, this.#widths, weight, this.#mark), 0);
    return this.#lineWith(weight, carried, false);
  }

  #lineWith(
    weight: (across: number) => number,
    carried: (bed: Bed) => number,
    withJoined: boolean,
  ): LengthLine | undefined {
    const most = carried(this.#bolt!);
    if (most <= 0) return undefined;
    const plies = this.#cloth.lay === 'folded' ? 2 : 1;
    const perCopy = this.#ways.map((ways, sort) => {
      if (ways.length === 0 || (!this.#whole[sort] && !withJoined)) return 0;
      const each = Math.min(...ways.map(({ across, along }) => weight(across) * along));
      return (Math.max(0, each) / (most * plies)) * (1 - SLACK);
    });
    const inHand = this.#beds.inHand.reduce(
      (total, bed) => total + (carried(bed) / most) * lengthToPack(bed),
      0,
    );
    return { perCopy, inHand: inHand * (1 + SLACK) };
  }
}

/** Least length to pack from the bolt for these counts, by the best of the lines; 0 where lengths in hand may do. */
export function lengthByLines(lines: readonly LengthLine[], counts: readonly number[]): number {
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
