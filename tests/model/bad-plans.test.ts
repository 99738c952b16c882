import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { wordIssue } from '../../src/model/messages.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { specs } from './specs.ts';

/** One bad plan file and the single message it must earn; the test of the command reads the same list. */
interface BadPlan {
  readonly file: string;
  readonly code: string;
  readonly line: number;
  readonly column: number;
  /** Each stands in the message. */
  readonly words: readonly string[];
}

const folder = new URL('../../fixtures/cases/bad-plans/', import.meta.url);
const badPlans: readonly BadPlan[] = JSON.parse(readFileSync(new URL('index.json', folder), 'utf8'));

describe('each bad plan file earns exactly one clear message', () => {
  test.each(badPlans)('$file', ({ file, code, line, column, words }) => {
    const text = readFileSync(new URL(file, folder), 'utf8');
    const outcome = readPlan(text, { file, makes: specs });
    const unit = text.includes('unit: cm') ? 'cm' : 'in';
    const messages = outcome.issues.map((issue) => wordIssue(issue, unit));
    expect(outcome.ok).toBe(false);
    expect(messages).toHaveLength(1);
    expect([outcome.issues[0].code, outcome.issues[0].severity]).toEqual([code, 'error']);
    expect(messages[0].startsWith(`${file}:${line}:${column} `)).toBe(true);
    for (const word of words) expect(messages[0]).toContain(word);
    // One line, for a person: nothing of our own innards shows.
    expect(messages[0]).not.toMatch(/\n|undefined|\[object|\{(?:found|part|name)\}|tick/);
  });

  test('there are at least sixty, and the list and the folder agree', () => {
    const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
    expect(badPlans.length).toBeGreaterThanOrEqual(60);
    expect([...files].sort()).toEqual(badPlans.map((bad) => bad.file).sort());
  });

  test('no two of them are the same text', () => {
    const texts = badPlans.map((bad) => readFileSync(new URL(bad.file, folder), 'latin1'));
    expect(new Set(texts).size).toBe(badPlans.length);
  });
});
