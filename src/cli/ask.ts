import { createInterface } from 'node:readline/promises';
import { CommandProblem, EXIT } from './exit-codes.ts';
import { say, type Terminal } from './terminal.ts';

export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  /** What was wrong, in a sentence that says what would work. */
  | { readonly ok: false; readonly message: string };

export interface Question<T> {
  readonly text: string;
  /** Stands when only Enter is pressed. */
  readonly usual: string;
  readonly read: (typed: string) => Answer<T>;
}

export interface Asker {
  readonly ask: <T>(question: Question<T>) => Promise<T>;
  readonly close: () => void;
}

/** Asks on the terminal, again until an answer is understood. Ctrl-C or the end of the input ends the command. */
export function askOn(terminal: Terminal): Asker {
  const lines = createInterface({
    input: terminal.input,
    output: terminal.errors,
    terminal: terminal.errors.isTTY === true,
  });
  const given = lines[Symbol.asyncIterator]();
  lines.on('SIGINT', () => lines.close());
  return {
    close: () => lines.close(),
    ask: async (question) => {
      for (;;) {
        terminal.errors.write(`${question.text} [${question.usual}] `);
        const line = await given.next();
        if (line.done === true) throw new CommandProblem(EXIT.interrupted, '\nEnded. Nothing was written.');
        const answer = question.read(line.value.trim() === '' ? question.usual : line.value.trim());
        if (answer.ok) return answer.value;
        say(terminal, answer.message);
      }
    },
  };
}
