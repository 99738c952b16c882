import { tmpdir } from 'node:os';
import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { showSteps } from '../../src/cli/progress.ts';
import type { Terminal } from '../../src/cli/terminal.ts';
import { laywright } from '../support/run-command.ts';

function terminal(isTTY: boolean): { readonly terminal: Terminal; readonly written: () => string } {
  const errors = Object.assign(new PassThrough(), { isTTY, columns: 60 });
  const output = new PassThrough();
  const input = Object.assign(new PassThrough(), { isTTY: false });
  const own: Terminal = { input, output, errors, environment: {} };
  return { terminal: own, written: () => String(errors.read() ?? '') };
}

describe('the line that tells what is being worked at', () => {
  it('stands on a terminal, never ends a search, and leaves no trace', () => {
    const { terminal: own, written } = terminal(true);
    const steps = showSteps(own);
    steps.at('buys of "gull stripe"');
    expect(steps.stop()).toBe(false);
    expect(written()).toMatch(/^\rWorking at buys of "gull stripe", 0 s\. *$/);
    steps.clear();
    expect(written()).toBe(`\r${' '.repeat(59)}\r`);
    steps.clear();
    expect(written()).toBe('');
  });

  it('is nowhere where there is no terminal', async () => {
    const { terminal: own, written } = terminal(false);
    const steps = showSteps(own);
    steps.at('anything');
    expect(steps.stop()).toBe(false);
    steps.clear();
    expect(written()).toBe('');
    const plan =
      'plan: A\nunit: in\ncloths: { reed: { width: 44, selvedge: 0, buy: yes } }\npieces: [{ name: mat, count: 5, size: 9 x 11, cloth: reed }]\n';
    for (const command of ['buys', 'uses'])
      expect(
        (await laywright([command, '-', '--effort', '2000'], { input: plan, cwd: tmpdir() })).stderr,
      ).toBe('');
  });
});
