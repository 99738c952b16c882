import { describe, expect, it } from 'vitest';
import { placedLeaves } from '../../src/check/check-sheet.ts';
import type { Box, Kind, Placement, Sheet, Stages } from '../../src/packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../../src/packing/pack.ts';
import type { PackResult } from '../../src/packing/result.ts';
import { seededRandom } from '../../src/packing/search/random.ts';
import { tidy } from '../../src/packing/tidy.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';
import { splitSheet } from '../support/split-sheet.ts';

/** A question of some dozen pieces with a bit of everything, the same for the same seed. */
function mixedQuestion(seed: number): { sheet: Sheet; kinds: Kind[]; stages: Stages } {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => low + random.below(high - low + 1);
  const chance = (share: number) => random.unit() < share;
  const width = between(90, 140);
  const length = between(120, 180);
  const mirrored = chance(0.25);
  const kinds = Array.from({ length: between(2, 5) }, (): Kind => {
    const size = { width: between(8, 40), length: between(8, 45), copies: between(1, 5) };
    if (!chance(0.3)) return { ...size, quarterTurn: chance(0.5) };
    const axis = () => ({ period: between(7, 30), offsets: [between(0, 6), between(0, 30)] });
    return { ...size, quarterTurn: false, lattice: chance(0.5) ? { y: axis() } : { x: axis(), y: axis() } };
  });
  const forbidden: Box[] = [];
  if (chance(0.4)) forbidden.push({ x0: 50, y0: 0, x1: 53, y1: Number.POSITIVE_INFINITY });
  if (chance(0.2)) forbidden.push({ x0: -5, y0: 60, x1: width + 5, y1: 66 });
  for (let hole = between(0, 3); hole > 0; hole--) {
    const [x0, y0] = [between(-2, width), between(0, length)];
    forbidden.push({ x0, y0, x1: x0 + between(1, 12), y1: y0 + between(1, 12) });
  }
  const fixed: Placement[] = [];
  if (chance(0.3))
    fixed.push({ kind: 0, x0: between(0, 8), y0: between(80, 110), turned: kinds[0]!.quarterTurn });
  const sheet: Sheet = {
    width,
    length,
    forbidden,
    fixed,
    ...(mirrored ? { mirrorAt: width / 2 + between(-3, 3) } : {}),
  };
  return { sheet, kinds, stages: ([2, 3, 'any', 'any'] as const)[random.below(4)]! };
}

