import { describe, expect, it } from 'vitest';
import type { Cupboard, CupboardEntry } from '../../src/model/cupboard.ts';
import { findInCupboard, MOST_COUNTED, type Wanted } from '../../src/planning/find-in-cupboard.ts';
import { inches } from './build.ts';

function entry(
  name: string,
  width: number,
  length: number,
  more: Partial<CupboardEntry> = {},
): CupboardEntry {
  return {
    ...{ name, cloth: 'kelp check', width: inches(width), length: inches(length) },
    selvedge: { left: inches(0), right: inches(0) },
    crease: { kind: 'none' },
    ...{ grain: 'lengthwise', washed: true, count: 1, ...more },
  };
}

function found(entries: readonly CupboardEntry[], width: number, length: number, more: Partial<Wanted> = {}) {
  const cupboard: Cupboard = { name: 'c', unit: 'in', currency: '', entries, cut: [] };
  const wanted = { size: { width: inches(width), length: inches(length) }, upright: false, ...more };
  return findInCupboard(cupboard, wanted).map((own) => [own.entry.name, own.holds]);
}

describe('finding by size', () => {
  it('asks the smallest first and counts what each holds', () => {
    // 2 x 1 and 3 x 2 squares of 19 in; 18 1/2 in hold none.
    const entries = [entry('large', 58, 39), entry('short', 90, 18.5), entry('small', 38, 20)];
    expect(found(entries, 19, 19)).toEqual([
      ['small', 2],
      ['large', 6],
    ]);
  });

  it('mixes pieces that stand and lie where that holds more', () => {
    // 5 x 5 holds four of 2 x 3 only as a pinwheel, which no edge-to-edge cut makes; three in rows and one across them, 5 x 6.
    expect(found([entry('pinwheel', 5, 5)], 2, 3)).toEqual([['pinwheel', 3]]);
    expect(found([entry('rows', 5, 6)], 2, 3)).toEqual([['rows', 5]]);
  });

  it('leaves selvedges and a crease that is kept off alone', () => {
    const selvedge = { left: inches(0.5), right: inches(1) };
    expect(found([entry('wide', 21, 20, { selvedge })], 19.5, 19)).toEqual([['wide', 1]]);
    expect(found([entry('wide', 20.5, 20, { selvedge })], 19.5, 19.5)).toEqual([]);
    const crease = { kind: 'keep-off', each: inches(1) } as const;
    expect(found([entry('creased', 40, 21, { crease })], 19, 19)).toEqual([['creased', 2]]);
    expect(found([entry('creased', 39, 21, { crease })], 19, 19)).toEqual([]);
    expect(found([entry('creased', 39, 21, { crease: { kind: 'use' } })], 19, 19)).toEqual([['creased', 2]]);
  });

  it('turns plain cloth, never a print, and keeps the grain where that is asked', () => {
    expect(found([entry('plain', 41, 17)], 16, 40)).toEqual([['plain', 1]]);
    expect(found([entry('plain', 41, 17)], 16, 40, { upright: true })).toEqual([]);
    expect(found([entry('print', 41, 17, { direction: 'two-way' })], 16, 40)).toEqual([]);
    expect(found([entry('print', 41, 17, { direction: 'two-way' })], 40, 16)).toEqual([['print', 1]]);
    const across = { direction: 'one-way', printRuns: 'across' } as const;
    expect(found([entry('sideways', 41, 17, across)], 16, 40)).toEqual([['sideways', 1]]);
    expect(found([entry('sideways', 41, 17, across)], 16, 40, { upright: true })).toEqual([]);
  });

  it('sees a length that was measured across the grain along it, and none where the grain is not known', () => {
    const crosswise = entry('crosswise', 41, 17, { grain: 'crosswise' });
    expect(found([crosswise], 16, 40, { upright: true })).toEqual([['crosswise', 1]]);
    const unknown = entry('unknown', 41, 43, { grain: 'unknown' });
    expect(found([unknown], 16, 40)).toEqual([['unknown', 2]]);
    expect(found([unknown], 16, 40, { upright: true })).toEqual([]);
    expect(found([{ ...unknown, direction: 'nap' }], 16, 40)).toEqual([]);
  });

  it('looks at one cloth alone, and counts no further than anybody needs', () => {
    const entries = [entry('kelp', 70, 50), entry('gull', 71, 51, { cloth: 'gull stripe' })];
    expect(found(entries, 1, 1, { cloth: 'gull stripe' })).toEqual([['gull', MOST_COUNTED]]);
  });
});
