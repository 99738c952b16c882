import { describe, expect, it } from 'vitest';
import { measuresOf } from '../../src/packing/guillotine/measures.ts';
import { type BlockKind, ParetoFronts } from '../../src/packing/guillotine/pareto.ts';
import { paretoShortest } from '../../src/packing/guillotine/pareto-shortest.ts';
import { Budget } from '../../src/packing/search/budget.ts';
import { seededRandom } from '../../src/packing/search/random.ts';

function randomKinds(seed: number): { kinds: BlockKind[]; width: number } {
  const random = seededRandom(seed);
  const single = seed % 2 === 0;
  const kinds = Array.from({ length: single ? 8 : 4 }, () => ({
    width: 3 + random.below(18),
    length: 2 + random.below(20),
    copies: single ? 1 : 1 + random.below(2),
    turnable: seed % 3 === 0,
  }));
  return { kinds, width: 22 + random.below(9) };
}

const budget = () => new Budget({ effort: 1e9, seed: 1 });

/** The same programme without any pruning beyond the width. */
function leastWithout(kinds: readonly BlockKind[], width: number): number {
  const fronts = new ParetoFronts(kinds, { width, length: 10_000, spare: Number.POSITIVE_INFINITY });
  fronts.build(budget());
  return fronts.leastLength(fronts.states - 1, width);
}

/** With every block left out that a measure calls hopeless. */
function leastWithin(kinds: readonly BlockKind[], width: number, length: number): number {
  const measures = measuresOf(kinds, width, length, 1e7);
  if (measures === 'none fits') return Number.POSITIVE_INFINITY;
  expect(measures.length).toBeGreaterThan(1);
  const fronts = new ParetoFronts(
    kinds,
    { width, length, spare: Number.POSITIVE_INFINITY },
    undefined,
    measures,
  );
  fronts.build(budget());
  return fronts.leastLength(fronts.states - 1, width);
}

describe('the exact programme with measures of waste', () => {
  it('finds the length that it finds without them, and nothing below it', () => {
    const seen = { refuted: 0, searched: 0 };
    for (let seed = 1; seed <= 80; seed++) {
      const { kinds, width } = randomKinds(seed);
      const least = leastWithout(kinds, width);
      for (const limit of [least, least + 1, least + 7]) {
        expect(leastWithin(kinds, width, limit), `${seed}`).toBe(least);
      }
      expect(leastWithin(kinds, width, least - 1), `${seed}`).toBe(Number.POSITIVE_INFINITY);
      expect(paretoShortest(kinds, width, least + 3, budget())).toMatchObject({
        status: 'best',
        part: { length: least },
      });
      expect(paretoShortest(kinds, width, least - 1, budget()).status, `${seed}`).toBe('none');
      seen[measuresOf(kinds, width, least - 1, 1e7) === 'none fits' ? 'refuted' : 'searched'] += 1;
    }
    // Some are refuted by a measure of the whole sheet, most only by the programme.
    expect(seen.refuted).toBeGreaterThan(3);
    expect(seen.searched).toBeGreaterThan(10);
  });

  it('refutes no sheet that a block fills', () => {
    // Four rectangles about a square: 3 + 2 by 2 + 3, cut first at the width of the left column.
    const kinds: BlockKind[] = [
      [3, 2],
      [3, 3],
      [2, 1],
      [2, 4],
    ].map(([width, length]) => ({ width: width!, length: length!, copies: 1, turnable: false }));
    expect(measuresOf(kinds, 5, 5, 1e7)).not.toBe('none fits');
    expect(measuresOf(kinds, 5, 4, 1e7)).toBe('none fits');
    expect(paretoShortest(kinds, 5, 5, budget()).status).toBe('best');
  });
});
