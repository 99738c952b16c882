import { readFile } from 'node:fs/promises';
import { CommandProblem, EXIT } from './exit-codes.ts';
import type { Terminal } from './terminal.ts';

export interface TextRead {
  readonly text: string;
  /** How messages call it. */
  readonly file: string;
}

/** Typed instead of a file name to read what is piped in. */
export const STANDARD_INPUT = '-';

const MOST_BYTES = 5_000_000;

/** What a command reads: what to do where there is none, and what to give where there is something else. */
export interface Reads {
  readonly what: string;
  readonly begin: string;
}

const PLAN_FILE: Reads = { what: 'plan file', begin: 'start one with `laywright new`' };

/**
 * Reads a text file as UTF-8, or standard input for `-`. Throws a CommandProblem where nothing can be read; bytes that
 * are no UTF-8 come as U+FFFD, which the reader of plans tells with its place.
 */
export async function readText(
  file: string,
  terminal: Terminal,
  reads: Reads = PLAN_FILE,
): Promise<TextRead> {
  const name = file === STANDARD_INPUT ? 'standard input' : file;
  const bytes = file === STANDARD_INPUT ? await readAll(terminal.input) : await readBytes(file, reads);
  if (bytes.length > MOST_BYTES)
    throw bad(name, `larger than 5 MB, so no ${reads.what}. Give a ${reads.what}.`);
  return { text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes), file: name };
}

async function readBytes(file: string, { what, begin }: Reads): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch (problem) {
    const code = problem instanceof Error && 'code' in problem ? String(problem.code) : '';
    if (code === 'ENOENT') throw bad(file, `no such file. Check the name, or ${begin}.`);
    if (code === 'EISDIR') throw bad(file, `this is a folder. Give the ${what} inside it.`);
    if (code === 'EACCES' || code === 'EPERM') throw bad(file, 'no permission to read it.');
    throw bad(file, `cannot be read${code === '' ? '' : ` (${code})`}.`);
  }
}

async function readAll(input: AsyncIterable<Uint8Array | string>): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of input) chunks.push(typeof chunk === 'string' ? Buffer.from(chunk) : chunk);
  return Buffer.concat(chunks);
}

function bad(file: string, message: string): CommandProblem {
  return new CommandProblem(EXIT.badInput, `${file}: ${message}`);
}
