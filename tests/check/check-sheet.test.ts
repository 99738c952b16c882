import { describe, expect, it } from 'vitest';
import { checkPacking, type PackingAsked } from '../../src/check/check-packing.ts';
import {
  checkSheet,
  type KindShape,
  type PackedShape,
  type SheetShape,
} from '../../src/check/check-sheet.ts';
import type { CutTree } from '../../src/model/cut-tree.ts';

type Tree = CutTree<number, number>;

const piece = (kind: number, quarterTurns: 0 | 1 = 0): Tree => ({ kind: 'piece', piece: kind, quarterTurns });
const remnant: Tree = { kind: 'remnant' };
const crosscut = (at: number[], ...parts: Tree[]): Tree => ({
  kind: 'cut',
  direction: 'crosscut',
  at,
  parts,
});
const lengthwise = (at: number[], ...parts: Tree[]): Tree => ({
  kind: 'cut',
  direction: 'lengthwise',
  at,
  parts,
});
const packed = (width: number, length: number, tree: Tree): PackedShape => ({
  sheet: 0,
  width,
  length,
  tree,
});
const codes = (problems: readonly { code: string }[]) => problems.map(({ code }) => code);

const kinds: KindShape[] = [
  { width: 31, length: 47, copies: 2, quarterTurn: false },
  { width: 13, length: 29, copies: 1, quarterTurn: true },
];
const sheet: SheetShape = { width: 62, length: 76 };
const good = crosscut([47], lengthwise([31], piece(0), piece(0)), lengthwise([13], piece(1), remnant));

describe('checkSheet', () => {
  it('passes a sound sheet', () => {
    expect(checkSheet(packed(62, 76, good), sheet, kinds)).toEqual([]);
  });

  it('catches a width, a length and a cut that are one off', () => {
    expect(codes(checkSheet(packed(62, 76, good), { width: 61, length: 76 }, kinds))).toEqual([
      'sheet-width',
    ]);
    expect(codes(checkSheet(packed(62, 76, good), { width: 62, length: 75 }, kinds))).toEqual([
      'sheet-length',
    ]);
    const late = crosscut([48], lengthwise([31], piece(0), piece(0)), lengthwise([13], piece(1), remnant));
    expect(codes(checkSheet(packed(62, 76, late), sheet, kinds))).toEqual(Array(3).fill('piece-size'));
  });

  it('catches cuts that do not rise, lie outside, or do not fit their parts', () => {
    const at = (cuts: number[]) =>
      checkSheet(packed(62, 76, crosscut(cuts, remnant, remnant, remnant)), sheet, []);
    expect(at([17, 41])).toEqual([]);
    for (const cuts of [
      [41, 17],
      [41, 41],
      [0, 41],
      [17, 76],
      [17.5, 41],
    ]) {
      expect(codes(at(cuts))).toEqual(['cut-position']);
    }
    expect(codes(at([17]))).toEqual(['cut-shape']);
    expect(codes(checkSheet(packed(62, 76, crosscut([], remnant)), sheet, []))).toEqual(['cut-shape']);
  });

  it('lets a piece be turned only where its kind allows it', () => {
    const turned = (kind: number) => {
      const { width, length } = kinds[kind]!;
      return packed(62, 76, crosscut([width], lengthwise([length], piece(kind, 1), remnant), remnant));
    };
    expect(checkSheet(turned(1), sheet, kinds)).toEqual([]);
    expect(codes(checkSheet(turned(0), sheet, kinds))).toEqual(['piece-turned']);
  });

  it('keeps pieces off forbidden boxes, touching allowed', () => {
    const forbid = (x0: number, y0: number) => ({ ...sheet, forbidden: [{ x0, y0, x1: 62, y1: 76 }] });
    expect(checkSheet(packed(62, 76, good), forbid(13, 47), kinds)).toEqual([]);
    expect(codes(checkSheet(packed(62, 76, good), forbid(12, 47), kinds))).toEqual(['piece-forbidden']);
    expect(codes(checkSheet(packed(62, 76, good), forbid(13, 46), kinds))).toEqual(
      Array(2).fill('piece-forbidden'),
    );
  });

  it('wants fixed pieces exactly in their place', () => {
    const fix = (x0: number, y0: number, turned = false) => ({
      ...sheet,
      fixed: [{ kind: 1, x0, y0, turned }],
    });
    expect(checkSheet(packed(62, 76, good), fix(0, 47), kinds)).toEqual([]);
    expect(codes(checkSheet(packed(62, 76, good), fix(1, 47), kinds))).toEqual(['fixed-missing']);
    expect(codes(checkSheet(packed(62, 76, good), fix(0, 46), kinds))).toEqual(['fixed-missing']);
    expect(codes(checkSheet(packed(62, 76, good), fix(0, 47, true), kinds))).toEqual(['fixed-missing']);
  });

  it('holds pieces to their lattice', () => {
    const lattice = (offset: number) => [
      kinds[0]!,
      { ...kinds[1]!, lattice: { y: { period: 19, offsets: [3, offset] } } },
    ];
    expect(checkSheet(packed(62, 76, good), sheet, lattice(9))).toEqual([]);
    expect(codes(checkSheet(packed(62, 76, good), sheet, lattice(8)))).toEqual(['piece-off-lattice']);
  });

  it('wants every piece twice about the mirror', () => {
    const pair = crosscut([47], lengthwise([31], piece(0), piece(0)), remnant);
    expect(checkSheet(packed(62, 76, pair), { ...sheet, mirrorAt: 31 }, kinds)).toEqual([]);
    expect(codes(checkSheet(packed(62, 76, good), { ...sheet, mirrorAt: 31 }, kinds))).toEqual([
      'mirror-missing',
    ]);
    const onFold = packed(31, 47, piece(0));
    const narrow = { width: 31, length: 47, mirrorAt: 15.5 };
    expect(codes(checkSheet(onFold, narrow, kinds))).toEqual(['mirror-missing']);
    const fixed = [{ kind: 0, x0: 0, y0: 0, turned: false }];
    expect(checkSheet(onFold, { ...narrow, fixed }, kinds)).toEqual([]);
  });

  it('counts stages from a first crosscut and forgives one trimming cut', () => {
    const small: KindShape[] = [{ width: 11, length: 7, copies: 9, quarterTurn: false }];
    const trimmed = crosscut([9], lengthwise([11], crosscut([7], piece(0), remnant), remnant), remnant);
    const deeper = crosscut([14], lengthwise([11], crosscut([7], piece(0), piece(0)), remnant), remnant);
    expect(checkSheet(packed(62, 76, trimmed), sheet, small, 2)).toEqual([]);
    expect(codes(checkSheet(packed(62, 76, deeper), sheet, small, 2))).toEqual(['too-many-stages']);
    expect(checkSheet(packed(62, 76, deeper), sheet, small, 3)).toEqual([]);
    const startsLengthwise = lengthwise(
      [11],
      crosscut([14], crosscut([7], piece(0), piece(0)), remnant),
      remnant,
    );
    expect(codes(checkSheet(packed(62, 76, startsLengthwise), sheet, small, 2))).toContain('too-many-stages');
  });

  it('walks a tree of a hundred thousand cuts', () => {
    let tree: Tree = remnant;
    for (let level = 0; level < 100_000; level++) {
      tree = level % 2 === 0 ? crosscut([1], remnant, tree) : lengthwise([1], remnant, tree);
    }
    expect(checkSheet(packed(50_001, 50_001, tree), { width: 50_001, length: 50_001 }, [])).toEqual([]);
  });
});

