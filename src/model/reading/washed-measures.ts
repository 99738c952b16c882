import { ceilTo, type Ticks, ticks } from '../../units/ticks.ts';
import type { Crease, Fraction, Selvedges, Washing } from '../cloth.ts';
import { afterWashing, beforeWashing, mostBeforeWashing, upAfterWashing } from '../shrinkage.ts';
import type { Located } from './cloth-checks.ts';
import type { WrittenCloth, WrittenLength } from './cloth-fields.ts';
import { keyed } from './fields.ts';
import type { WrittenPanel, WrittenPanels } from './panel-fields.ts';
import { choice, outOfRange } from './scalars.ts';

const WHEN = ['before', 'after'] as const;

/** When each measure of a cloth was taken that is washed before it is cut. */
export function measuredDefinition() {
  const when = (what: string, unlessSaid: string) =>
    choice(
      `Whether ${what} \`before\` or \`after\` the wash; \`${unlessSaid}\`, unless said.`,
      WHEN,
    ).optional();
  return keyed(
    {
      width: when('the width was measured', 'before'),
      repeat: when('the repeat and its first motif from the edge were measured', 'before'),
      panels: when('the printed panels were measured', 'before'),
      selvedge: when('the selvedges were measured', 'after'),
      crease: when('the strip that is kept off the crease was measured', 'after'),
    },
    {
      wanted: 'before or after for width, repeat, panels, selvedge and crease',
      example: '{ width: after, repeat: before }',
    },
  ).meta({
    description:
      'When each measure was taken. What is not said is as bought, but for the strips along the edges and the crease, which are as they are trimmed at the table.',
  });
}

type WrittenWashing = NonNullable<WrittenCloth['washing']>;

/** What is contradictory in how a cloth is washed. */
export function washingFaults(cloth: WrittenCloth): readonly Located[] {
  const { washing } = cloth;
  if (washing === undefined) return [];
  const fault = (path: Located['path'], found: string, wanted: string): Located => ({
    path,
    problem: outOfRange(found, wanted).problem,
  });
  const faults: Located[] = [];
  const known = { ...ALWAYS_THERE, repeat: cloth.repeat, panels: cloth.panels };
  for (const [what, when] of Object.entries(washing.measured ?? {})) {
    const path = ['washing', 'measured', what];
    if (when === undefined) continue;
    if (when === 'after' && washing.washed === 'after-sewing') {
      faults.push(fault(path, when, 'before: this cloth is washed only when it is sewn'));
    } else if (known[what as keyof typeof known] === undefined) {
      faults.push(fault(path, what, `${what} only for a cloth that has one`));
    } else if (what === 'crease' && cloth.crease?.kind !== 'keep-off') {
      faults.push(fault(path, what, 'crease only for a cloth whose crease is kept off'));
    }
  }
  if (washing['cut larger'] !== true) return faults;
  const path = ['washing', 'cut larger'];
  if (washing.washed === 'before-cutting') {
    faults.push(fault(path, 'yes', 'no, or washed: after-sewing; what is washed first shrinks no more'));
  } else if (cloth.panels !== undefined) {
    faults.push(fault(path, 'yes', 'no: a printed panel cannot be cut larger than it is'));
  }
  for (const [index, { washed }] of (cloth.lengths ?? []).entries()) {
    if (washed !== true) continue;
    const wanted = 'no, or leave cut larger out: what is cut from this length would not shrink to size';
    faults.push(fault(['lengths', index, 'washed'], 'yes', wanted));
  }
  return faults;
}

const ALWAYS_THERE = { width: true, selvedge: true, crease: true } as const;

export function toWashing(written: WrittenWashing): Washing {
  const { along, across, washed, measured } = written;
  return {
    ...{ along, across, washed },
    ...(measured?.width === 'after' && { widthFromWashed: true as const }),
    ...(written['cut larger'] === true && { cutLarger: true as const }),
  };
}

