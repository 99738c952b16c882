import type { Readable, Writable } from 'node:stream';

/** All that a command may know of the world around it. */
export interface Terminal {
  readonly input: Readable & { readonly isTTY?: boolean };
  readonly output: Writable & { readonly isTTY?: boolean; readonly columns?: number };
  readonly errors: Writable & { readonly isTTY?: boolean; readonly columns?: number };
  readonly environment: Readonly<Record<string, string | undefined>>;
}

const USUAL_COLUMNS = 80;
const WIDEST_COLUMNS = 120;

/** Columns that a summary may fill: the terminal's own, or the usual number where there is none. */
export function columnsOf(terminal: Terminal): number {
  return Math.min(knownColumns(terminal.output), WIDEST_COLUMNS);
}

/** A pseudo-terminal that nobody has sized says that it has 0 columns. */
export function knownColumns(stream: { readonly columns?: number }): number {
  return stream.columns !== undefined && stream.columns > 0 ? stream.columns : USUAL_COLUMNS;
}

/** Whether results may be set in bold: on a terminal that can, unless NO_COLOR (no-color.org) says no. */
export function mayEmphasise(terminal: Terminal): boolean {
  const { NO_COLOR, TERM } = terminal.environment;
  return terminal.output.isTTY === true && (NO_COLOR ?? '') === '' && TERM !== 'dumb';
}

export function say(terminal: Terminal, text: string): void {
  terminal.errors.write(`${text}\n`);
}

export function show(terminal: Terminal, text: string): void {
  terminal.output.write(text.endsWith('\n') ? text : `${text}\n`);
}
