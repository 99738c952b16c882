import { describe, expect, it } from 'vitest';
import { positionalShortest } from '../../src/packing/positional/shortest.ts';
import { bruteShortest } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { tinyQuestion } from '../support/random-questions.ts';

describe('positionalShortest on a grid of free cells', () => {
  for (const stages of [2, 3, 'any'] as const) {
    it(`is as short as brute force, stages ${stages}`, () => {
      const seen = { best: 0, impossible: 0 };
      for (let seed = 1; seed <= 60; seed++) {
        const { sheet, kinds } = tinyQuestion(seed, { creases: true, flaws: true, turns: true });
        const question = { sheet: { ...sheet, length: 14 }, kinds };
        const result = positionalShortest(question, { effort: 1e6, seed, stages });
        const known = bruteShortest(question, stages, 14);
        if (known === undefined) {
          expect(result.status, JSON.stringify(question)).toBe('impossible');
          seen.impossible += 1;
          continue;
        }
        expectSoundSheet('shortest', question, result, stages);
        expect(result.status).toBe('best');
        expect(result.value, JSON.stringify(question)).toBe(known);
        seen.best += 1;
      }
      expect(seen.best).toBeGreaterThan(30);
      expect(seen.impossible).toBeGreaterThan(2);
    });
  }
});
