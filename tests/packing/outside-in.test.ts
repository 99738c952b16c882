import { describe, expect, it } from 'vitest';
import { type BlockKind, ParetoFronts } from '../../src/packing/guillotine/pareto.ts';
import { paretoShortest } from '../../src/packing/guillotine/pareto-shortest.ts';
import { partToTree } from '../../src/packing/guillotine/part.ts';
import { Budget } from '../../src/packing/search/budget.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';

const freely = () => new Budget({ effort: Number.MAX_SAFE_INTEGER, seed: 1 });

/** Single pieces, some alike, so many that sheets are cut down from outside. */
function randomKinds(seed: number): { kinds: BlockKind[]; width: number } {
  const random = seededRandom(seed);
  const turns = random.below(3);
  const kinds = Array.from({ length: 9 + random.below(4) }, () => ({
    width: 2 + random.below(12),
    length: 1 + random.below(14),
    copies: 1,
    turnable: turns === 0 ? false : turns === 1 || random.below(2) === 0,
  }));
  while (kinds.length < 12) kinds.push({ ...kinds[random.below(kinds.length)] });
  return { kinds: merged(kinds), width: 14 + random.below(12) };
}

function merged(kinds: readonly BlockKind[]): BlockKind[] {
  const found = new Map<string, BlockKind>();
  for (const kind of kinds) {
    const key = `${kind.width} ${kind.length} ${kind.turnable}`;
    const known = found.get(key);
    found.set(key, known === undefined ? kind : { ...known, copies: known.copies + 1 });
  }
  return [...found.values()];
}

/** Least length by joining blocks of all sets of pieces, with nothing left out for being wasteful. */
function leastByJoining(kinds: readonly BlockKind[], width: number): number {
  const most = kinds.reduce((sum, kind) => sum + kind.copies * Math.max(kind.width, kind.length), 0);
  const fronts = new ParetoFronts(kinds, { width, length: most, spare: Number.POSITIVE_INFINITY });
  expect(fronts.build(freely())).toBe(true);
  return fronts.leastLength(fronts.states - 1, width);
}

describe('cutting a sheet down from outside', () => {
  it.each(Array.from({ length: 40 }, (_, i) => i + 1))(
    'finds a length if and only if joining blocks does (seed %i)',
    (seed) => {
      const { kinds, width } = randomKinds(seed);
      const least = leastByJoining(kinds, width);
      expect(paretoShortest(kinds, width, least - 1, freely()).status).toBe('none');
      for (const limit of [least, least + 3]) {
        const outcome = paretoShortest(kinds, width, limit, freely());
        if (outcome.status !== 'best')
          throw new Error(`${outcome.status} within ${limit}, least is ${least}`);
        const { length } = outcome.part;
        expect(length).toBeGreaterThanOrEqual(least);
        expect(length).toBeLessThanOrEqual(limit);
        const sheet = { width, length };
        const tree = partToTree(outcome.part, { unitX: 1, unitY: 1 }, sheet, (kind) => kind);
        const asked = kinds.map(({ turnable, ...kind }) => ({ ...kind, quarterTurn: turnable }));
        expectSoundSheet(
          'shortest',
          { sheet, kinds: asked },
          { status: 'found', value: length, bound: 0, sheets: [{ sheet: 0, ...sheet, tree }], nodes: 1 },
        );
      }
    },
  );

  it('ends where the effort is spent', () => {
    const random = seededRandom(5);
    const kinds = Array.from({ length: 18 }, () => ({
      width: 10 + random.below(40),
      length: 10 + random.below(40),
      copies: 1,
      turnable: true,
    }));
    const area = kinds.reduce((sum, { width, length }) => sum + width * length, 0);
    const budget = new Budget({ effort: 5000, seed: 1 });
    expect(paretoShortest(kinds, 100, Math.ceil(area / 95), budget).status).toBe('ended');
    expect(budget.nodes).toBeLessThan(10_000);
  });
});
