import { describe, expect, it } from 'vitest';
import type { Kind } from '../../src/packing/instance.ts';
import type { SheetTree } from '../../src/packing/result.ts';
import { shortestLength } from '../../src/packing/shortest.ts';

const OPEN = Number.POSITIVE_INFINITY;

function kind(width: number, length: number, copies: number, quarterTurn = false): Kind {
  return { width, length, copies, quarterTurn };
}

/** Reads a tree back into counts of pieces, and throws where a part is not what its cuts make it. */
function countPieces(tree: SheetTree, width: number, length: number, kinds: readonly Kind[]): number[] {
  const counts = kinds.map(() => 0);
  const visit = (part: SheetTree, w: number, l: number): void => {
    if (part.kind === 'piece') {
      const { width: a, length: b } = kinds[part.piece];
      expect([w, l]).toEqual(part.quarterTurns === 1 ? [b, a] : [a, b]);
      counts[part.piece]++;
    } else if (part.kind === 'cut') {
      const total = part.direction === 'crosscut' ? l : w;
      const ends = [...part.at, total];
      ends.forEach((end, i) => {
        const extent = end - (i === 0 ? 0 : ends[i - 1]);
        expect(extent).toBeGreaterThan(0);
        visit(
          part.parts[i],
          part.direction === 'crosscut' ? w : extent,
          part.direction === 'crosscut' ? extent : l,
        );
      });
    }
  };
  visit(tree, width, length);
  return counts;
}

describe('shortestLength', () => {
  it('packs a no-waste strip without waste and proves it', () => {
    // 12 wide, 20 long, cut by hand: 12 x 7, then 5 x 13 beside (7 x 4 below 7 x 9).
    const kinds = [kind(12, 7, 1), kind(5, 13, 1), kind(7, 4, 1), kind(7, 9, 1)];
    const result = shortestLength({ sheet: { width: 12, length: OPEN }, kinds }, { effort: 1000, seed: 1 });
    expect(result.status).toBe('best');
    if (result.status !== 'best') return;
    expect(result.value).toBe(20);
    expect(countPieces(result.sheets[0].tree, 12, 20, kinds)).toEqual([1, 1, 1, 1]);
  });

  it('turns a piece only where it may', () => {
    const upright = shortestLength(
      { sheet: { width: 9, length: OPEN }, kinds: [kind(3, 8, 2), kind(4, 5, 1)] },
      { effort: 1000, seed: 1 },
    );
    const turnable = shortestLength(
      { sheet: { width: 9, length: OPEN }, kinds: [kind(3, 8, 2, true), kind(4, 5, 1)] },
      { effort: 1000, seed: 1 },
    );
    expect(upright).toMatchObject({ status: 'best', value: 13 });
    expect(turnable).toMatchObject({ status: 'best', value: 11 });
  });

  it('keeps the width that the common divisor leaves over', () => {
    const kinds = [kind(40, 60, 2), kind(20, 30, 3)];
    const result = shortestLength({ sheet: { width: 113, length: OPEN }, kinds }, { effort: 1000, seed: 1 });
    expect(result).toMatchObject({ status: 'best', value: 90 });
    if (result.status !== 'best') return;
    expect(countPieces(result.sheets[0].tree, 113, 90, kinds)).toEqual([2, 3]);
  });

  it('says which piece is too wide, and when the sheet is too short', () => {
    const wide = shortestLength(
      { sheet: { width: 43, length: OPEN }, kinds: [kind(12, 10, 1), kind(46, 20, 1)] },
      { effort: 1000, seed: 1 },
    );
    expect(wide).toMatchObject({
      status: 'impossible',
      reason: 'kind 1 (46 by 20) is wider than the sheet (43)',
    });
    const short = shortestLength(
      { sheet: { width: 43, length: 29 }, kinds: [kind(22, 15, 2)] },
      { effort: 1000, seed: 1 },
    );
    expect(short.status).toBe('impossible');
  });
});
