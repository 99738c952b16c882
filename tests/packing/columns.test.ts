import { describe, expect, it } from 'vitest';
import { ColumnGeneration } from '../../src/packing/columns/column-generation.ts';
import { CoverProgramme } from '../../src/packing/columns/cover-programme.ts';
import { expandPieces, scaleOf } from '../../src/packing/guillotine/pieces.ts';
import type { FewestQuestion, Stages } from '../../src/packing/instance.ts';
import { Budget } from '../../src/packing/search/budget.ts';
import { questionsOf, readFamily } from '../bench/families.ts';
import { bruteFewest } from '../support/brute-force.ts';
import { tinyQuestion } from '../support/random-questions.ts';

function boundOf(
  { sheets, kinds }: FewestQuestion,
  goal: number,
  stages: Stages = 'any',
  effort = 200_000,
): number {
  const scale = scaleOf(kinds);
  const offered = sheets.map(({ width, length, copies = 1, cost = width * length }) => ({
    width: Math.floor(width / scale.unitX),
    length: Math.floor(length / scale.unitY),
    copies,
    cost,
  }));
  const columns = new ColumnGeneration(expandPieces(kinds, scale), offered, { stages, seed: 3, bound: 1 });
  columns.run(goal, new Budget({ effort, seed: 3 }), effort);
  return columns.bound;
}

describe('the programme of covering', () => {
  it('finds the optimum of a small programme worked by hand, and its prices', () => {
    // Two goods, three and four of each; columns give (1, 1) at 3, (2, 0) at 4 and (0, 3) at 5. Three of the first and a
    // third of the third: 3·3 + 5/3; at prices 4/3 and 5/3 no column is worth more than it costs.
    const programme = new CoverProgramme([3, 4], [10], 100);
    programme.add({ rows: [0, 1], counts: [1, 1], sheet: 0, cost: 3 });
    programme.add({ rows: [0], counts: [2], sheet: 0, cost: 4 });
    programme.add({ rows: [1], counts: [3], sheet: 0, cost: 5 });
    expect(programme.solve(100)).toBeCloseTo(9 + 5 / 3, 4);
    expect([...programme.prices()].slice(0, 2).map((price) => price.toFixed(4))).toEqual([
      '1.3333',
      '1.6667',
    ]);
  });

  it('keeps to the limits of sheets', () => {
    const programme = new CoverProgramme([6], [2, 9], 100);
    programme.add({ rows: [0], counts: [2], sheet: 0, cost: 1 });
    programme.add({ rows: [0], counts: [1], sheet: 1, cost: 3 });
    expect(programme.solve(100)).toBeCloseTo(2 + 6, 4);
    expect(programme.prices()[1]).toBeCloseTo(-5, 4);
  });
});

describe('the bound by columns', () => {
  it('proves a printed answer: raws of 100 into 97, 610, 395 and 211 finals of 45, 36, 31 and 14 are 453', () => {
    // Chvátal, Linear Programming (1983), chapter 13; figures from memory. The programme's own value is 452.25.
    const kinds = [
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ].map(([width, copies]) => ({ width: width!, length: 1, copies: copies!, quarterTurn: false }));
    const question = { sheets: [{ width: 100, length: 1, copies: 1313, cost: 1 }], kinds };
    expect(boundOf(question, 453)).toBe(453);
    expect(boundOf(question, 1000)).toBe(453);
  });

  for (const stages of [2, 3, 'any'] as Stages[]) {
    it(`is never above the least cost with stages ${stages}, two kinds of sheet, few copies`, () => {
      const seen = { met: 0, below: 0 };
      for (let seed = 301; seed <= 360; seed += 1) {
        const { sheet, kinds, random } = tinyQuestion(seed, { turns: seed % 2 === 1, pieces: 5 });
        const sheets = [
          { ...sheet, copies: 2, cost: 31 + random.below(20) },
          { width: sheet.width + 2, length: sheet.length - 1, copies: 1, cost: 29 + random.below(30) },
        ];
        const least = bruteFewest({ sheets, kinds }, stages);
        if (least === undefined) continue;
        const bound = boundOf({ sheets, kinds }, 1000, stages, 20_000);
        expect(bound, JSON.stringify({ sheets, kinds })).toBeLessThanOrEqual(least);
        seen[bound === least ? 'met' : 'below'] += 1;
      }
      expect(seen.met).toBeGreaterThan(10);
    });
  }

  it('meets most of the published bins of twenty pieces and exceeds none', () => {
    const seen = { met: 0, below: 0 };
    for (const question of questionsOf(readFamily('fixtures/published/berkey-wang-1987/bwmv.json'))) {
      if (question.ask !== 'fewest') continue;
      const published = question.published as number;
      // A goal beyond what is published, so that a bound too high would show.
      const bound = boundOf(question.body, published + 1, 'any', 60_000);
      expect(bound, `${question.instance} ${question.question}`).toBeLessThanOrEqual(published);
      seen[bound === published ? 'met' : 'below'] += 1;
    }
    expect(seen.met).toBeGreaterThan(seen.below);
    expect(seen.met).toBeGreaterThan(25);
  });
});
