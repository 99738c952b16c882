import { PassThrough } from 'node:stream';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { runProgram } from '../../src/cli/program.ts';
import { laywright, type Ran, type RunOptions } from './run-command.ts';

const PROGRAM = fileURLToPath(new URL('../../dist/cli/program.js', import.meta.url));

/**
 * Runs the built command with these words in this process, from a folder: the same program as `laywright` starts, without the
 * half second that a process of its own takes. Not for what ends with a signal, or runs beside another.
 */
export async function laywrightHere(
  words: readonly string[],
  { cwd }: { readonly cwd: string },
): Promise<Ran> {
  const program: { readonly runProgram: typeof runProgram } = await import(pathToFileURL(PROGRAM).href);
  const [input, output, errors] = [new PassThrough(), new PassThrough(), new PassThrough()];
  input.end();
  const before = process.cwd();
  process.chdir(cwd);
  try {
    const terminal = { input, output, errors, environment: { ...process.env, NO_COLOR: '1' } };
    const exitCode = await program.runProgram(words, '', terminal);
    return { exitCode, stdout: told(output), stderr: told(errors) };
  } finally {
    process.chdir(before);
  }
}

/** Every so many of a long list of cases run as a process of its own, so that the exit code is really one. */
export const APART = 12;

/** One of a list of cases: one in a dozen as a process of its own, the others here. */
export function laywrightOf(
  index: number,
  words: readonly string[],
  options: Pick<RunOptions, 'cwd'>,
): Promise<Ran> {
  return index % APART === 0 ? laywright(words, options) : laywrightHere(words, options);
}

function told(stream: PassThrough): string {
  const text: Buffer | null = stream.read();
  return text === null ? '' : text.toString('utf8');
}
