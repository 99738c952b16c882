import { describe, expect, it } from 'vitest';
import { positionalMost } from '../../src/packing/positional/most.ts';
import { bruteMost } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { type Ingredients, tinyQuestion } from '../support/random-questions.ts';

const CASES: readonly [string, Ingredients][] = [
  ['a grid of free cells', { creases: true, flaws: true, turns: true, pieces: 6 }],
  ['forbidden rectangles', { holes: true, turns: true }],
  ['lattices and fixed pieces', { lattices: true, fixed: true, turns: true }],
  ['a mirror', { mirror: true, holes: true, turns: true, pieces: 6 }],
];

describe('positionalMost against brute force', () => {
  for (const [name, ingredients] of CASES) {
    for (const stages of [2, 3, 'any'] as const) {
      it(`with ${name}, stages ${stages}`, () => {
        const seen = { best: 0, partial: 0 };
        for (let seed = 1; seed <= 20; seed++) {
          const { sheet, kinds } = tinyQuestion(seed, ingredients);
          // Small enough a sheet that not everything goes in.
          const question = { sheet: { ...sheet, length: sheet.length - 3 }, kinds };
          const result = positionalMost(question, { effort: 3e5, seed, stages });
          const known = bruteMost(question, stages);
          if (known === undefined) {
            expect(result.status, JSON.stringify(question)).toBeOneOf(['impossible', 'unknown']);
            continue;
          }
          expectSoundSheet('most', question, result, stages);
          expect(result.value, JSON.stringify(question)).toBe(known);
          expect(result.status, JSON.stringify(question)).toBe('best');
          seen.best += 1;
          const all = kinds.reduce((sum, { copies, value }) => sum + copies * value!, 0);
          if (known < all) seen.partial += 1;
        }
        expect(seen.best).toBeGreaterThan(10);
        expect(seen.partial).toBeGreaterThan(3);
      });
    }
  }

  it('counts complete sets', () => {
    const counts: Record<number, number> = {};
    for (let seed = 1; seed <= 60; seed++) {
      const { sheet, kinds, random } = tinyQuestion(seed, {
        ...{
          creases: seed % 2 === 0,
          holes: seed % 3 === 0,
          lattices: seed % 5 === 0,
          mirror: seed % 4 === 1,
        },
        ...{ turns: true, pieces: 6 },
      });
      const set = kinds.map(({ copies }) => (copies > 1 ? 1 + random.below(2) : 1));
      const question = { sheet, kinds, set };
      const result = positionalMost(question, { effort: 3e5, seed });
      expectSoundSheet('most', question, result);
      expect(result.value, JSON.stringify(question)).toBe(bruteMost(question, 'any'));
      expect(result.status, JSON.stringify(question)).toBe('best');
      counts[result.value] = (counts[result.value] ?? 0) + 1;
    }
    expect(counts[0]).toBeGreaterThan(3);
    expect(counts[1]).toBeGreaterThan(3);
    expect(counts[2]).toBeGreaterThan(3);
  });
});
