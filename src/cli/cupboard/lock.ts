import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { CommandProblem, EXIT } from '../exit-codes.ts';
import { codeOf, type Disk, quietly } from './disk.ts';
import { type Places, partIn } from './places.ts';

/** Who holds the lock. A process number alone is given again to others: the start of the process and of the machine tell. */
export interface Holder {
  readonly host: string;
  readonly boot: string;
  readonly pid: number;
  readonly start: string;
}

export interface Machine {
  readonly disk: Disk;
  readonly self: Holder;
  /** Whether that holder is certainly gone. */
  readonly isGone: (holder: Holder) => boolean;
  readonly pause: (milliseconds: number) => Promise<void>;
}

const PAUSE = 25;
const MOST_PAUSES = 1200;

/**
 * Runs `work` while no other command may change the cupboard. The lock is a file that names its holder and appears whole,
 * in one step; one whose holder is gone is taken away. Throws a CommandProblem when another keeps it for half a minute.
 */
export async function whileLocked<T>(places: Places, machine: Machine, work: () => T): Promise<T> {
  const { disk } = machine;
  const mine = JSON.stringify(machine.self);
  disk.makeFolder(places.kept);
  for (let pauses = 0; !taken(places, disk, mine); pauses += 1) {
    const held = disk.read(places.lock);
    if (held === undefined) continue;
    if (isStale(held, machine)) {
      takeAway(places, disk, held);
      continue;
    }
    if (pauses >= MOST_PAUSES) throw heldTooLong(places, held);
    await machine.pause(PAUSE);
  }
  try {
    return work();
  } finally {
    // A lock that cannot be taken away is stale as soon as this command ends; what was done stays done.
    quietly(() => {
      if (disk.read(places.lock) === mine) disk.remove(places.lock);
    });
  }
}

function taken(places: Places, disk: Disk, mine: string): boolean {
  const part = partIn(places);
  disk.writeNew(part, mine);
  try {
    disk.link(part, places.lock);
    return true;
  } catch (problem) {
    // ENOENT: the holder before tidied our part away.
    if (['EEXIST', 'ENOENT'].includes(codeOf(problem) ?? '')) return false;
    throw problem;
  } finally {
    quietly(() => disk.remove(part));
  }
}

/** A lock appears whole; one that cannot be read was broken by a loss of power. */
function isStale(held: string, machine: Machine): boolean {
  const holder = holderOf(held);
  return holder === undefined || machine.isGone(holder);
}

/** Between judging and taking away another may have taken the lock anew: then it is put back. */
function takeAway(places: Places, disk: Disk, stale: string): void {
  const part = partIn(places);
  try {
    disk.rename(places.lock, part);
    if (disk.read(part) !== stale) disk.link(part, places.lock);
  } catch (problem) {
    if (!['ENOENT', 'EEXIST'].includes(codeOf(problem) ?? '')) throw problem;
  } finally {
    quietly(() => disk.remove(part));
  }
}

function heldTooLong({ shown, lock }: Places, held: string): CommandProblem {
  const holder = holderOf(held);
  const by = holder === undefined ? 'another command' : `process ${holder.pid} on ${holder.host}`;
  return new CommandProblem(
    EXIT.fault,
    `${shown}: ${by} is changing it and does not end. Nothing was changed. Try again; if no such process runs, remove ${lock}`,
  );
}

function holderOf(text: string): Holder | undefined {
  try {
    const holder = JSON.parse(text) as Holder | null;
    return typeof holder?.pid === 'number' && typeof holder.host === 'string' ? holder : undefined;
  } catch {
    return undefined;
  }
}

/** This process on this machine. */
export function selfHolder(): Holder {
  return { host: hostname(), boot: bootId(), pid: process.pid, start: startOf(process.pid) ?? '' };
}

export function isGone(holder: Holder): boolean {
  // Another machine's processes cannot be looked at from here.
  if (holder.host !== hostname()) return false;
  if (holder.boot !== bootId()) return true;
  if (!isRunning(holder.pid)) return true;
  const start = startOf(holder.pid);
  return start !== undefined && holder.start !== '' && start !== holder.start;
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (problem) {
    return codeOf(problem) === 'EPERM';
  }
}

/** Changes with every start of the machine (Linux, proc(5)); empty where the system tells none. */
function bootId(): string {
  return readIfThere('/proc/sys/kernel/random/boot_id')?.trim() ?? '';
}

/** When a process started, in ticks since the machine did: field 22 of its stat (Linux, proc(5)). */
function startOf(pid: number): string | undefined {
  const stat = readIfThere(`/proc/${pid}/stat`);
  // The name in brackets may itself hold brackets and blanks; 19 fields behind it stands the start.
  return stat?.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
}

function readIfThere(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}