describe('positional answers of some dozen pieces', () => {
  it('are sound, and the same for the same seed', () => {
    const seen: Record<PackResult['status'], number> = { best: 0, found: 0, impossible: 0, unknown: 0 };
    for (let seed = 1; seed <= 90; seed++) {
      const { sheet, kinds, stages } = mixedQuestion(seed);
      const options = { effort: 250, seed, stages };
      const ask = (['shortest', 'most', 'fewest'] as const)[seed % 3]!;
      const one = { kinds, sheet: ask === 'most' ? sheet : { ...sheet, length: 999 } };
      const several = { kinds, sheets: [{ ...sheet, copies: 3 }] };
      const answer = (): PackResult => {
        if (ask === 'fewest') return fewestSheets(several, options);
        return ask === 'most' ? mostFromSheet(one, options) : shortestLength(one, options);
      };
      const question = ask === 'fewest' ? several : one;
      const result = answer();
      seen[result.status] += 1;
      expect(JSON.stringify(answer()), `seed ${seed}`).toBe(JSON.stringify(result));
      if (result.status === 'impossible' || result.status === 'unknown') continue;
      expectSoundSheet(ask, question, result, stages);
      // Tidied, each sheet is still sound.
      const sheets = result.sheets.map((packed) =>
        tidy(packed, { kinds, sheet: { ...sheet, length: packed.length }, stages, effort: 60, seed }),
      );
      expectSoundSheet(ask, question, { ...result, sheets }, stages);
    }
    expect(seen.best + seen.found).toBeGreaterThan(55);
    expect(seen.impossible).toBeGreaterThan(3);
  });

  it('are sound on two lattices whose x and y go together, and use both', () => {
    let both = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const random = seededRandom(seed);
      const between = (low: number, high: number) => low + random.below(high - low + 1);
      const [across, along] = [2 * between(8, 20), 2 * between(8, 20)];
      const [x, y] = [between(0, 20), between(0, 20)];
      const at = (x0: number, y0: number) => ({
        x: { period: across, offsets: [x0 % across] },
        y: { period: along, offsets: [y0 % along] },
      });
      const lattice = { ...at(x, y), or: at(x + across / 2, y + along / 2) };
      const size = { width: between(6, 16), length: between(6, 16), quarterTurn: false };
      const kinds = [
        { ...size, copies: between(2, 7), lattice },
        { width: between(8, 20), length: between(8, 20), copies: 2, quarterTurn: true },
      ];
      const question = { kinds, sheet: { width: between(50, 90), length: Number.POSITIVE_INFINITY } };
      const result = shortestLength(question, { effort: 2000, seed });
      expectSoundSheet('shortest', question, result);
      const columns = placedLeaves(result.sheets[0]!).flatMap((leaf) =>
        leaf.leaf === 'piece' && leaf.kind === 0 ? [(((leaf.x0 - x) % across) + across) % across] : [],
      );
      both += new Set(columns).size > 1 ? 1 : 0;
    }
    expect(both).toBeGreaterThan(15);
  });

  it('keeps a stage limit on sheets of many pieces', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const { kinds } = splitSheet(seed, 25, { width: 200, length: 150, quarterTurn: seed % 2 === 0 });
      for (const stages of [2, 3] as const) {
        const strip = { sheet: { width: 200, length: Number.POSITIVE_INFINITY }, kinds };
        expectSoundSheet('shortest', strip, shortestLength(strip, { effort: 2500, seed, stages }), stages);
        const sheets = { sheets: [{ width: 200, length: 160, copies: 3 }], kinds };
        expectSoundSheet('fewest', sheets, fewestSheets(sheets, { effort: 2500, seed, stages }), stages);
      }
    }
  });
});

describe('a kept-off crease', () => {
  const crease: Box = { x0: 64, y0: 0, x1: 70, y1: Number.POSITIVE_INFINITY };
  const sheet: Sheet = { width: 134, length: Number.POSITIVE_INFINITY, forbidden: [crease] };

  it('gets halves alike where every count is even, so that they are cut in two plies', () => {
    const kinds: Kind[] = [
      { width: 41, length: 53, copies: 4, quarterTurn: true },
      { width: 23, length: 31, copies: 6, quarterTurn: false },
      { width: 60, length: 17, copies: 2, quarterTurn: false },
    ];
    const result = shortestLength({ sheet, kinds }, { effort: 1e6, seed: 3 });
    expectSoundSheet('shortest', { sheet, kinds }, result);
    expect(result.status).toBe('best');
    const leaves = placedLeaves(result.sheets[0]!).filter(({ leaf }) => leaf === 'piece');
    const boxes = leaves.map(({ kind, x0, x1, y0, y1 }) => [kind, x0, x1, y0, y1].join());
    for (const { kind, x0, x1, y0, y1 } of leaves) {
      expect(boxes).toContain([kind, 134 - x1, 134 - x0, y0, y1].join());
    }
    // Folding saves no cloth: one half of everything on half the cloth is no shorter.
    const half = kinds.map((kind) => ({ ...kind, copies: kind.copies / 2 }));
    const folded = shortestLength(
      { sheet: { width: 64, length: Number.POSITIVE_INFINITY }, kinds: half },
      { effort: 1e6, seed: 3 },
    );
    expect(folded).toMatchObject({ status: 'best' });
    expect((folded as { value: number }).value).toBeGreaterThanOrEqual(result.value);
  });

  it('has its crosscuts run through both columns where sections allow it', () => {
    const kinds: Kind[] = [{ width: 61, length: 43, copies: 6, quarterTurn: false }];
    const result = shortestLength({ sheet, kinds }, { effort: 1e6, seed: 5 });
    expectSoundSheet('shortest', { sheet, kinds }, result);
    expect(result.value).toBe(129);
    expect(result.sheets[0]!.tree).toMatchObject({ kind: 'cut', direction: 'crosscut', at: [43, 86] });
  });

  it('is searched where the job is too large for the exact programme', () => {
    const random = seededRandom(8);
    const kinds = Array.from(
      { length: 20 },
      (): Kind => ({
        width: 11 + random.below(40),
        length: 13 + random.below(50),
        copies: 2,
        quarterTurn: true,
      }),
    );
    const lengths = [200, 20_000].map((effort) => {
      const result = shortestLength({ sheet, kinds }, { effort, seed: 9 });
      expectSoundSheet('shortest', { sheet, kinds }, result);
      expect(result.value).toBeLessThan(1.25 * result.bound);
      return result.value;
    });
    expect(lengths[1]).toBeLessThan(lengths[0]!);
  });
});

