import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laywrightOf } from '../support/run-here.ts';

interface BadPlan {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** What its message must say. */
  readonly words: readonly string[];
}

const BAD_PLANS = fileURLToPath(new URL('../../fixtures/cases/bad-plans', import.meta.url));
const cases: readonly BadPlan[] = JSON.parse(readFileSync(join(BAD_PLANS, 'index.json'), 'utf8'));

let folder: string;
let before: readonly string[];
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-bad-'));
  cpSync(BAD_PLANS, folder, { recursive: true });
  before = readdirSync(folder).sort();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

describe('a bad plan file', () => {
  it('is kept in every kind there is a message for', () => {
    expect(cases.length).toBeGreaterThanOrEqual(60);
    expect(new Set(cases.map(({ file }) => file)).size).toBe(cases.length);
  });

  it.each(cases.map((bad, index) => [bad.file, bad, index] as const))(
    '%s gives one clear message and exit code 2, and writes nothing',
    async (file, { line, column, words }, index) => {
      const { exitCode, stdout, stderr } = await laywrightOf(index, ['plan', file], { cwd: folder });
      expect([exitCode, stdout]).toEqual([2, '']);
      const messages = stderr.trimEnd().split('\n');
      expect(messages).toHaveLength(1);
      expect(messages[0]).toMatch(new RegExp(`^${file.replaceAll('.', '\\.')}:${line}:${column} `));
      for (const word of words) expect(stderr).toContain(word);
      expect(readdirSync(folder).sort()).toEqual(before);
    },
  );
});
