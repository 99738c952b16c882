import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/command-records.ts';
import { optionSyntax } from '../../src/cli/option-records.ts';
import { laywright } from '../support/run-command.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-words-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const ran = (...words: string[]) => laywright(words, { cwd: folder });

describe('help', () => {
  it('tells what the program does, two examples, and every command', async () => {
    const { exitCode, stdout, stderr } = await ran('--help');
    expect([exitCode, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^Laywright plans how to cut [^.]+\.\n\n {2}laywright .+\n {2}laywright .+\n/);
    for (const command of COMMANDS) expect(stdout).toContain(`\n  ${command.name} `);
  });

  it.each(COMMANDS.map((command) => [command.name, command] as const))(
    'of %s tells its sentence, its examples and all its options, within 80 columns',
    async (name, command) => {
      const { exitCode, stdout, stderr } = await ran(...name.split(' '), '--help');
      expect([exitCode, stderr]).toEqual([0, '']);
      expect(stdout.replaceAll('\n', ' ')).toContain(command.sentence);
      for (const example of command.examples) expect(stdout).toContain(`\n  ${example}\n`);
      for (const option of command.options) expect(stdout).toContain(`\n  ${optionSyntax(option)} `);
      const lines = stdout.split('\n').filter((line) => !line.startsWith('  laywright '));
      expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
    },
  );

  it('comes by -h and by the word help as well', async () => {
    const asked = await ran('--help');
    expect(await ran('-h')).toEqual(asked);
    expect(await ran('help')).toEqual(asked);
    expect(await ran('help', 'makes')).toEqual(await ran('makes', '--help'));
  });

  it('is shown, as a usage error, when nothing is asked', async () => {
    const { exitCode, stdout, stderr } = await ran();
    expect([exitCode, stdout]).toEqual([2, '']);
    expect(stderr).toContain('Laywright plans how to cut');
  });

  it('knows the version', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    expect(await ran('--version')).toEqual({ exitCode: 0, stdout: `${version}\n`, stderr: '' });
  });
});

describe('words that are not understood', () => {
  it.each([
    [['palns', 'x.yaml'], "laywright: unknown command 'palns'\n(Did you mean plan?)\n"],
    [['plan', 'x.yaml', '--josn'], "laywright: unknown option '--josn'\n(Did you mean --json?)\n"],
    [['plan'], "laywright: missing required argument 'file'\n"],
    [['plan', 'x.yaml', '--out'], "laywright: option '--out <folder>' argument missing\n"],
    [['makes', 'napkin', 'runner'], /^laywright: too many arguments for 'makes'/],
    [['makes', 'napkn'], '"napkn": there is no such make. Did you mean napkin?\n'],
    [['makes', 'tent'], /^"tent": there is no such make. One of these would work: envelope-cover, .+\n$/],
    [['schema', 'cloth'], '"cloth": there is no such schema; plan-file, cut-plan or cupboard would work.\n'],
    [
      ['plan', 'x.yaml', '--effort', '0'],
      '--effort: found "0"; a whole number from 1 to 1000000000 would work\n',
    ],
    [
      ['plan', 'x.yaml', '--seconds', '1.5', '--paper', 'foolscap'],
      '--paper: found "foolscap"; letter or a4 would work\n--seconds: found "1.5"; a whole number from 1 to 86400 would work\n',
    ],
    [['plan', 'none.yaml'], 'none.yaml: no such file. Check the name, or start one with `laywright new`.\n'],
    [['check', '.'], '.: this is a folder. Give the plan file inside it.\n'],
  ] as const)('%j', async (words, message) => {
    const { exitCode, stdout, stderr } = await ran(...words);
    expect([exitCode, stdout]).toEqual([2, '']);
    if (typeof message === 'string') expect(stderr).toBe(message);
    else expect(stderr).toMatch(message);
    expect(readdirSync(folder)).toEqual([]);
  });
});
