import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CommandProblem, EXIT } from '../../src/cli/exit-codes.ts';
import { writeNew, writeSet } from '../../src/cli/write-set.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-write-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const startsWithMark = (_name: string, content: Uint8Array) =>
  Buffer.from(content).toString().startsWith('ours');
const inFolder = () =>
  Object.fromEntries(
    readdirSync(folder)
      .sort()
      .map((name) => [name, textOf(name)]),
  );
const textOf = (name: string) => readFileSync(join(folder, name), 'utf8');

function problemOf(action: () => void): CommandProblem {
  try {
    action();
  } catch (problem) {
    if (problem instanceof CommandProblem) return problem;
    throw problem;
  }
  throw new Error('expected a problem');
}

describe('writing a set of files', () => {
  it('makes the folder and writes every file whole', () => {
    const files = [
      { name: 'gull.svg', content: 'ours: a marker' },
      { name: 'book.pdf', content: new Uint8Array([37, 80, 68, 70]) },
    ];
    writeSet(join(folder, 'deep', 'down'), files, startsWithMark);
    expect(readdirSync(join(folder, 'deep', 'down')).sort()).toEqual(['book.pdf', 'gull.svg']);
    expect(textOf('deep/down/gull.svg')).toBe('ours: a marker');
    expect(textOf('deep/down/book.pdf')).toBe('%PDF');
  });

  it('replaces what is ours and leaves nothing else behind', () => {
    writeFileSync(join(folder, 'gull.svg'), 'ours, of yesterday');
    writeSet(folder, [{ name: 'gull.svg', content: 'ours, of today' }], startsWithMark);
    expect(inFolder()).toEqual({ 'gull.svg': 'ours, of today' });
  });

  it('touches nothing when one of the set would replace a file that is not ours', () => {
    writeFileSync(join(folder, 'gull.svg'), 'ours, of yesterday');
    writeFileSync(join(folder, 'notes.svg'), 'drawn by hand');
    const files = [
      { name: 'gull.svg', content: 'ours, of today' },
      { name: 'notes.svg', content: 'ours, of today too' },
    ];
    const problem = problemOf(() => writeSet(folder, files, startsWithMark));
    expect(problem.exitCode).toBe(EXIT.badInput);
    expect(problem.message).toContain(`${join(folder, 'notes.svg')}: this was not written by Laywright`);
    expect(inFolder()).toEqual({ 'gull.svg': 'ours, of yesterday', 'notes.svg': 'drawn by hand' });
  });

  it('puts everything back when a later file cannot be put in place', () => {
    writeFileSync(join(folder, 'a.svg'), 'ours, of yesterday');
    writeFileSync(join(folder, 'd.svg'), 'ours, of last week');
    const files = ['a.svg', 'b.svg', 'c.svg', 'd.svg'].map((name) => ({
      name,
      content: `ours, today: ${name}`,
    }));
    // A folder takes the name c.svg after it was found free: the fault comes when a and b are already in place.
    const meddling = (name: string) => {
      if (name === 'd.svg') mkdirSync(join(folder, 'c.svg', 'full'), { recursive: true });
      return true;
    };
    expect(() => writeSet(folder, files, meddling)).toThrow(CommandProblem);
    expect(readdirSync(folder).sort()).toEqual(['a.svg', 'c.svg', 'd.svg']);
    expect(textOf('a.svg')).toBe('ours, of yesterday');
    expect(textOf('d.svg')).toBe('ours, of last week');
  });

  it('replaces nothing when a later file cannot be put on the disk', () => {
    writeFileSync(join(folder, 'a.svg'), 'ours, of yesterday');
    const files = [
      { name: 'a.svg', content: 'ours, of today' },
      { name: `${'b'.repeat(245)}.svg`, content: 'ours; with its temporary ending the name is too long' },
    ];
    const problem = problemOf(() => writeSet(folder, files, startsWithMark));
    expect(problem.message).toContain('this name is too long');
    expect(inFolder()).toEqual({ 'a.svg': 'ours, of yesterday' });
  });

  it('says that a file stands where the folder should be, and leaves it', () => {
    writeFileSync(join(folder, 'markers'), 'a file');
    const inside = join(folder, 'markers');
    for (const target of [inside, join(inside, 'deeper')]) {
      const problem = problemOf(() => writeSet(target, [{ name: 'x.svg', content: 'ours' }], startsWithMark));
      expect(problem.exitCode).toBe(EXIT.badInput);
      expect(problem.message).toMatch(/is a file, not a folder/);
    }
    expect(inFolder()).toEqual({ markers: 'a file' });
  });
});

describe('writing a new file', () => {
  it('writes it and leaves no temporary file', () => {
    writeNew(join(folder, 'hall.yaml'), 'name: hall\n');
    expect(inFolder()).toEqual({ 'hall.yaml': 'name: hall\n' });
  });

  it('never replaces a file, nor what a link points to', () => {
    writeFileSync(join(folder, 'hall.yaml'), 'mine');
    symlinkSync(join(folder, 'nowhere'), join(folder, 'link.yaml'));
    for (const name of ['hall.yaml', 'link.yaml']) {
      const problem = problemOf(() => writeNew(join(folder, name), 'name: other\n'));
      expect(problem.exitCode).toBe(EXIT.badInput);
      expect(problem.message).toContain('already there, and left as it is');
    }
    expect(textOf('hall.yaml')).toBe('mine');
    expect(readdirSync(folder).sort()).toEqual(['hall.yaml', 'link.yaml']);
  });
});
