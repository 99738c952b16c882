import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { laywright } from '../support/run-command.ts';

const CUPBOARD = `# The Tern House: linen cupboard
cupboard: Linen cupboard
unit: in
currency: $
entries:
  # bolts
  - name: kelp end
    cloth: kelp check
    width: 45
    length: 1 3/4 yd   # 63 in
    selvedge: 1/2
    washed: yes
    where: top shelf
    since: 2026-02-17
    count: 2
  - { name: kelp strip, cloth: kelp check, width: 17, length: 41, selvedge: { left: 1/2, right: 0 } } # thin
  - { name: gull end, cloth: gull stripe, width: 54, length: 20 1/2, selvedge: 1/2, direction: one-way }
`;

const PLAN = `plan: Pantry
unit: in
currency: $
cupboard: cupboard.yaml
cloths:
  kelp check:
    width: 45
    selvedge: 1/2
    washing: { along: 10 %, across: 5 %, washed: before-cutting }
    price: 8.40 per yd
    buy: yes
    lengths:
      - from cupboard: kelp end
pieces:
  - { name: shelf cloth, count: 3, size: 13 x 29, cloth: kelp check, grain: lengthwise }
`;

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
const come = (before: string, after: string) =>
  linesOf(after).filter((line) => !linesOf(before).includes(line));
const gone = (before: string, after: string) => come(after, before);

