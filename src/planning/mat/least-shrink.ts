import { expandMakes } from '../../makes/expand.ts';
import type { ClothName } from '../../model/cloth.ts';
import type { Plan } from '../../model/plan.ts';
import { withChanges } from './changes.ts';
import {
  changesOf,
  type Giving,
  givingsOf,
  type Marks,
  type MayShrink,
  type MeasureChange,
} from './givings.ts';
import type { Judge } from './judge.ts';
import { freeOf, isLeastLost } from './least-lost.ts';
import type { Thing } from './things.ts';

export interface Shrunk {
  readonly changes: readonly MeasureChange[];
  /** Cut area lost over all copies, in square ticks. */
  readonly lost: number;
  /** For each change, whether that measure one mark larger, and all else as it is here, is proven impossible. */
  readonly proven: readonly boolean[];
  /** Present where several measures may give: whether it is proven that no mixture of them loses less cloth. */
  readonly leastLost?: boolean;
}

/** Ways for several cloths together that are kept while they are put together, and that are looked at closely. */
const MOST_KEPT = 40;
const MOST_POLISHED = 6;

/**
 * The largest finished sizes at which all fits, by ruler marks. Each cloth is asked by itself first: what of its own
 * things has to come down, each alone, on both sides or on one, and all together. The cloths' answers are put together,
 * and what is cut from several cloths comes down by the larger need. Then every measure goes up again as far as the rest
 * lets it, those that lose most cloth first, so that no measure of an answer can be one mark larger by itself.
 *
 * A smaller piece always lies where a larger one lay, so the marks are halved. The least cloth lost comes first.
 *
 * @param groups cloths that can be judged apart from the others
 */
export function leastShrinks(
  plan: Plan,
  things: readonly Thing[],
  may: readonly MayShrink[],
  groups: readonly ReadonlySet<ClothName>[],
  judge: Judge,
): readonly Shrunk[] {
  const { alone, together } = givingsOf(plan, things, may);
  const lost = (marks: Marks) => cutArea(plan) - cutArea(withChanges(plan, changesOf(plan, marks)));
  let merged: readonly Marks[] = [new Map()];
  for (const group of groups) {
    const takes = ({ thing }: Giving) =>
      groups.length === 1 || [...thing.areas.keys()].some((cloth) => group.has(cloth));
    const joint = together.filter(takes);
    const ways = [...alone.filter(takes).map((giving) => [giving]), ...(joint.length > 1 ? [joint] : [])];
    const own = ways.flatMap((givings) => leastAlike(plan, givings, judge.only(group)) ?? []);
    const put = merged.flatMap((before) => own.map((marks) => larger(before, marks)));
    merged = sortedBy(put, lost).slice(0, MOST_KEPT);
  }
  const found = merged.slice(0, MOST_POLISHED).map((marks) => raised(plan, marks, judge));
  const all = sortedBy(distinct(plan, found), lost);
  const least = all[0] && lost(all[0]);
  const several = freeOf(alone).length > 1;
  const isLeast = least !== undefined && several && isLeastLost(plan, alone, lost, least, judge);
  return all.map((marks) => ({
    ...provenOf(plan, marks, judge),
    lost: lost(marks),
    ...(several && { leastLost: isLeast && lost(marks) === least }),
  }));
}

/** All of them down by as many marks, or by as many as they may give; undefined where that is not enough. */
function leastAlike(plan: Plan, givings: readonly Giving[], judge: Judge): Marks | undefined {
  const down = (marks: number) => new Map(givings.map((own) => [own, Math.min(marks, own.most)] as const));
  const least = leastThatFits(Math.max(...givings.map(({ most }) => most)), (marks) =>
    verdictOf(plan, down(marks), judge),
  );
  return least === undefined ? undefined : down(least);
}

/** The fewest marks from 1 that fit, where more fit whenever fewer do. */
function leastThatFits(most: number, verdictAt: (marks: number) => string, from = 0): number | undefined {
  if (most <= from || verdictAt(most) !== 'fits') return undefined;
  let [fits, fails] = [most, from];
  while (fits - fails > 1) {
    const middle = Math.floor((fits + fails) / 2);
    if (verdictAt(middle) === 'fits') fits = middle;
    else fails = middle;
  }
  return fits;
}

/** Each measure as large as the others let it be. One pass is enough: where another is larger, none has more room. */
function raised(plan: Plan, marks: Marks, judge: Judge): Marks {
  if (marks.size < 2) return marks;
  let now = marks;
  const alone = (giving: Giving) =>
    cutArea(withChanges(plan, changesOf(plan, new Map([[giving, now.get(giving)!]]))));
  for (const giving of sortedBy([...marks.keys()], alone)) {
    const withMarks = (count: number) => new Map([...now, [giving, count] as const]);
    const least = leastThatFits(now.get(giving)!, (count) => verdictOf(plan, withMarks(count), judge), -1);
    if (least !== undefined) now = withMarks(least);
  }
  return now;
}

function provenOf(plan: Plan, marks: Marks, judge: Judge): Pick<Shrunk, 'changes' | 'proven'> {
  const changes = changesOf(plan, marks);
  const proven = changes.map(({ of, measure }) =>
    [...marks]
      .filter(([{ thing, ...own }, count]) => {
        const isOwn = thing.list === of.list && thing.index === of.index && own.measure === measure;
        return isOwn && count > 0;
      })
      .every(([giving, count]) => {
        const before = new Map([...marks, [giving, count - 1] as const]);
        return verdictOf(plan, before, judge) === 'impossible';
      }),
  );
  return { changes, proven };
}

function verdictOf(plan: Plan, marks: Marks, judge: Judge) {
  return judge.of(withChanges(plan, changesOf(plan, marks)));
}

/** Of every measure the smaller of two. */
function larger(one: Marks, other: Marks): Marks {
  const all = new Map(one);
  for (const [giving, count] of other) all.set(giving, Math.max(count, all.get(giving) ?? 0));
  return all;
}

function distinct(plan: Plan, all: readonly Marks[]): readonly Marks[] {
  const byChanges = all.map((marks) => [JSON.stringify(changesOf(plan, marks)), marks] as const);
  // The first of each is kept.
  return [...new Map([...byChanges].reverse()).values()].reverse();
}

function sortedBy<T>(all: readonly T[], value: (own: T) => number): readonly T[] {
  return all
    .map((own) => ({ own, value: value(own) }))
    .sort((a, b) => a.value - b.value)
    .map(({ own }) => own);
}

function cutArea(plan: Plan): number {
  return expandMakes(plan).pieces.reduce(
    (sum, { size, copies }) => sum + size.width * size.length * copies,
    0,
  );
}
