import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { CommandProblem, EXIT } from './exit-codes.ts';

export interface OutputFile {
  /** Inside the output folder. */
  readonly name: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes a set of files into one folder, whole or not at all.
 *
 *   check every target → write and sync every temporary file beside it → put each in its place
 *
 * Nothing is replaced before everything is on the disk. Should putting in place fail half-way, what stood there before
 * is put back. `isOurs` judges the content of a file that already stands at a target; one that is not ours stays.
 * Throws a CommandProblem that names the file and what would work.
 */
export function writeSet(
  folder: string,
  files: readonly OutputFile[],
  isOurs: (name: string, content: Uint8Array) => boolean,
): void {
  const made = makeFolder(folder);
  const staged: Staged[] = [];
  try {
    for (const file of files) refuseForeign(folder, file.name, isOurs);
    for (const file of files) staged.push(stage(folder, file));
    putInPlace(folder, staged);
  } catch (problem) {
    for (const { temporary } of staged) {
      rmSync(temporary, { force: true });
      rmSync(beforeOf(temporary), { force: true });
    }
    for (const one of made.reverse()) removeIfEmpty(one);
    throw asProblem(folder, problem);
  }
}

/**
 * Looks, before any work is done, for what would stop `writeSet`: a file where the folder should be, a folder that may
 * not be written, a file in the way that is not ours. Throws a CommandProblem.
 */
export function checkTargets(
  folder: string,
  names: readonly string[],
  isOurs: (name: string, content: Uint8Array) => boolean,
  remedy?: string,
): void {
  const made = makeFolder(folder);
  try {
    if (!statSync(folder).isDirectory()) throw Object.assign(new Error(folder), { code: 'EEXIST' });
    accessSync(folder, constants.W_OK);
  } catch (problem) {
    throw asProblem(folder, problem);
  } finally {
    for (const one of made.reverse()) removeIfEmpty(one);
  }
  for (const name of names) refuseForeign(folder, name, isOurs, remedy);
}

/** Writes one file that must not exist yet; fails, and leaves what is there, when it does. */
export function writeNew(path: string, content: string): void {
  const folder = dirname(path);
  const made = makeFolder(folder);
  let temporary: string | undefined;
  try {
    temporary = stage(folder, { name: 'new-plan', content }).temporary;
    appear(temporary, path);
    syncFolder(folder);
  } catch (problem) {
    if (temporary !== undefined) rmSync(temporary, { force: true });
    for (const one of made.reverse()) removeIfEmpty(one);
    if (codeOf(problem) === 'EEXIST') throw taken(path);
    throw asProblem(path, problem);
  }
  rmSync(temporary, { force: true });
}

/** A hard link is refused where the name is taken, with no moment between looking and writing. Some disks have none. */
function appear(temporary: string, path: string): void {
  try {
    linkSync(temporary, path);
  } catch (problem) {
    if (codeOf(problem) === 'EEXIST') throw problem;
    copyFileSync(temporary, path, constants.COPYFILE_EXCL);
  }
}

interface Staged {
  readonly temporary: string;
  readonly target: string;
}

/** Returns the folders that had to be made, outermost first. */
function makeFolder(folder: string): string[] {
  const missing: string[] = [];
  for (let at = folder; !existsSync(at) && dirname(at) !== at; at = dirname(at)) missing.unshift(at);
  const made: string[] = [];
  try {
    // One by one: mkdirSync's own `recursive` never returns where the system makes no folder at all, as in /proc.
    for (const one of missing) {
      mkdirSync(one);
      made.push(one);
    }
  } catch (problem) {
    for (const one of made.reverse()) removeIfEmpty(one);
    throw asProblem(folder, problem);
  }
  return made;
}

function refuseForeign(
  folder: string,
  name: string,
  isOurs: (name: string, content: Uint8Array) => boolean,
  remedy = 'give another folder with --out',
): void {
  const path = join(folder, name);
  if (!existsSync(path)) return;
  if (statSync(path).isFile() && isOurs(name, readFileSync(path))) return;
  throw new CommandProblem(
    EXIT.badInput,
    `${path}: this was not written by Laywright, so it stays as it is. Move it, or ${remedy}.`,
  );
}

function stage(folder: string, file: OutputFile): Staged {
  const temporary = join(folder, `.${file.name}.${randomBytes(6).toString('hex')}.part`);
  const handle = openSync(temporary, 'wx');
  try {
    writeFileSync(handle, file.content);
    fsyncSync(handle);
  } catch (problem) {
    rmSync(temporary, { force: true });
    throw problem;
  } finally {
    closeSync(handle);
  }
  return { temporary, target: join(folder, file.name) };
}

function putInPlace(folder: string, staged: readonly Staged[]): void {
  const done: { target: string; before?: string }[] = [];
  try {
    for (const { temporary, target } of staged) {
      const before = existsSync(target) ? beforeOf(temporary) : undefined;
      if (before !== undefined) copyFileSync(target, before, constants.COPYFILE_EXCL);
      done.push(before === undefined ? { target } : { target, before });
      renameSync(temporary, target);
    }
    syncFolder(folder);
  } catch (problem) {
    for (const { target, before } of done.reverse()) {
      if (before === undefined) rmSync(target, { force: true });
      else renameSync(before, target);
    }
    throw problem;
  }
  for (const { before } of done) if (before !== undefined) rmSync(before, { force: true });
}

/** Where a replaced file waits until the whole set is in place. */
function beforeOf(temporary: string): string {
  return `${temporary}.before`;
}

/** A rename is on the disk only when its folder is; Windows has no such call and needs none. */
function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function removeIfEmpty(folder: string): void {
  try {
    rmdirSync(folder);
  } catch {
    // Something else has been put there since: it stays.
  }
}

function taken(path: string): CommandProblem {
  return new CommandProblem(EXIT.badInput, `${path}: already there, and left as it is. Give another name.`);
}

function codeOf(problem: unknown): string | undefined {
  return problem instanceof Error && 'code' in problem ? String(problem.code) : undefined;
}

const IN_WORDS: Readonly<Record<string, string>> = {
  EACCES: 'no permission to write here',
  EPERM: 'no permission to write here',
  EROFS: 'this disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the quota of this disk is used up',
  EFBIG: 'the file would be larger than allowed here',
  ENOTDIR: 'a part of this path is a file, not a folder',
  EEXIST: 'this is a file, not a folder',
  ENOENT: 'no folder can be made here',
  ENAMETOOLONG: 'this name is too long',
};

function asProblem(path: string, problem: unknown): unknown {
  const code = codeOf(problem);
  if (problem instanceof CommandProblem || code === undefined) return problem;
  const words = IN_WORDS[code] ?? code;
  const machine = code === 'ENOSPC' || code === 'EDQUOT' || code === 'EFBIG' || !(code in IN_WORDS);
  const remedy = machine ? 'Make room' : 'Give another folder';
  return new CommandProblem(
    machine ? EXIT.fault : EXIT.badInput,
    `${path}: ${words}. Nothing was written. ${remedy} and run the command again.`,
  );
}
