import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { answer, type BenchRecord } from './answer.ts';
import { baselinesOf } from './baselines.ts';
import { type Family, questionsOf, readFamily } from './families.ts';
import { sheetsOfShelves, shelvesOf } from './shelves.ts';
import { row, summary } from './table.ts';

const limits = { seconds: 20, clock: 'processor' } as const;

function only(path: string, instance: string, key: string) {
  const found = questionsOf(readFamily(`fixtures/${path}`)).filter(
    (question) => question.instance === instance && question.question === key,
  );
  expect(found).toHaveLength(1);
  return found[0]!;
}

describe('questions of a family', () => {
  it('asks one question for each published figure of straight cuts', () => {
    const keys = (path: string) => [
      ...new Set(questionsOf(readFamily(`fixtures/${path}`)).map(({ question }) => question)),
    ];
    expect(keys('published/beasley-1985/gcut.json').sort()).toEqual(['kp_OG', 'ukp_OG', 'ukp_RG']);
    expect(keys('published/berkey-wang-1987/bwmv.json').sort()).toEqual(['bp_OG', 'bp_RG', 'sp_OG', 'sp_RG']);
    expect(keys('published/clautiaux-2007/cjcm.json').sort()).toEqual(['opp_OG', 'opp_RG']);
    expect(keys('cases/shortest-home-lays/home-lays.json')).toEqual(['flat', 'folded_only']);
  });

  it('asks with straight cuts where only a free figure is known, and says so', () => {
    const questions = questionsOf(readFamily('fixtures/published/martello-monaci-vigo-2003/mmv-2sp.json'));
    expect(questions.every(({ question, free }) => question === 'sp_OG' && free)).toBe(true);
  });

  it('takes the width along, halves copies for a folded lay and turns only where allowed', () => {
    const family: Family = {
      family: 'made',
      instances: [
        {
          name: 'one',
          stock: { width: 50, height: null, foldedWidth: 23 },
          n: 9,
          items: [
            { w: 12, h: 7, copies: 5, rotate: true },
            { w: 11, h: 11, copies: 4, rotate: true },
          ],
          known: { flat: { best: 31 }, folded_only: { best: null }, sp_RG: { best: 29 } },
        },
      ],
    };
    const [flat, folded, turned] = questionsOf(family);
    expect(flat!.body).toEqual({
      sheet: { width: 50, length: Number.POSITIVE_INFINITY },
      kinds: [
        { width: 12, length: 7, copies: 5, quarterTurn: true },
        { width: 11, length: 11, copies: 4, quarterTurn: false },
      ],
    });
    expect('sheet' in folded!.body && folded!.body.sheet.width).toBe(23);
    expect(folded!.body.kinds.map(({ copies }) => copies)).toEqual([3, 2]);
    expect([turned!.question, turned!.published]).toEqual(['sp_RG', 29]);
  });
});

describe('answers and their lines', () => {
  it('judge an answer against the published figure, checked and with the gap in per cent', () => {
    const question = only('published/christofides-whitlock-1977/cgcut.json', 'cgcut2', 'ukp_OG');
    const record = answer(question, limits, 1);
    expect(record).toMatchObject({
      value: 3076,
      best: 3076,
      bound: 3076,
      proven: true,
      checked: true,
      gap: 0,
    });
    const line = row(record, baselinesOf(question));
    expect(line).toMatch(/cgcut2 +ukp_OG +3076 +3076 +0\.000 +3076 +yes/);
    expect(summary([record])[0]).toMatch(
      /^cgcut ukp_OG: 1 instances, mean gap 0\.000 %, 1 equal, 0 better, 1 proven, total 3076/,
    );
  });

  it('count an impossible lay as met where it is published as impossible', () => {
    const question = only('cases/shortest-home-lays/home-lays.json', 'home-046', 'folded_only');
    expect(answer(question, limits, 1)).toMatchObject({ value: null, best: null, proven: true, gap: 0 });
  });

  it('mean the gaps, count better ones and leave out what the checker refused', () => {
    const base: BenchRecord = {
      family: 'made',
      instance: 'a',
      question: 'sp_OG',
      seed: 1,
      value: 103,
      best: 100,
      bound: 99,
      proven: false,
      milliseconds: 1500,
      nodes: 7,
      checked: true,
      gap: 3,
      free: false,
    };
    const lines = summary([
      base,
      { ...base, instance: 'b', value: 98, gap: -2, proven: true, milliseconds: 500 },
      { ...base, instance: 'c', value: 1, gap: -99, checked: false, fault: 'no' },
    ]);
    expect(lines).toEqual([
      'made sp_OG: 3 instances, mean gap 0.500 %, 0 equal, 1 better, 1 proven, total 201, mean 1.17 s, ' +
        'longest 1.50 s, 1 REFUSED by the checker, 1 without an answer to compare',
    ]);
  });
});

