import type { Crease } from '../../model/cloth.ts';
import type { Cupboard, CupboardEntry } from '../../model/cupboard.ts';
import { formatLength, formatMoney, formatSize } from '../../units/format.ts';
import { TICKS_PER_METRE, TICKS_PER_YARD, type Ticks } from '../../units/ticks.ts';

type Look = Pick<Cupboard, 'unit' | 'currency'>;

/** `54 x 45 in; selvedge on both sides; washed; top shelf, since 2026-03-14`. */
export function entryRemarks(entry: CupboardEntry, { unit }: Look): string {
  const place = [entry.where, entry.since && `since ${entry.since}`].filter((part) => part !== undefined);
  const remarks = [
    formatSize(entry, { unit }),
    entry.count === 1 ? undefined : `${entry.count} alike`,
    selvedgeWords(entry, unit),
    creaseWords(entry.crease, unit),
    entry.grain === 'lengthwise' ? undefined : `grain ${entry.grain}`,
    entry.direction,
    entry.flaws && (entry.flaws.length === 1 ? 'a flaw' : `${entry.flaws.length} flaws`),
    panelWords(entry, unit),
    entry.washed ? 'washed' : undefined,
    place.length === 0 ? undefined : place.join(', '),
    entry.note,
  ];
  return remarks.filter((remark) => remark !== undefined).join('; ');
}

function panelWords({ panels, panelsBegin }: CupboardEntry, unit: Look['unit']): string | undefined {
  if (panels) return `panels: ${panels.map(({ name }) => name).join(', ') || 'none'}`;
  return panelsBegin === undefined ? undefined : `panels begin at ${formatLength(panelsBegin, { unit })}`;
}

/** What of its width is selvedge. */
function selvedgeWords({ selvedge: { left, right } }: CupboardEntry, unit: Cupboard['unit']): string {
  const say = (length: Ticks) => formatLength(length, { unit });
  if (left > 0 && right > 0)
    return `both selvedges (${left === right ? `${say(left)} each` : `${say(left)} left, ${say(right)} right`})`;
  if (left > 0) return `left selvedge (${say(left)})`;
  return right > 0 ? `right selvedge (${say(right)})` : 'cut edges';
}

function creaseWords(crease: Crease, unit: Cupboard['unit']): string | undefined {
  const say = (length: Ticks) => formatLength(length, { unit });
  if (crease.kind === 'keep-off') {
    const place = crease.at === undefined ? '' : `, ${say(crease.at)} from the left edge`;
    return `crease kept off by ${say(crease.each)}${place}`;
  }
  return crease.kind === 'use' ? 'crease' : undefined;
}

/** An entry as a record of JSON: lengths exactly, in ticks of 1/320 mm, and as a person reads them. */
export function entryJson(entry: CupboardEntry, look: Look): object {
  const say = (length: Ticks) => ({ ticks: length, shown: formatLength(length, look) });
  const { crease, worth } = entry;
  return {
    name: entry.name,
    cloth: entry.cloth,
    width: say(entry.width),
    length: say(entry.length),
    selvedge: { left: say(entry.selvedge.left), right: say(entry.selvedge.right) },
    crease:
      crease.kind === 'keep-off'
        ? { kind: crease.kind, each: say(crease.each), at: crease.at && say(crease.at) }
        : crease,
    grain: entry.grain,
    direction: entry.direction,
    printRuns: entry.printRuns,
    washed: entry.washed,
    where: entry.where,
    since: entry.since,
    count: entry.count,
    flaws: entry.flaws?.map(({ outline }) => outline.map(({ x, y }) => ({ x: say(x), y: say(y) }))),
    panelsBegin: entry.panelsBegin && say(entry.panelsBegin),
    panels: entry.panels?.map(({ name, up, size, ...from }) => ({
      name,
      x: say(from['from edge']),
      y: say(from['from end']),
      width: say(size.width),
      length: say(size.length),
      up,
    })),
    worth: worth && worthJson(worth, look),
    note: entry.note,
  };
}

/** Per square yard or square metre, whichever the cupboard thinks in. */
function worthJson({ hundredths, per }: NonNullable<CupboardEntry['worth']>, { unit, currency }: Look) {
  const [side, name] = unit === 'in' ? [TICKS_PER_YARD, 'sq yd'] : [TICKS_PER_METRE, 'sq m'];
  const amount = Math.round((hundredths * side * side) / per);
  return { hundredths, perSquareTicks: per, shown: `${formatMoney(amount, currency)} per ${name}` };
}
