import { describe, expect, it } from 'vitest';
import { positionalShortest } from '../../src/packing/positional/shortest.ts';
import { bruteShortest } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { type Ingredients, tinyQuestion } from '../support/random-questions.ts';

const CASES: readonly [string, Ingredients][] = [
  ['forbidden rectangles', { holes: true, turns: true, pieces: 4 }],
  ['lattices', { lattices: true, turns: true, pieces: 4 }],
  ['fixed pieces', { fixed: true, turns: true, pieces: 4 }],
  ['a mirror', { mirror: true, turns: true, pieces: 6 }],
  ['a mirror and all else', { mirror: true, holes: true, lattices: true, turns: true, pieces: 6 }],
  ['all of them', { holes: true, creases: true, lattices: true, fixed: true, turns: true, pieces: 4 }],
];

describe('positionalShortest against brute force', () => {
  for (const [name, ingredients] of CASES) {
    for (const stages of [2, 3, 'any'] as const) {
      it(`with ${name}, stages ${stages}`, () => {
        const seen = { best: 0, impossible: 0 };
        for (let seed = 1; seed <= 24; seed++) {
          const { sheet, kinds } = tinyQuestion(seed, ingredients);
          const question = { sheet: { ...sheet, length: 13 }, kinds };
          const result = positionalShortest(question, { effort: 3e5, seed, stages });
          const known = bruteShortest(question, stages, 13);
          if (known === undefined) {
            expect(result.status, JSON.stringify(question)).toBe('impossible');
            seen.impossible += 1;
            continue;
          }
          expectSoundSheet('shortest', question, result, stages);
          expect(result.value, JSON.stringify(question)).toBe(known);
          expect(result.status, JSON.stringify(question)).toBe('best');
          seen.best += 1;
        }
        expect(seen.best).toBeGreaterThan(10);
      });
    }
  }
});
