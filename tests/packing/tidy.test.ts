import { describe, expect, it } from 'vitest';
import { checkSheet, placedLeaves } from '../../src/check/check-sheet.ts';
import type { Kind, PackOptions, Preferences } from '../../src/packing/instance.ts';
import { fewestSheets, mostFromSheet, shortestLength } from '../../src/packing/pack.ts';
import type { PackedSheet, PackResult, SheetTree } from '../../src/packing/result.ts';
import { measure, score } from '../../src/packing/tidy/measure.ts';
import { workTree } from '../../src/packing/tidy/work-tree.ts';
import { STANDARD_PREFERENCES, tidy } from '../../src/packing/tidy.ts';
import { splitSheet } from '../support/split-sheet.ts';

const piece = (kind: number): SheetTree => ({ kind: 'piece', piece: kind, quarterTurns: 0 });
const remnant: SheetTree = { kind: 'remnant' };
const crosscut = (at: number[], ...parts: SheetTree[]): SheetTree => ({
  kind: 'cut',
  direction: 'crosscut',
  at,
  parts,
});
const lengthwise = (at: number[], ...parts: SheetTree[]): SheetTree => ({
  kind: 'cut',
  direction: 'lengthwise',
  at,
  parts,
});
const sheetOf = (width: number, length: number, tree: SheetTree): PackedSheet => ({
  sheet: 0,
  width,
  length,
  tree,
});

function pieceCounts(packed: PackedSheet): Record<number, number> {
  const counts: Record<number, number> = {};
  for (const { leaf, kind } of placedLeaves(packed)) {
    if (leaf === 'piece') counts[kind] = (counts[kind] ?? 0) + 1;
  }
  return counts;
}

/** Drops some pieces of a no-waste sheet, so that it has leftovers in many places. */
function holed(seed: number, count: number): { packed: PackedSheet; kinds: readonly Kind[] } {
  const { width, length, kinds, tree } = splitSheet(seed, count);
  let index = 0;
  const drop = (part: SheetTree): SheetTree => {
    if (part.kind === 'cut') return { ...part, parts: part.parts.map(drop) };
    return index++ % 3 === seed % 3 ? remnant : part;
  };
  return { packed: sheetOf(width, length, drop(tree)), kinds };
}

function expectCanonical(tree: SheetTree): void {
  if (tree.kind !== 'cut') return;
  const leftovers = tree.parts.map((part) => part.kind === 'remnant');
  expect(leftovers.indexOf(true)).toBeOneOf([-1, leftovers.length - 1]);
  for (const part of tree.parts) {
    if (part.kind === 'cut') expect(part.direction).not.toBe(tree.direction);
    expectCanonical(part);
  }
}

