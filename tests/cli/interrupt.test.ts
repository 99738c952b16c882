import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { COMMAND, run } from '../support/run-command.ts';

/** Forty sizes that share no measure: no bound is met in any time that a test has. */
const LONG_SEARCH = [
  'plan: Linen store',
  'unit: cm',
  'ruler: 1 mm',
  'cloths: { sea kale: { width: 151, selvedge: 1, buy: yes } }',
  'pieces:',
  ...Array.from({ length: 40 }, (_, index) => {
    const size = `${23.1 + ((index * 7.3) % 41)} x ${17.7 + ((index * 11.9) % 53)}`.replace(
      /(\.\d)\d*/g,
      '$1',
    );
    return `  - { name: lap ${index}, count: 1, size: ${size}, cloth: sea kale }`;
  }),
  '',
].join('\n');

/** Tells on standard error when the command begins to listen for Ctrl-C: a signal before that would end it by default. */
const TELLS_WHEN_LISTENING = `
  const on = process.on;
  process.on = function (name, listener) {
    const result = on.call(this, name, listener);
    if (name === 'SIGINT') process.stderr.write('listening\\n');
    return result;
  };`;

/** As a search that never looks whether it should stop. */
const DEAF_SEARCH = 'Atomics.store = () => 0;';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-interrupt-'));
  writeFileSync(join(folder, 'store.yaml'), LONG_SEARCH);
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** Runs a search without end, and sends Ctrl-C whenever standard error has said one of these. */
function interrupted(preloaded: string, whenSaid: readonly RegExp[]) {
  const script = `data:text/javascript,${encodeURIComponent(preloaded)}`;
  const words = ['plan', 'store.yaml', '--effort', '1000000000', '--write', 'json,text'];
  const waiting = [...whenSaid];
  return run(process.execPath, ['--import', script, COMMAND, ...words], {
    cwd: folder,
    onStderr: (text, child) => {
      if (waiting[0]?.test(text) !== true) return;
      waiting.shift();
      child.kill('SIGINT');
    },
  });
}

// Windows has no signals to send to a process.
describe.runIf(process.platform !== 'win32')('Ctrl-C during a search', () => {
  it('keeps the best plan so far, proven, and writes it', async () => {
    const { exitCode, stdout, stderr } = await interrupted(TELLS_WHEN_LISTENING, [/listening/]);
    expect(stderr).toBe(
      'listening\nStopping with the best plan so far. Ctrl-C again ends without a plan.\n' +
        'You stopped it before the search was through: this is the best plan so far, and a longer search may find a better one.\n',
    );
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/^Linen store\n[\s\S]+Pieces +40\n/);
    expect(readdirSync(join(folder, 'store-marker')).sort()).toEqual(['plan.json', 'summary.txt']);
  });

  it('pressed twice ends at once with nothing written', async () => {
    const { exitCode, stdout, stderr } = await interrupted(`${TELLS_WHEN_LISTENING}${DEAF_SEARCH}`, [
      /listening/,
      /Stopping/,
    ]);
    expect(stderr).toMatch(/again ends without a plan\.\nEnded\. Nothing was written\.\n$/);
    expect([exitCode, stdout]).toEqual([130, '']);
    expect(readdirSync(folder)).toEqual(['store.yaml']);
  });
});

describe('a limit in seconds', () => {
  it('keeps the best plan so far and says that it stopped', async () => {
    const words = ['plan', 'store.yaml', '--effort', '1000000000', '--seconds', '1', '--write', 'nothing'];
    const { exitCode, stdout, stderr } = await run(process.execPath, [COMMAND, ...words], { cwd: folder });
    expect(exitCode).toBe(0);
    expect(stderr).toMatch(/^Its time was up before the search was through/);
    expect(stdout).toMatch(/Could it be less +perhaps; proven is only\s+that it takes at\s+least \d/);
  });
});
