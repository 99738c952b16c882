import { join } from 'node:path';
import { codeOf, type Disk } from './disk.ts';
import type { Places } from './places.ts';

/** One change of the file, with the whole text before and after it. */
export interface ChangeRecord {
  readonly number: number;
  /** In words: `added end of bolt`. */
  readonly did: string;
  readonly before: string;
  readonly after: string;
  /** The number of the change that this one takes back. */
  readonly undoes?: number;
}

/** So many changes can be undone. */
const KEPT = 20;

/**
 * The changes that are kept, oldest first. One that cannot be read was cut off while it was written, on a disk where
 * that can be: it never came to be.
 */
export function recordsOf({ kept }: Places, disk: Disk): readonly ChangeRecord[] {
  const names = disk.list(kept).filter((name) => /^\d{6}\.json$/.test(name));
  return names.sort().flatMap((name) => {
    const record = parsed(disk.read(join(kept, name)));
    return record === undefined ? [] : [record];
  });
}

/** Whether the file was seen to have the change in it; from then on the change is never made again. */
export function isDone(record: ChangeRecord, { kept }: Places, disk: Disk): boolean {
  return disk.list(kept).includes(doneName(record.number));
}

export function markDone(record: ChangeRecord, { kept }: Places, disk: Disk): void {
  try {
    disk.writeNew(join(kept, doneName(record.number)), '');
  } catch (problem) {
    if (codeOf(problem) !== 'EEXIST') throw problem;
  }
}

/** Where a change is written; that this name appears is what makes it happen. */
export function recordPath(number: number, { kept }: Places): string {
  return join(kept, `${padded(number)}.json`);
}

export function recordText(record: ChangeRecord): string {
  return `${JSON.stringify(record, undefined, 1)}\n`;
}

/** The number after every one that was given, whether or not its change can be read. */
export function nextNumber({ kept }: Places, disk: Disk): number {
  const numbers = disk.list(kept).flatMap((name) => {
    const number = /^(\d{6})\.(?:json|done)$/.exec(name);
    return number === null ? [] : [Number(number[1])];
  });
  return Math.max(0, ...numbers) + 1;
}

/** Takes away what was never finished, and changes too old to be undone. Only for who holds the lock. */
export function tidyKept(places: Places, disk: Disk): void {
  const oldest = nextNumber(places, disk) - KEPT;
  for (const name of disk.list(places.kept)) {
    const number = /^(\d{6})\.(?:json|done)$/.exec(name);
    const isOld = number !== null && Number(number[1]) < oldest;
    if (isOld || name.endsWith('.part')) disk.remove(join(places.kept, name));
  }
}

/**
 * The change that undoing takes back: the last one that is neither an undoing nor undone. Undefined where none is kept
 * or where the file was changed by hand since, which undoing would lose.
 */
export function lastToUndo(
  records: readonly ChangeRecord[],
  text: string,
): { readonly record: ChangeRecord } | { readonly why: 'none' | 'by-hand' } {
  const of = new Map(records.map((record) => [record.number, record]));
  let record = records.at(-1);
  if (record !== undefined && record.after !== text) return { why: 'by-hand' };
  while (record?.undoes !== undefined) record = previous(of, record.undoes);
  if (record === undefined) return { why: 'none' };
  return record.after === text ? { record } : { why: 'by-hand' };
}

function previous(of: ReadonlyMap<number, ChangeRecord>, number: number): ChangeRecord | undefined {
  const smaller = [...of.keys()].filter((one) => one < number);
  return smaller.length === 0 ? undefined : of.get(Math.max(...smaller));
}

function doneName(number: number): string {
  return `${padded(number)}.done`;
}

function padded(number: number): string {
  return String(number).padStart(6, '0');
}

function parsed(text: string | undefined): ChangeRecord | undefined {
  try {
    const record = JSON.parse(text ?? '') as ChangeRecord;
    const whole = Number.isInteger(record.number) && typeof record.before === 'string';
    return whole && typeof record.after === 'string' ? record : undefined;
  } catch {
    return undefined;
  }
}
