import type { ChildProcess } from 'node:child_process';
import {
  chmodSync,
  lstatSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { cupboardText } from '../../src/cli/cupboard/change.ts';
import { NODE_DISK } from '../../src/cli/cupboard/disk.ts';
import { isGone, selfHolder } from '../../src/cli/cupboard/lock.ts';
import { readCupboard } from '../../src/model/cupboard-file.ts';
import { COMMAND, laywright, type Ran, run } from '../support/run-command.ts';

const BEGINNING = `# The Tern House: linen cupboard
cupboard: Linen cupboard
unit: in

entries:
  # bolts
  - { name: kelp end, cloth: kelp check, width: 45, length: 61, selvedge: 1/2, count: 40 } # heavy
`;

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-cupboard-'));
  file = join(folder, 'cupboard.yaml');
  writeFileSync(file, BEGINNING);
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const kept = (...path: string[]) => join(folder, '.cupboard.yaml.kept', ...path);
const add = (name: string) => [
  ...['cupboard', 'add', name, '--cloth', 'lime wash', '--since', '2026-04-17'],
  ...['--width', '17', '--length', '23', '--selvedge', '0'],
];

/** Name → count, as a reader sees them now. */
function stock(): Record<string, number> {
  const read = readCupboard(cupboardText(file, NODE_DISK)!, { file });
  if (!read.ok) throw new Error(`the file cannot be read: ${JSON.stringify(read.issues)}`);
  return Object.fromEntries(read.value.entries.map(({ name, count }) => [name, count]));
}

/**
 * The command as a process of its own that is killed when so many changes were seen in the folder where it works;
 * undefined where it was killed, and what it said where it was quicker.
 */
async function killedAt(words: readonly string[], changes: number): Promise<Ran | undefined> {
  let seen = 0;
  let killed = false;
  let process: ChildProcess | undefined;
  const watcher = watch(kept(), () => {
    seen += 1;
    if (seen === changes) killed = process?.kill('SIGKILL') ?? false;
  });
  const onStart = (child: ChildProcess) => {
    process = child;
  };
  const ran = await laywright(words, { cwd: folder, onStart });
  watcher.close();
  return killed && ran.exitCode === null ? undefined : ran;
}

describe('commands at the same time', () => {
  it('each find the work of the others: nothing is lost, nothing doubled', async () => {
    const names = Array.from({ length: 8 }, (_, index) => `piece no. ${index + 1}`);
    const removals = Array.from({ length: 5 }, () => ['cupboard', 'remove', 'kelp end', '--count', '1']);
    const ran = await Promise.all(
      [...names.map(add), ...removals].map((words) => laywright(words, { cwd: folder })),
    );
    expect(ran.map(({ exitCode, stderr }) => [exitCode, stderr])).toEqual(ran.map(() => [0, '']));
    expect(stock()).toEqual({ 'kelp end': 35, ...Object.fromEntries(names.map((name) => [name, 1])) });
    expect(readdirSync(folder).sort()).toEqual(['.cupboard.yaml.kept', 'cupboard.yaml']);
    expect(readdirSync(kept()).filter((name) => !/^\d{6}\.(?:json|done)$/.test(name))).toEqual([]);
  });
});

describe('commands that are killed', () => {
  it('have done all of their work or none of it, forty times at random moments', async () => {
    // Park and Miller, Random Number Generators: Good Ones Are Hard to Find, 1988.
    let seed = 20_261_125;
    const random = () => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed / 2_147_483_647;
    };
    await laywright(add('piece no. 0'), { cwd: folder });
    let expected = stock();
    expect(expected).toEqual({ 'kelp end': 40, 'piece no. 0': 1 });
    let finished = 0;
    const killed = { without: 0, within: 0 };
    for (let number = 1; number <= 40; number += 1) {
      const adds = random() < 0.5;
      const words = adds ? add(`piece no. ${number}`) : ['cupboard', 'remove', 'kelp end', '--count', '1'];
      const after = adds
        ? { ...expected, [`piece no. ${number}`]: 1 }
        : { ...expected, 'kelp end': expected['kelp end']! - 1 };
      const spared = number % 8 === 0;
      const ran = await killedAt(words, spared ? Number.POSITIVE_INFINITY : 1 + Math.floor(24 * random()));
      const now = stock();
      if (ran !== undefined) {
        expect([ran.exitCode, ran.stderr]).toEqual([0, '']);
        expect(now).toEqual(after);
        finished += 1;
      } else {
        expect([JSON.stringify(expected), JSON.stringify(after)]).toContain(JSON.stringify(now));
        killed[JSON.stringify(now) === JSON.stringify(after) ? 'within' : 'without'] += 1;
      }
      expected = now;
    }
    expect(killed.without + killed.within).toBeGreaterThan(15);
    expect(Math.min(killed.without, killed.within)).toBeGreaterThan(0);
    expect(finished).toBeGreaterThanOrEqual(5);
    // The next command completes what was left, and takes the lock of the dead and their unfinished files away.
    const { exitCode } = await laywright(add('last piece'), { cwd: folder });
    expect(exitCode).toBe(0);
    expect(stock()).toEqual({ ...expected, 'last piece': 1 });
    expect(readFileSync(file, 'utf8')).toBe(cupboardText(file, NODE_DISK));
    expect(readFileSync(file, 'utf8')).toMatch(
      /^# The Tern House: linen cupboard\n[\s\S]*# bolts\n.*# heavy\n/,
    );
    expect(readdirSync(kept()).filter((name) => !/^\d{6}\.(?:json|done)$/.test(name))).toEqual([]);
  });

  it('are completed by the next, once what they were to do is on the disk', async () => {
    await laywright(add('first piece'), { cwd: folder });
    const after = readFileSync(file, 'utf8');
    // As a kill between the record and the file leaves it.
    writeFileSync(file, BEGINNING);
    rmSync(kept('000001.done'));
    expect(stock()).toEqual({ 'kelp end': 40, 'first piece': 1 });
    const listed = await laywright(['cupboard', 'list', '--json'], { cwd: folder });
    expect(JSON.parse(listed.stdout).entries.map((entry: { name: string }) => entry.name)).toEqual([
      'kelp end',
      'first piece',
    ]);
    await laywright(['cupboard', 'undo'], { cwd: folder });
    expect(readFileSync(file, 'utf8')).toBe(BEGINNING);
    expect(after).not.toBe(BEGINNING);
  });

  it('never make a change again that was taken back by hand', async () => {
    await laywright(add('first piece'), { cwd: folder });
    writeFileSync(file, BEGINNING);
    await laywright(add('second piece'), { cwd: folder });
    expect(stock()).toEqual({ 'kelp end': 40, 'second piece': 1 });
  });
});

