import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laywright } from '../support/run-command.ts';
import { laywrightOf } from '../support/run-here.ts';

const FILES = {
  'plan.yaml': `plan: The net loft
unit: in
currency: $
cloths:
  sail grey: { width: 40, selvedge: 1/2, price: 12.00 per yd, buy: yes }
  oat linen: { width: 54, selvedge: 5/8, lengths: [{ name: end of bolt, length: 60 }] }
make:
  - { name: bench covers, kind: envelope-cover, count: 3, size: 17 x 17, lap: 4, cloth: sail grey }
  - { name: hall runner, kind: runner, count: 1, length: 40, cloth: oat linen }
`,
  'cupboard.yaml': `cupboard: The cupboard
unit: in
entries:
  - { name: harbour end, cloth: harbour check, width: 54, length: 45, selvedge: 1/2 }
`,
  'notes.txt': 'not a plan',
} as const;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-words-'));
  for (const [name, text] of Object.entries(FILES)) writeFileSync(join(folder, name), text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const GREY = ['measured', 'plan.yaml', '--cloth', 'sail grey', '--width', '38', '--length', '60'];
const REFIT = ['refit', 'plan.yaml', '--take', 'drop'];

/** What is typed, the exit code, and the one message it earns. */
const CASES: readonly (readonly [words: readonly string[], exitCode: 2 | 3, message: string])[] = [
  [
    ['measured', 'plan.yaml', '--width', '38', '--length', '60'],
    2,
    '--cloth: say which cloth was measured; "sail grey" or "oat linen" would work',
  ],
  [
    ['measured', 'plan.yaml', '--cloth', 'sail gray', '--width', '38', '--length', '60'],
    2,
    '--cloth: the plan has no cloth "sail gray"; "sail grey" would work',
  ],
  [
    ['measured', 'plan.yaml', '--cloth', 'sail grey', '--length', '60'],
    2,
    '--width: measure the washed cloth, and say it.',
  ],
  [
    ['measured', '-', '--width', '38', '--length', '60'],
    2,
    'measured: it writes into the plan file, so name the file instead of -.',
  ],
  [[...GREY, '--left', '1'], 2, '--left and --right: say both, or --selvedge for the two alike'],
  [
    [...GREY, '--selvedge', '25'],
    2,
    'cloths.sail grey.measured.selvedge: the selvedges take 50 in, more than the 38 in there is; check both figures.',
  ],
  [
    [...GREY, '--crease', 'keep of 1'],
    2,
    'cloths.sail grey.measured.crease: found "keep of 1" (likely "keep off 3/4"); write none, use, or keep off 3/4 at 20 (on either side).',
  ],
  [
    [...GREY, '--first-motif', '4'],
    2,
    'cloths.sail grey.measured.first motif: found "4 in"; write a repeat along the cloth first, in which a motif has its place.',
  ],
  [[...GREY, '--before', ''], 2, '--before: nothing is said behind it; say which length'],
  [
    [...GREY, '--of', 'end of bollt'],
    2,
    'cloths.sail grey.measured.of: no length in hand is called "end of bollt"; leave of out, since there is none.',
  ],
  [
    ['refit', 'plan.yaml', '--take', 'bin'],
    2,
    '--take: found "bin"; join, shrink, drop or buy would work, or one for each cloth, such as "sail grey: drop"',
  ],
  [
    ['refit', 'plan.yaml', '--may-shrink', 'bench cover by 1'],
    2,
    '--may-shrink: found "bench cover"; "bench covers" would work',
  ],
  [
    ['refit', 'plan.yaml', '--may-shrink', 'bench covers hem by 1'],
    2,
    '--may-shrink: found "hem"; "size" or "across" or "up" of bench covers would work',
  ],
  [
    ['refit', 'plan.yaml', '--may-shrink', 'hall runner by bits'],
    2,
    '--may-shrink: found "bits"; a length such as 1 1/2 in would work',
  ],
  [REFIT, 2, 'plan.yaml: it fits as it is, so there is nothing to drop. Plan it with `laywright plan`.'],
  [
    [...REFIT, '--as', 'notes.txt'],
    2,
    'notes.txt: already there, and left as it is. Give another name with --as.',
  ],
  [
    [...REFIT, '--out', 'notes.txt'],
    2,
    'notes.txt: this is a file, not a folder. Nothing was written. Give another folder and run the command again.',
  ],
  [
    ['refit', '-', '--take', 'drop'],
    2,
    '--as: a plan from standard input needs a name for the new file, such as --as refit.yaml',
  ],
  [
    ['refit', 'cupboard.yaml'],
    2,
    'cupboard.yaml: this is a cupboard, not a plan. Name a plan file; it may draw on this one with cupboard:.',
  ],
  [
    ['buys', 'plan.yaml', '--cloth', 'oat linen'],
    3,
    '--cloth: "oat linen" is in hand and not bought, so there are no buys to compare; "sail grey" would work',
  ],
  [
    ['buys', 'plan.yaml', '--lengths', '1 yd, two'],
    2,
    '--lengths: "two" is no length; "1 yd, 2 yd" or "1 m, 1.5 m" would work',
  ],
  [['buys', 'plan.yaml', '--lengths', '0 yd'], 2, '--lengths: "0 yd" buys nothing; leave it out'],
  [['buys', 'plan.yaml', '--lengths', '2000 yd'], 2, '--lengths: "2000 yd" is longer than a kilometre'],
  [
    ['buys', 'plan.yaml', '--out', 'notes.txt'],
    2,
    'notes.txt: this is a file, not a folder. Nothing was written. Give another folder and run the command again.',
  ],
  [
    ['shopping', 'plan.yaml', '--page', 'list.txt'],
    2,
    '--page: found "list.txt"; the page is a PDF, so a name that ends in .pdf would work',
  ],
  [['shopping', 'plan.yaml', '--as', 'pdf'], 2, '--as: found "pdf"; text, csv or json would work'],
  [
    ['shopping', 'plan.yaml', '--cupboard', 'plan.yaml'],
    2,
    "plan.yaml: this is a plan, not a cupboard. Name the cupboard's own file.",
  ],
  [
    ['cupboard', 'list', '--cupboard', 'plan.yaml'],
    2,
    "plan.yaml: this is a plan, not a cupboard. Name the cupboard's own file.",
  ],
  [['cupboard', 'find', '19'], 2, '"19": no size can be read from it; "19 x 19" or "40 x 60 cm" would work.'],
  [
    ['cupboard', 'correct', 'harbour edn', '--length', '4'],
    2,
    '"harbour edn": no such entry lies in the cupboard. Did you mean "harbour end"?',
  ],
  [
    ['cupboard', 'remove', 'harbour end', '--count', '9'],
    2,
    '--count: there is 1 of "harbour end"; a number up to that would work',
  ],
  [
    ['cupboard', 'done', 'plan.yaml'],
    2,
    'plan.yaml: this is no plan.json of this version. Give the plan.json that `laywright plan` wrote.',
  ],
  [
    ['check', 'cupboard.yaml'],
    2,
    'cupboard.yaml: this is a cupboard, not a plan. Name a plan file; it may draw on this one with cupboard:.',
  ],
];

describe('each bad option earns one clear message, and nothing is written', () => {
  it.each(CASES.map((one, index) => [...one, index] as const))(
    '%j',
    async (words, exitCode, message, index) => {
      const found = await laywrightOf(index, words, { cwd: folder });
      expect(found).toEqual({ exitCode, stdout: '', stderr: `${message}\n` });
      // A cupboard keeps its lock in a hidden folder of its own.
      expect(
        readdirSync(folder)
          .filter((name) => !name.startsWith('.'))
          .sort(),
      ).toEqual(Object.keys(FILES).sort());
      for (const [name, text] of Object.entries(FILES))
        expect(readFileSync(join(folder, name), 'utf8')).toBe(text);
    },
  );

  it('more than thirty of them', () => {
    expect(CASES.length).toBeGreaterThan(30);
  });
});

describe('files that cannot be read among several to check', () => {
  it('are all told, and do not hide what is to be told of the others', async () => {
    const found = await laywright(['check', 'a', 'plan.yaml', 'b', '.'], { cwd: folder });
    expect(found).toEqual({
      exitCode: 2,
      stdout: 'plan.yaml: understood; nothing stands in the way of planning it.\n',
      stderr: [
        'a: no such file. Check the name, or start one with `laywright new`.',
        'b: no such file. Check the name, or start one with `laywright new`.',
        '.: this is a folder. Give the plan file inside it.\n',
      ].join('\n'),
    });
  });

  it('each have a record of their own in JSON', async () => {
    const { exitCode, stdout } = await laywright(['check', 'a', 'plan.yaml', '--json'], { cwd: folder });
    expect(exitCode).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject([
      {
        file: 'a',
        ok: false,
        issues: [
          { code: 'unread', message: 'a: no such file. Check the name, or start one with `laywright new`.' },
        ],
      },
      { file: 'plan.yaml', ok: true, issues: [] },
    ]);
  });
});
