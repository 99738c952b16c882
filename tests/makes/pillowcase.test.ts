import { describe, expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { exactPieces, inches, madeUp, sizeOf } from './support.ts';

const kind = 'pillowcase';

describe('published cases', () => {
  const { ease_in, ...sizes } = published['pillowcase-sizes'].values;

  // Case sizes and the 1 in of ease: Caraga State University, Fundamentals of Garment, lesson 6.
  test.each(Object.entries(sizes))('a %s case', (_name, [width, length]) => {
    const measures = {
      size: `${width - ease_in} x ${length - 6} in`,
      'longer than pillow': '6 in',
      flap: '0 in',
      hem: '3 + 1/2 in',
    };
    const wanted = { kind, measures };
    expect(madeUp(wanted).finished).toEqual({ width: inches(width), length: inches(length) });
    expect(madeUp(wanted).remarks).toEqual([]);
    expect(sizeOf(exactPieces(wanted).front)).toEqual([inches(width + 1), inches(length + 0.5 + 3.5)]);
    expect(sizeOf(exactPieces(wanted).back)).toEqual(sizeOf(exactPieces(wanted).front));
  });

  // The warp runs along the pillow: McGlauflin, Handicraft for Girls (1910), who hems the model 3/4 in deep.
  test('the warp of the school model runs along the pillow', () => {
    const measures = { size: '7 x 10 in', flap: '0 in', 'longer than pillow': '4 in', hem: '3/4 + 1/4 in' };
    const { front } = exactPieces({ kind, measures });
    expect(front.grain).toBe('lengthwise');
    expect(front.exactSize.length).toBe(inches(14 + 0.5 + 1));
  });
});

const measures = {
  size: '19 x 27 in',
  'wider than pillow': '3/4 in',
  'longer than pillow': '1/2 in',
  flap: '7 in',
  hem: '2 + 1/2 in',
  'flap hem': '3/8 + 1/4 in',
  'seam allowance': '5/8 in',
};

test('with a flap the back goes on past the opening', () => {
  const pieces = exactPieces({ kind, measures });
  expect(Object.keys(pieces)).toEqual(['front', 'back and flap']);
  expect(sizeOf(pieces.front)).toEqual([inches(21), inches(27.5 + 0.625 + 2.5)]);
  expect(sizeOf(pieces['back and flap'])).toEqual([inches(21), inches(27.5 + 7 + 0.625 + 0.625)]);
  expect(pieces['back and flap'].lines).toContainEqual({
    kind: 'fold',
    x0: 0,
    x1: inches(21),
    y0: inches(0.625 + 27.5),
    y1: inches(0.625 + 27.5),
  });
});

test('in one piece, folded at the closed end', () => {
  const pieces = exactPieces({ kind, measures: { ...measures, 'cut as': 'one piece' } });
  expect(Object.keys(pieces)).toEqual(['front and back']);
  expect(pieces['front and back'].grain).toBe('lengthwise');
  expect(sizeOf(pieces['front and back'])).toEqual([inches(21), inches(2 * 27.5 + 7 + 2.5 + 0.625)]);
});

test('a print that stands across the pillow turns every piece and frees its grain', () => {
  const along = exactPieces({ kind, measures });
  const across = exactPieces({ kind, measures: { ...measures, 'print up': 'across the pillow' } });
  for (const name of ['front', 'back and flap']) {
    expect(sizeOf(across[name])).toEqual([...sizeOf(along[name])].reverse());
    expect(across[name].grain).toBe('either');
  }
  const [fold] = across['back and flap'].lines.filter((line) => line.kind === 'fold');
  expect([fold.x0, fold.x1]).toEqual([inches(28.125), inches(28.125)]);
});

test('warns where nothing keeps the pillow in, where a flap is too long, and of its hem', () => {
  const of = (changed: Readonly<Record<string, string>>) =>
    madeUp({ kind, measures: { ...measures, ...changed } }).remarks.map(({ measure }) => measure);
  expect(of({})).toEqual([]);
  expect(of({ flap: '3 7/8 in' })).toEqual(['flap']);
  expect(of({ flap: '3 7/8 in', 'longer than pillow': '4 in' })).toEqual([]);
  expect(of({ flap: '27 5/8 in' })).toEqual(['flap']);
  expect(of({ 'flap hem': '7 1/8 + 1/4 in' })).toEqual(['flap hem']);
});
