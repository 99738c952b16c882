#!/usr/bin/env node
import { readFileSync } from 'node:fs';
import { EXIT } from './exit-codes.ts';
import { runProgram } from './program.ts';
import { say, type Terminal } from './terminal.ts';

const terminal: Terminal = {
  input: process.stdin,
  output: process.stdout,
  errors: process.stderr,
  environment: process.env,
};

/** A reader that closes early (`| head`) is no fault; a full disk behind the pipe is told. */
process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
  if (problem.code === 'EPIPE') process.exit(process.exitCode ?? EXIT.done);
  say(terminal, `laywright: standard output cannot be written (${problem.code ?? problem.message}).`);
  process.exit(EXIT.fault);
});

const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

try {
  process.exitCode = await runProgram(process.argv.slice(2), version, terminal);
} catch (fault) {
  say(
    terminal,
    'laywright: this is a fault of the program, not of your plan. Please report it with the plan file.',
  );
  say(terminal, fault instanceof Error ? (fault.stack ?? fault.message) : String(fault));
  process.exitCode = EXIT.fault;
}
