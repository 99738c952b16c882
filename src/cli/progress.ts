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