describe('shelves and general packers', () => {
  const pieces = [
    [6, 9],
    [5, 8],
    [4, 5],
    [5, 5],
    [3, 4],
    [7, 2],
  ].map(([width, length], index) => ({ width: width!, length: length!, value: index }));

  it('follow next fit, first fit and best fit by falling length', () => {
    const lengths = (rule: 'next' | 'first' | 'best') =>
      shelvesOf(pieces, 12, rule).map(({ length }) => length);
    expect(lengths('next')).toEqual([9, 5, 2]);
    expect(lengths('first')).toEqual([9, 5, 2]);
    expect(shelvesOf(pieces, 13, 'best').map(({ room }) => room)).toEqual([2, 1, 6]);
    expect(sheetsOfShelves(shelvesOf(pieces, 12, 'first'), 11)).toBe(2);
  });

  it('are no shorter than the area allows, and no sheet holds more than its area', () => {
    const strip = only('published/hopper-turton-2001/hopper-c.json', 'C1-P2', 'sp_OG');
    for (const value of Object.values(baselinesOf(strip))) expect(value).toBeGreaterThanOrEqual(20);
    const sheet = only('published/beasley-1985/gcut.json', 'gcut4', 'ukp_OG');
    const values = Object.values(baselinesOf(sheet)).filter((value) => value !== undefined);
    expect(values.length).toBe(4);
    for (const value of values) expect(value).toBeLessThanOrEqual(61698);
  });
});

describe('npm run bench', () => {
  const run = (...given: string[]) =>
    spawnSync(process.execPath, ['--import', 'tsx', 'tests/bench/main.ts', ...given], { encoding: 'utf8' });

  it('prints its usage when asked, and one line with it when it is called wrongly', () => {
    const helped = run('--help');
    expect([helped.status, helped.stderr]).toEqual([0, '']);
    expect(helped.stdout).toContain('--seconds S     most seconds for an instance (10)');
    for (const [wrong, line] of [
      [['--second', '3'], /^Unknown option '--second'/],
      [['--seconds', 'ten', 'x.json'], /^--seconds: "ten" is no number above zero/],
      [['no-such-file.json'], /^no-such-file\.json: ENOENT/],
      [[], /^no question to ask/],
    ] as const) {
      const refused = run(...wrong);
      expect([refused.status, refused.stdout.includes('at ')], line.source).toEqual([2, false]);
      expect(refused.stderr).toMatch(line);
      expect(refused.stderr).not.toMatch(/^ +at /m);
    }
  });

  it('prints rows and summary lines and writes the records', () => {
    const folder = mkdtempSync(join(tmpdir(), 'bench-'));
    try {
      const json = join(folder, 'records.json');
      const printed = execFileSync(
        process.execPath,
        [
          '--import',
          'tsx',
          'tests/bench/main.ts',
          'fixtures/published/beasley-1985/ngcut.json',
          'fixtures/published/christofides-whitlock-1977/cgcut.json',
          ...['--only', 'ukp_OG,kp_OG', '--match', 'cut3', '--seconds', '30', '--json', json, '--jobs', '2'],
        ],
        { encoding: 'utf8' },
      );
      expect(printed.split('\n').filter((line) => / (u?kp)_OG +\d/.test(line))).toHaveLength(3);
      expect(printed).toMatch(/^ngcut kp_OG: 1 instances, mean gap 0\.000 %/m);
      const records = JSON.parse(readFileSync(json, 'utf8')) as BenchRecord[];
      expect(records).toHaveLength(3);
      for (const record of records) {
        expect(record).toMatchObject({ proven: true, checked: true, gap: 0 });
        expect(Object.keys(record)).toEqual(
          expect.arrayContaining(
            'family instance question value best bound proven milliseconds checked'.split(' '),
          ),
        );
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
