import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldedWidth, totalWidth, usableWidth, widestSpan } from '../../src/cloth/usable.ts';
import { afterWashing, beforeWashing } from '../../src/cloth/washing.ts';
import type { Cloth, Crease } from '../../src/model/cloth.ts';
import { TICKS_PER_INCH, TICKS_PER_MM, ticks } from '../../src/units/ticks.ts';

const inches = (count: number) => ticks(count * TICKS_PER_INCH);
const EIGHTH = inches(1 / 8);

function cloth(changes: Partial<Cloth> = {}): Cloth {
  return {
    name: 'sea holly',
    width: inches(54),
    selvedge: { left: inches(0.5), right: inches(0.75) },
    crease: { kind: 'none' },
    direction: 'plain',
    printRuns: 'along',
    squaring: ticks(0),
    inHand: [],
    lay: 'flat',
    ...changes,
  };
}

function keepOff(each: number): Crease {
  return { kind: 'keep-off', each: inches(each) };
}

describe('usable width', () => {
  it('is what the selvedges leave, one span', () => {
    const { spans } = usableWidth(cloth(), cloth(), EIGHTH);
    expect(spans).toEqual([{ x0: inches(0.5), x1: inches(53.25) }]);
  });

  it('is rounded down to the ruler mark, so three pieces of 13 13/16 in never fit 41 7/16 in on an eighth ruler', () => {
    const narrow = cloth({ width: inches(42.6875) });
    const { spans } = usableWidth(narrow, narrow, EIGHTH);
    expect(spans[0]!.x1 - spans[0]!.x0).toBe(inches(41.375));
    expect(3 * inches(13.875)).toBeGreaterThan(inches(41.375));
  });

  it('splits at a kept-off crease midway between the outer edges: unequal selvedges make unequal halves', () => {
    const kept = cloth({ crease: keepOff(0.75), selvedge: { left: inches(0.5), right: inches(2) } });
    const { spans } = usableWidth(kept, kept, EIGHTH);
    expect(spans).toEqual([
      { x0: inches(0.5), x1: inches(26.25) },
      { x0: inches(27.75), x1: inches(52) },
    ]);
    expect(widestSpan(usableWidth(kept, kept, EIGHTH))).toBe(inches(25.75));
    expect(totalWidth(usableWidth(kept, kept, EIGHTH))).toBe(inches(25.75 + 24.25));
  });

  it('keeps a whole tick clear on both sides of a middle that falls between ticks', () => {
    const odd = cloth({
      width: ticks(101),
      selvedge: { left: ticks(3), right: ticks(5) },
      crease: { kind: 'keep-off', each: ticks(7) },
    });
    const { spans } = usableWidth(odd, odd, ticks(1));
    expect(spans).toEqual([
      { x0: 3, x1: 43 },
      { x0: 58, x1: 96 },
    ]);
  });

  it('leaves one span where the strip swallows a half, and none where it swallows the cloth', () => {
    const strip = cloth({
      width: inches(10),
      crease: keepOff(4.5),
      selvedge: { left: inches(0), right: inches(1) },
    });
    expect(usableWidth(strip, strip, EIGHTH).spans).toEqual([{ x0: 0, x1: inches(0.5) }]);
    const all = cloth({ width: inches(10), crease: keepOff(6) });
    expect(usableWidth(all, all, EIGHTH).spans).toEqual([]);
  });

  it('takes its width from the cloth as washed', () => {
    const washed = cloth({
      width: inches(50),
      washing: {
        along: { numerator: 1, denominator: 50 },
        across: { numerator: 3, denominator: 100 },
        washed: 'before-cutting',
      },
    });
    expect(usableWidth(washed, washed, EIGHTH)).toEqual({
      width: inches(48.5),
      spans: [{ x0: inches(0.5), x1: inches(47.75) }],
    });
  });
});

describe('folded width', () => {
  it('is ruled by the narrower half, from the kept-off strip outwards', () => {
    const folded = cloth({ crease: keepOff(0.75), selvedge: { left: inches(0.5), right: inches(2) } });
    expect(foldedWidth(folded, folded, EIGHTH)).toEqual({
      width: inches(54),
      foldAt: inches(27),
      from: inches(0.75),
      usable: inches(24.25),
      single: [],
    });
  });

  it('lies inside the flat spans on both sides of the fold, whatever the numbers', () => {
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 200, max: 9000 }),
          left: fc.integer({ min: 0, max: 60 }),
          right: fc.integer({ min: 0, max: 60 }),
          each: fc.integer({ min: 1, max: 90 }),
          mark: fc.integer({ min: 1, max: 40 }),
        }),
        ({ width, left, right, each, mark }) => {
          const own = cloth({
            width: ticks(width),
            selvedge: { left: ticks(left), right: ticks(right) },
            crease: { kind: 'keep-off', each: ticks(each) },
          });
          const { foldAt, from, usable } = foldedWidth(own, own, ticks(mark));
          if (usable === 0) return;
          expect(foldAt - from - usable).toBeGreaterThanOrEqual(left);
          expect(2 * (foldAt - from)).toBeLessThanOrEqual(width - 2 * each);
          expect(2 * (foldAt + from)).toBeGreaterThanOrEqual(width + 2 * each);
          expect(foldAt + from + usable).toBeLessThanOrEqual(width - right);
          expect(usable % mark).toBe(0);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });
});

describe('washing', () => {
  it('needs L ÷ (1 − s) before washing, not L × (1 + s)', () => {
    // Shrinkage by W. H. Dooley, Textiles (1914), Determination of Shrinkage: (original − final) ÷ original.
    // The figures are exact arithmetic: 72 in at 10 % is 80 in; 1 + s would give 79.2 in.
    expect(beforeWashing(inches(72), { numerator: 10, denominator: 100 })).toBe(inches(80));
    expect(beforeWashing(inches(72), { numerator: 3, denominator: 100 })).toBe(
      Math.ceil((72 * 8128 * 100) / 97),
    );
    // Dooley 1914, Experiment 36: 20 in that measure 19 in after washing have lost 5 %.
    expect(afterWashing(inches(20), { numerator: 5, denominator: 100 })).toBe(inches(19));
  });

  it('reads a dimensional change of 500 to 485 mm as 3 % (AATCC 135 / ISO 5077, equation from memory)', () => {
    expect(afterWashing(ticks(500 * TICKS_PER_MM), { numerator: 15, denominator: 500 })).toBe(
      485 * TICKS_PER_MM,
    );
  });

  it('gives back at least what was asked for, and would not with one tick less', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5_000_000 }),
        fc.integer({ min: 0, max: 200 }),
        (needed, lost) => {
          const loss = { numerator: lost, denominator: 1000 };
          const before = beforeWashing(ticks(needed), loss);
          expect(afterWashing(before, loss)).toBeGreaterThanOrEqual(needed);
          expect(afterWashing(ticks(before - 1), loss)).toBeLessThan(needed);
        },
      ),
      { seed: 5, numRuns: 500 },
    );
  });
});
