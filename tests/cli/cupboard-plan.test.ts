import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
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
        'Put in: rest of kelp end, kelp check, 45 x 34 in; both selvedges \\(1/2 in each\\); washed; top',
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

  it('books in the cupboard that the plan drew on, whatever lies beside the command', async () => {
    mkdirSync(join(folder, 'attic'));
    writeFileSync(join(folder, 'attic', 'pantry.yaml'), PLAN.replace('cupboard.yaml', 'chest.yaml'));
    writeFileSync(join(folder, 'attic', 'chest.yaml'), CUPBOARD);
    await ran('plan', 'attic/pantry.yaml', '--out', 'attic/markers');
    const plan = JSON.parse(written('attic', 'markers', 'plan.json'));
    expect(plan.cupboard.file).toBe(join('attic', 'chest.yaml'));
    const done = await cupboard('done', 'attic/markers/plan.json', '--on', '2026-04-17');
    expect([done.exitCode, done.stderr]).toEqual([0, '']);
    expect(written('cupboard.yaml')).toBe(CUPBOARD);
    expect(written('attic', 'chest.yaml')).toContain('rest of kelp end');
    // Made in another folder, it is the same plan, and is booked once; seen from elsewhere, its file is found beside it.
    const moved = await laywright(['plan', 'pantry.yaml', '--out', 'markers'], {
      cwd: join(folder, 'attic'),
    });
    expect(moved.exitCode).toBe(0);
    const elsewhere = await cupboard('done', 'attic/markers/plan.json', '--on', '2026-04-18');
    expect([elsewhere.exitCode, elsewhere.stderr]).toEqual([0, '']);
    expect(written('attic', 'chest.yaml').match(/on: 2026-04-1[78]/g)).toHaveLength(2);
    expect(written('cupboard.yaml')).toBe(CUPBOARD);
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