describe('checkPacking', () => {
  const asked: PackingAsked = { ask: 'shortest', sheets: [{ width: 62, length: Infinity }], kinds };
  const answer = { status: 'found', value: 76, bound: 70, sheets: [packed(62, 76, good)] } as const;

  it('passes a sound answer to each question', () => {
    expect(checkPacking(asked, answer)).toEqual([]);
    const value = 2 * 31 * 47 + 13 * 29;
    expect(
      checkPacking({ ...asked, ask: 'most', sheets: [sheet] }, { ...answer, value, bound: value + 1 }),
    ).toEqual([]);
    const cheap = { ...sheet, cost: 83 };
    expect(checkPacking({ ...asked, ask: 'fewest', sheets: [cheap] }, { ...answer, value: 83 })).toEqual([]);
  });

  it('catches wrong copies, value, bound, and too many sheets', () => {
    const more = [kinds[0]!, { ...kinds[1]!, copies: 2 }];
    expect(codes(checkPacking({ ...asked, kinds: more }, answer))).toEqual(['copies']);
    const fewer = [{ ...kinds[0]!, copies: 1 }, kinds[1]!];
    expect(codes(checkPacking({ ...asked, kinds: fewer }, answer))).toEqual(['copies']);
    expect(codes(checkPacking(asked, { ...answer, value: 75 }))).toEqual(['value']);
    expect(codes(checkPacking(asked, { ...answer, bound: 77 }))).toEqual(['bound']);
    expect(codes(checkPacking(asked, { ...answer, status: 'best' }))).toEqual(['bound']);
    const twice = { ...answer, value: 152, sheets: [answer.sheets[0], answer.sheets[0]] };
    expect(codes(checkPacking({ ...asked, kinds: [] }, twice))).toContain('sheet-count');
  });

  it('counts complete sets, and does not let copies be exceeded', () => {
    const sets = { ...asked, ask: 'most', sheets: [sheet], set: [2, 1] } as const;
    expect(checkPacking(sets, { ...answer, value: 1, bound: 2 })).toEqual([]);
    const limited = { ...sets, kinds: [{ ...kinds[0]!, copies: 1 }, kinds[1]!] };
    expect(codes(checkPacking(limited, { ...answer, value: 1, bound: 2 }))).toEqual(['copies-exceeded']);
  });

  it('wants an odd count rounded up to a pair where everything is cut twice', () => {
    const odd: KindShape[] = [{ ...kinds[0]!, copies: 1 }];
    const folded: PackingAsked = {
      ...asked,
      kinds: odd,
      sheets: [{ width: 62, length: Infinity, mirrorAt: 31 }],
    };
    const pair = packed(62, 47, lengthwise([31], piece(0), piece(0)));
    expect(checkPacking(folded, { ...answer, value: 47, bound: 40, sheets: [pair] })).toEqual([]);
    const single = packed(62, 47, lengthwise([31], piece(0), remnant));
    expect(codes(checkPacking(folded, { ...answer, value: 47, bound: 40, sheets: [single] }))).toEqual([
      'mirror-missing',
      'copies',
    ]);
  });
});
