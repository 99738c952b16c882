import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';

/** All that the safe change of a file asks of a disk. Tests put one in its place that fails, or stops, where they say. */
export interface Disk {
  /** Undefined where there is no such file. */
  readonly read: (path: string) => string | undefined;
  /** Names in a folder; none where there is no such folder. */
  readonly list: (folder: string) => readonly string[];
  /** No complaint where it is there already; ENOENT where the folder around it is not. */
  readonly makeFolder: (folder: string) => void;
  /** Writes a file that must not be there yet, whole and on the disk before it returns, with the permissions of `like`. */
  readonly writeNew: (path: string, text: string, like?: string) => void;
  /** Gives a file a second name that must not be taken, in one step: throws EEXIST where it is. */
  readonly link: (from: string, to: string) => void;
  /** Gives a file another name in one step, in the place of whatever had it. */
  readonly rename: (from: string, to: string) => void;
  /** No complaint where there is no such file. */
  readonly remove: (path: string) => void;
  /** What was named, renamed or removed in a folder is on the disk only after this. */
  readonly syncFolder: (folder: string) => void;
}

export const NODE_DISK: Disk = {
  read: (path) => {
    try {
      return readFileSync(path, 'utf8');
    } catch (problem) {
      if (codeOf(problem) === 'ENOENT') return undefined;
      throw problem;
    }
  },
  list: (folder) => {
    try {
      return readdirSync(folder);
    } catch (problem) {
      if (codeOf(problem) === 'ENOENT') return [];
      throw problem;
    }
  },
  makeFolder: (folder) => {
    try {
      mkdirSync(folder);
    } catch (problem) {
      if (codeOf(problem) !== 'EEXIST') throw problem;
    }
  },
  writeNew,
  link: (from, to) => {
    try {
      linkSync(from, to);
    } catch (problem) {
      // Some disks know no second names; there the content appears in more than one step.
      if (!NO_LINKS.has(codeOf(problem) ?? '')) throw problem;
      copyFileSync(from, to, constants.COPYFILE_EXCL);
    }
  },
  rename: renameSync,
  remove: (path) => rmSync(path, { force: true }),
  syncFolder: (folder) => {
    // Windows has no such call and needs none.
    if (process.platform === 'win32') return;
    const handle = openSync(folder, 'r');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  },
};

const NO_LINKS = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']);

function writeNew(path: string, text: string, like?: string): void {
  const handle = openSync(path, 'wx');
  try {
    writeFileSync(handle, text);
    fsyncSync(handle);
  } catch (problem) {
    rmSync(path, { force: true });
    throw problem;
  } finally {
    closeSync(handle);
  }
  if (like !== undefined) chmodSync(path, statSync(like).mode);
}

/** The system's own name of a failure, such as ENOSPC. */
export function codeOf(problem: unknown): string | undefined {
  return problem instanceof Error && 'code' in problem ? String(problem.code) : undefined;
}

/** For what the next command does should it fail now. */
export function quietly(work: () => void): void {
  try {
    work();
  } catch {
    // The next command does it.
  }
}