/** The width of a cloth once it is washed, where that is done before it is cut. */
export function washedWidth({ width, washing }: WrittenCloth): Ticks {
  if (washing?.washed !== 'before-cutting' || washing.measured?.width === 'after') return width;
  return afterWashing(width, washing.across);
}

/**
 * The cloth with every measure as it is before washing, whenever it was taken, so that washing it forward gives exactly
 * what was measured on washed cloth. The strips along edges and crease are as they are trimmed at the table; one that was
 * measured before the wash is what is left of it, up to a mark of the ruler.
 */
export function asBeforeWashing(cloth: WrittenCloth, rulerMark: Ticks): WrittenCloth {
  const { washing } = cloth;
  const measured = washing?.measured;
  if (washing === undefined || measured === undefined || washing.washed !== 'before-cutting') return cloth;
  const { along, across } = washing;
  const { measured: _, ...rest } = washing;
  const strip = (own: Ticks) => ticks(Math.min(own, ceilTo(upAfterWashing(own, across), rulerMark)));
  const strips = {
    selvedge: ({ left, right }: Selvedges): Selvedges =>
      measured.selvedge === 'before' ? { left: strip(left), right: strip(right) } : { left, right },
    crease: (own: Crease): Crease =>
      own.kind === 'keep-off' && measured.crease === 'before' ? { ...own, each: strip(own.each) } : own,
  };
  const { repeat, panels } = cloth;
  return {
    ...cloth,
    washing: rest,
    ...(measured.width === 'after' && { width: beforeWashing(cloth.width, across) }),
    selvedge: strips.selvedge(cloth.selvedge),
    ...(cloth.crease && { crease: strips.crease(cloth.crease) }),
    ...(repeat && measured.repeat === 'after' && { repeat: unwashedRepeat(repeat, along, across) }),
    ...(panels && measured.panels === 'after' && { panels: unwashedPanels(panels, along, across) }),
    ...(cloth.lengths && {
      lengths: cloth.lengths.map((length) => (length.washed === true ? length : withStrips(length, strips))),
    }),
  };
}

function withStrips(
  length: WrittenLength,
  strips: { readonly selvedge: (own: Selvedges) => Selvedges; readonly crease: (own: Crease) => Crease },
): WrittenLength {
  return {
    ...length,
    ...(length.selvedge && { selvedge: strips.selvedge(length.selvedge) }),
    ...(length.crease && { crease: strips.crease(length.crease) }),
  };
}

type WrittenRepeat = NonNullable<WrittenCloth['repeat']>;

function unwashedRepeat(repeat: WrittenRepeat, along: Fraction, across: Fraction): WrittenRepeat {
  const fromEdge = repeat['from edge'];
  return {
    ...repeat,
    ...(repeat.along !== undefined && { along: beforeWashing(repeat.along, along) }),
    ...(repeat.across !== undefined && { across: beforeWashing(repeat.across, across) }),
    ...(fromEdge !== undefined && { 'from edge': beforeWashing(fromEdge, across) }),
  };
}

/** A panel's near edges are washed down to a tick and its far ones up, so they are worked back the same ways. */
function unwashedPanels(panels: WrittenPanels, along: Fraction, across: Fraction): WrittenPanels {
  const area = (own: WrittenPanel): WrittenPanel => {
    const [x, y] = [beforeWashing(own['from edge'], across), beforeWashing(own['from end'], along)];
    const farX = mostBeforeWashing(ticks(own['from edge'] + own.size.width), across);
    const farY = mostBeforeWashing(ticks(own['from end'] + own.size.length), along);
    const size = { width: ticks(farX - x), length: ticks(farY - y) };
    return { ...own, 'from edge': x, 'from end': y, size };
  };
  const motif = panels['first motif'];
  return {
    ...panels,
    ...(panels.areas && { areas: panels.areas.map(area) }),
    ...(panels.every !== undefined && { every: mostBeforeWashing(panels.every, along) }),
    ...(motif !== undefined && { 'first motif': beforeWashing(motif, along) }),
  };
}
