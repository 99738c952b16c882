import { describe, expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { exactPieces, inches, madeUp, sizeOf } from './support.ts';

const kind = 'tote';

// McGlauflin, Handicraft for Girls (1910), A Book Bag: body 15 x 10 in, handles 14 x 3 in, seams 1/4 in, top hem 3/4 in.
// Its two end pieces have no place in our bag; body and handles are checked. Finished sizes are worked back by us.
test('body and handles of the book bag of 1910', () => {
  const { body, handles, seam, hem, handle_gap } = published['tote-1910'].values;
  const measures = {
    size: '9 1/2 x 6 3/4 in',
    body: 'one piece',
    'seam allowance': `${seam} in`,
    'top hem': `${hem - 0.25} + 0.25 in`,
    'handle length': '12 in',
    'handle ends': '1 in',
    'handle width': '3/4 in',
  };
  const pieces = exactPieces({ kind, measures });
  expect(Object.keys(pieces)).toEqual(['body', 'handle']);
  expect(sizeOf(pieces.body)).toEqual([inches(body[1]), inches(body[0])]);
  expect(sizeOf(pieces.handle)).toEqual([inches(handles[0][1]), inches(handles[0][0])]);
  expect(pieces.handle.copies).toBe(handles.length);
  expect(madeUp({ kind, measures }).assembly.join(' ')).toContain(`${handle_gap} in apart`);
});

describe('boxed bottom', () => {
  const measures = {
    size: '15 x 13 in',
    depth: '5 in',
    'seam allowance': '3/8 in',
    'top hem': '1 1/4 + 1/2 in',
  };

  test('two panels: half the depth goes to each side and to each panel', () => {
    const pieces = exactPieces({ kind, measures });
    expect(Object.keys(pieces)).toEqual(['body panel', 'handle']);
    const panel = pieces['body panel'];
    expect(panel.copies).toBe(2);
    expect(sizeOf(panel)).toEqual([inches(15 + 5 + 0.75), inches(13 + 2.5 + 0.375 + 1.75)]);
    const folds = panel.lines.filter((line) => line.kind === 'fold');
    expect(folds.map(({ x0, y0 }) => [x0, y0])).toEqual([
      [inches(2.875), 0],
      [inches(17.875), 0],
      [0, inches(2.875)],
    ]);
  });

  test('one piece: the whole depth lies between front and back', () => {
    const { body } = exactPieces({ kind, measures: { ...measures, body: 'one piece' } });
    expect(sizeOf(body)).toEqual([inches(20.75), inches(2 * 13 + 5 + 2 * 1.75)]);
    const level = body.lines
      .filter((line) => line.kind === 'fold' && line.y0 === line.y1)
      .map(({ y0 }) => y0);
    expect(level.sort((a, b) => a - b)).toEqual([inches(1.75 + 13), inches(1.75 + 13 + 5)]);
  });

  test('lined: the top is a seam, and the lining is cut like the body', () => {
    const pieces = exactPieces({ kind, measures, withParts: ['lining'], count: 7 });
    expect(Object.keys(pieces)).toEqual(['body panel', 'lining panel', 'handle']);
    expect(sizeOf(pieces['body panel'])).toEqual([inches(20.75), inches(13 + 2.5 + 0.75)]);
    expect(sizeOf(pieces['lining panel'])).toEqual(sizeOf(pieces['body panel']));
    expect(pieces['lining panel'].cloth).toBe('cloth for lining');
    expect(pieces['lining panel'].copies).toBe(14);
  });
});

test('a handle that is turned through has two layers and a seam', () => {
  const measures = {
    size: '15 x 13 in',
    'seam allowance': '3/8 in',
    'handle fold': 'turned through',
    'handle width': '1 1/8 in',
    'handle length': '23 in',
    'handle ends': '3/4 in',
  };
  const { handle } = exactPieces({ kind, measures });
  expect(sizeOf(handle)).toEqual([inches(2 * 1.125 + 0.75), inches(24.5)]);
});

test('warns where the handles do not fit across the bag', () => {
  const measures = { size: '9 x 13 in', 'handle width': '1 1/2 in', 'handle gap': '6 1/8 in' };
  expect(madeUp({ kind, measures: { ...measures, 'handle gap': '6 in' } }).remarks).toEqual([]);
  expect(madeUp({ kind, measures }).remarks).toMatchObject([
    { severity: 'warning', measure: 'handle gap', figures: { taken: inches(9.125), width: inches(9) } },
  ]);
});
