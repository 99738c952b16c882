import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CUPBOARD, linesNew, PLAN } from '../support/cupboard-files.ts';
import { laywright } from '../support/run-command.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-cupboard-'));
  writeFileSync(join(folder, 'cupboard.yaml'), CUPBOARD);
  writeFileSync(join(folder, 'pantry.yaml'), PLAN);
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const ran = (...words: string[]) => laywright(words, { cwd: folder });
const cupboard = (...words: string[]) => ran('cupboard', ...words);
const written = (...path: string[]) => readFileSync(join(folder, ...path), 'utf8');
const linesOf = (text: string) => text.split('\n');
const come = linesNew;
const gone = (before: string, after: string) => linesNew(after, before);

describe('looking into the cupboard', () => {
  it('lists it cloth by cloth, and leaves no trace', async () => {
    const { exitCode, stdout, stderr } = await cupboard('list');
    expect([exitCode, stderr]).toEqual([0, '']);
    expect(stdout).toBe(`Linen cupboard: 4 lengths

kelp check
  kelp end    45 x 63 in; 2 alike; both selvedges (1/2 in each); washed; top
              shelf, since 2026-02-17
  kelp strip  17 x 41 in; left selvedge (1/2 in)

gull stripe
  gull end  54 x 20 1/2 in; both selvedges (1/2 in each); one-way
`);
    expect(readdirSync(folder).sort()).toEqual(['cupboard.yaml', 'pantry.yaml']);
  });

  it('lists one cloth as JSON', async () => {
    const { stdout } = await cupboard('list', 'gull stripe', '--json');
    const { entries, ...rest } = JSON.parse(stdout);
    expect(rest).toEqual({ name: 'Linen cupboard', unit: 'in', currency: '$' });
    expect(entries).toEqual([
      {
        ...{ name: 'gull end', cloth: 'gull stripe', grain: 'lengthwise', direction: 'one-way' },
        width: { ticks: 54 * 8128, shown: '54 in' },
        length: { ticks: 20.5 * 8128, shown: '20 1/2 in' },
        selvedge: { left: { ticks: 4064, shown: '1/2 in' }, right: { ticks: 4064, shown: '1/2 in' } },
        ...{ crease: { kind: 'none' }, washed: false, count: 1 },
      },
    ]);
  });

  // Of 44 x 63 usable: 2 x 3 squares of 19 in; of 53 x 20 1/2: 2; of 16 1/2 x 41: none.
  it('finds what holds a 19 in square, the smallest first', async () => {
    const { exitCode, stdout } = await cupboard('find', '19 x 19');
    expect(exitCode).toBe(0);
    const rows = linesOf(stdout).filter((line) => /^ {2}\S/.test(line));
    expect(rows.map((row) => /^ {2}(.+?) {2,}.*?; (holds \d+);/.exec(row)?.slice(1))).toEqual([
      ['gull end', 'holds 2'],
      ['kelp end', 'holds 6'],
    ]);
  });

  it.each([
    // Lying down, 40 x 16 fits the strip on its side; upright it needs 40 in of width.
    [['40 x 16'], ['kelp strip', 'gull end', 'kelp end']],
    [
      ['40 x 16', '--upright'],
      ['gull end', 'kelp end'],
    ],
    // The one-way cloth is never turned: its 20 1/2 in of length are too short for 40.
    [['16 x 40'], ['kelp strip', 'kelp end']],
    [['16 x 40', '--cloth', 'gull stripe'], []],
    [['60 x 60 cm'], ['kelp end']],
    [['1 x 64'], []],
  ])('finds what holds %j', async (words, names) => {
    const { exitCode, stdout } = await cupboard('find', ...words, '--json');
    expect(exitCode).toBe(0);
    expect(JSON.parse(stdout).map(({ entry }: { entry: { name: string } }) => entry.name)).toEqual(names);
  });

  it('does not count small pieces to the end', async () => {
    const { stdout } = await cupboard('find', '1/8 x 1/8', '--json');
    expect(JSON.parse(stdout).map(({ holds, proven }: Record<string, unknown>) => [holds, proven])).toEqual([
      ...[
        [60, false],
        [60, false],
        [60, false],
      ],
    ]);
  });

  it('says that nothing holds it', async () => {
    expect(await cupboard('find', '60 x 70')).toEqual({
      exitCode: 0,
      stdout: 'Nothing in the cupboard holds 60 x 70 in.\n',
      stderr: '',
    });
  });
});

