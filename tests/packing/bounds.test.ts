import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { counting, dropping, rounding, type SizeFunction } from '../../src/packing/bounds/dual-feasible.ts';
import { sheetsBound } from '../../src/packing/bounds/sheets-bound.ts';
import { stripBound } from '../../src/packing/bounds/strip-bound.ts';
import { valueBound } from '../../src/packing/bounds/value-bound.ts';
import type { Kind } from '../../src/packing/instance.ts';
import { type BenchQuestion, questionsOf, readFamily } from '../bench/families.ts';
import { bruteFewest, bruteMost, bruteShortest } from '../support/brute-force.ts';
import { tinyQuestion } from '../support/random-questions.ts';
import { splitSheet } from '../support/split-sheet.ts';

function published(path: string): BenchQuestion[] {
  return questionsOf(readFamily(`fixtures/published/${path}`));
}

describe('dual feasible functions', () => {
  const families: [
    name: string,
    make: (capacity: number, parameter: number) => SizeFunction,
    most: number,
  ][] = [
    ['rounding, u(k)', rounding, 12],
    ['dropping, U(ε)', dropping, Number.POSITIVE_INFINITY],
    ['counting, f(α)', counting, Number.POSITIVE_INFINITY],
  ];
  for (const [name, make, most] of families) {
    it(`${name}: whole, rising and superadditive at every pair of sizes up to 41`, () => {
      for (let capacity = 2; capacity <= 41; capacity += 1) {
        for (let parameter = 1; parameter <= Math.min(most, capacity / 2); parameter += 1) {
          const f = make(capacity, parameter);
          for (let a = 0; a <= capacity; a += 1) {
            expect(Number.isInteger(f(a))).toBe(true);
            for (let b = 0; a + b <= capacity; b += 1) {
              if (f(a) + f(b) > f(a + b))
                expect.fail(`f(${a}) + f(${b}) > f(${a + b}), ${capacity}, ${parameter}`);
            }
          }
        }
      }
    });
  }
});

describe('bounds against brute force', () => {
  it('stripBound is never above the least length, and meets it often', () => {
    const seen = { met: 0, below: 0, impossible: 0 };
    for (let seed = 1; seed <= 60; seed += 1) {
      const { sheet, kinds } = tinyQuestion(seed, { turns: seed % 2 === 0, pieces: 5 });
      const question = { sheet: { ...sheet, length: 24 }, kinds };
      const least = bruteShortest(question, 'any', 24);
      const bound = stripBound(question);
      if (least === undefined) {
        seen.impossible += 1;
        continue;
      }
      expect(bound, JSON.stringify(question)).toBeLessThanOrEqual(least);
      seen[bound === least ? 'met' : 'below'] += 1;
    }
    expect(seen.met).toBeGreaterThan(25);
    expect(seen.below).toBeGreaterThan(0);
  });

  it('sheetsBound is never above the least cost, and meets it often', () => {
    const seen = { met: 0, below: 0, impossible: 0 };
    for (let seed = 101; seed <= 180; seed += 1) {
      const { sheet, kinds, random } = tinyQuestion(seed, { turns: seed % 2 === 1, pieces: 5 });
      const sheets = [
        { ...sheet, copies: 2, cost: 31 + random.below(20) },
        { width: sheet.width + 2, length: sheet.length - 1, copies: 1, cost: 29 + random.below(30) },
      ];
      const least = bruteFewest({ sheets, kinds }, 'any');
      if (least === undefined) {
        seen.impossible += 1;
        continue;
      }
      const bound = sheetsBound({ sheets, kinds });
      expect(bound, JSON.stringify({ sheets, kinds })).toBeLessThanOrEqual(least);
      seen[bound === least ? 'met' : 'below'] += 1;
    }
    expect(seen.met).toBeGreaterThan(7);
    expect(seen.below).toBeGreaterThan(0);
  });

  it('valueBound is never below the greatest value, and meets it often', () => {
    const seen = { met: 0, above: 0 };
    for (let seed = 201; seed <= 260; seed += 1) {
      const { sheet, kinds, random } = tinyQuestion(seed, { turns: seed % 2 === 1, pieces: 5 });
      const worth = kinds.map(
        (kind): Kind => ({ ...kind, value: kind.width * kind.length + random.below(9) }),
      );
      const question = { sheet: { ...sheet, length: sheet.length - 2 }, kinds: worth };
      const most = bruteMost(question, 'any')!;
      const bound = valueBound(question);
      expect(bound, JSON.stringify(question)).toBeGreaterThanOrEqual(most);
      seen[bound === most ? 'met' : 'above'] += 1;
    }
    expect(seen.met).toBeGreaterThan(25);
    expect(seen.above).toBeGreaterThan(0);
  });
});

