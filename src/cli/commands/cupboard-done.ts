import { createHash } from 'node:crypto';
import type { Cupboard, CupboardEntry } from '../../model/cupboard.ts';
import { copyNames } from '../../model/cupboard.ts';
import { lengthOf } from '../../model/cupboard-draw.ts';
import { type EntryWords, noteCut, putBack, takeOut, wordsOf } from '../../model/cupboard-edit.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { type PlanJson, planJsonSchema } from '../../rendering/plan-json-schema.ts';
import { changeCupboard, thisMachine } from '../cupboard/change.ts';
import { entryJson, entryRemarks } from '../cupboard/entry-text.ts';
import { entryOf } from '../cupboard/entry-words.ts';
import { leftoverWords } from '../cupboard/leftover-words.ts';
import { cupboardOf } from '../cupboard/read-cupboard.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { readText } from '../read-text.ts';
import { show, type Terminal } from '../terminal.ts';
import { fileOf, today } from './cupboard-change.ts';

type Drawn = NonNullable<PlanJson['cupboard']>;
type Taken = Drawn['takenOut'][number];

interface Booked {
  readonly cupboard: Cupboard;
  readonly taken: readonly { readonly entry: string; readonly copies: number }[];
  readonly put: readonly CupboardEntry[];
}

/**
 * Books a plan whose cutting is done, in one change of the cupboard's file: what it used is taken out, what it left is put
 * in, and the plan is noted, so that it cannot be booked twice.
 */
export async function runCupboardDone(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = fileOf(options);
  const plan = planIn(await readText(operands[0]!, terminal));
  const on = typeof options.on === 'string' ? options.on : today();
  const where = typeof options.where === 'string' ? options.where : undefined;
  const booked = await changeCupboard(file, thisMachine(), (text) => {
    const before = cupboardOf({ text, file });
    refuseIfBooked(plan, before, file);
    for (const taken of plan.drawn.takenOut) refuseIfOther(taken, before);
    const words = wordsToPut(
      plan.drawn,
      { text, cupboard: before },
      { on, ...(where !== undefined && { where }) },
    );
    for (const own of words) entryOf(own, before);
    const without = plan.drawn.takenOut.reduce((now, { entry, copies }) => takeOut(now, entry, copies), text);
    const withLeftovers = words.reduce(putBack, without);
    const next = noteCut(withLeftovers, { plan: plan.name, on, mark: plan.mark });
    const cupboard = cupboardOf({ text: next, file });
    const put = cupboard.entries.filter(({ name }) => words.some((own) => own.name === name));
    const result: Booked = { cupboard, taken: plan.drawn.takenOut, put };
    return { text: next, did: `booked the plan "${plan.name}"`, result };
  });
  show(terminal, options.json === true ? bookedJson(booked) : bookedText(booked, plan.name));
  return EXIT.done;
}

interface PlanDone {
  readonly name: string;
  readonly mark: string;
  readonly drawn: Drawn;
}

/** The plan in a plan.json. Throws a CommandProblem where the file is none, or its plan knew no cupboard. */
function planIn({ text, file }: { readonly text: string; readonly file: string }): PlanDone {
  const parsed = planJsonSchema.safeParse(jsonIn(text), { jitless: true });
  if (!parsed.success) {
    const message = `${file}: this is no plan.json of this version. Give the plan.json that \`laywright plan\` wrote.`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  const { name, cupboard } = parsed.data;
  if (cupboard === undefined) {
    const message = `${file}: this plan was made without a cupboard. Plan it with --cupboard, and cut by that plan.`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  // Of the content alone, so that neither blanks nor another place of the file make it another plan.
  const mark = createHash('sha256').update(JSON.stringify(parsed.data)).digest('hex').slice(0, 16);
  return { name, mark, drawn: cupboard };
}

function jsonIn(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function refuseIfBooked({ name, mark }: PlanDone, { cut }: Cupboard, file: string): void {
  const before = cut.find((own) => own.mark === mark);
  if (before === undefined) return;
  const message = `"${name}": this plan was booked in ${file} on ${before.on} already. Nothing was changed. To cut it again, plan it again.`;
  throw new CommandProblem(EXIT.badInput, message);
}

/** The plan counted on a length; should it not lie there as it did, somebody must look. */
function refuseIfOther({ entry, copies, width, length }: Taken, { entries, unit, currency }: Cupboard): void {
  const found = entries.find(({ name }) => name === entry);
  const again = 'Nothing was changed. Correct the cupboard, or plan again.';
  if (found === undefined) {
    throw new CommandProblem(
      EXIT.badInput,
      `"${entry}": the plan cut it, and it does not lie in the cupboard. ${again}`,
    );
  }
  const own = lengthOf(found, false);
  if (own.width !== width.ticks || own.length !== length.ticks) {
    const now = entryRemarks(found, { unit, currency });
    const message = `"${entry}": the plan cut ${width.shown} x ${length.shown}, and in the cupboard it is ${now}. ${again}`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  if (found.count < copies) {
    const message = `"${entry}": the plan cut ${copies} of it, and the cupboard has ${found.count}. ${again}`;
    throw new CommandProblem(EXIT.badInput, message);
  }
}

/** The leftovers as new entries, each under a name that neither an entry nor a copy of one has. */
function wordsToPut(
  drawn: Drawn,
  { text, cupboard }: { readonly text: string; readonly cupboard: Cupboard },
  place: { readonly on: string; readonly where?: string },
): readonly EntryWords[] {
  const taken = new Set(cupboard.entries.flatMap(({ name, count }) => [name, ...copyNames(name, count)]));
  return drawn.putBack.map((leftover) => {
    const source = cupboard.entries.find(({ name }) => name === leftover.entry);
    const stem = `rest of ${(leftover.entry ?? leftover.cloth).replace(/^rest of /, '').replace(/ no\. \d+$/, '')}`;
    let name = stem;
    for (let number = 2; taken.has(name); number += 1) name = `${stem} no. ${number}`;
    taken.add(name);
    const worth = source === undefined ? undefined : wordsOf(text, source.name).worth;
    return leftoverWords(leftover, { name, source, worth, cupboard, ...place });
  });
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
