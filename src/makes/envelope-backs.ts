import type { ArithmeticLine } from '../model/piece.ts';
import type { PlanUnit } from '../model/plan.ts';
import { ceilDiv, ceilTo, sum, type Ticks, ticks } from '../units/ticks.ts';
import { line } from './arithmetic.ts';
import type { MakeContext, Remark } from './make.ts';
import type { Measures } from './measures.ts';
import { error, hasError, usual, warning } from './practice.ts';

/** Finished depths, each from its seam to its folded edge, and by how much the two lap. */
export interface EnvelopeBacks {
  readonly outer: Ticks;
  readonly inner: Ticks;
  readonly lap: Ticks;
}

export interface SettledBacks {
  readonly backs: EnvelopeBacks;
  readonly arithmetic: readonly ArithmeticLine[];
  readonly remarks: readonly Remark[];
}

/**
 * Usual laps are 3 to 6 in; another rule is a quarter to a third of the pad (both common practice, no published source).
 * A lap that satisfies either rule is left alone.
 */
const LEAST_LAP = { inches: 3, millimetres: 75 };
const MOST_LAP = { inches: 6, millimetres: 150 };

/**
 * Settles the backs of an envelope opening from any of `lap`, `outer back depth` and `inner back depth`.
 * `depth` is the finished measure of the front across the opening. Nothing given: equal backs that lap by a quarter of it.
 *
 * outer + inner - lap = depth
 */
export function settleBacks(
  depth: Ticks,
  measures: Measures,
  { unit, rulerMark }: MakeContext,
): SettledBacks {
  const given = {
    lap: measures.optionalLength('lap'),
    outer: measures.optionalLength('outer back depth'),
    inner: measures.optionalLength('inner back depth'),
  };
  const settled = settle(depth, given, rulerMark);
  const faults = [...contradiction(depth, given), ...impossibleBacks(depth, given, settled.backs)];
  return { ...settled, remarks: hasError(faults) ? faults : lapPractice(depth, settled.backs.lap, unit) };
}

interface Given {
  readonly lap: Ticks | undefined;
  readonly outer: Ticks | undefined;
  readonly inner: Ticks | undefined;
}

function settle(depth: Ticks, given: Given, rulerMark: Ticks): Omit<SettledBacks, 'remarks'> {
  if (given.outer !== undefined && given.inner !== undefined) {
    const lap = ticks(given.outer + given.inner - depth);
    return {
      backs: { outer: given.outer, inner: given.inner, lap },
      arithmetic: [line('lap', given.outer, '+', given.inner, '-', depth, '=', lap)],
    };
  }
  const lap = given.lap ?? ceilTo(ceilDiv(depth, 4), rulerMark);
  const chosen = given.lap === undefined ? [line('lap, a quarter of the depth', depth, '÷ 4 =', lap)] : [];
  const one = given.outer ?? given.inner;
  if (one === undefined) {
    const each = ceilDiv(sum([depth, lap]), 2);
    return {
      backs: { outer: each, inner: each, lap: ticks(2 * each - depth) },
      arithmetic: [
        ...chosen,
        line('both backs, finished depth', depth, '+', lap, '=', sum([depth, lap])),
        line('each back, finished depth', sum([depth, lap]), '÷ 2 =', each),
      ],
    };
  }
  const other = ticks(depth + lap - one);
  const name = given.outer === undefined ? 'outer back' : 'inner back';
  return {
    backs: given.outer === undefined ? { outer: other, inner: one, lap } : { outer: one, inner: other, lap },
    arithmetic: [...chosen, line(`${name}, finished depth`, depth, '+', lap, '-', one, '=', other)],
  };
}

function contradiction(depth: Ticks, { lap, outer, inner }: Given): readonly Remark[] {
  if (lap === undefined || outer === undefined || inner === undefined) return [];
  if (outer + inner - lap === depth) return [];
  return [
    error(
      'lap',
      'Backs of {outer} and {inner} on a cover of {depth} lap by {found}, not by {lap}: leave out one of the three.',
      { outer, inner, depth, found: ticks(outer + inner - depth), lap },
    ),
  ];
}

/** What cannot be sewn: the first fault only, as the others mostly follow from it. A back that was given comes before one that follows. */
function impossibleBacks(depth: Ticks, given: Given, backs: EnvelopeBacks): readonly Remark[] {
  const { outer, inner, lap } = backs;
  const judged = (['outer', 'inner'] as const)
    .toSorted((a, b) => Number(given[a] === undefined) - Number(given[b] === undefined))
    .flatMap((side) => {
      const measure = given[side] === undefined ? lapMeasure(given) : `${side} back depth`;
      return backFits(measure, `${side} back`, backs[side], depth, given);
    });
  const apart = error(
    'lap',
    'The backs do not meet: {outer} and {inner} on a cover of {depth} leave {gap} between them. Make them deeper together by that and the lap you want.',
    { outer, inner, depth, gap: ticks(-lap) },
  );
  return [...judged, ...(lap > 0 ? [] : [apart])].slice(0, 1);
}

/** Where to look when a back that follows comes out wrong. */
function lapMeasure({ lap, outer, inner }: Given): string {
  if (lap !== undefined) return 'lap';
  if (outer !== undefined) return 'outer back depth';
  return inner === undefined ? 'lap' : 'inner back depth';
}

function lapPractice(depth: Ticks, lap: Ticks, unit: PlanUnit): readonly Remark[] {
  const [least, most] = [usual(unit, LEAST_LAP), usual(unit, MOST_LAP)];
  const quarter = ceilDiv(depth, 4);
  const third = ceilDiv(depth, 3);
  if (lap < least && lap < quarter) {
    return [
      warning(
        'lap',
        'A lap of {lap} may gape and let the pad out: use at least {least}, or a quarter of the cover ({quarter}).',
        { lap, least, quarter },
      ),
    ];
  }
  if (lap > most && lap > third) {
    return [
      warning(
        'lap',
        'With a lap of {lap} on a cover of {depth} the pad may not go in: use at most {most}, or a third of the cover ({third}).',
        { lap, depth, most, third },
      ),
    ];
  }
  return [];
}

function backFits(measure: string, name: string, back: Ticks, depth: Ticks, given: Given): Remark[] {
  if (back > depth && measure === 'lap' && given.lap !== undefined) {
    // Backs alike may each be as deep as the cover; one that is given leaves the other no more than that.
    const most = given.outer ?? given.inner ?? depth;
    return [
      error(
        'lap',
        'With a lap of {lap} the {name} comes to {back}, deeper than the front of {depth}: write a lap of at most {most}.',
        { lap: given.lap, name, back, depth, most },
      ),
    ];
  }
  if (back > depth) {
    return [
      error(
        measure,
        'The {name}, {back} deep when finished, is deeper than the front of {depth}: make it shallower, or the lap smaller.',
        { name, back, depth },
      ),
    ];
  }
  if (back <= 0) {
    return [
      error(
        measure,
        'Nothing is left for the {name}, which comes to {back}: make the other back shallower, or the lap larger.',
        { name, back },
      ),
    ];
  }
  return [];
}
