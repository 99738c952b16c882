import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laywright } from '../support/run-command.ts';

const PLAN = `plan: Linen room
unit: in
currency: $
cloths:
  wave dot: { width: 36, selvedge: 0, price: 8.00 per yd, buy: yes }
  dune ticking: { width: 45, selvedge: 0, direction: two-way, lengths: [46] }
pieces:
  - { name: panel, count: 1, size: 36 x 9 1/2, cloth: wave dot }
  - { name: strip, count: 1, size: 45 x 10, cloth: dune ticking }
from leftovers:
  - { name: small mats, kind: napkin, size: 6 1/2 x 6 1/2, least: 4, most: 4, worth: 1.50 }
  - { name: tea napkins, kind: napkin, size: 15 x 15, most: 6, worth: 2.25 }
`;

const CUPBOARD = `cupboard: Landing
unit: in
entries:
  - { name: quarter, cloth: dune ticking, width: 18, length: 22, selvedge: 0, washed: yes }
  - { name: odd end, cloth: moss, width: 20, length: 30, selvedge: 0, grain: unknown }
`;

let cwd: string;
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'laywright-uses-'));
  writeFileSync(join(cwd, 'linen.yaml'), PLAN);
  writeFileSync(join(cwd, 'cupboard.yaml'), CUPBOARD);
});
afterAll(() => rmSync(cwd, { recursive: true }));

const run = (...words: string[]) => laywright([...words, '--effort', '60000'], { cwd });

describe('laywright uses', () => {
  it('tells the uses, the best first, and the smallest addition with what it gives', async () => {
    const { exitCode, stdout } = await run('uses', 'linen.yaml', '--listed');
    expect(exitCode).toBe(0);
    const [wave, ticking] = stdout.split('\n\n').map((part) => part.replace(/\s+/g, ' '));
    expect(wave).toContain('Left nothing large enough to keep');
    expect(wave).toContain(
      '1/8 yd more small mats: 4 of 6 1/2 x 6 1/2 in instead of scrap, for $1.00, worth $6.00 more (by themselves they take 1/4 yd)',
    );
    expect(ticking).toMatch(/tea napkins 4 of 15 x 15 in, worth \$9\.00 .* small mats 4 of/);
    expect(stdout).not.toContain('€');
  });

  it('gives the same as JSON, with sound plans, and draws the best use of each cloth', async () => {
    const { exitCode, stdout } = await run(
      'uses',
      'linen.yaml',
      '--cloth',
      'dune ticking',
      '--json',
      '--out',
      'u',
    );
    expect(exitCode).toBe(0);
    const [ticking, ...others] = JSON.parse(stdout).cloths;
    expect(others).toEqual([]);
    expect(ticking.uses[0]).toMatchObject({ name: 'tea napkins', count: 4, source: 'list', proven: true });
    expect(ticking.uses[0].plan).toMatchObject({ format: 'laywright cut plan', totals: { pieces: 4 } });
    expect(ticking.uses.some(({ source }: { source: string }) => source === 'usual')).toBe(true);
    expect(readdirSync(join(cwd, 'u')).sort()).toEqual([
      'use-of-dune-ticking.pdf',
      'use-of-dune-ticking.svg',
    ]);
    expect(readFileSync(join(cwd, 'u', 'use-of-dune-ticking.svg'), 'utf8')).toContain('<svg');
  });

  it('stands in the summary and the plan.json of a plan that lists what it would like', async () => {
    const { stdout } = await run('plan', 'linen.yaml', '--out', 'm', '--write', 'json,pdf,text');
    expect(stdout).toContain('What the leftovers could become');
    const { uses } = JSON.parse(readFileSync(join(cwd, 'm', 'plan.json'), 'utf8'));
    expect(uses.map(({ cloth }: { cloth: string }) => cloth)).toEqual(['wave dot', 'dune ticking']);
    expect(uses[1].left[0]).toMatchObject({ of: 'length 1', size: { shown: '45 x 36 in' } });
    expect(uses[0].more[0]).toMatchObject({ count: 4, without: 0, more: { shown: '1/8 yd' } });
  });

  it.each([
    [['uses', 'linen.yaml', '--cloth', 'wave dots'], 'the plan cuts nothing from "wave dots"'],
    [['uses', 'none.yaml'], 'none.yaml'],
    [['uses', 'linen.yaml', '--out', 'cupboard.yaml'], 'cupboard.yaml'],
    [['cupboard', 'uses', 'wave dot'], '"wave dot": no such cloth lies in the cupboard'],
    [['cupboard', 'uses', '--plan', 'cupboard.yaml'], 'cupboard.yaml'],
    [['cupboard', 'uses', '--cupboard', 'attic.yaml'], 'attic.yaml: no such file'],
  ])('refuses %j with a clear message', async (words, message) => {
    const { exitCode, stdout, stderr } = await run(...words);
    expect(exitCode).toBe(2);
    expect(stderr).toContain(message);
    expect(stdout).toBe('');
  });
});

describe('laywright cupboard uses', () => {
  it('tells what the entries could become, with the wishes of a plan', async () => {
    const { exitCode, stdout, stderr } = await run('cupboard', 'uses', '--plan', 'linen.yaml', '--json');
    expect(exitCode).toBe(0);
    const { cloths } = JSON.parse(stdout);
    expect(cloths.map(({ cloth }: { cloth: string }) => cloth)).toEqual(['dune ticking', 'moss']);
    // 18 x 22 in holds 2 x 2 of 8 in, the cut size of the mats.
    expect(cloths[0].uses.find(({ name }: { name: string }) => name === 'small mats').count).toBe(4);
    // Along a grain that is not known no tote is cut, whose pieces have one.
    expect(cloths[1].uses.map(({ make }: { make: string }) => make)).not.toContain('tote');
    expect(stderr).toContain('not washed yet: "odd end"');
  });
});
