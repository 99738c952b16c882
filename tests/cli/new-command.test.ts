import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runProgram } from '../../src/cli/program.ts';
import type { Terminal } from '../../src/cli/terminal.ts';
import { makes } from '../../src/makes/catalogue.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { laywright } from '../support/run-command.ts';

const specs = makes.map((make) => make.spec);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-new-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const ran = (...words: string[]) => laywright(words, { cwd: folder });
const written = (name: string) => readFileSync(join(folder, name), 'utf8');

function planIn(name: string) {
  const outcome = readPlan(written(name), { file: name, makes: specs });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

describe('starting a plan by options', () => {
  it('writes a commented file that says what the options said', async () => {
    const { exitCode, stdout, stderr } = await ran(
      ...['new', 'hall.yaml', '--name', 'The hall: benches', '--unit', 'cm', '--make', 'napkin'],
      ...['--count', '14', '--size', '41 x 43', '--cloth', 'sea holly #2', '--width', '1.37 m'],
    );
    expect([exitCode, stdout]).toEqual([0, 'Written: hall.yaml\n']);
    expect(stderr).toBe('Look it over, then plan it: laywright plan hall.yaml\n');
    const plan = planIn('hall.yaml');
    expect([plan.name, plan.unit, plan.cloths[0]!.name]).toEqual(['The hall: benches', 'cm', 'sea holly #2']);
    expect(plan.cloths[0]!.width).toBe(137 * 3200);
    expect(plan.makes[0]).toMatchObject({ make: 'napkin', count: 14 });
    expect(plan.makes[0]!.measures.size).toEqual({ width: 41 * 3200, length: 43 * 3200 });
    expect(written('hall.yaml')).toMatch(/width: 1\.37 m {2}# overall/);
  });

  it.each(specs.flatMap((spec) => ['in', 'cm'].map((unit) => [spec.kind, unit] as const)))(
    'writes a plan that can be planned at once: %s, %s',
    async (kind, unit) => {
      const file = join(folder, 'first.yaml');
      const { terminal, said } = typing([]);
      const words = ['new', file, '--make', kind, '--unit', unit, '--defaults'];
      expect([await runProgram(words, '0', terminal), said.output]).toEqual([0, `Written: ${file}\n`]);
      const outcome = makeCutPlan(planIn('first.yaml'), { effort: 500, seed: 1 });
      expect(outcome.ok || outcome.issues).toBe(true);
    },
  );

  it('names the file after the plan', async () => {
    await ran('new', '--name', 'Hall & stairs');
    expect(readdirSync(folder)).toEqual(['hall-stairs.yaml']);
  });

  it('never touches a file that is there', async () => {
    writeFileSync(join(folder, 'hall.yaml'), 'mine');
    const { exitCode, stdout, stderr } = await ran('new', 'hall.yaml');
    expect([exitCode, stdout]).toEqual([2, '']);
    expect(stderr).toBe('hall.yaml: already there, and left as it is. Give another name.\n');
    expect(written('hall.yaml')).toBe('mine');
    expect(readdirSync(folder)).toEqual(['hall.yaml']);
  });

  it.each([
    [['--size', 'large'], /^--size: "large" is not understood; a size such as 17 x 17 would work\n$/],
    [['--width', '5 spans'], /^--width: "5 spans" is not understood; a length such as 54 would work\n$/],
    [['--make', 'napkn'], /^--make: "napkn": there is no such make\. Did you mean napkin\?\n$/],
    [['--count', '0'], /^--count: found "0"; a whole number from 1 to 10000 would work\n$/],
    [['--make', 'curtain', '--size', '3 x 4'], /^--size: a curtain has no size; its measures are /],
    [['--cloth', 'x'.repeat(61)], /x/],
  ])('refuses %j and writes nothing', async (words, message) => {
    const { exitCode, stdout, stderr } = await ran('new', 'hall.yaml', ...words);
    expect([exitCode, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(readdirSync(folder)).toEqual([]);
  });
});

/** A terminal at which somebody types these lines. */
function typing(lines: readonly string[]) {
  const input = Object.assign(new PassThrough(), { isTTY: true });
  const said = { output: '', errors: '' };
  const listening = (name: 'output' | 'errors') =>
    new PassThrough().on('data', (chunk: Buffer) => {
      said[name] += chunk.toString();
    });
  const terminal: Terminal = {
    input,
    output: listening('output'),
    errors: listening('errors'),
    environment: {},
  };
  input.end(lines.map((line) => `${line}\n`).join(''));
  return { terminal, said };
}

describe('starting a plan by questions', () => {
  it('asks for what the options leave open, and again until it understands', async () => {
    const file = join(folder, 'attic.yaml');
    const { terminal, said } = typing(['Attic', 'ells', 'cm', 'tote', '6', '39 x 34.5', 'dune ticking', '']);
    expect(await runProgram(['new', file], '0', terminal)).toBe(0);
    expect(said.output).toBe(`Written: ${file}\n`);
    expect(said.errors).toContain('"ells" is not understood; in or cm would work\n');
    expect(said.errors).toContain('How wide is it, selvedge to selvedge? [140] ');
    const plan = planIn('attic.yaml');
    expect([plan.name, plan.unit]).toEqual(['Attic', 'cm']);
    expect(plan.makes[0]).toMatchObject({ make: 'tote', count: 6 });
    expect(plan.makes[0]!.measures.size).toEqual({ width: 39 * 3200, length: 34.5 * 3200 });
    expect(plan.cloths[0]).toMatchObject({ name: 'dune ticking', width: 140 * 3200 });
  });

  it('asks nothing that an option has answered', async () => {
    const file = join(folder, 'attic.yaml');
    const { terminal, said } = typing(['', '', '', '', '']);
    const words = ['new', file, '--make', 'runner', '--name', 'Landing', '--size', '13 x 71'];
    expect(await runProgram(words, '0', terminal)).toBe(0);
    expect(said.errors).not.toMatch(/called\? \[Our plan\]|sew|Finished size/);
    expect(planIn('attic.yaml').makes[0]!.measures).toMatchObject({ width: 13 * 8128, length: 71 * 8128 });
  });

  it('writes nothing when the answers end early', async () => {
    const file = join(folder, 'attic.yaml');
    const { terminal, said } = typing(['Attic', 'cm']);
    expect(await runProgram(['new', file], '0', terminal)).toBe(130);
    expect(said.errors).toMatch(/Ended\. Nothing was written\.\n$/);
    expect([said.output, existsSync(file)]).toEqual(['', false]);
  });
});