describe('changing the cupboard', () => {
  it('begins a file where there is none', async () => {
    const words = [
      '--cloth',
      'lime',
      '--width',
      '70',
      '--length',
      '1.2 m',
      '--selvedge',
      '1',
      '--unit',
      'cm',
    ];
    const { exitCode, stdout } = await cupboard('add', 'end', ...words, '--cupboard', 'attic.yaml');
    expect([exitCode, stdout]).toEqual([
      0,
      expect.stringMatching(
        /^Put in: end, lime, 70 x 120 cm; both selvedges \(1 cm each\); since \d{4}-\d\d-\d\d\n$/,
      ),
    ]);
    expect(written('attic.yaml')).toMatch(/^cupboard: attic\nunit: cm\n/m);
  });

  it('adds, corrects, removes and undoes, each in one entry alone', async () => {
    const texts = [CUPBOARD];
    const step = async (...words: string[]) => {
      const { exitCode, stderr } = await cupboard(...words);
      expect([exitCode, stderr]).toEqual([0, '']);
      const before = texts.at(-1)!;
      texts.push(written('cupboard.yaml'));
      return { gone: gone(before, texts.at(-1)!), come: come(before, texts.at(-1)!) };
    };
    const size = ['--width', '11', '--length', '38'];
    const edges = ['--selvedge', '0', '--right', '3/8', '--since', '2026-05-06'];
    expect(await step('add', 'dune end', '--cloth', 'dune', ...size, ...edges, '--note', 'odd: #1')).toEqual({
      gone: [],
      come: [
        ...['  - name: dune end', '    cloth: dune', '    width: 11', '    length: 38'],
        ...['    selvedge: { left: 0, right: 3/8 }', '    since: 2026-05-06', '    note: "odd: #1"'],
      ],
    });
    expect(await step('correct', 'kelp end', '--length', '61 1/2', '--clear', 'where,washed')).toEqual({
      gone: ['    length: 1 3/4 yd   # 63 in', '    washed: yes', '    where: top shelf'],
      come: ['    length: 61 1/2   # 63 in'],
    });
    expect(await step('correct', 'kelp strip', '--right', '1/4', '--name', 'kelp band')).toEqual({
      gone: [linesOf(CUPBOARD)[15]],
      come: [
        '  - { name: kelp band, cloth: kelp check, width: 17, length: 41, selvedge: { left: 1/2, right: 1/4 } } # thin',
      ],
    });
    expect(await step('remove', 'kelp end', '--count', '1')).toEqual({
      gone: ['    count: 2'],
      come: ['    count: 1'],
    });
    expect(await step('remove', 'gull end')).toEqual({ gone: [linesOf(CUPBOARD)[16]], come: [] });
    for (let back = texts.length - 2; back >= 0; back -= 1) {
      expect((await cupboard('undo')).exitCode).toBe(0);
      expect(written('cupboard.yaml')).toBe(texts[back]);
    }
    expect(await cupboard('undo')).toEqual({
      ...{ exitCode: 2, stdout: '' },
      stderr: 'cupboard.yaml: there is no change that could be undone.\n',
    });
  });

  it('undoes nothing that would lose what was changed by hand', async () => {
    await cupboard('remove', 'gull end');
    writeFileSync(join(folder, 'cupboard.yaml'), written('cupboard.yaml').replace('# bolts', '# rolls'));
    const { exitCode, stderr } = await cupboard('undo');
    expect([exitCode, stderr]).toEqual([2, expect.stringMatching(/^cupboard.yaml: it was changed by hand/)]);
    expect(written('cupboard.yaml')).toContain('# rolls');
  });
});

const ADD = ['add', 'new', '--cloth', 'lime', '--width', '9', '--length', '31', '--selvedge', '0'];

