import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readCupboard } from '../../src/model/cupboard-file.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { laywright } from '../support/run-command.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-cupboard-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const ran = (...words: string[]) => laywright(words, { cwd: folder });
const plan = (fronts: number, wash = '') => `plan: Chart room
unit: in
cupboard: cupboard.yaml
cloths:
  gull squares:
    width: 40
    selvedge: 1/2
    direction: one-way
    ${wash}
    lengths: [{ all from cupboard: gull squares }]
    panels:
      every: 30
      areas:
        - { name: gull, from edge: 3, from end: 2, size: 14 x 16 }
        - { name: tern, from edge: 21, from end: 2, size: 14 x 16 }
pieces:
  - { name: front, count: ${fronts}, size: 16 x 18, cloth: gull squares, panel: [gull, tern] }
`;
const add = (...more: string[]) =>
  ran('cupboard', 'add', 'bolt end', '--unit', 'in', '--cloth', 'gull squares', '--width', '40', ...more);

/** Boxes of the pieces in inches. */
function placed(): readonly (readonly number[])[] {
  const json = JSON.parse(readFileSync(join(folder, 'marker', 'plan.json'), 'utf8'));
  return json.cloths[0].lengths
    .flatMap(({ placed }: { placed: { x: { ticks: number }; y: { ticks: number } }[] }) => placed)
    .map(({ x, y }: { x: { ticks: number }; y: { ticks: number } }) => [x.ticks / 8128, y.ticks / 8128]);
}

describe('cloth with panels in the cupboard', () => {
  it('is cut around where its panels begin, and what is left keeps those that are whole', async () => {
    await add('--length', '75', '--selvedge', '1/2', '--panels-begin', '9');
    writeFileSync(join(folder, 'plan.yaml'), plan(1));
    expect((await ran('plan', 'plan.yaml', '--out', 'marker')).exitCode).toBe(0);
    // 3 − (16 − 14) ÷ 2 across; 9 + 2 − (18 − 16) ÷ 2 along, or a repeat of 30 further on.
    const [[x, y]] = placed() as [[number, number]];
    expect(x).toBe(2);
    expect([10, 40]).toContain(y);
    const done = await ran('cupboard', 'done', 'marker/plan.json');
    expect([done.exitCode, done.stderr]).toEqual([0, '']);
    const read = readCupboard(readFileSync(join(folder, 'cupboard.yaml'), 'utf8'), { file: '' });
    if (!read.ok) throw new Error('unread');
    const left = read.value.entries.flatMap(({ panels }) => panels ?? []).map(({ name }) => name);
    expect(left.sort()).toEqual(['gull', 'tern', 'tern']);
    // All three that are left are found again by the next plan, and no fourth.
    writeFileSync(join(folder, 'plan.yaml'), plan(2).replace('[gull, tern]', 'tern'));
    expect((await ran('plan', 'plan.yaml', '--out', 'marker')).exitCode).toBe(0);
    expect(placed()).toHaveLength(2);
    writeFileSync(join(folder, 'plan.yaml'), plan(3).replace('[gull, tern]', 'tern'));
    const few = await ran('plan', 'plan.yaml', '--out', 'marker');
    expect([few.exitCode, few.stderr]).toEqual([2, expect.stringContaining('only 2 can be had')]);
  });

  it('begins where it was seen to on washed cloth', async () => {
    await add('--length', '70', '--selvedge', '1/2', '--panels-begin', '9.5', '--washed', 'yes');
    const wash = 'washing: { along: 5 %, across: 0 %, washed: before-cutting }';
    writeFileSync(join(folder, 'plan.yaml'), plan(1, wash).replace('[gull, tern]', 'gull'));
    expect((await ran('plan', 'plan.yaml', '--out', 'marker')).exitCode).toBe(0);
    // The middle of the panel is 2 + 8 in from where they begin, of which 95 % are left; of 30 in likewise.
    const ys = placed().map(([, y]) => y! + 9 - 9.5 - 9.5);
    expect(Math.min(Math.abs(ys[0]!), Math.abs(ys[0]! - 28.5))).toBeLessThan(0.01);
  });

  it('tells what it has, and is left alone by uses', async () => {
    await add('--length', '40', '--selvedge', '1/2', '--panels-begin', '4');
    expect((await ran('cupboard', 'list')).stdout).toContain('panels begin at 4 in');
    const json = JSON.parse((await ran('cupboard', 'list', '--json')).stdout);
    expect(JSON.stringify(json)).toContain('"panelsBegin":{"ticks":32512,"shown":"4 in"}');
    expect((await ran('cupboard', 'uses')).stdout).not.toContain('bolt end');
  });

  const entry = (keys: string) => `cupboard: Landing
unit: in
entries:
  - { name: end, cloth: gulls, width: 40, length: 30, selvedge: 0, ${keys} }
`;
  const own = 'panels: [{ name: gull, from edge: 3, from end: 2, size: 14 x 16 }]';
  it.each([
    [`panels begin: 3, ${own}`, 'one of panels and panels begin'],
    [`grain: crosswise, ${own}`, 'panels only for a length that runs along the cloth'],
    ['grain: crosswise, panels begin: 3', 'panels begin only for a length that runs along the cloth'],
    [own.replace('from end: 2', 'from end: 20'), 'lies outside its cloth'],
    [own.replace('14 x 16', '14'), 'size'],
  ])('is refused where it contradicts itself: %s', (keys, words) => {
    const read = readCupboard(entry(keys), { file: 'cupboard.yaml' });
    expect(read.ok).toBe(false);
    expect(read.issues.map((issue) => wordIssue(issue, 'in')).join()).toContain(words);
  });
});
