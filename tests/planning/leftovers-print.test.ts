import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { useRows } from '../../src/rendering/uses-words.ts';
import { inches } from './build.ts';
import { read, type Uses, usesWith } from './uses.ts';

interface Printed {
  readonly width: number;
  /** Left beyond a strip of 10 in that lies right across the cloth at its near end. */
  readonly left: number;
  readonly along: number;
  readonly across: number;
  readonly fromEdge: number;
  readonly first: number;
  readonly drop?: 'straight' | 'half';
  /** Cut size of the squares that are wished for: finished they are 1 1/2 in less each way. */
  readonly side: number;
}

function askedOf({ width, left, along, across, fromEdge, first, drop = 'straight', side }: Printed) {
  return read(`
plan: Porch
unit: in
cloths:
  kelp print: { width: ${width}, selvedge: 0, direction: one-way, lengths: [{ length: ${left + 10}, first motif: ${first} }],
    repeat: { along: ${along}, across: ${across}, from edge: ${fromEdge}, drop: ${drop} } }
pieces: [{ name: strip, count: 1, size: ${width} x 10, cloth: kelp print, grain: lengthwise }]
from leftovers: [{ name: squares, kind: napkin, size: ${side - 1.5} x ${side - 1.5}, match: { napkin: centre } }]
`);
}

const countOf = ({ uses }: Uses) => uses[0]?.uses[0]?.count ?? 0;

/**
 * Most squares that lie on the leftover with a motif in the middle of each, all of them off each other: every motif of the
 * whole length is listed, and every set of those that may be had is tried. In quarter inches.
 */
function bruteForce({ width, left, along, across, fromEdge, first, drop, side }: Printed): number {
  const q = (value: number) => value * 4;
  const centres: [number, number][] = [];
  for (let column = -60; column < 60; column++) {
    for (let row = -60; row < 60; row++) {
      const half = drop === 'half' && column % 2 !== 0 ? q(along) / 2 : 0;
      const [x, y] = [q(fromEdge) + column * q(across), q(first) + row * q(along) + half];
      const reach = q(side) / 2;
      if (x - reach < 0 || x + reach > q(width)) continue;
      if (y - reach < q(10) || y + reach > q(10 + left)) continue;
      centres.push([x, y]);
    }
  }
  const most = (rest: readonly [number, number][]): number => {
    const [one, ...others] = rest;
    if (!one) return 0;
    const clear = others.filter(
      ([x, y]) => Math.abs(x - one[0]) >= q(side) || Math.abs(y - one[1]) >= q(side),
    );
    return clear.length === others.length ? 1 + most(others) : Math.max(most(others), 1 + most(clear));
  };
  return most(centres);
}