describe('the value bound with limited cut stages', () => {
  for (const stages of [2, 3] as const) {
    it(`is never below the greatest value of ${stages} stages`, () => {
      let met = 0;
      for (let seed = 401; seed <= 440; seed += 1) {
        const { sheet, kinds } = tinyQuestion(seed, { turns: seed % 2 === 1, pieces: 5 });
        const question = { sheet: { ...sheet, length: sheet.length - 2 }, kinds };
        const most = bruteMost(question, stages)!;
        expect(valueBound(question), JSON.stringify(question)).toBeGreaterThanOrEqual(most);
        if (valueBound(question) === most) met += 1;
      }
      expect(met).toBeGreaterThan(10);
    });
  }
});

describe('bounds on sheets that are known to hold all', () => {
  it('call no split sheet too short, too few or of too little value', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), fc.integer({ min: 2, max: 25 }), (seed, count) => {
        const { width, length, kinds } = splitSheet(seed, count, { quarterTurn: seed % 3 === 0 });
        expect(stripBound({ sheet: { width, length: Number.POSITIVE_INFINITY }, kinds })).toBe(length);
        expect(sheetsBound({ sheets: [{ width, length, cost: 7, copies: 3 }], kinds })).toBe(7);
        expect(valueBound({ sheet: { width, length }, kinds })).toBe(width * length);
      }),
      { numRuns: 60, seed: 4711 },
    );
  });
});

describe('bounds on published instances', () => {
  const stripFiles = [
    'hopper-turton-2001/hopper-c.json',
    'burke-2004/burke-n.json',
    'berkey-wang-1987/bwmv.json',
    'martello-monaci-vigo-2003/mmv-2sp.json',
  ];
  it('stripBound keeps to every published length and reaches every published area bound', () => {
    let above = 0;
    for (const question of stripFiles.flatMap(published)) {
      if (question.ask !== 'shortest') continue;
      const { sheet, kinds } = question.body;
      const bound = stripBound(question.body);
      const area = kinds.reduce((sum, kind) => sum + kind.width * kind.length * kind.copies, 0);
      expect(bound, question.instance).toBeLessThanOrEqual(question.published as number);
      expect(bound, question.instance).toBeGreaterThanOrEqual(Math.ceil(area / sheet.width));
      if (bound > Math.ceil(area / sheet.width)) above += 1;
    }
    expect(above).toBeGreaterThan(15);
  });

  it('sheetsBound meets most of the published bins of twenty pieces and exceeds none', () => {
    const seen = { met: 0, below: 0 };
    for (const question of published('berkey-wang-1987/bwmv.json')) {
      if (question.ask !== 'fewest') continue;
      const bound = sheetsBound(question.body);
      expect(bound, question.instance).toBeLessThanOrEqual(question.published as number);
      seen[bound === question.published ? 'met' : 'below'] += 1;
    }
    expect(seen.met).toBeGreaterThan(20);
    expect(seen.below).toBeGreaterThan(0);
  });

  it('valueBound lies at or above every published value', () => {
    for (const question of [
      ...published('beasley-1985/ngcut.json'),
      ...published('christofides-whitlock-1977/cgcut.json'),
    ]) {
      if (question.ask !== 'most') continue;
      expect(valueBound(question.body), question.instance).toBeGreaterThanOrEqual(
        question.published as number,
      );
    }
  });
});