describe('the lock', () => {
  const self = selfHolder();

  it.each([
    ['this process', self, false],
    ['a process that is no more', { ...self, pid: 2 ** 22 + 7 }, true],
    ['an earlier process of the same number', { ...self, start: '1' }, process.platform === 'linux'],
    ['a process before the machine was started anew', { ...self, boot: 'another' }, true],
    ['a process on another machine', { ...self, host: `not ${hostname()}`, pid: 2 ** 22 + 7 }, false],
  ])('of %s', (_, holder, gone) => {
    expect(isGone(holder)).toBe(gone);
  });

  it('of a dead process is taken away, as is one that a loss of power broke', async () => {
    await laywright(add('first piece'), { cwd: folder });
    writeFileSync(kept('lock'), JSON.stringify({ ...self, pid: 2 ** 22 + 7 }));
    expect((await laywright(add('second piece'), { cwd: folder })).exitCode).toBe(0);
    writeFileSync(kept('lock'), '\0\0\0');
    expect((await laywright(add('third piece'), { cwd: folder })).exitCode).toBe(0);
    expect(Object.keys(stock())).toHaveLength(4);
  });

  it('of a living process is waited for', async () => {
    await laywright(add('first piece'), { cwd: folder });
    writeFileSync(kept('lock'), JSON.stringify(self));
    const waiting = laywright(add('second piece'), { cwd: folder });
    await new Promise((resolve) => setTimeout(resolve, 1200));
    expect(stock()).toEqual({ 'kelp end': 40, 'first piece': 1 });
    rmSync(kept('lock'));
    expect((await waiting).exitCode).toBe(0);
    expect(stock()).toEqual({ 'kelp end': 40, 'first piece': 1, 'second piece': 1 });
  });
});

describe('the disk', () => {
  // A limit on the size of files ends a write half-way, as a full disk does.
  it.runIf(process.platform === 'linux')('that takes no more leaves the cupboard as it was', async () => {
    const long = 'x'.repeat(50);
    const many = Array.from(
      { length: 40 },
      (_, index) => `  - { name: ${long} ${index}, cloth: lime, width: 3, length: 5, selvedge: 0 }\n`,
    );
    writeFileSync(file, BEGINNING + many.join(''));
    const before = readFileSync(file, 'utf8');
    const words = `"${process.execPath}" "${COMMAND}" cupboard remove "kelp end"`;
    const { exitCode, stdout, stderr } = await run('bash', ['-c', `ulimit -f 4; exec ${words}`], {
      cwd: folder,
    });
    expect([exitCode, stdout]).toEqual([1, '']);
    expect(stderr).toBe('cupboard.yaml: the file would be larger than allowed here. Nothing was changed.\n');
    expect(readFileSync(file, 'utf8')).toBe(before);
    expect(readdirSync(kept())).toEqual([]);
  });

  it('keeps a link a link and the permissions of the file', async () => {
    symlinkSync('cupboard.yaml', join(folder, 'ours.yaml'));
    chmodSync(file, 0o640);
    const { exitCode } = await laywright([...add('first piece'), '--cupboard', 'ours.yaml'], { cwd: folder });
    expect(exitCode).toBe(0);
    expect(stock()).toEqual({ 'kelp end': 40, 'first piece': 1 });
    expect(readdirSync(folder).sort()).toEqual(['.cupboard.yaml.kept', 'cupboard.yaml', 'ours.yaml']);
    expect(lstatSync(join(folder, 'ours.yaml')).isSymbolicLink()).toBe(true);
    expect(statSync(file).mode & 0o777).toBe(0o640);
  });
});
