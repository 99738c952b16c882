import { describe, expect, it } from 'vitest';
import { fewestSheets } from '../../src/packing/fewest.ts';
import type { Kind, Sheet } from '../../src/packing/instance.ts';
import type { SheetTree } from '../../src/packing/result.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';

function kind(width: number, length: number, copies: number, quarterTurn = false): Kind {
  return { width, length, copies, quarterTurn };
}

function piecesOf(tree: SheetTree): number[] {
  if (tree.kind === 'piece') return [tree.piece];
  return tree.kind === 'cut' ? tree.parts.flatMap(piecesOf) : [];
}

const options = { effort: 20_000, seed: 3 };

describe('fewestSheets', () => {
  it('opens as few equal sheets as the pieces need', () => {
    // Two 7 x 11 lie in one 14 x 12; a third 7 x 11 and the 9 x 12 are together too wide for one.
    const sheets: Sheet[] = [{ width: 14, length: 12, copies: 5, cost: 1 }];
    const result = fewestSheets({ sheets, kinds: [kind(7, 11, 3), kind(9, 12, 1)] }, options);
    expect(result).toMatchObject({ status: 'best', value: 3, bound: 3 });
    if (result.status !== 'best') return;
    expect(result.sheets.flatMap(({ tree }) => piecesOf(tree)).sort()).toEqual([0, 0, 0, 1]);
  });

  it('prefers two cheap remnants to one dear length, and the dear length where it is cheaper', () => {
    const kinds = [kind(20, 30, 1), kind(25, 10, 1)];
    const remnants = { width: 26, length: 31, copies: 2 };
    const length = { width: 50, length: 33 };
    const dear = fewestSheets(
      {
        sheets: [
          { ...length, cost: 900 },
          { ...remnants, cost: 400 },
        ],
        kinds,
      },
      options,
    );
    const cheap = fewestSheets(
      {
        sheets: [
          { ...length, cost: 700 },
          { ...remnants, cost: 400 },
        ],
        kinds,
      },
      options,
    );
    expect(dear).toMatchObject({ status: 'best', value: 800 });
    expect(cheap).toMatchObject({ status: 'best', value: 700 });
  });

  it('says what fits no sheet, and when the sheets are too small together', () => {
    const sheet = { width: 20, length: 30 };
    const misfit = fewestSheets({ sheets: [sheet], kinds: [kind(5, 6, 1), kind(25, 10, 1)] }, options);
    expect(misfit).toMatchObject({ status: 'impossible', reason: 'kind 1 (25 by 10) fits no sheet' });
    const turned = fewestSheets({ sheets: [sheet], kinds: [kind(25, 10, 1, true)] }, options);
    expect(turned).toMatchObject({ status: 'best', value: 600 });
    const small = fewestSheets({ sheets: [sheet], kinds: [kind(11, 29, 2)] }, options);
    expect(small.status).toBe('impossible');
  });

  it('finds a choice among many sheets by search where the exact programme is too large', () => {
    // Forty different pieces of width 31 to 70 in sheets of width 101: each pairs with one that fills the width.
    const kinds = Array.from({ length: 40 }, (_, i) => kind(31 + i, 17, 1));
    const result = fewestSheets(
      { sheets: [{ width: 101, length: 17, copies: 40, cost: 1 }], kinds },
      options,
    );
    expect(result).toMatchObject({ status: 'best', value: 20 });
  });

  it('fills and empties sheets one by one where pieces are very many', () => {
    const kinds = Array.from({ length: 450 }, (_, i) =>
      kind(31 + ((i * 37) % 160), 20 + ((i * 53) % 131), 1, true),
    );
    const question = { sheets: [{ width: 400, length: 300, copies: 450, cost: 1 }], kinds };
    const first = fewestSheets(question, { effort: 1, seed: 1 });
    const later = fewestSheets(question, { effort: 100_000, seed: 1 });
    for (const result of [first, later]) expectSoundSheet('fewest', question, result);
    if (first.status !== 'found' || later.status === 'unknown' || later.status === 'impossible')
      expect.fail();
    expect(first.value).toBeLessThanOrEqual(1.2 * first.bound);
    expect(later.value).toBeLessThanOrEqual(first.value);
    // Two kinds of sheet, of which the cheaper for its area does not hold every piece.
    const small = { width: 150, length: 150, copies: 100, cost: 20_000 };
    const both = { sheets: [{ ...question.sheets[0]!, cost: 130_000 }, small], kinds };
    expectSoundSheet('fewest', both, fewestSheets(both, { effort: 20_000, seed: 1 }));
  });
});
