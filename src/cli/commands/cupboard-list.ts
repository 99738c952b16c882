import type { Cupboard, CupboardEntry } from '../../model/cupboard.ts';
import { type Found, findInCupboard } from '../../planning/find-in-cupboard.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { rowsInColumns } from '../../rendering/text-columns.ts';
import { formatSize } from '../../units/format.ts';
import { parseSize } from '../../units/parse.ts';
import { likelySpelling } from '../../units/spelling.ts';
import { entryJson, entryRemarks } from '../cupboard/entry-text.ts';
import { CUPBOARD_UNLESS_SAID, cupboardIn } from '../cupboard/read-cupboard.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';

/** Lists what lies in the cupboard, cloth by cloth in the order of the file. */
export async function runCupboardList(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const cupboard = cupboardIn(String(options.cupboard ?? CUPBOARD_UNLESS_SAID));
  const cloth = operands[0];
  if (cloth !== undefined) refuseUnknownCloth(cloth, cupboard);
  const entries = cupboard.entries.filter((entry) => cloth === undefined || entry.cloth === cloth);
  if (options.json === true) {
    const { name, unit, currency } = cupboard;
    show(
      terminal,
      writeJson({ name, unit, currency, entries: entries.map((own) => entryJson(own, cupboard)) }),
    );
  } else show(terminal, listText(cupboard, entries, columnsOf(terminal)));
  return EXIT.done;
}

/** Lists what holds a piece of a size. That nothing does is an answer too. */
export async function runCupboardFind(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const cupboard = cupboardIn(String(options.cupboard ?? CUPBOARD_UNLESS_SAID));
  const cloth = typeof options.cloth === 'string' ? options.cloth : undefined;
  if (cloth !== undefined) refuseUnknownCloth(cloth, cupboard);
  const size = sizeOf(operands[0]!, cupboard);
  const upright = options.upright === true;
  const found = findInCupboard(cupboard, { size, upright, ...(cloth !== undefined && { cloth }) });
  if (options.json === true) show(terminal, writeJson(found.map((own) => foundJson(own, cupboard))));
  else show(terminal, foundText(found, formatSize(size, cupboard), cupboard, columnsOf(terminal)));
  return EXIT.done;
}

function sizeOf(typed: string, { unit }: Cupboard) {
  const size = parseSize(typed, { unit, round: 'up' });
  if (size.ok && size.value.width > 0 && size.value.length > 0) return size.value;
  const message = `"${typed}": no size can be read from it; "19 x 19" or "40 x 60 cm" would work.`;
  throw new CommandProblem(EXIT.badInput, message);
}

export function refuseUnknownCloth(cloth: string, { entries }: Cupboard): void {
  const known = [...new Set(entries.map((entry) => entry.cloth))];
  if (known.includes(cloth)) return;
  const likely = likelySpelling(cloth, known);
  const hint =
    likely === undefined ? `It holds: ${known.join(', ') || 'nothing'}` : `Did you mean ${likely}?`;
  throw new CommandProblem(EXIT.badInput, `"${cloth}": no such cloth lies in the cupboard. ${hint}`);
}

function listText(cupboard: Cupboard, entries: readonly CupboardEntry[], columns: number): string {
  const lengths = entries.reduce((total, entry) => total + entry.count, 0);
  const cloths = [...new Set(entries.map((entry) => entry.cloth))];
  const parts = cloths.flatMap((cloth) => [
    '',
    cloth,
    ...rowsInColumns(
      entries
        .filter((entry) => entry.cloth === cloth)
        .map((entry) => [entry.name, entryRemarks(entry, cupboard)]),
      columns,
    ),
  ]);
  return [`${cupboard.name}: ${counted(lengths, 'length')}`, ...parts].join('\n');
}

function foundText(found: readonly Found[], size: string, look: Cupboard, columns: number): string {
  if (found.length === 0) return `Nothing in the cupboard holds ${size}.`;
  const rows = found.map(({ entry, holds, proven, usable }): readonly [string, string] => {
    const most = `holds ${proven ? '' : 'at least '}${holds}`;
    const inside = `${formatSize(usable, look)} usable`;
    return [entry.name, [entry.cloth, most, inside, entryRemarks(entry, look)].join('; ')];
  });
  return [`${size}, smallest first:`, ...rowsInColumns(rows, columns)].join('\n');
}

function foundJson({ entry, holds, proven, usable }: Found, look: Cupboard): object {
  const { width, length } = usable;
  return {
    holds,
    proven,
    usable: { width: { ticks: width }, length: { ticks: length }, shown: formatSize(usable, look) },
    entry: entryJson(entry, look),
  };
}

function counted(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}
