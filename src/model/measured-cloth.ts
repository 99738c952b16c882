import { likelySpelling } from '../units/spelling.ts';
import { ceilDiv, greatestCommonDivisor, type Ticks, ticks } from '../units/ticks.ts';
import type {
  Cloth,
  Crease,
  Fraction,
  LengthInHand,
  MeasuredLength,
  Repeat,
  Selvedges,
  Washing,
} from './cloth.ts';
import type { Issue, IssueDetails, Path } from './issue.ts';
import type { Panel } from './panel.ts';
import type { Plan } from './plan.ts';
import type { WrittenCloth } from './reading/cloth-fields.ts';
import { toRepeat } from './reading/match-fields.ts';
import { measuresIn, type WrittenMeasure } from './reading/measured-fields.ts';
import { toPanel } from './reading/panel-fields.ts';
import { afterWashing, beforeWashing, upAfterWashing } from './shrinkage.ts';

/** What a measured length is called where the plan gives it no name. */
const WASHED = 'washed length';

/**
 * The plan with every cloth that was measured as it now is: what was measured lies in hand, washed; nothing of it is
 * bought unless more is asked for; and more of it is reckoned with what the cloth really measures and really lost.
 */
export function withMeasured(
  plan: Plan,
  written: Readonly<Record<string, WrittenCloth>>,
): { readonly plan: Plan; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const cloths = plan.cloths.map((cloth) => {
    const own = written[cloth.name]!;
    if (measuresIn(own.measured).length === 0) return cloth;
    const faults = nameFaults(cloth, own);
    issues.push(...faults);
    return faults.length > 0 ? cloth : measuredCloth(cloth, own);
  });
  return { plan: issues.length > 0 ? plan : { ...plan, cloths }, issues };
}

/** Names that can only be judged once the cupboard has been drawn on. */
function nameFaults(cloth: Cloth, written: WrittenCloth): readonly Issue[] {
  const issueOf = (path: Path, details: IssueDetails['measured-unknown']): Issue => ({
    code: 'measured-unknown',
    severity: 'error',
    path: ['cloths', cloth.name, ...path],
    details,
  });
  const known = cloth.inHand.map(({ name }) => name);
  return measuresIn(written.measured).flatMap(({ measure, path }): readonly Issue[] => {
    if (measure.of === undefined) {
      const taken = measure.name !== undefined && known.includes(measure.name);
      return taken ? [issueOf(path, { found: measure.name!, fault: 'name-taken', known })] : [];
    }
    const found = cloth.inHand.find(({ name }) => name === measure.of);
    if (found?.copies === 1) return [];
    const likely = likelySpelling(measure.of, known);
    const hint = { known, ...(likely === undefined ? {} : { likely }) };
    const fault = found ? 'several' : 'no-length';
    return [issueOf([...path, 'of'], { found: measure.of, fault, ...hint })];
  });
}

function measuredCloth(cloth: Cloth, written: WrittenCloth): Cloth {
  const measures = measuresIn(written.measured).map(({ measure }) => measure);
  const bought = measures.filter(({ of }) => of === undefined);
  const washing = washingFound(cloth.washing, bought);
  const names = namesOf(cloth, measures);
  const anew = new Map(measures.map((measure, index) => [names[index]!, measure] as const));
  const lengths = measures.map(
    (measure, index): MeasuredLength => ({
      name: names[index]!,
      width: measure.width,
      length: measure.length,
      ...(measure.before !== undefined && { before: measure.before }),
      ...(measure.of !== undefined && { wasInHand: true }),
    }),
  );
  const keptHand = cloth.inHand.map((own) => {
    const measure = anew.get(own.name);
    return measure ? measuredLength(measure, own.name, washedPanels(own, washing), { cloth, washing }) : own;
  });
  const added = bought.map((measure) =>
    measuredLength(
      measure,
      names[measures.indexOf(measure)]!,
      { selvedge: cloth.selvedge, crease: cloth.crease },
      { cloth, washing },
    ),
  );
  const widest = bought.reduce((most, { width }) => Math.max(most, width), 0);
  const { buy, ...rest } = cloth;
  const more = bought.length === 0 || written['buy more'] === true;
  return {
    ...rest,
    // What more of it would have to measure before washing, to lie on the table like what was measured.
    ...(widest > 0 && { width: unwashed(ticks(widest), washing, 'across') }),
    ...(washing && { washing }),
    ...(cloth.repeat && { repeat: repeatFound(cloth.repeat, measures[0]!.repeat, washing) }),
    ...(more && buy && { buy }),
    inHand: [...added, ...keptHand],
    measured: {
      lengths,
      reckoned: {
        width: cloth.width,
        ...(cloth.washing && { washing: cloth.washing }),
        ...(buy && { buy }),
      },
    },
  };
}