describe('a mirror', () => {
  it('cuts a piece fixed across it on the fold, and an odd count once more', () => {
    const kinds: Kind[] = [
      { width: 26, length: 37, copies: 3, quarterTurn: false },
      { width: 19, length: 22, copies: 3, quarterTurn: false },
    ];
    const fixed = [{ kind: 0, x0: 32, y0: 11, turned: false }];
    const sheet: Sheet = { width: 95, length: 300, mirrorAt: 45, fixed };
    for (const stages of [2, 3, 'any'] as const) {
      const result = shortestLength({ sheet, kinds }, { effort: 1e5, seed: 2, stages });
      expectSoundSheet('shortest', { sheet, kinds }, result, stages);
      const counts = [0, 0];
      for (const { leaf, kind } of placedLeaves(result.sheets[0]!)) if (leaf === 'piece') counts[kind]! += 1;
      expect(counts).toEqual([3, 4]);
    }
  });

  it('refuses a piece fixed across it askew, and a lattice that has no images', () => {
    const kinds: Kind[] = [{ width: 26, length: 37, copies: 2, quarterTurn: false }];
    const askew = {
      width: 90,
      length: 300,
      mirrorAt: 45,
      fixed: [{ kind: 0, x0: 31, y0: 11, turned: false }],
    };
    expect(shortestLength({ sheet: askew, kinds }, { effort: 100, seed: 1 })).toMatchObject({
      status: 'impossible',
    });
    // x and 90 - 26 - x are never both 1 more than a multiple of 7, since 64 is not 2 more than one.
    const matched = kinds.map((kind) => ({ ...kind, lattice: { x: { period: 7, offsets: [1] } } }));
    const sheet = { width: 90, length: 300, mirrorAt: 45 };
    expect(shortestLength({ sheet, kinds: matched }, { effort: 100, seed: 1 })).toMatchObject({
      status: 'impossible',
    });
  });
});

describe('a lattice along the length', () => {
  it('starts each drop at the repeat and proves the length of a file of drops', () => {
    // Drops of 230 at a repeat of 64, the first motif at 10: 10, 266 (= 10 + 4 × 64), ... as makers work it out.
    const kinds: Kind[] = [
      {
        width: 137,
        length: 230,
        copies: 4,
        quarterTurn: false,
        lattice: { y: { period: 64, offsets: [10] } },
      },
    ];
    const sheet: Sheet = { width: 137, length: Number.POSITIVE_INFINITY };
    const result = shortestLength({ sheet, kinds }, { effort: 1000, seed: 1 });
    expectSoundSheet('shortest', { sheet, kinds }, result);
    expect(result).toMatchObject({ status: 'best', value: 10 + 3 * 256 + 230 });
  });
});