describe('looking into the cupboard', () => {
  it('lists it cloth by cloth, and leaves no trace', async () => {
    const { exitCode, stdout, stderr } = await cupboard('list');
    expect([exitCode, stderr]).toEqual([0, '']);
    expect(stdout).toBe(`Linen cupboard: 4 lengths

kelp check
  kelp end    45 x 63 in; 2 alike; both selvedges; washed; top shelf, since
              2026-02-17
  kelp strip  17 x 41 in; left selvedge

gull stripe
  gull end  54 x 20 1/2 in; both selvedges; one-way
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
      expect.stringMatching(/^Put in: end, lime, 70 x 120 cm; both selvedges; since \d{4}-\d\d-\d\d\n$/),
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
    [
      ['list', '--cupboard', 'pantry.yaml'],
      /^pantry.yaml:1:1 entries: missing; .*\npantry.yaml:1:1 plan: "plan" is not known here/,
    ],
    [['find', 'large'], '"large": no size can be read from it; "19 x 19" or "40 x 60 cm" would work.\n'],
    [['find', '0 x 3'], /^"0 x 3": no size can be read/],
    [['done', 'pantry.yaml'], /^pantry.yaml: this is no plan.json of this version/],
    [['done', 'none.json'], /^none.json: no such file/],
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

describe('a plan that draws on the cupboard', () => {
  // Three pieces of 13 x 29 upright side by side take 39 of the 44 usable inches: washed already, nothing shrinks.
  it('is cut from it, booked once when the cutting is done, and undone', async () => {
    const planned = await ran('plan', 'pantry.yaml');
    expect([planned.exitCode, planned.stderr]).toEqual([0, '']);
    expect(planned.stdout).toMatch(/Use +kelp end 1, 45 x 63 in \(cupboard, top shelf\)/);
    const { cupboard: drawn } = JSON.parse(written('pantry-marker', 'plan.json'));
    expect(drawn.takenOut).toMatchObject([{ entry: 'kelp end', copies: 1 }]);
    expect(written('cupboard.yaml')).toBe(CUPBOARD);

    const done = await cupboard('done', 'pantry-marker/plan.json', '--on', '2026-04-17');
    expect([done.exitCode, done.stderr]).toEqual([0, '']);
    expect(linesOf(done.stdout)).toEqual(
      [
        'Booked: Pantry',
        'Taken out: kelp end',
        'Put in: rest of kelp end, kelp check, 45 x 34 in; both selvedges; washed; top',
        '',
      ].map((line) => (line.startsWith('Put') ? expect.stringMatching(new RegExp(`^${line}`)) : line)),
    );
    const after = written('cupboard.yaml');
    expect(gone(CUPBOARD, after)).toEqual(['    count: 2']);
    expect(come(CUPBOARD, after)).toEqual([
      '    count: 1',
      ...['  - name: rest of kelp end', '    length: 34', '    since: 2026-04-17'],
      ...[
        'cut:',
        '  - plan: Pantry',
        '    on: 2026-04-17',
        expect.stringMatching(/^ {4}mark: [0-9a-f]{16}$/),
      ],
    ]);

    const again = await cupboard('done', 'pantry-marker/plan.json');
    expect([again.exitCode, again.stdout]).toEqual([2, '']);
    expect(again.stderr).toMatch(/^"Pantry": this plan was booked in cupboard.yaml on 2026-04-17 already/);
    expect(written('cupboard.yaml')).toBe(after);

    // The same plan made anew is another plan: it may be cut, and booked, as well.
    await ran('plan', 'pantry.yaml');
    expect((await cupboard('done', 'pantry-marker/plan.json')).exitCode).toBe(0);
    expect((await cupboard('undo')).stdout).toBe('Undone: booked the plan "Pantry"\n');
    expect(written('cupboard.yaml')).toBe(after);
    expect((await cupboard('undo')).exitCode).toBe(0);
    expect(written('cupboard.yaml')).toBe(CUPBOARD);
  });

  it('is booked once by several commands at the same time', async () => {
    await ran('plan', 'pantry.yaml', '--write', 'json');
    const done = ['done', 'pantry-marker/plan.json', '--on', '2026-04-17'];
    const all = await Promise.all([1, 2, 3, 4].map(() => cupboard(...done)));
    expect(all.map(({ exitCode }) => exitCode).sort()).toEqual([0, 2, 2, 2]);
    expect(gone(CUPBOARD, written('cupboard.yaml'))).toEqual(['    count: 2']);
    expect(written('cupboard.yaml').match(/rest of kelp end/g)).toHaveLength(1);
  });

  it('washes what was not washed', async () => {
    await cupboard('correct', 'kelp end', '--washed', 'no');
    const { stdout } = await ran('plan', 'pantry.yaml', '--json', '--write', 'nothing');
    const plan = JSON.parse(stdout);
    // 45 in less a twentieth, 63 in less a tenth; the rest of the sheet is washed when it goes back.
    expect(plan.cloths[0].lengths[0]).toMatchObject({
      width: { shown: '42 3/4 in' },
      length: { ticks: Math.floor(63 * 8128 * 0.9) },
    });
    expect(plan.cupboard.putBack.map(({ washed }: { washed: boolean }) => washed)).toEqual([true]);
    const schema = JSON.parse((await ran('schema', 'cut-plan')).stdout);
    const validate = new Ajv2020({ strict: true }).compile(schema);
    expect(validate(plan) || validate.errors).toBe(true);
  });

  it('takes the cupboard that the command names, and the one beside the plan', async () => {
    mkdirSync(join(folder, 'attic'));
    writeFileSync(join(folder, 'attic', 'pantry.yaml'), PLAN);
    const other = CUPBOARD.replace('top shelf', 'chest');
    writeFileSync(join(folder, 'attic', 'cupboard.yaml'), other);
    const beside = await ran('plan', 'attic/pantry.yaml', '--write', 'nothing');
    expect(beside.stdout).toContain('(cupboard, chest)');
    const named = await ran('plan', 'attic/pantry.yaml', '--write', 'nothing', '--cupboard', 'cupboard.yaml');
    expect(named.stdout).toContain('(cupboard, top shelf)');
  });

  it.each([
    [
      'cupboard: cupboard.yaml\n',
      '',
      /^pantry.yaml:\d+:\d+ .*and no cupboard is named; write cupboard: cupboard.yaml/,
    ],
    ['cupboard: cupboard.yaml', 'cupboard: none.yaml', /^none.yaml: no such file/],
    [
      'from cupboard: kelp end',
      'from cupboard: kelp ned',
      /^pantry.yaml:13:24 .*no entry "kelp ned" .*; likely "kelp end"\.\n$/,
    ],
    [
      'from cupboard: kelp end',
      'all from cupboard: kelp chekc',
      /^pantry.yaml:13:28 .*no "kelp chekc" .*; likely "kelp check"\.\n$/,
    ],
    [
      'from cupboard: kelp end',
      'from cupboard: gull end',
      /^pantry.yaml:13:24 .*"gull end" is one-way, and "kelp check" is planned otherwise/,
    ],
    [
      'from cupboard: kelp end',
      '{ from cupboard: kelp end, width: 3 }',
      /^pantry.yaml:13:43 .*write from cupboard alone/,
    ],
    ['from cupboard: kelp end', 'from cuboard: kelp end', /^pantry.yaml:13:9 .*likely "from cupboard"/],
  ])('is told that %s → %s cannot be', async (from, to, message) => {
    writeFileSync(join(folder, 'pantry.yaml'), PLAN.replace(from, to));
    for (const command of ['plan', 'check']) {
      const { exitCode, stdout, stderr } = await ran(command, 'pantry.yaml');
      expect(exitCode).toBe(2);
      expect(stdout + stderr).toMatch(message);
    }
    expect(readdirSync(folder).sort()).toEqual(['cupboard.yaml', 'pantry.yaml']);
  });

  it.each<[string, (text: string) => string, RegExp]>([
    [
      'was taken out since',
      (text) => text.replaceAll('kelp end', 'kelp bolt'),
      /does not lie in the cupboard\. Nothing/,
    ],
    [
      'was cut since',
      (text) => text.replace('1 3/4 yd', '60'),
      /the plan cut 45 in x 63 in, and in the cupboard it is 45 x 60 in/,
    ],
    [
      'lay in another cupboard',
      (text) => text.replace('Linen cupboard', 'Attic chest'),
      /made with the cupboard "Linen cupboard", and cupboard.yaml is "Attic chest"/,
    ],
    [
      'can no longer be read',
      (text) => text.replace('unit: in', 'unit: inn'),
      /^cupboard.yaml:3:7 unit: found "inn"/,
    ],
  ])('is not booked when its length %s', async (_, change, message) => {
    await ran('plan', 'pantry.yaml', '--write', 'json');
    const changed = change(CUPBOARD);
    writeFileSync(join(folder, 'cupboard.yaml'), changed);
    const { exitCode, stdout, stderr } = await cupboard('done', 'pantry-marker/plan.json');
    expect([exitCode, stdout, stderr]).toEqual([2, '', expect.stringMatching(message)]);
    expect(written('cupboard.yaml')).toBe(changed);
  });

  it('is not booked when it was made without a cupboard, nor on a day that is none', async () => {
    const alone = PLAN.replace('cupboard: cupboard.yaml\n', '').replace('- from cupboard: kelp end', '- 63');
    writeFileSync(join(folder, 'alone.yaml'), alone);
    await ran('plan', 'alone.yaml', '--write', 'json');
    const { exitCode, stderr } = await cupboard('done', 'alone-marker/plan.json');
    expect([exitCode, stderr]).toEqual([2, expect.stringMatching(/made without a cupboard/)]);
    const day = await cupboard('done', 'alone-marker/plan.json', '--on', 'today');
    expect([day.exitCode, day.stderr]).toEqual([
      2,
      '--on: found "today"; a day such as 2026-03-14 would work\n',
    ]);
  });
});
