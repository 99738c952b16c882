import { describe, expect, it } from 'vitest';
import type { Sheet } from '../../src/packing/instance.ts';
import { positionalFewest } from '../../src/packing/positional/fewest.ts';
import { bruteFewest } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { type Ingredients, tinyQuestion } from '../support/random-questions.ts';

const CASES: readonly [string, Ingredients][] = [
  ['grids of free cells', { creases: true, flaws: true, turns: true, pieces: 6 }],
  ['forbidden rectangles and lattices', { holes: true, lattices: true, turns: true }],
  ['fixed pieces', { fixed: true, turns: true }],
  ['mirrors', { mirror: true, holes: true, turns: true, pieces: 6 }],
];

describe('positionalFewest against brute force', () => {
  for (const [name, ingredients] of CASES) {
    for (const stages of [2, 'any'] as const) {
      it(`with ${name}, stages ${stages}`, () => {
        const seen = { best: 0, impossible: 0, several: 0 };
        for (let seed = 1; seed <= 20; seed++) {
          const { sheet, kinds, random } = tinyQuestion(seed, ingredients);
          const { sheet: other } = tinyQuestion(seed + 500, { ...ingredients, fixed: false });
          const shorter = ({ length, ...rest }: Sheet): Sheet => ({ ...rest, length: length - 3 });
          const sheets = [
            { ...shorter(sheet), copies: 1 + random.below(2), cost: 50 + random.below(40) },
            { ...shorter(other), copies: 1, cost: 30 + random.below(40) },
          ];
          const question = { sheets, kinds };
          const result = positionalFewest(question, { effort: 3e5, seed, stages });
          const known = bruteFewest(question, stages);
          if (known === undefined) {
            expect(result.status, JSON.stringify(question)).toBe('impossible');
            seen.impossible += 1;
            continue;
          }
          expectSoundSheet('fewest', question, result, stages);
          expect(result.value, JSON.stringify(question)).toBe(known);
          expect(result.status, JSON.stringify(question)).toBe('best');
          seen.best += 1;
          if (result.sheets.length > 1) seen.several += 1;
        }
        expect(seen.best).toBeGreaterThan(8);
        expect(seen.several).toBeGreaterThan(0);
      });
    }
  }
});
