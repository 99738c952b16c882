import { formatLength } from '../../units/format.ts';
import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Crease } from '../cloth.ts';
import type { Path } from '../issue.ts';
import type { PlanUnit } from '../plan.ts';
import { type Located, lengthName, usableFaults } from './cloth-checks.ts';
import type { WrittenCloth } from './cloth-fields.ts';
import { measuresIn, type WrittenMeasure } from './measured-fields.ts';
import { areaFaults, beginFaults } from './panel-checks.ts';
import { outsideFaults } from './places-on-cloth.ts';

/** A shop that cuts with a generous hand gives no more than this beyond what was asked for. */
const MOST_GROWN = 1.1;
/** Nothing shrinks to less than half. */
const MOST_SHRUNK = 0.5;

const NO_CREASE: Crease = { kind: 'none' };

/** What is wrong with the measures of one cloth of which every single value is right. */
export function measuredFaults(cloth: WrittenCloth, unit: PlanUnit): readonly Located[] {
  const measures = measuresIn(cloth.measured);
  const faults: Located[] = [];
  if (cloth['buy more'] === true && measures.length === 0) {
    const wanted = 'measured: first, since only then is there more to buy';
    faults.push(refused(['buy more'], 'yes', wanted));
  } else if (cloth['buy more'] === true && cloth.buy === undefined) {
    faults.push(refused(['buy more'], 'yes', 'buy: yes as well, so that it is known how the shop cuts it'));
  }
  if (cloth.measured !== undefined && measures.length === 0) {
    faults.push(refused(['measured'], 'an empty list', 'the width and the length of what was measured'));
  }
  const names = new Map<string, number>();
  for (const [index, { measure, path }] of measures.entries()) {
    faults.push(...measureFaults(measure, cloth, path, unit));
    if (index > 0 && measure.repeat !== undefined) {
      faults.push(refused([...path, 'repeat'], 'repeat', 'the repeat once, with the first length'));
    }
    const called = measure.of ?? measure.name;
    if (called === undefined) continue;
    if (names.has(called)) {
      const wanted = `each length once; [${names.get(called)! + 1}] is called so too`;
      faults.push(refused([...path, measure.of === undefined ? 'name' : 'of'], called, wanted));
    } else names.set(called, index);
    const taken = (cloth.lengths ?? []).some((own, place) => (own.name ?? lengthName(place)) === called);
    if (measure.of === undefined && taken) {
      const wanted = `of: ${called} if it is the length in hand measured anew, or another name`;
      faults.push(refused([...path, 'name'], called, wanted));
    }
  }
  const asksRepeat = cloth.repeat !== undefined && measures.some(({ measure }) => hasShrunk(measure, cloth));
  const [first] = measures;
  if (first && asksRepeat && first.measure.repeat === undefined) {
    const { along, across } = cloth.repeat!;
    const keys = [...(along === undefined ? [] : ['along']), ...(across === undefined ? [] : ['across'])];
    const example = `{ ${keys.map((key) => `${key}: ${unit === 'in' ? '12 1/4' : '31.5'}`).join(', ')} }`;
    faults.push({
      path: [...first.path, 'repeat'],
      problem: { code: 'missing', details: { field: 'repeat', example } },
    });
  }
  return faults;
}

/** Washing has changed how far the print repeats, so that it has to be measured too. */
function hasShrunk({ before, length }: WrittenMeasure, { washing }: WrittenCloth): boolean {
  // A repeat that was told as washed cloth shows it needs no measuring again.
  if (washing?.measured?.repeat === 'after') return false;
  const planned = washing?.washed === 'before-cutting' ? washing : undefined;
  const reckoned = planned !== undefined && planned.along.numerator + planned.across.numerator > 0;
  return reckoned || (before !== undefined && before > length);
}

