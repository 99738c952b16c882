import { CommandProblem, EXIT } from '../exit-codes.ts';
import { codeOf } from './disk.ts';

const IN_WORDS: Readonly<Record<string, string>> = {
  EACCES: 'no permission to write here',
  EPERM: 'no permission to write here',
  EROFS: 'this disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the quota of this disk is used up',
  EFBIG: 'the file would be larger than allowed here',
  ENOTDIR: 'a part of this path is a file, not a folder',
  EISDIR: 'this is a folder; give the file inside it',
  ENOENT: 'there is no such folder',
};

/** A failure of the disk as a sentence for a person; anything else as it is. */
export function asProblem(shown: string, problem: unknown): unknown {
  const code = codeOf(problem);
  if (problem instanceof CommandProblem || code === undefined || !/^E[A-Z]+$/.test(code)) return problem;
  const byUs = ['EACCES', 'EPERM', 'EROFS', 'ENOTDIR', 'EISDIR', 'ENOENT'].includes(code);
  return new CommandProblem(
    byUs ? EXIT.badInput : EXIT.fault,
    `${shown}: ${IN_WORDS[code] ?? `the disk failed (${code})`}. Nothing was changed.`,
  );
}
