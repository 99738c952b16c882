import { describe, expect, it } from 'vitest';
import { canCutAll } from '../../src/packing/can-cut-all.ts';
import type { Kind, ShortestQuestion } from '../../src/packing/instance.ts';
import { expectSoundSheet } from '../support/expect-sound-sheet.ts';

const options = { effort: 5_000_000, seed: 2 };

function question(
  width: number,
  length: number,
  pieces: readonly string[],
  quarterTurn: boolean,
): ShortestQuestion {
  const kinds: Kind[] = pieces.map((text) => {
    const [w, l, copies = 1] = text.split(/[x*]/).map(Number);
    return { width: w, length: l, copies, quarterTurn };
  });
  return { sheet: { width, length }, kinds };
}

describe('canCutAll', () => {
  it('proves that five pieces around a pinwheel cannot be cut edge to edge', () => {
    // The pinwheel fills 5 x 5 without waste, but no straight cut divides it.
    const pinwheel = ['2x3', '3x2', '2x3', '3x2', '1x1'];
    expect(canCutAll(question(5, 5, pinwheel, false), options).status).toBe('impossible');
    expect(canCutAll(question(5, 6, pinwheel, false), options).status).toBe('best');
  });

  it('gives a sound tree of the whole sheet where all can be cut, with pieces given either way round', () => {
    const body = question(13, 17, ['9x3', '3x9', '4x8', '8x4*2', '5x6'], true);
    const result = canCutAll(body, options);
    expect(result.status).toBe('best');
    if (result.status !== 'best') return;
    expect(result.sheets[0].length).toBe(17);
    expectSoundSheet('shortest', body, result);
  });

  it('keeps a sheet of the wanted length where a box is forbidden', () => {
    const body = question(11, 19, ['4x5*3'], false);
    const held = { ...body, sheet: { ...body.sheet, forbidden: [{ x0: 0, y0: 7, x1: 11, y1: 8 }] } };
    const result = canCutAll(held, options);
    expect(result).toMatchObject({ status: 'best', value: 19 });
  });

  it('stops at its effort without an answer', () => {
    const hard = Array.from({ length: 40 }, (_, i) => `${7 + ((i * 5) % 13)}x${9 + ((i * 7) % 11)}`);
    const area = hard.reduce(
      (sum, text) =>
        sum +
        text
          .split('x')
          .map(Number)
          .reduce((a, b) => a * b),
      0,
    );
    const body = question(61, Math.ceil(area / 61), hard, false);
    expect(canCutAll(body, { effort: 300, seed: 2 }).status).toBe('unknown');
  });
});
