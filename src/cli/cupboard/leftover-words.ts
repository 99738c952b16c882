import type { Cupboard, CupboardEntry } from '../../model/cupboard.ts';
import type { EntryWords } from '../../model/cupboard-edit.ts';
import type { PlanJson } from '../../rendering/plan-json-schema.ts';
import { formatLength } from '../../units/format.ts';
import { ceilTo, floorTo, TICKS_PER_INCH, TICKS_PER_MM, ticks } from '../../units/ticks.ts';

type LeftoverJson = NonNullable<PlanJson['cupboard']>['putBack'][number];

export interface Leaving {
  readonly name: string;
  /** The entry that it is left of; what it said of itself holds for the rest too. */
  readonly source: CupboardEntry | undefined;
  /** What the entry itself said of its worth. */
  readonly worth: EntryWords['worth'];
  readonly cupboard: Cupboard;
  readonly on: string;
  readonly where?: string;
}

/** A leftover as a new entry would be written. */
export function leftoverWords(leftover: LeftoverJson, leaving: Leaving): EntryWords {
  const { name, source, cupboard, on } = leaving;
  const where = leaving.where ?? source?.where;
  const say = (length: { readonly ticks: number }) => lengthWords(length.ticks, cupboard.unit, floorTo);
  const lost = (length: { readonly ticks: number }) => lengthWords(length.ticks, cupboard.unit, ceilTo);
  const [left, right] = [lost(leftover.selvedge.left), lost(leftover.selvedge.right)];
  const { direction, printRuns } = printOf(leftover, source);
  return {
    name,
    cloth: source?.cloth ?? leftover.cloth,
    width: say(leftover.width),
    length: say(leftover.length),
    selvedge: left === right ? left : { left, right },
    ...creaseWords(leftover.crease, finestOf(cupboard.unit), lost, say),
    ...(direction !== undefined && direction !== 'plain' ? { direction } : {}),
    ...(printRuns === 'across' ? { 'print runs': printRuns } : {}),
    ...(leftover.washed ? { washed: 'yes' } : {}),
    ...(leftover.panels && { panels: panelWords(leftover.panels, leftover, cupboard.unit) }),
    ...(where === undefined ? {} : { where }),
    since: on,
    ...(leaving.worth === undefined ? {} : { worth: leaving.worth }),
    ...(source?.note === undefined ? {} : { note: source.note }),
  };
}

/** What the entry said, seen along the grain; else what the plan said of the cloth that was bought. */
function printOf(leftover: LeftoverJson, source: CupboardEntry | undefined) {
  if (source === undefined) return leftover;
  // An entry that says nothing of its print is as the cloth of whatever plan draws on it.
  if (source.direction === undefined && source.printRuns === undefined)
    return { direction: undefined, printRuns: 'along' } as const;
  const across = (source.printRuns === 'across') !== (source.grain === 'crosswise');
  return { direction: source.direction, printRuns: across ? 'across' : 'along' } as const;
}

const SIDES = ['far end', 'left edge', 'near end', 'right edge'] as const;

/** Each reaches out to the marks that are written, but not beyond the cloth as it is written. */
function panelWords(
  panels: NonNullable<LeftoverJson['panels']>,
  { width, length, selvedge }: LeftoverJson,
  unit: Cupboard['unit'],
): EntryWords['panels'] {
  const finest = ticks(finestOf(unit));
  const down = (value: number) => floorTo(ticks(value), finest);
  const up = (value: number) => ceilTo(ticks(value), finest);
  const say = (value: number) => formatLength(ticks(value), { unit, withUnit: false });
  return panels.map((panel) => {
    const [x, y] = [Math.max(down(panel.x.ticks), up(selvedge.left.ticks)), down(panel.y.ticks)];
    const farX = Math.min(
      up(panel.x.ticks + panel.width.ticks),
      down(width.ticks) - up(selvedge.right.ticks),
    );
    const farY = Math.min(up(panel.y.ticks + panel.length.ticks), down(length.ticks));
    return {
      name: panel.name,
      'from edge': say(x),
      'from end': say(y),
      size: `${say(farX - x)} x ${say(farY - y)}`,
      up: SIDES[panel.quarterTurns]!,
    };
  });
}

function creaseWords(
  crease: LeftoverJson['crease'],
  finest: number,
  lost: (length: { readonly ticks: number }) => string,
  say: (length: { readonly ticks: number }) => string,
): EntryWords {
  if ('each' in crease && crease.at) {
    // Where its place is written a little to the left, the strip is written as much wider.
    const { ticks: at } = crease.at;
    const short = at - floorTo(ticks(at), ticks(finest));
    const each = lost({ ticks: crease.each.ticks + short });
    return { crease: `keep off ${each} at ${say(crease.at)}` };
  }
  if ('each' in crease) return { crease: `keep off ${lost(crease.each)}` };
  return crease.kind === 'use' ? { crease: 'use' } : {};
}

/** To the finest mark that is written: what is there goes down, what is lost of it up. */
function lengthWords(length: number, unit: Cupboard['unit'], to: typeof floorTo): string {
  return formatLength(to(ticks(length), ticks(finestOf(unit))), { unit, withUnit: false });
}

function finestOf(unit: Cupboard['unit']): number {
  return unit === 'in' ? TICKS_PER_INCH / 64 : TICKS_PER_MM / 10;
}
