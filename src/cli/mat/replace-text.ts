import { readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { CommandProblem, EXIT } from '../exit-codes.ts';
import type { TextRead } from '../read-text.ts';
import { writeSet } from '../write-set.ts';

/** Puts a new text in the place of one that was read, whole or not at all. Refuses where the file has changed since. */
export function replaceText(read: TextRead, text: string): void {
  const now = new TextDecoder('utf-8', { ignoreBOM: true }).decode(readFileSync(read.file));
  if (now !== read.text) {
    const message = `${read.file}: changed while this command ran, so it is left as it is. Run the command again.`;
    throw new CommandProblem(EXIT.badInput, message);
  }
  writeSet(dirname(read.file), [{ name: basename(read.file), content: text }], () => true);
}
