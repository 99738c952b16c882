import { existsSync } from 'node:fs';
import { dirname, isAbsolute, join } from 'node:path';
import { day } from '../../model/reading/cupboard-definition.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { type Booked, type BookingDay, bookPlan, planIn } from '../cupboard/booking.ts';
import { changeCupboard, thisMachine } from '../cupboard/change.ts';
import { entryJson, entryRemarks } from '../cupboard/entry-text.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { type Reads, readText } from '../read-text.ts';
import { show, type Terminal } from '../terminal.ts';
import { fileOf, today } from './cupboard-change.ts';

/** What `laywright plan` writes. */
const CUT_PLAN: Reads = { what: 'plan.json', begin: 'write one with `laywright plan`' };

/** Books a plan whose cutting is done, in one change of the cupboard's file. */
export async function runCupboardDone(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const when = dayOf(options);
  const read = await readText(operands[0]!, terminal, CUT_PLAN);
  const plan = planIn(read);
  const file = options.cupboard === undefined ? cupboardOfPlan(plan.drawn.file, read.file) : fileOf(options);
  const booked = await changeCupboard(file, thisMachine(), (before) => {
    const { text, booked } = bookPlan({ text: before, file }, plan, when);
    return { text, did: `booked the plan "${plan.name}"`, result: booked };
  });
  show(terminal, options.json === true ? bookedJson(booked) : bookedText(booked, plan.name));
  return EXIT.done;
}

/**
 * The cupboard's file that a plan drew on: as it was seen from where the plan was made, which is here, or else the folder of its
 * plan.json or the one above. The usual file where it is in none of them.
 */
function cupboardOfPlan(named: string | undefined, planJson: string): string {
  if (named === undefined) return fileOf({});
  const folder = dirname(planJson);
  const places = isAbsolute(named) ? [named] : [named, join(folder, named), join(dirname(folder), named)];
  return places.find((place) => existsSync(place)) ?? fileOf({});
}

function dayOf({ on, where }: OptionValues): BookingDay {
  if (typeof on === 'string' && !day('').safeParse(on).success)
    throw new CommandProblem(EXIT.badInput, `--on: found "${on}"; a day such as 2026-03-14 would work`);
  return { on: typeof on === 'string' ? on : today(), ...(typeof where === 'string' && { where }) };
}

function bookedText({ cupboard, taken, put }: Booked, plan: string): string {
  const out = taken.map(
    ({ entry, copies }) => `Taken out: ${entry}${copies === 1 ? '' : `, ${copies} of it`}`,
  );
  const back = put.map((own) => `Put in: ${own.name}, ${own.cloth}, ${entryRemarks(own, cupboard)}`);
  const none =
    out.length + back.length === 0 ? ['It used nothing of the cupboard and left nothing to keep.'] : [];
  return [`Booked: ${plan}`, ...out, ...back, ...none].join('\n');
}

function bookedJson({ cupboard, taken, put }: Booked): string {
  return writeJson({
    takenOut: taken.map(({ entry, copies }) => ({ entry, copies })),
    putIn: put.map((own) => entryJson(own, cupboard)),
  });
}