function namesOf(cloth: Cloth, measures: readonly WrittenMeasure[]): readonly string[] {
  const taken = new Set([
    ...cloth.inHand.map(({ name }) => name),
    ...measures.flatMap(({ name, of }) => name ?? of ?? []),
  ]);
  return measures.map(({ name, of }) => {
    const told = name ?? of;
    if (told !== undefined) return told;
    let made = WASHED;
    for (let number = 2; taken.has(made); number += 1) made = `${WASHED} ${number}`;
    taken.add(made);
    return made;
  });
}

/** A length as it lies on the table: nothing of it will shrink any more. */
function measuredLength(
  measure: WrittenMeasure,
  name: string,
  own: Partial<LengthInHand> & { readonly selvedge: Selvedges; readonly crease: Crease },
  found: { readonly cloth: Cloth; readonly washing: Washing | undefined },
): LengthInHand {
  const { flaws: _, firstMotif: __, ...rest } = own;
  const { panels: ___, panelsBegin: ____, ...bare } = rest;
  const { panels, 'panels begin': begin } = measure;
  const kept = panels || begin !== undefined ? bare : rest;
  return {
    ...kept,
    name,
    width: measure.width,
    length: measure.length,
    selvedge: measure.selvedge ?? own.selvedge,
    crease: measure.crease ?? own.crease,
    copies: 1,
    washed: true,
    ...(measure['first motif'] !== undefined && { firstMotif: measure['first motif'] }),
    ...(measure.flaws !== undefined && { flaws: measure.flaws }),
    ...(panels && { panels: panels.map((panel) => toPanel(panel, found.cloth.printRuns)) }),
    // Panels of the cloth are told as bought, so where they begin is worked back.
    ...(begin !== undefined && { panelsBegin: asBought(begin, found.washing) }),
  };
}

/** The panels of a length that was measured before it was washed, as they are now; those of washed cloth stay. */
function washedPanels(own: LengthInHand, washing: Washing | undefined): LengthInHand {
  if (!own.panels || own.washed || washing?.washed !== 'before-cutting') return own;
  const { along, across } = washing;
  const panels = own.panels.map((panel): Panel => {
    const [x, y] = [afterWashing(panel.x, across), afterWashing(panel.y, along)];
    const width = ticks(upAfterWashing(ticks(panel.x + panel.width), across) - x);
    const length = ticks(upAfterWashing(ticks(panel.y + panel.length), along) - y);
    return { ...panel, x, y, width, length };
  });
  return { ...own, panels };
}

function asBought(begin: Ticks, washing: Washing | undefined): Ticks {
  return washing?.washed === 'before-cutting' ? beforeWashing(begin, washing.along) : begin;
}

/** More of the cloth may well shrink as this did: the greater loss counts, of the one reckoned with and the one found. */
function washingFound(planned: Washing | undefined, bought: readonly WrittenMeasure[]): Washing | undefined {
  if (planned?.washed !== 'before-cutting') return planned;
  const along = bought.reduce((most, measure) => {
    const found = lossAlong(measure);
    return found && isGreater(found, most) ? found : most;
  }, planned.along);
  return { ...planned, along };
}

/** Rounded up to parts per million where it is no simpler fraction, so that arithmetic with it stays exact. */
export function lossAlong({
  before,
  length,
}: {
  readonly before?: Ticks | undefined;
  readonly length: Ticks;
}): Fraction | undefined {
  if (before === undefined || before <= length) return undefined;
  const divisor = greatestCommonDivisor(before - length, before);
  const [numerator, denominator] = [(before - length) / divisor, before / divisor];
  if (denominator <= 1_000_000) return { numerator, denominator };
  return { numerator: ceilDiv(numerator * 1_000_000, denominator), denominator: 1_000_000 };
}

function isGreater(one: Fraction, other: Fraction): boolean {
  return one.numerator * other.denominator > other.numerator * one.denominator;
}

/**
 * The repeat as it would have to be before washing for the wash to leave what was measured: the least length that
 * comes out so, which washing leaves to the tick.
 */
function repeatFound(
  planned: Repeat,
  measured: WrittenMeasure['repeat'],
  washing: Washing | undefined,
): Repeat {
  if (measured === undefined) return planned;
  const { along, across, fromEdge } = toRepeat(measured);
  return {
    ...planned,
    ...(along !== undefined && { along: unwashed(along, washing, 'along') }),
    ...(across !== undefined && { across: unwashed(across, washing, 'across') }),
    ...(fromEdge !== undefined && { fromEdge: unwashed(fromEdge, washing, 'across') }),
  };
}

function unwashed(length: Ticks, washing: Washing | undefined, way: 'along' | 'across'): Ticks {
  if (washing?.washed !== 'before-cutting') return length;
  const { numerator, denominator } = washing[way];
  return ceilDiv(length * denominator, denominator - numerator);
}
