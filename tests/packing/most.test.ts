import { describe, expect, it } from 'vitest';
import type { Kind, MostQuestion } from '../../src/packing/instance.ts';
import { mostFromSheet } from '../../src/packing/most.ts';
import { countsOf } from '../../src/packing/value/counts.ts';
import { gridOf, operationsOf, usableCopies } from '../../src/packing/value/grid.ts';
import { outsideTable } from '../../src/packing/value/outside.ts';
import { PriceSearch } from '../../src/packing/value/prices.ts';
import { tallied, tallyFormat } from '../../src/packing/value/tallies.ts';
import { valueTable } from '../../src/packing/value/unlimited.ts';
import { bruteMost } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { tinyQuestion } from '../support/random-questions.ts';

const never = () => false;

function kind(width: number, length: number, copies: number, more: Partial<Kind> = {}): Kind {
  return { width, length, copies, quarterTurn: false, ...more };
}

describe('value tables', () => {
  it('what lies in and around a part is never worth more than the sheet, and some part reaches it', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const { sheet, kinds } = tinyQuestion(seed, { turns: seed % 2 === 0 });
      const grid = gridOf(kinds, sheet.width, sheet.length);
      const values = Float64Array.from(kinds, ({ width, length }) => width * length + (seed % 5));
      const table = valueTable(grid, values, never)!;
      const outside = outsideTable(table, never)!;
      const whole = table.best.at(-1)!;
      const sums = table.best.map((best, cell) => best + outside[cell]!);
      expect(Math.max(...sums)).toBe(whole);
      expect(outside.at(-1)).toBe(0);
      const counts = countsOf(table, values, table.best.length - 1);
      expect(counts.reduce((sum, many, index) => sum + many * values[index]!, 0)).toBe(whole);
    }
  });

  it('a coarse grid bounds from above what the exact grid gives', () => {
    const kinds = [
      kind(1013, 787, 19),
      kind(641, 1187, 17),
      kind(419, 523, 50),
      kind(307, 211, 30),
      kind(233, 347, 40),
    ];
    const [width, length] = [6007, 4801];
    const coarse = gridOf(kinds, width, length);
    expect(coarse.coarse).toBeGreaterThan(1);
    expect(operationsOf(coarse)).toBeLessThanOrEqual(6e8);
    const copies = usableCopies(kinds, width, length);
    const values = Float64Array.from(kinds, (each) => each.width * each.length);
    const prices = new PriceSearch({ grid: coarse, copies, values });
    prices.step(0, never, () => {});
    const answer = mostFromSheet({ sheet: { width, length }, kinds }, { effort: 30_000, seed: 5 });
    expectSoundSheet('most', { sheet: { width, length }, kinds }, answer);
    expect(answer.value).toBeLessThanOrEqual(prices.bound);
    expect(answer.value).toBeGreaterThan(0.9 * width * length);
  });
});

describe('tallies', () => {
  it('tell exactly when two counts keep to the limits', () => {
    const copies = Int32Array.from([1, 3, 0, 250, 7, 1, 12, 99_999, 2]);
    const format = tallyFormat(copies);
    const pack = (counts: readonly number[]): Int32Array => {
      const tally = new Int32Array(format.words);
      counts.forEach((many, index) => {
        tally[format.word[index]!]! += many * format.unit[index]!;
      });
      return tally;
    };
    const full = pack([...copies]);
    copies.forEach((many, index) => {
      expect(tallied(format, full, 0, index)).toBe(many);
      const one = pack(Array.from(copies, (_, other) => (other === index ? 1 : 0)));
      const fits = format.limit.every((limit, word) => {
        return ((limit - full[word]! - one[word]!) & format.guard[word]!) === format.guard[word];
      });
      expect(fits).toBe(false);
      const less = pack(Array.from(copies, (all, other) => (other === index ? Math.max(0, all - 1) : all)));
      const back = format.limit.every((limit, word) => {
        return ((limit - less[word]! - one[word]!) & format.guard[word]!) === format.guard[word];
      });
      expect(back).toBe(many > 0);
    });
  });
});

