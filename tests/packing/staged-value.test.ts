import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { mostFromSheet } from '../../src/packing/most.ts';
import { gridOf, usableCopies } from '../../src/packing/value/grid.ts';
import { PriceSearch } from '../../src/packing/value/prices.ts';
import { stagedSheet } from '../../src/packing/value/staged.ts';
import { bruteMost } from '../support/brute-force.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { tinyQuestion } from '../support/random-questions.ts';

const never = () => false;
const STAGES = [2, 3] as const;

/** Beasley (1985), `gcut1` to `gcut9` of the OR-Library; copies not limited. */
function unlimitedGcut() {
  const file = readFileSync('fixtures/published/beasley-1985/gcut.json', 'utf8');
  const { instances } = JSON.parse(file) as {
    instances: {
      name: string;
      stock: { width: number; height: number };
      items: { w: number; h: number }[];
      known: { ukp_OG?: { best: number } };
    }[];
  };
  return instances
    .filter(({ known }) => known.ukp_OG !== undefined)
    .map(({ name, stock, items, known }) => ({
      name,
      best: known.ukp_OG!.best,
      sheet: { width: stock.width, length: stock.height },
      kinds: items.map(({ w, h }) => ({ width: w, length: h, copies: 1e6, quarterTurn: false })),
    }));
}

describe('most value in two and three stages', () => {
  it('is proven where copies are not limited, and grows with the stages up to the published best of any number', () => {
    let fewer = 0;
    for (const { name, best, sheet, kinds } of unlimitedGcut()) {
      const values = STAGES.map((stages) => {
        const question = { sheet, kinds };
        const answer = mostFromSheet(question, { effort: 300_000, seed: 1, stages });
        expectSoundSheet('most', question, answer, stages);
        expect(answer.status, `${name}, ${stages} stages`).toBe('best');
        return answer.status === 'best' ? answer.value : 0;
      });
      expect(values[0], name).toBeLessThanOrEqual(values[1]!);
      expect(values[1], name).toBeLessThanOrEqual(best);
      if (values[0]! < best) fewer += 1;
    }
    expect(fewer).toBeGreaterThan(0);
  });

  for (const stages of STAGES) {
    it(`knapsacks within knapsacks come to the same as all ways of cutting, ${stages} stages`, () => {
      for (let seed = 1; seed <= 40; seed += 1) {
        const { sheet, kinds } = tinyQuestion(seed, { turns: seed % 2 === 0, pieces: 5 });
        const small = { ...sheet, length: Math.min(sheet.length, 5) };
        const unlimited = kinds.map((kind) => ({ ...kind, copies: 100 }));
        const grid = gridOf(unlimited, small.width, small.length);
        const values = Float64Array.from(kinds, ({ value, width, length }) => value ?? width * length);
        const found = stagedSheet(grid, values, stages, never)!;
        expect(found.worth, `seed ${seed}`).toBe(bruteMost({ sheet: small, kinds: unlimited }, stages));
        expect(found.counts.reduce((sum, many, kind) => sum + many * values[kind]!, 0)).toBe(found.worth);
      }
    });

    it(`prices never bound below what can be cut, and bound no worse than for any number, ${stages} stages`, () => {
      let tighter = 0;
      for (let seed = 101; seed <= 140; seed += 1) {
        const { sheet, kinds } = tinyQuestion(seed, { turns: seed % 2 === 0, pieces: 6 });
        const small = { ...sheet, length: Math.min(sheet.length, 6) };
        const copies = usableCopies(kinds, small.width, small.length);
        const values = Float64Array.from(kinds, ({ value, width, length }) => value ?? width * length);
        const limited = { grid: gridOf(kinds, small.width, small.length), copies, values };
        const known = bruteMost({ sheet: small, kinds }, stages)!;
        const staged = new PriceSearch(limited, undefined, 1, stages);
        const any = new PriceSearch(limited);
        for (let round = 0; round < 30; round += 1) {
          if (!staged.settled)
            staged.step(known, never, ({ value }) => expect(value).toBeLessThanOrEqual(known));
          if (!any.settled) any.step(known, never, () => {});
          expect(staged.bound, `seed ${seed}`).toBeGreaterThanOrEqual(known);
        }
        if (staged.bound < any.bound) tighter += 1;
      }
      expect(tighter).toBeGreaterThan(0);
    });
  }
});
