import type { WorkerReport } from './planning-worker.ts';
import { knownColumns, type Terminal } from './terminal.ts';

export interface ProgressLine {
  readonly show: (report: WorkerReport & { kind: 'progress' }) => void;
  readonly clear: () => void;
}

/** One line on a terminal that is written over as the search goes on; nothing at all where there is no terminal. */
export function showProgress(terminal: Terminal): ProgressLine {
  if (terminal.errors.isTTY !== true) return { show: () => {}, clear: () => {} };
  const columns = knownColumns(terminal.errors) - 1;
  const start = performance.now();
  let shown = false;
  return {
    show: ({ progress }) => {
      shown = true;
      const seconds = Math.floor((performance.now() - start) / 1000);
      const line = `Planning "${progress.cloth}", ${seconds} s. Ctrl-C keeps the best so far.`;
      terminal.errors.write(`\r${line.slice(0, columns).padEnd(columns)}`);
    },
    clear: () => {
      if (shown) terminal.errors.write(`\r${' '.repeat(columns)}\r`);
      shown = false;
    },
  };
}

export interface StepsLine {
  /** What is being worked at from now on, such as `buys of "gull stripe"`. */
  readonly at: (what: string) => void;
  /** For a search that asks often whether to end: never ends it, and keeps the line fresh. */
  readonly stop: () => boolean;
  readonly clear: () => void;
}

/** How often the line is written over. */
const FRESH_MILLISECONDS = 250;

/**
 * One line on a terminal for work that is done in this thread, where no timer comes to its turn: written over whenever the
 * search asks. Nothing where there is no terminal.
 */
export function showSteps(terminal: Terminal): StepsLine {
  if (terminal.errors.isTTY !== true) return { at: () => {}, stop: () => false, clear: () => {} };
  const columns = knownColumns(terminal.errors) - 1;
  const start = performance.now();
  let what = '';
  let last = '';
  let shown = Number.NEGATIVE_INFINITY;
  const write = () => {
    const now = performance.now();
    if (what === '' || now - shown < FRESH_MILLISECONDS) return;
    const line = `Working at ${what}, ${Math.floor((now - start) / 1000)} s.`;
    if (line === last) return;
    [shown, last] = [now, line];
    terminal.errors.write(`\r${line.slice(0, columns).padEnd(columns)}`);
  };
  return {
    at: (next) => {
      what = next;
      write();
    },
    stop: () => {
      write();
      return false;
    },
    clear: () => {
      if (shown > Number.NEGATIVE_INFINITY) terminal.errors.write(`\r${' '.repeat(columns)}\r`);
      shown = Number.NEGATIVE_INFINITY;
      last = '';
    },
  };
}