function measureFaults(
  measure: WrittenMeasure,
  cloth: WrittenCloth,
  path: Path,
  unit: PlanUnit,
): readonly Located[] {
  const { width, length, before } = measure;
  const say = (value: Ticks) => formatLength(value, { unit });
  const faults: Located[] = [];
  const squaring = ticks(2 * (cloth.squaring ?? 0));
  if (squaring >= length) {
    const details = { lost: 'squaring', takes: squaring, available: length } as const;
    faults.push({ path: [...path, 'length'], problem: { code: 'nothing-usable', details } });
  }
  if (before !== undefined && length > before * MOST_GROWN) {
    const found = `${say(length)} after washing, ${say(before)} before`;
    faults.push(
      refused([...path, 'before'], found, 'two lengths of the same cloth; washing makes none longer'),
    );
  }
  if (before !== undefined && length < before * MOST_SHRUNK) {
    const found = `${say(length)} after washing, ${say(before)} before`;
    faults.push(
      refused([...path, 'before'], found, 'what this very length measured, if it was not cut since'),
    );
  }
  if (measure.of !== undefined && measure.name !== undefined) {
    const wanted = 'of alone: a length in hand keeps its name';
    faults.push(refused([...path, 'name'], measure.name, wanted));
  }
  if (measure.of === undefined && width > cloth.width * MOST_GROWN) {
    const wanted = `its overall width once more: the cloth was planned ${say(cloth.width)} wide`;
    faults.push(refused([...path, 'width'], say(width), wanted));
  }
  if (measure.of === undefined && width < cloth.width * MOST_SHRUNK) {
    const wanted = `its overall width once more: the cloth was planned ${say(cloth.width)} wide`;
    faults.push(refused([...path, 'width'], say(width), wanted));
  }
  if (measure['first motif'] !== undefined && cloth.repeat?.along === undefined) {
    const wanted = 'a repeat along the cloth first, in which a motif has its place';
    faults.push(refused([...path, 'first motif'], say(measure['first motif']), wanted));
  }
  if (measure.repeat !== undefined && cloth.repeat === undefined) {
    faults.push(
      refused([...path, 'repeat'], 'repeat', 'the repeat of the cloth first, as it was before washing'),
    );
  }
  const hasPlace = cloth.repeat?.along !== undefined;
  faults.push(
    ...outsideFaults({ ...measure, 'first motif': hasPlace ? measure['first motif'] : undefined }, path),
  );
  faults.push(...edgeFaults(measure, cloth, path), ...placeFaults(measure, cloth, path, unit));
  return faults;
}

/** Where the printed panels of a measured length lie. */
function placeFaults(
  measure: WrittenMeasure,
  cloth: WrittenCloth,
  path: Path,
  unit: PlanUnit,
): readonly Located[] {
  const { panels, 'panels begin': begin } = measure;
  if (panels && begin !== undefined) {
    return [
      refused([...path, 'panels begin'], formatLength(begin, { unit }), 'one of panels and panels begin'),
    ];
  }
  if (panels) {
    const selvedge = measure.selvedge ?? cloth.selvedge;
    const edges = { width: measure.width, selvedge, crease: NO_CREASE };
    return areaFaults(panels, edges, measure.length, [...path, 'panels']);
  }
  if (begin !== undefined) return beginFaults(cloth, [...path, 'panels begin']);
  const { sold, every } = cloth.panels ?? {};
  if (measure.of !== undefined || every === undefined || sold !== 'anywhere') return [];
  // Bought as the shop cut it, its panels begin anywhere.
  const example = unit === 'in' ? '4 1/4' : '11';
  return [
    {
      path: [...path, 'panels begin'],
      problem: { code: 'missing', details: { field: 'panels begin', example } },
    },
  ];
}

function edgeFaults(measure: WrittenMeasure, cloth: WrittenCloth, path: Path): readonly Located[] {
  const own = (cloth.lengths ?? []).find(
    (length, index) => (length.name ?? lengthName(index)) === measure.of,
  );
  const selvedge = measure.selvedge ?? own?.selvedge ?? cloth.selvedge;
  const crease = measure.crease ?? own?.crease ?? cloth.crease ?? NO_CREASE;
  return usableFaults({ width: measure.width, selvedge, crease }, path);
}

function refused(path: Path, found: string, wanted: string): Located {
  return { path, problem: { code: 'out-of-range', details: { found, wanted } } };
}
