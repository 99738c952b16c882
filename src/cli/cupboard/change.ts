import { CommandProblem, EXIT } from '../exit-codes.ts';
import { codeOf, type Disk, NODE_DISK, quietly } from './disk.ts';
import {
  type ChangeRecord,
  isDone,
  lastToUndo,
  markDone,
  nextNumber,
  recordPath,
  recordsOf,
  recordText,
  tidyKept,
} from './journal.ts';
import { isGone, type Machine, selfHolder, whileLocked } from './lock.ts';
import { type Places, partIn, placesOf } from './places.ts';
import { asProblem } from './problems.ts';

export interface Changed<T> {
  readonly text: string;
  /** In words, for who undoes it. */
  readonly did: string;
  readonly result: T;
}

/** This machine and its disk. */
export function thisMachine(): Machine {
  const pause = (milliseconds: number) =>
    new Promise<void>((resolve) => {
      setTimeout(resolve, milliseconds * (0.5 + Math.random()));
    });
  return { disk: NODE_DISK, self: selfHolder(), isGone, pause };
}

/**
 * Changes the cupboard's file so that no crash, full disk or second command loses or doubles anything:
 *
 *     lock ─▶ settle ─▶ change ─▶ both texts on the disk ─▶ record appears ─▶ file replaced ─▶ record done ─▶ unlock
 *                                                            └─ from here on the change has happened ─┘
 *
 * A command that is ended before its record appears has changed nothing; one that is ended after it is completed by the
 * next (`settle`). The record appears in one step and never in the place of another, so that even if two commands
 * thought themselves alone, only one of them could follow on the same text.
 *
 * `change` gets the text and gives the new one; what it throws leaves everything as it was. `begin` is the text of a file
 * that is not there yet. Throws a CommandProblem where the file is missing or cannot be written.
 */
export async function changeCupboard<T>(
  file: string,
  machine: Machine,
  change: (text: string) => Changed<T>,
  begin?: string,
): Promise<T> {
  const mayBegin = begin !== undefined;
  return guarded(file, machine, mayBegin, (places, disk) => {
    if (begin !== undefined) beginFile(places, disk, begin);
    const text = settle(places, disk);
    const { text: next, did, result } = change(text);
    if (next !== text) commit(places, disk, { before: text, after: next, did });
    return result;
  });
}

/** Takes back the last change. Gives its words; throws a CommandProblem where there is none, or a later one by hand. */
export async function undoChange(file: string, machine: Machine): Promise<string> {
  return guarded(file, machine, false, (places, disk) => {
    const text = settle(places, disk);
    const last = lastToUndo(recordsOf(places, disk), text);
    if ('why' in last) throw nothingToUndo(file, last.why);
    const { number, did, before } = last.record;
    commit(places, disk, { before: text, after: before, did: `undid: ${did}`, undoes: number });
    return did;
  });
}

/** The text as it stands: with a change in it that has happened but that no command has yet written into the file. */
export function cupboardText(file: string, disk: Disk): string | undefined {
  const places = placesOf(file);
  const text = disk.read(places.file);
  const last = recordsOf(places, disk).at(-1);
  const waits = last !== undefined && last.before === text && !isDone(last, places, disk);
  return waits ? last.after : text;
}

async function guarded<T>(
  file: string,
  machine: Machine,
  mayBegin: boolean,
  work: (places: Places, disk: Disk) => T,
): Promise<T> {
  const places = placesOf(file);
  try {
    // A misspelt name must leave no folder behind.
    if (!mayBegin && machine.disk.read(places.file) === undefined) throw noFile(file);
    return await whileLocked(places, machine, () => work(places, machine.disk));
  } catch (problem) {
    throw asProblem(file, problem);
  }
}

/** Writes the first text, unless a file is there. */
function beginFile(places: Places, disk: Disk, text: string): void {
  if (disk.read(places.file) !== undefined) return;
  const part = partIn(places);
  try {
    disk.writeNew(part, text);
    disk.link(part, places.file);
    disk.syncFolder(places.folder);
  } finally {
    disk.remove(part);
  }
}

/** Completes a change whose command was ended half-way, and gives the text that stands then. */
function settle(places: Places, disk: Disk): string {
  tidyKept(places, disk);
  const text = disk.read(places.file);
  if (text === undefined) throw noFile(places.shown);
  const last = recordsOf(places, disk).at(-1);
  if (last === undefined || isDone(last, places, disk)) return text;
  // A file that shows neither the text before nor after was changed by hand since: then that stands.
  const settled = text === last.before ? last.after : text;
  disk.syncFolder(places.kept);
  if (settled !== text) {
    const part = partIn(places);
    disk.writeNew(part, settled, places.file);
    disk.rename(part, places.file);
  }
  // Only what a loss of power can no longer take back is done.
  disk.syncFolder(places.folder);
  markDone(last, places, disk);
  return settled;
}

function commit(places: Places, disk: Disk, change: Omit<ChangeRecord, 'number'>): void {
  const record: ChangeRecord = { number: nextNumber(places, disk), ...change };
  const path = recordPath(record.number, places);
  const [recordPart, textPart] = [partIn(places), partIn(places)];
  let happened = false;
  try {
    disk.syncFolder(places.folder);
    disk.writeNew(recordPart, recordText(record));
    disk.writeNew(textPart, record.after, places.file);
    if (disk.read(places.file) !== record.before) throw changedByHand(places.shown);
    disk.link(recordPart, path);
    happened = true;
    disk.syncFolder(places.kept);
    disk.rename(textPart, places.file);
  } catch (problem) {
    // The change is called back as a whole; a disk that refuses even this leaves it to the next command to complete.
    if (happened) backOut(places, disk, path, problem);
    throw codeOf(problem) === 'EEXIST' ? changedByHand(places.shown) : problem;
  } finally {
    for (const part of [recordPart, textPart]) quietly(() => disk.remove(part));
  }
  // It has happened and can be seen: what fails from here on is made good by the next command.
  quietly(() => {
    disk.syncFolder(places.folder);
    markDone(record, places, disk);
  });
}

function backOut({ shown, kept }: Places, disk: Disk, path: string, problem: unknown): void {
  try {
    disk.remove(path);
    disk.syncFolder(kept);
  } catch {
    const code = codeOf(problem) ?? 'unknown';
    const message = `${shown}: the disk failed (${code}) while it was changed. The next command completes the change; see with \`cupboard list\`.`;
    throw new CommandProblem(EXIT.fault, message);
  }
}

function noFile(shown: string): CommandProblem {
  return new CommandProblem(
    EXIT.badInput,
    `${shown}: no such file. Check the name, or begin one with \`laywright cupboard add\`.`,
  );
}

function changedByHand(shown: string): CommandProblem {
  return new CommandProblem(
    EXIT.fault,
    `${shown}: it was changed by another hand at this very moment. Nothing was changed by this command; run it again.`,
  );
}

function nothingToUndo(shown: string, why: 'none' | 'by-hand'): CommandProblem {
  const words =
    why === 'none'
      ? 'there is no change that could be undone.'
      : 'it was changed by hand since the last command, and undoing would lose that. Change it back by hand.';
  return new CommandProblem(EXIT.badInput, `${shown}: ${words}`);
}
