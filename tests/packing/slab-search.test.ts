import { describe, expect, it } from 'vitest';
import { HoleFiller } from '../../src/packing/guillotine/hole-filler.ts';
import { type Part, partToTree } from '../../src/packing/guillotine/part.ts';
import { expandPieces, type Pieces } from '../../src/packing/guillotine/pieces.ts';
import { SlabSearch } from '../../src/packing/guillotine/slab-search.ts';
import { WholeFill } from '../../src/packing/guillotine/whole-fill.ts';
import type { Kind } from '../../src/packing/instance.ts';
import { Budget } from '../../src/packing/search/budget.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { shortestLength } from '../../src/packing/shortest.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { splitSheet } from '../support/split-sheet.ts';

const scale = { unitX: 1, unitY: 1 };

function searched(
  kinds: readonly Kind[],
  sheet: { width: number; length: number },
  seed: number,
  nodes: number,
) {
  const pieces = expandPieces(kinds, scale);
  const search = new SlabSearch(pieces, seededRandom(seed));
  const budget = new Budget({ effort: nodes, seed });
  for (;;) {
    const part = search.search(sheet.width, sheet.length, budget, 5000);
    if (part !== undefined || budget.ended) return { part, pieces, budget };
  }
}

/** The independent checker's word on a part that should hold every piece within the sheet. */
function expectAllWithin(
  part: Part,
  pieces: Pieces,
  kinds: readonly Kind[],
  sheet: { readonly width: number; readonly length: number },
): void {
  expect(part.width).toBeLessThanOrEqual(sheet.width);
  expect(part.length).toBeLessThanOrEqual(sheet.length);
  const tree = partToTree(part, scale, sheet, (piece) => pieces.kind[piece]);
  const sheets = [{ sheet: 0, ...sheet, tree }];
  expectSoundSheet(
    'shortest',
    { sheet, kinds },
    { status: 'found', value: sheet.length, bound: 0, sheets, nodes: 1 },
  );
}

// A search promises nothing: the seeds are ones where it gets there, as it does in most.
describe('searching slab by slab', () => {
  it.each([1, 2, 3, 4, 6])('puts a cut-up sheet together again, pieces free to turn (seed %i)', (seed) => {
    const sheet = splitSheet(seed, 40 + 12 * seed, { width: 60, length: 90, quarterTurn: true });
    const { part, pieces } = searched(sheet.kinds, sheet, seed, 1_500_000);
    if (part === undefined) throw new Error('not found');
    expectAllWithin(part, pieces, sheet.kinds, sheet);
  });

  it.each([2, 3, 4])('puts a cut-up sheet together again, no piece turned (seed %i)', (seed) => {
    const sheet = splitSheet(seed, 60, { width: 50, length: 70, quarterTurn: false });
    const { part, pieces } = searched(sheet.kinds, sheet, seed, 1_500_000);
    if (part === undefined) throw new Error('not found');
    expectAllWithin(part, pieces, sheet.kinds, sheet);
  });

  it('works with sides in the thousands, as in ticks, and with some area to spare', () => {
    const random = seededRandom(3);
    const kinds = Array.from({ length: 45 }, (_, i) => ({
      width: 400 + random.below(3000),
      length: 400 + random.below(3000),
      copies: 1,
      quarterTurn: i % 3 > 0,
    }));
    const area = kinds.reduce((sum, { width, length }) => sum + width * length, 0);
    const sheet = { width: 13_000, length: Math.ceil((1.04 * area) / 13_000) };
    const { part, pieces } = searched(kinds, sheet, 1, 400_000);
    if (part === undefined) throw new Error('not found');
    expectAllWithin(part, pieces, kinds, sheet);
  });

  it('finds nothing where the pieces have more area than the sheet, and ends at its effort', () => {
    const { kinds, width, length } = splitSheet(8, 40, { quarterTurn: true });
    const { part, budget } = searched(kinds, { width, length: length - 1 }, 1, 20_000);
    expect(part).toBeUndefined();
    expect(budget.nodes).toBeLessThan(30_000);
  });

  it('gives the same answer for the same seed', () => {
    const sheet = splitSheet(11, 70, { width: 60, length: 60, quarterTurn: true });
    const once = searched(sheet.kinds, sheet, 5, 400_000);
    const again = searched(sheet.kinds, sheet, 5, 400_000);
    expect(once.part).toBeDefined();
    expect(again.part).toEqual(once.part);
    expect(again.budget.nodes).toBe(once.budget.nodes);
  });

  it.each([1, 2, 3])('lets a strip without waste be proven at small effort (seed %i)', (seed) => {
    const { kinds, width, length } = splitSheet(40 + seed, 80, { width: 70, length: 80, quarterTurn: true });
    const question = { sheet: { width, length: Number.POSITIVE_INFINITY }, kinds };
    const result = shortestLength(question, { effort: 200_000, seed: 1 });
    expectSoundSheet('shortest', question, result);
    expect(result).toMatchObject({ status: 'best', value: length });
  });

  it('leaves a limit on cut stages alone', () => {
    const { kinds, width } = splitSheet(9, 40, { width: 60, length: 60, quarterTurn: true });
    const question = { sheet: { width, length: Number.POSITIVE_INFINITY }, kinds };
    for (const stages of [2, 3] as const) {
      const result = shortestLength(question, { effort: 30_000, seed: 1, stages });
      expectSoundSheet('shortest', question, result, stages);
    }
  });
});

describe('laying all of a few pieces exactly', () => {
  it.each(Array.from({ length: 60 }, (_, i) => i + 1))(
    'agrees with the fronts of all sub-sets whether they go in (seed %i)',
    (seed) => {
      const random = seededRandom(seed);
      const kinds = Array.from({ length: 1 + random.below(9) }, () => ({
        width: 1 + random.below(12),
        length: 1 + random.below(12),
        copies: 1,
        quarterTurn: random.below(2) === 0,
      }));
      const pieces = expandPieces(kinds, scale);
      const members = Array.from({ length: pieces.count }, (_, i) => i);
      const area = members.reduce((sum, i) => sum + pieces.area[i], 0);
      const width = 8 + random.below(14);
      const fill = new WholeFill();
      for (let length = Math.ceil(area / width); length < area / width + 14; length++) {
        const offered = members.map((piece) => ({
          piece,
          width: pieces.width[piece],
          length: pieces.length[piece],
          turnable: pieces.turnable[piece] === 1,
          worth: pieces.area[piece],
        }));
        const hole = { width, length, leastWorth: area, spare: width * length - area };
        const expected = new HoleFiller().fill(offered, hole, 1, random);
        const part = fill.fill(pieces, members, width, length);
        expect(part === undefined, `${width} × ${length}`).toBe(expected === undefined);
        if (part === undefined) continue;
        expectAllWithin(part, pieces, kinds, { width, length });
      }
    },
  );
});