describe('what cannot be done', () => {
  it.each<[readonly string[], string | RegExp]>([
    [
      ['add', 'new', '--cloth', 'lime'],
      /^--width: this is needed, .*\n--length: .*\n--selvedge: this is needed, such as --selvedge "1\/2"\n$/,
    ],
    [[...ADD, '--width', '9 inn'], /^--width: found "9 inn" \("inn" is no unit.*likely "in"\)/],
    [[...ADD, '--left', 'x'], /^--left: found "x"/],
    [[...ADD, '--selvedge', '5'], /^--selvedge: the selvedges take 10 in, more than the 9 in there is/],
    [[...ADD, '--since', '2026-02-30'], '--since: found "2026-02-30"; write a day that the calendar has.\n'],
    [[...ADD, '--count', '0'], /^--count: found "0"; write a number from 1 to 10000/],
    [[...ADD, '--runs', 'up'], /^--runs: found "up"; write along or across/],
    [[...ADD, '--worth', '6 per yd'], /^--worth: found "6 per yd" \(likely "6 per sq yd"\)/],
    [[...ADD, '--unit', 'cm'], '--unit: cupboard.yaml counts in in already; leave --unit out.\n'],
    [
      [...ADD, '--cupboard', 'nowhere/c.yaml'],
      /^nowhere\/c.yaml: no such file. To begin a cupboard there, say --unit/,
    ],
    [
      [...ADD, '--cupboard', 'nowhere/c.yaml', '--unit', 'in'],
      'nowhere/c.yaml: there is no such folder. Nothing was changed.\n',
    ],
    [['add', 'gull end', ...ADD.slice(2)], /^"gull end": an entry is called so already/],
    [
      ['add', 'kelp end 2', ...ADD.slice(2)],
      /^"kelp end 2": its name and that of "kelp end" run into each other/,
    ],
    [['correct', 'gull end'], '"gull end": say what to correct, such as --length 40.\n'],
    [
      ['correct', 'gul end', '--length', '9'],
      '"gul end": no such entry lies in the cupboard. Did you mean "gull end"?\n',
    ],
    [
      ['correct', 'kelp strip', '--grain', 'crosswise'],
      /^--grain: found "crosswise"; write lengthwise and change/,
    ],
    [['correct', 'kelp strip', '--clear', 'cloth'], /^--clear: found "cloth"; any of crease, grain, /],
    [['remove', 'tern end'], /^"tern end": no such entry lies in the cupboard/],
    [
      ['remove', 'kelp end', '--count', '3'],
      '--count: there are 2 of "kelp end"; a number up to that would work\n',
    ],
    [['list', 'gull strip'], '"gull strip": no such cloth lies in the cupboard. Did you mean gull stripe?\n'],
    [['list', '--cupboard', 'none.yaml'], /^none.yaml: no such file/],
    [['list', '--cupboard', '.'], '.: this is a folder; give the file inside it. Nothing was changed.\n'],
    [['list', '--cupboard', 'pantry.yaml'], /^pantry.yaml: this is a plan, not a cupboard\./],
    [['find', 'large'], '"large": no size can be read from it; "19 x 19" or "40 x 60 cm" would work.\n'],
    [['find', '0 x 3'], /^"0 x 3": no size can be read/],
    [['done', 'pantry.yaml'], /^pantry.yaml: this is no plan.json of this version/],
    [
      ['done', 'none.json'],
      /^none.json: no such file. Check the name, or write one with `laywright plan`.$/m,
    ],
    [['done', '.'], /^.: this is a folder. Give the plan.json inside it.$/m],
    [['lsit'], /unknown command 'lsit'/],
  ])('%j', async (words, message) => {
    const { exitCode, stdout, stderr } = await cupboard(...words);
    expect([exitCode, stdout]).toEqual([2, '']);
    if (typeof message === 'string') expect(stderr).toBe(message);
    else expect(stderr).toMatch(message);
    expect(written('cupboard.yaml')).toBe(CUPBOARD);
    expect(existsSync(join(folder, 'nowhere'))).toBe(false);
  });
});