describe('mostFromSheet', () => {
  it('agrees with brute force on values of one’s own', () => {
    const seen = { best: 0, turnsHelp: 0 };
    for (let seed = 301; seed <= 340; seed += 1) {
      const { sheet, kinds, random } = tinyQuestion(seed, { turns: true, pieces: 6 });
      const worth = kinds.map((each): Kind => ({ ...each, value: 3 + random.below(50) }));
      const question: MostQuestion = { sheet: { ...sheet, length: sheet.length - 3 }, kinds: worth };
      const result = mostFromSheet(question, { effort: 400_000, seed });
      expectSoundSheet('most', question, result);
      expect(result.value, JSON.stringify(question)).toBe(bruteMost(question, 'any'));
      if (result.status === 'best') seen.best += 1;
      const unturned = { ...question, kinds: worth.map((each) => ({ ...each, quarterTurn: false })) };
      if (bruteMost(unturned, 'any')! < result.value) seen.turnsHelp += 1;
    }
    expect(seen.best).toBe(40);
    expect(seen.turnsHelp).toBeGreaterThan(3);
  });

  it('answers in the units that were asked, whatever divides them', () => {
    const small: MostQuestion = {
      sheet: { width: 47, length: 31 },
      kinds: [kind(13, 9, 4), kind(17, 6, 5), kind(8, 11, 3)],
    };
    const scale = { x: 1016, y: 320 };
    const large: MostQuestion = {
      sheet: { width: 47 * scale.x + 1015, length: 31 * scale.y + 7 },
      kinds: small.kinds.map((each) => ({
        ...each,
        width: each.width * scale.x,
        length: each.length * scale.y,
      })),
    };
    const options = { effort: 500_000, seed: 3 };
    const [one, other] = [mostFromSheet(small, options), mostFromSheet(large, options)];
    expectSoundSheet('most', small, one);
    expectSoundSheet('most', large, other);
    expect(other.value).toBe(one.value * scale.x * scale.y);
    expect(other.status).toBe('best');
  });

  it('gives an empty sheet, proven, where nothing fits or nothing is wanted', () => {
    const sheet = { width: 23, length: 19 };
    for (const kinds of [[], [kind(24, 5, 3)], [kind(4, 5, 0)], [kind(4, 5, 6, { value: 0 })]]) {
      const result = mostFromSheet({ sheet, kinds }, { effort: 1000, seed: 1 });
      expectSoundSheet('most', { sheet, kinds }, result);
      expect([result.status, result.value, result.bound]).toEqual(['best', 0, 0]);
    }
  });

  it('has a sound sheet at any effort, never worse with more, and the same for the same seed', () => {
    const question: MostQuestion = {
      sheet: { width: 113, length: 97 },
      kinds: [
        kind(31, 17, 5),
        kind(23, 29, 4),
        kind(41, 13, 6),
        kind(19, 11, 8),
        kind(37, 43, 2),
        kind(7, 53, 3),
      ],
    };
    let before = 0;
    for (const effort of [1, 300, 5000, 40_000, 300_000]) {
      const result = mostFromSheet(question, { effort, seed: 9 });
      expectSoundSheet('most', question, result);
      expect(result.value).toBeGreaterThanOrEqual(before);
      expect(mostFromSheet(question, { effort, seed: 9 })).toEqual(result);
      before = result.value;
    }
    expect(before).toBeGreaterThan(0.95 * 113 * 97);
  });

  it('ends soon after it is told to stop', () => {
    const kinds = Array.from({ length: 30 }, (_, index) => kind(101 + 7 * index, 97 + 11 * index, 3));
    const question: MostQuestion = { sheet: { width: 997, length: 1009 }, kinds };
    let asked = 0;
    const result = mostFromSheet(question, {
      effort: Number.MAX_SAFE_INTEGER,
      seed: 2,
      stop: () => {
        asked += 1;
        return asked > 20;
      },
    });
    expectSoundSheet('most', question, result);
    expect(result.nodes).toBeLessThan(3_000_000);
    expect(result.value).toBeGreaterThan(0);
  });
});
