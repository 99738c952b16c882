import { describe, expect, it } from 'vitest';
import type { Kind } from '../../src/packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../../src/packing/pack.ts';
import { bruteFewest, bruteMost, bruteShortest } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { tinyQuestion } from '../support/random-questions.ts';

const STAGES = [2, 3, 'any'] as const;
const EFFORT = 2e5;

describe('the three questions on plain sheets against brute force', () => {
  for (const stages of STAGES) {
    for (const turns of [false, true]) {
      it(`shortest length, stages ${stages}, quarter turns ${turns}`, () => {
        const seen = { best: 0, impossible: 0 };
        for (let seed = 1; seed <= 40; seed++) {
          const { sheet, kinds } = tinyQuestion(seed, { turns, pieces: 6 });
          const question = { sheet: { ...sheet, length: 11 }, kinds };
          const result = shortestLength(question, { effort: EFFORT, seed, stages });
          const known = bruteShortest(question, stages, 11);
          if (known === undefined) {
            expect(result.status, JSON.stringify(question)).toBeOneOf(['impossible', 'unknown']);
            seen.impossible += 1;
            continue;
          }
          expectSoundSheet('shortest', question, result, stages);
          expect(result.value, JSON.stringify(question)).toBe(known);
          if (result.status === 'best') seen.best += 1;
        }
        expect(seen.best).toBeGreaterThan(25);
        expect(seen.impossible).toBeGreaterThan(0);
      });

      it(`most value, stages ${stages}, quarter turns ${turns}`, () => {
        const seen = { best: 0, unlimited: 0 };
        for (let seed = 1; seed <= 30; seed++) {
          const { sheet, kinds } = tinyQuestion(seed, { turns, pieces: 6 });
          const many = seed % 5 === 0;
          const question = {
            sheet: { ...sheet, length: many ? 4 : sheet.length - 3 },
            kinds: kinds.map((kind): Kind => (many ? { ...kind, copies: Number.POSITIVE_INFINITY } : kind)),
          };
          const result = mostFromSheet(question, { effort: EFFORT, seed, stages });
          expectSoundSheet('most', question, result, stages);
          expect(result.value, JSON.stringify(question)).toBe(bruteMost(question, stages));
          if (result.status === 'best') seen.best += 1;
          if (many) seen.unlimited += 1;
        }
        expect(seen.best).toBeGreaterThan(15);
        expect(seen.unlimited).toBe(6);
      });

      it(`cheapest sheets, stages ${stages}, quarter turns ${turns}`, () => {
        const seen = { best: 0, impossible: 0 };
        for (let seed = 1; seed <= 30; seed++) {
          const { sheet, kinds, random } = tinyQuestion(seed, { turns, pieces: 6 });
          const { sheet: other } = tinyQuestion(seed + 900, { turns });
          const sheets = [
            { ...sheet, length: sheet.length - 3, copies: 1 + random.below(2), cost: 47 + random.below(40) },
            { ...other, length: other.length - 4, copies: 1, cost: 31 + random.below(40) },
          ];
          const question = { sheets, kinds };
          const result = fewestSheets(question, { effort: EFFORT, seed, stages });
          const known = bruteFewest(question, stages);
          if (known === undefined) {
            expect(result.status, JSON.stringify(question)).toBeOneOf(['impossible', 'unknown']);
            seen.impossible += 1;
            continue;
          }
          expectSoundSheet('fewest', question, result, stages);
          expect(result.value, JSON.stringify(question)).toBe(known);
          if (result.status === 'best') seen.best += 1;
        }
        expect(seen.best).toBeGreaterThan(10);
        expect(seen.impossible).toBeGreaterThan(0);
      });
    }
  }

  it('most complete sets', () => {
    const values: Record<number, number> = {};
    for (let seed = 1; seed <= 40; seed++) {
      const { sheet, kinds, random } = tinyQuestion(seed, { turns: true, pieces: 6 });
      const set = kinds.map(({ copies }) => (copies > 1 ? 1 + random.below(2) : 1));
      const question = { sheet: { ...sheet, length: sheet.length - 2 }, kinds, set };
      const result = mostFromSheet(question, { effort: EFFORT, seed });
      expectSoundSheet('most', question, result);
      expect(result.value, JSON.stringify(question)).toBe(bruteMost(question, 'any'));
      expect(result.status, JSON.stringify(question)).toBe('best');
      values[result.value] = (values[result.value] ?? 0) + 1;
    }
    expect(values[0]).toBeGreaterThan(2);
    expect(values[1]).toBeGreaterThan(2);
  });
});