describe('tidy', () => {
  it('lifts common slack to the highest cut and joins it there', () => {
    const kinds: Kind[] = [
      { width: 17, length: 31, copies: 2, quarterTurn: false },
      { width: 17, length: 23, copies: 1, quarterTurn: false },
    ];
    const tree = crosscut(
      [31, 54],
      lengthwise([17, 34], piece(0), piece(0), remnant),
      lengthwise([17], piece(1), remnant),
      remnant,
    );
    const tidied = tidy(sheetOf(50, 70, tree), { kinds, effort: 0 });
    expect(tidied.tree).toEqual(
      lengthwise(
        [34],
        crosscut(
          [31, 54],
          lengthwise([17], piece(0), piece(0)),
          lengthwise([17], piece(1), remnant),
          remnant,
        ),
        remnant,
      ),
    );
  });

  it('never changes the pieces, stays sound and canonical, and never scores worse', () => {
    let better = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { packed, kinds } = holed(seed, 4 + (seed % 17));
      const tidied = tidy(packed, { kinds, effort: 300, seed });
      expect(checkSheet(tidied, packed, kinds)).toEqual([]);
      expect(pieceCounts(tidied)).toEqual(pieceCounts(packed));
      expectCanonical(tidied.tree);
      const scoreOf = ({ tree, width, length }: PackedSheet) =>
        score(measure(workTree(tree, width, length)), STANDARD_PREFERENCES);
      expect(scoreOf(tidied)).toBeLessThanOrEqual(scoreOf(packed));
      if (scoreOf(tidied) < scoreOf(packed)) better += 1;
    }
    expect(better).toBeGreaterThan(30);
  });

  it('gives the same bytes for the same seed, and more effort is never worse', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { packed, kinds } = holed(seed, 15);
      const scores = [0, 50, 200, 800].map((effort) => {
        const tidied = tidy(packed, { kinds, effort, seed });
        expect(tidy(packed, { kinds, effort, seed })).toEqual(tidied);
        return score(measure(workTree(tidied.tree, packed.width, packed.length)), STANDARD_PREFERENCES);
      });
      expect(scores).toEqual([...scores].sort((a, b) => b - a));
    }
  });

  it('follows the wish it is given', () => {
    const wish = (name: keyof Preferences): Preferences => ({
      ...{ largeRemnants: 0, fewCuts: 0, alikeHalves: 0, fewSettings: 0, withinReach: 0 },
      ...{ [name]: 1, reach: 40 },
    });
    const totals = {
      largeRemnants: [0, 0],
      fewCuts: [0, 0],
      alikeHalves: [0, 0],
      fewSettings: [0, 0],
      withinReach: [0, 0],
    };
    for (let seed = 1; seed <= 8; seed++) {
      const { packed, kinds } = holed(seed, 14);
      for (const name of Object.keys(totals) as (keyof typeof totals)[]) {
        const of = ({ tree, width, length }: PackedSheet) =>
          score(measure(workTree(tree, width, length), 40), wish(name));
        totals[name][0]! += of(packed);
        totals[name][1]! += of(tidy(packed, { kinds, effort: 400, seed }, wish(name)));
      }
    }
    for (const [before, after] of Object.values(totals)) expect(after!).toBeLessThan(before!);
  });

  it('lays equal pieces in an even number of alike parts when asked to', () => {
    const kinds: Kind[] = [
      { width: 20, length: 30, copies: 2, quarterTurn: false },
      { width: 14, length: 11, copies: 2, quarterTurn: false },
    ];
    const odd = sheetOf(
      55,
      41,
      crosscut(
        [30],
        lengthwise([20, 40], piece(0), piece(0), remnant),
        lengthwise([14, 28], piece(1), piece(1), remnant),
      ),
    );
    const tidied = tidy(odd, { kinds, effort: 500 }, { ...STANDARD_PREFERENCES, largeRemnants: 0 });
    expect(measure(workTree(tidied.tree, 55, 41)).pairedCuts).toBeLessThan(
      measure(workTree(tidied.tree, 55, 41)).cuts,
    );
  });

  it('keeps the stage limit', () => {
    const kinds: Kind[] = [
      { width: 19, length: 30, copies: 2, quarterTurn: false },
      { width: 13, length: 22, copies: 3, quarterTurn: false },
    ];
    const trimmed = (of: number) => crosscut([22], piece(of), remnant);
    const tree = crosscut(
      [22, 52, 74],
      lengthwise([13, 26], piece(1), piece(1), remnant),
      lengthwise([19, 32], piece(0), trimmed(1), remnant),
      remnant,
      lengthwise([19], piece(0), remnant),
    );
    const packed = sheetOf(60, 104, tree);
    for (const stages of [2, 3] as const) {
      expect(checkSheet(packed, packed, kinds, stages)).toEqual([]);
      const tidied = tidy(packed, { kinds, stages, effort: 400 });
      expect(checkSheet(tidied, packed, kinds, stages)).toEqual([]);
      expect(pieceCounts(tidied)).toEqual({ 0: 2, 1: 3 });
    }
  });

  it('moves nothing that has a place: forbidden boxes, fixed pieces, lattices, the mirror', () => {
    const kinds: Kind[] = [
      { width: 16, length: 25, copies: 2, quarterTurn: false },
      { width: 9, length: 12, copies: 4, quarterTurn: false },
    ];
    const right = crosscut(
      [12, 24],
      lengthwise([9, 15], piece(1), remnant, piece(1)),
      lengthwise([9], piece(1), remnant),
      lengthwise([7], remnant, piece(1)),
    );
    const packed = sheetOf(
      45,
      52,
      crosscut([52 - 16], lengthwise([16, 20], remnant, remnant, right), remnant),
    );
    const forbidden = [{ x0: 16, y0: 0, x1: 20, y1: 52 }];
    const tidied = tidy(packed, { kinds, sheet: { width: 45, length: 52, forbidden } });
    expect(checkSheet(tidied, { width: 45, length: 52, forbidden }, kinds)).toEqual([]);
    expect(pieceCounts(tidied)).toEqual({ 1: 4 });
    const fixed = [{ kind: 0, x0: 0, y0: 27, turned: false }];
    const held = sheetOf(
      45,
      52,
      lengthwise(
        [16, 20],
        crosscut([25, 27], piece(0), remnant, piece(0)),
        remnant,
        crosscut([36], right, remnant),
      ),
    );
    const tidiedHeld = tidy(held, { kinds, sheet: { width: 45, length: 52, forbidden, fixed } });
    expect(checkSheet(tidiedHeld, { width: 45, length: 52, forbidden, fixed }, kinds)).toEqual([]);
    const latticed = [{ ...kinds[0]!, lattice: { y: { period: 27, offsets: [0] } } }, kinds[1]!];
    expect(checkSheet(tidy(held, { kinds: latticed }), { width: 45, length: 52 }, latticed)).toEqual([]);
  });

  it('tidies both sides of a mirror alike', () => {
    const kinds: Kind[] = [{ width: 9, length: 12, copies: 4, quarterTurn: false }];
    const near = crosscut([12], lengthwise([9], piece(0), remnant), lengthwise([6], remnant, piece(0)));
    const far = crosscut([12], lengthwise([6], remnant, piece(0)), lengthwise([9], piece(0), remnant));
    const sheet = { width: 30, length: 24, mirrorAt: 15 };
    const tidied = tidy(sheetOf(30, 24, lengthwise([15], near, far)), { kinds, sheet });
    expect(checkSheet(tidied, sheet, kinds)).toEqual([]);
    expect(pieceCounts(tidied)).toEqual({ 0: 4 });
    expect(placedLeaves(tidied).filter(({ leaf }) => leaf === 'leftover')).toHaveLength(1);
  });

  it('is what the three questions do when they are given preferences', () => {
    const preferences = { ...STANDARD_PREFERENCES, fewSettings: 3 };
    let better = 0;
    for (let seed = 1; seed <= 6; seed++) {
      const { kinds } = splitSheet(seed, 9, { width: 61, length: 47 });
      const sheet = { width: 67, length: 71 };
      const forbidden = seed % 2 === 0 ? [{ x0: 31, y0: 0, x1: 33, y1: 71 }] : [];
      const asked = { sheet: { ...sheet, forbidden }, kinds };
      const options = { effort: 3000, seed };
      for (const answer of [
        (own: PackOptions) => shortestLength(asked, own),
        (own: PackOptions) => mostFromSheet(asked, own),
        (own: PackOptions) => fewestSheets({ sheets: [{ ...asked.sheet, copies: 3 }], kinds }, own),
      ]) {
        const [plain, tidied] = [answer(options), answer({ ...options, preferences })];
        if (plain.status === 'impossible' || plain.status === 'unknown') continue;
        expect(tidied).toMatchObject({ status: plain.status, value: plain.value, bound: plain.bound });
        const scoreOf = (result: PackResult) =>
          'sheets' in result
            ? result.sheets.reduce(
                (sum, { tree, width, length }) =>
                  sum + score(measure(workTree(tree, width, length)), preferences),
                0,
              )
            : 0;
        if (scoreOf(tidied) < scoreOf(plain)) better += 1;
        if ('sheets' in tidied) {
          for (const packed of tidied.sheets) {
            expect(checkSheet(packed, { ...asked.sheet, length: packed.length }, kinds)).toEqual([]);
          }
        }
      }
    }
    expect(better).toBeGreaterThan(3);
  });

  it('only puts a very large sheet in canonical form, however deep', () => {
    let tree: SheetTree = piece(0);
    for (let level = 1; level < 20_000; level++) {
      tree = level % 2 === 0 ? crosscut([1], remnant, tree) : lengthwise([1], remnant, tree);
    }
    const kinds: Kind[] = [{ width: 5, length: 4, copies: 1, quarterTurn: false }];
    const packed = sheetOf(10_005, 10_003, tree);
    expect(checkSheet(packed, packed, kinds)).toEqual([]);
    expect(checkSheet(tidy(packed, { kinds, effort: 10 }), packed, kinds)).toEqual([]);
  });
});