describe('a leftover of a printed cloth', () => {
  it('is asked for what is matched, at its own place in the repeat', () => {
    // 40 in wide, motifs every 10 in from 6 in on: at 6, 16, 26, 36 across. Squares of 9 in fit around all but the last
    // (36 + 4 1/2 > 40). Along, motifs lie every 12 in from 5 in on; beyond the strip of 10 in, at 17, 29, 41 ...: around 17 it
    // takes 12 1/2 to 21 1/2, around 29 it takes 24 1/2 to 33 1/2. So a leftover of 23 in (to 33 in) holds one row, three
    // squares; half an inch more a second row. Two rows of four would lie there if nothing were matched.
    const printed = { width: 40, along: 12, across: 10, fromEdge: 6, first: 5, side: 9 };
    const short = usesWith(askedOf({ ...printed, left: 23 }));
    expect(short.uses[0]!.uses[0]).toMatchObject({ count: 3, proven: true });
    const long = usesWith(askedOf({ ...printed, left: 23.5 }));
    expect(long.uses[0]!.uses[0]).toMatchObject({ count: 6, proven: true });
    const [own] = short.uses[0]!.cloth.inHand;
    expect([own!.motifFromEdge, own!.firstMotif]).toEqual([inches(6), inches(7)]);
    const [, words] = useRows(short.uses[0]!, short.cut.plan)[0]!;
    expect(words).toContain('(a motif 6 in from its left edge and 7 in from its near end)');
  });

  it('lies in the print as it does when it is cut off beside something', () => {
    // The strip now lies along the left edge, 13 in wide: of motifs at 6, 16, 26, 36 the leftover's first lies at 3 (16 − 13).
    const asked = read(`
plan: Porch
unit: in
cloths:
  kelp print: { width: 40, selvedge: 0, direction: one-way, lengths: [{ length: 30, first motif: 5 }],
    repeat: { along: 12, across: 10, from edge: 6 } }
pieces: [{ name: strip, count: 1, size: 13 x 30, cloth: kelp print, grain: lengthwise }]
from leftovers: [{ name: squares, kind: napkin, size: 7 1/2 x 7 1/2, match: { napkin: centre } }]
`);
    const { uses } = usesWith(asked);
    // Of its squares of 9 in the one around 13 across fits, not those around 3 and 23. Had the strip been laid along the right
    // edge, the first motif would lie at 6, and those around 6 and 16 would fit. Along, those around 5 and 17 do.
    const [own] = uses[0]!.cloth.inHand;
    const atLeft = own!.motifFromEdge === inches(3);
    expect([own!.motifFromEdge, own!.firstMotif]).toEqual([inches(atLeft ? 3 : 6), inches(5)]);
    expect(uses[0]!.uses[0]).toMatchObject({ count: atLeft ? 2 : 4, proven: true });
  });

  it('of a bought cloth lies as the first cut begins it, and nowhere that is known where nothing begins it', () => {
    const text = (match: string) => `
plan: Porch
unit: in
cloths: { kelp print: { width: 40, selvedge: 0, buy: { step: 1/2 yd }, repeat: { along: 12, across: 10, from edge: 6 } } }
pieces: [{ name: panel, count: 1, size: 38 x 20, cloth: kelp print, grain: lengthwise${match} }]
from leftovers: [{ name: squares, kind: napkin, size: 7 x 7, match: { napkin: centre } }]
`;
    const begun = usesWith(read(text(', match: { across: 16, up: 3 }')));
    expect(begun.uses[0]!.cloth.inHand.every(({ firstMotif }) => firstMotif !== undefined)).toBe(true);
    const free = usesWith(read(text('')));
    for (const { firstMotif, motifFromEdge } of free.uses[0]!.cloth.inHand) {
      expect(firstMotif).toBeUndefined();
      expect(motifFromEdge).toBe(inches(6));
    }
  });

  it('is not asked for what is matched where the cloth has no repeat', () => {
    const asked = read(`
plan: Porch
unit: in
cloths: { oat linen: { width: 40, selvedge: 0, lengths: [40] } }
pieces: [{ name: strip, count: 1, size: 40 x 10, cloth: oat linen }]
from leftovers: [{ name: squares, kind: napkin, size: 7 x 7, match: { napkin: centre } }]
`);
    expect(usesWith(asked).uses[0]!.uses).toEqual([]);
  });

  it('is asked for more of what the plan matches, matched the same', () => {
    const asked = read(`
plan: Porch
unit: in
cloths: { kelp print: { width: 22, selvedge: 0, direction: one-way, lengths: [{ length: 40, first motif: 5 }],
  repeat: { along: 12, across: 10, from edge: 6 } } }
make: [{ name: squares, kind: napkin, count: 2, size: 7 1/2 x 7 1/2, cloth: kelp print, match: { napkin: centre } }]
`);
    const { uses } = usesWith(asked, true);
    const more = uses[0]!.uses.find(({ source }) => source === 'plan')!;
    expect(more.count).toBe(4);
    expect(more.plan.pieces.map(({ match }) => match)).toEqual([{ kind: 'centre' }]);
  });

  it('gives what trying every place of the print gives, and proves it', () => {
    const counts = { some: 0, none: 0 };
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 20, max: 44 }),
          left: fc.integer({ min: 8, max: 30 }),
          along: fc.integer({ min: 6, max: 15 }),
          across: fc.integer({ min: 5, max: 15 }),
          fromEdge: fc.integer({ min: 0, max: 20 }).map((half) => half / 2),
          first: fc.integer({ min: 0, max: 20 }).map((half) => half / 2),
          side: fc.integer({ min: 8, max: 26 }).map((half) => half / 2),
        }),
        (printed) => {
          const found = usesWith(askedOf(printed));
          const most = bruteForce(printed);
          expect(countOf(found)).toBe(most);
          if (most > 0) expect(found.uses[0]!.uses[0]!.proven).toBe(true);
          counts[most > 0 ? 'some' : 'none']++;
        },
      ),
      { numRuns: 26, seed: 5 },
    );
    expect(counts.some).toBeGreaterThan(12);
    expect(counts.none).toBeGreaterThan(2);
  });

  it('uses the columns of both heights of a half drop, and never gives more than they hold', () => {
    let all = 0;
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 24, max: 44 }),
          left: fc.integer({ min: 10, max: 26 }),
          along: fc.integer({ min: 4, max: 8 }).map((half) => 2 * half),
          across: fc.integer({ min: 5, max: 12 }),
          fromEdge: fc.integer({ min: 0, max: 20 }).map((half) => half / 2),
          first: fc.integer({ min: 0, max: 20 }).map((half) => half / 2),
          drop: fc.constant('half' as const),
          side: fc.integer({ min: 5, max: 10 }),
        }),
        (printed) => {
          const found = usesWith(askedOf(printed));
          const most = bruteForce(printed);
          expect(countOf(found)).toBeLessThanOrEqual(most);
          if (countOf(found) === most && most > 0) all++;
          else if (countOf(found) > 0) expect(found.uses[0]!.uses[0]!.proven).toBe(false);
        },
      ),
      { numRuns: 12, seed: 6 },
    );
    expect(all).toBeGreaterThan(8);
  });
});
