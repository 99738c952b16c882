import { expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { exactPieces, inches, madeUp, sizeOf } from './support.ts';

// Strips = (2W + 2L + 10) / usable width, rounded up; 10 in for joins is common practice.
test.each([
  ['60x80,2.5in,40in', '60 x 80 in', '2 1/2 in', '40 in'],
  ['50x60,2.25in,42in', '50 x 60 in', '2 1/4 in', '42 in'],
] as const)('binding %s', (title, size, stripWidth, stripLength) => {
  const expected = published['binding-derived'].values[title];
  const measures = { size, 'strip width': stripWidth, 'strip length': stripLength };
  const { strip } = exactPieces({ kind: 'binding', measures });
  expect(strip.copies).toBe(expected.strips);
  expect(strip.copies * strip.exactSize.length).toBe(inches(expected.inches));
});

// Perimeters read in a school presentation on quilt yardage.
test.each(Object.entries(published['binding-derived'].values.perimeters))(
  'all round %s',
  (size, perimeter) => {
    const measures = { size: `${size} in`, 'strip length': '41 in', 'joining allowance': '0 in' };
    const [all] = madeUp({ kind: 'binding', measures }).arithmetic;
    expect(all.terms.at(-1)).toEqual({ ticks: inches(perimeter) });
  },
);

test('a tie is cut four times as wide, or twice with seams', () => {
  const measures = { length: '13 in', width: '5/8 in', ends: '3/8 in' };
  expect(sizeOf(exactPieces({ kind: 'tie', measures }).tie)).toEqual([inches(2.5), inches(13.75)]);
  const turned = { ...measures, fold: 'turned through', 'seam allowance': '1/4 in' };
  expect(sizeOf(exactPieces({ kind: 'tie', measures: turned }).tie)).toEqual([inches(1.75), inches(13.75)]);
});
