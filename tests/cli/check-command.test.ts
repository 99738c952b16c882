import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { laywright } from '../support/run-command.ts';

const GOOD = `plan: Porch
unit: in
cloths:
  dune ticking: { width: 54, selvedge: 1/2, buy: yes }
make:
  - { name: covers, kind: envelope-cover, count: 3, cloth: dune ticking, size: 17 x 17, lap: 4 }
`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-check-'));
  writeFileSync(join(folder, 'good.yaml'), GOOD);
  writeFileSync(join(folder, 'narrow.yaml'), GOOD.replace('lap: 4', 'lap: 1/4'));
  writeFileSync(join(folder, 'bad.yaml'), GOOD.replace('count: 3', 'count: 0').replace('width', 'widht'));
});
afterEach(() => {
  expect(readdirSync(folder).sort()).toEqual(['bad.yaml', 'good.yaml', 'narrow.yaml']);
  rmSync(folder, { recursive: true, force: true });
});

const ran = (...words: string[]) => laywright(words, { cwd: folder });

describe('checking without planning', () => {
  it('says of a sound file that it can be planned', async () => {
    expect(await ran('check', 'good.yaml')).toEqual({
      exitCode: 0,
      stdout: 'good.yaml: understood; nothing stands in the way of planning it.\n',
      stderr: '',
    });
  });

  it('tells every problem of every file, as the result', async () => {
    const { exitCode, stdout, stderr } = await ran('check', 'bad.yaml', 'good.yaml');
    expect([exitCode, stderr]).toEqual([2, '']);
    const lines = stdout.trimEnd().split('\n');
    expect(lines.filter((line) => line.startsWith('bad.yaml:4:'))).toHaveLength(1);
    expect(lines.filter((line) => line.startsWith('bad.yaml:6:'))).toHaveLength(1);
    expect(lines.at(-1)).toBe('good.yaml: understood; nothing stands in the way of planning it.');
  });

  it('warns, with the figures, where a make misses good practice', async () => {
    const { exitCode, stdout } = await ran('check', 'narrow.yaml');
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(
      /warning: .+1\/4 in.+\nnarrow.yaml: understood; nothing stands in the way of planning it\.\n$/,
    );
  });

  it('gives the same as JSON: file, ok, and for each problem its code, path, place and words', async () => {
    const { exitCode, stdout } = await ran('check', '--json', 'bad.yaml', 'good.yaml');
    expect(exitCode).toBe(2);
    const [bad, good] = JSON.parse(stdout);
    expect(good).toEqual({ file: 'good.yaml', ok: true, issues: [] });
    expect([bad.file, bad.ok]).toEqual(['bad.yaml', false]);
    expect(bad.issues).toContainEqual({
      code: 'out-of-range',
      severity: 'error',
      path: ['make', 0, 'count'],
      place: { line: 6, column: expect.any(Number) },
      message: expect.stringMatching(/^bad.yaml:6:\d+ make\[1\]\.count: /),
    });
    expect(bad.issues.map((issue: { code: string }) => issue.code)).toContain('unknown-key');
  });

  it('reads standard input for -', async () => {
    const { exitCode, stdout } = await laywright(['check', '-'], { cwd: folder, input: GOOD });
    expect([exitCode, stdout]).toEqual([
      0,
      'standard input: understood; nothing stands in the way of planning it.\n',
    ]);
  });

  it('ends as planning does where only the cloth stands in the way, and warns of centimetres read as inches', async () => {
    const plan = (width: number, size: string) =>
      `plan: A\nunit: in\ncloths: { reed: { width: ${width}, selvedge: 0, buy: yes } }\npieces: [{ name: mat, count: 5, size: ${size}, cloth: reed, grain: lengthwise }]\n`;
    const coded = async (input: string) => {
      const [checked, made] = [
        await laywright(['check', '-'], { cwd: folder, input }),
        await laywright(['plan', '-', '--write', 'nothing'], { cwd: folder, input }),
      ];
      return [checked.exitCode, made.exitCode];
    };
    expect(await coded(plan(44, '45 x 20'))).toEqual([3, 3]);
    expect(await coded(plan(44, '45 y 20'))).toEqual([2, 2]);
    expect(await coded(plan(44, '44 x 20'))).toEqual([0, 0]);
    const { exitCode, stdout } = await laywright(['check', '-'], {
      cwd: folder,
      input: plan(140, '44 x 20'),
    });
    expect(exitCode).toBe(0);
    expect(stdout).toContain(
      '"reed" is 140 in wide, wider than cloth is usually woven (120 in); if that is in centimetres, write unit: cm, or the width with its unit.',
    );
    const widest = await laywright(['check', '-'], { cwd: folder, input: plan(120, '44 x 20') });
    expect(widest.stdout).not.toContain('wider than');
  });
});
