import { describe, expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { exactPieces, inches, madeUp, sizeOf } from './support.ts';

describe('napkins', () => {
  // cut = finished + 2 × what the hem takes up: derived, common practice. The hem of 1/2 in there is all that it takes up.
  test.each([
    ['18in finished, 1/2in hem all round, 44in usable, 4', 18, '1/4 + 1/4 in', 44, 4],
    ['same, 6', 18, '1/4 + 1/4 in', 44, 6],
    ['same, 12', 18, '1/4 + 1/4 in', 44, 12],
    ['same, 60in usable, 12', 18, '1/4 + 1/4 in', 60, 12],
    ['16in finished, 1/4in hem all round, 44in, 4', 16, '1/8 + 1/8 in', 44, 4],
    ['20in finished, 1/2in hem, 44in, 6', 20, '3/8 + 1/8 in', 44, 6],
  ] as const)('%s', (title, side, hem, usable, count) => {
    const expected = published['napkin-yardage-derived'].values[title];
    const { napkin } = exactPieces({
      kind: 'napkin',
      measures: { size: `${side} x ${side} in`, hem },
      count,
    });
    const [cut] = sizeOf(napkin);
    const across = Math.floor(inches(usable) / cut);
    expect(across).toBe(expected.across);
    expect(Math.ceil(napkin.copies / across)).toBe(expected.rows);
    expect(expected.rows * cut).toBe(inches(expected.inches));
  });

  // Luncheon, breakfast and dinner napkins (The Complete Home, 1906) with McGlauflin's hem of 1/2 in (1910) on Watson's turn of 1/4 in (1907).
  test.each(['lunch', 'breakfast', 'dinner'] as const)('a %s napkin of 1906', (meal) => {
    const side = published['napkin-sizes-1906'].values[meal];
    const hem = `${published['hem-school-1910'].values.napkin_hem_in} + ${published['hem-first-turn'].values.first_turn_min_in} in`;
    const wanted = { kind: 'napkin', measures: { size: `${side} x ${side} in`, hem } };
    expect(sizeOf(exactPieces(wanted).napkin)).toEqual([inches(side + 1.5), inches(side + 1.5)]);
    expect(madeUp(wanted).remarks).toEqual([]);
    expect(madeUp(wanted).assembly.join(' ')).toContain('mitre');
  });

  test('an oblong one is hemmed on all four sides', () => {
    const { napkin } = exactPieces({
      kind: 'napkin',
      measures: { size: '19 x 16 1/2 in', hem: '3/8 + 5/16 in' },
    });
    expect(sizeOf(napkin)).toEqual([inches(19 + 1.375), inches(16.5 + 1.375)]);
    expect(napkin.lines.filter(({ kind }) => kind === 'hem-fold')).toHaveLength(4);
    expect(napkin.lines.filter(({ kind }) => kind === 'turn-under')).toHaveLength(4);
    expect(napkin.finished).toEqual({
      x0: inches(0.6875),
      y0: inches(0.6875),
      x1: inches(19.6875),
      y1: inches(17.1875),
    });
  });

  test.each([
    ['5 + 1/4 in', 'Two hems of {visible} meet'],
    ['9 1/8 + 1/4 in', 'is deeper than the {piece} it hems'],
    ['0 + 0 in', 'stays raw'],
    ['1/2 + 0 in', 'may fray'],
  ])('warns of a hem of %s on 9 x 10 in', (hem, words) => {
    const { remarks } = madeUp({ kind: 'napkin', measures: { size: '9 x 10 in', hem } });
    expect(remarks.map(({ sentence }) => sentence)).toEqual([expect.stringContaining(words)]);
  });
});

describe('place mats', () => {
  const measures = { size: '17 x 12 1/2 in', hem: '3/4 + 1/4 in', 'seam allowance': '3/8 in' };
  const kind = 'place-mat';

  test('one layer, hemmed', () => {
    const pieces = exactPieces({ kind, measures });
    expect(Object.keys(pieces)).toEqual(['front']);
    expect(sizeOf(pieces.front)).toEqual([inches(19), inches(14.5)]);
  });

  test.each([
    ['cut to the front', [17.75, 13.25]],
    ['inside the seams', [17, 12.5]],
  ] as const)('two layers and wadding %s', (wadding, [width, length]) => {
    const pieces = exactPieces({
      kind,
      measures: { ...measures, wadding },
      withParts: ['lining', 'wadding'],
    });
    expect(Object.keys(pieces)).toEqual(['front', 'lining', 'wadding']);
    expect(sizeOf(pieces.front)).toEqual([inches(17.75), inches(13.25)]);
    expect(sizeOf(pieces.lining)).toEqual(sizeOf(pieces.front));
    expect(sizeOf(pieces.wadding)).toEqual([inches(width), inches(length)]);
    expect(pieces.wadding.cloth).toBe('cloth for wadding');
  });

  test('wadding without a lining is refused', () => {
    const wanted = { kind, measures, withParts: ['wadding'] };
    expect(madeUp(wanted).remarks).toMatchObject([{ severity: 'error', measure: 'cloth' }]);
    expect(exactPieces(wanted)).toEqual({});
  });
});

describe('runners and tablecloths', () => {
  // "48 + 2 × 12 = 72": The Complete Home, 1906.
  test('the tablecloth of 1906 for a table of 4 ft', () => {
    const { table_in, drop_in, cloth_in } = published['tablecloth-1906'].values;
    const wanted = {
      kind: 'tablecloth',
      measures: { table: `${table_in} x ${table_in} in`, drop: `${drop_in} in`, hem: '1 + 1/4 in' },
    };
    expect(madeUp(wanted).finished).toEqual({ width: inches(cloth_in), length: inches(cloth_in) });
    expect(sizeOf(exactPieces(wanted).tablecloth)).toEqual([inches(74.5), inches(74.5)]);
    expect(madeUp(wanted).remarks).toEqual([]);
    const short = { ...wanted, measures: { ...wanted.measures, drop: '11 7/8 in' } };
    expect(madeUp(short).remarks).toMatchObject([{ severity: 'warning', measure: 'drop' }]);
  });

  // Strips 12 in wide that run the table's length and hang over its ends: The Complete Home, 1906.
  test('the runner of 1906, from the table and its drop', () => {
    const width = published['runner-1906'].values.width_in;
    const wanted = {
      kind: 'runner',
      measures: { width: `${width} in`, length: '70 in', drop: '9 in', hem: '1/2 + 1/4 in' },
    };
    expect(madeUp(wanted).finished).toEqual({ width: inches(12), length: inches(88) });
    expect(sizeOf(exactPieces(wanted).front)).toEqual([inches(13.5), inches(89.5)]);
    expect(madeUp({ kind: 'runner', measures: { length: '88 in' } }).finished.width).toBe(inches(width));
  });

  test('lined: both layers with seams', () => {
    const measures = { width: '14 in', length: '71 in', 'seam allowance': '5/8 in' };
    const pieces = exactPieces({ kind: 'runner', measures, withParts: ['lining'] });
    expect(Object.keys(pieces)).toEqual(['front', 'lining']);
    expect(sizeOf(pieces.lining)).toEqual([inches(15.25), inches(72.25)]);
  });
});
