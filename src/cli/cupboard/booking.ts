import { createHash } from 'node:crypto';
import { type Cupboard, type CupboardEntry, copyNames } from '../../model/cupboard.ts';
import { lengthOf } from '../../model/cupboard-draw.ts';
import { type EntryWords, noteCut, putBack, takeOut, wordsOf } from '../../model/cupboard-edit.ts';
import { type PlanJson, planJsonSchema } from '../../rendering/plan-json-schema.ts';
import { CommandProblem, EXIT } from '../exit-codes.ts';
import type { TextRead } from '../read-text.ts';
import { entryRemarks } from './entry-text.ts';
import { entryOf } from './entry-words.ts';
import { leftoverWords } from './leftover-words.ts';
import { cupboardOf } from './read-cupboard.ts';

type Drawn = NonNullable<PlanJson['cupboard']>;
type Taken = Drawn['takenOut'][number];

export interface Booked {
  readonly cupboard: Cupboard;
  readonly taken: readonly { readonly entry: string; readonly copies: number }[];
  readonly put: readonly CupboardEntry[];
}

export interface BookingDay {
  /** The day of the cutting. */
  readonly on: string;
  /** Where the leftovers are put; where their length lay, unless said. */
  readonly where?: string;
}

/**
 * The cupboard's text once a plan is cut: what it used is out, what it left is in, and the plan is noted, so that it
 * cannot be booked twice. Throws a CommandProblem where it was booked already, or where the cupboard is no longer as the
 * plan saw it.
 */
export function bookPlan(
  { text, file }: TextRead,
  plan: PlanDone,
  day: BookingDay,
): { readonly text: string; readonly booked: Booked } {
  const before = cupboardOf({ text, file });
  const { takenOut } = plan.drawn;
  refuseIfBooked(plan, before, file);
  refuseIfAnother(plan, before, file);
  for (const taken of takenOut) refuseIfOther(taken, before);
  const words = wordsToPut(plan.drawn, { text, cupboard: before }, day);
  for (const own of words) entryOf(own, before);
  const without = takenOut.reduce((now, { entry, copies }) => takeOut(now, entry, copies), text);
  const next = noteCut(words.reduce(putBack, without), { plan: plan.name, on: day.on, mark: plan.mark });
  const cupboard = cupboardOf({ text: next, file });
  const put = cupboard.entries.filter(({ name }) => words.some((own) => own.name === name));
  return { text: next, booked: { cupboard, taken: takenOut, put } };
}

export interface PlanDone {
  readonly name: string;
  readonly mark: string;
  readonly drawn: Drawn;
}

/** The plan in a plan.json. Throws a CommandProblem where the file is none, or its plan knew no cupboard. */
export function planIn({ text, file }: TextRead): PlanDone {
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
  const { file: _, ...content } = cupboard;
  const marked = JSON.stringify({ ...parsed.data, cupboard: content });
  const mark = createHash('sha256').update(marked).digest('hex').slice(0, 16);
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

/** The leftovers of a plan belong where its lengths came from. */
function refuseIfAnother({ name, drawn }: PlanDone, cupboard: Cupboard, file: string): void {
  if (drawn.name === cupboard.name) return;
  const message = `"${name}": this plan was made with the cupboard "${drawn.name}", and ${file} is "${cupboard.name}". Nothing was changed. Name the right file with --cupboard.`;
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
  day: BookingDay,
): readonly EntryWords[] {
  const taken = new Set(cupboard.entries.flatMap(({ name, count }) => [name, ...copyNames(name, count)]));
  return drawn.putBack.map((leftover) => {
    const source = cupboard.entries.find(({ name }) => name === leftover.entry);
    const stem = `rest of ${(leftover.entry ?? leftover.cloth).replace(/^rest of /, '').replace(/ no\. \d+$/, '')}`;
    let name = stem;
    for (let number = 2; taken.has(name); number += 1) name = `${stem} no. ${number}`;
    taken.add(name);
    const worth = source === undefined ? undefined : wordsOf(text, source.name).worth;
    return leftoverWords(leftover, { name, source, worth, cupboard, ...day });
  });
}
