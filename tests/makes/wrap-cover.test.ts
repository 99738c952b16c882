import { expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { exactPieces, inches, madeUp, sizeOf } from './support.ts';

const kind = 'wrap-cover';

// 34 - 2 × 1 - 2 × 14 = 4: a craft page, which states the lap of 4 in itself.
test('the strip of a published one-piece cover', () => {
  const { pad, strip, hem_turn_each, overlap } = published['envelope-one-piece'].values;
  const measures = {
    size: `${pad} x ${pad} in`,
    'seam allowance': '1/2 in',
    hem: `${hem_turn_each / 2} + ${hem_turn_each / 2} in`,
    lap: `${overlap} in`,
  };
  expect(sizeOf(exactPieces({ kind, measures }).strip)).toEqual(strip.map(inches));
});

test('its folds lie where front and backs meet, level or upright', () => {
  const measures = {
    size: '19 x 13 in',
    'seam allowance': '5/8 in',
    hem: '1 + 1/4 in',
    'outer back depth': '9 in',
    lap: '3 1/2 in',
  };
  const level = exactPieces({ kind, measures: { ...measures, opening: 'level' } }).strip;
  expect(sizeOf(level)).toEqual([inches(20.25), inches(2 * 13 + 3.5 + 2.5)]);
  const folds = level.lines.filter((line) => line.kind === 'fold');
  // From below: hem, inner back of 7 1/2, front of 13, outer back of 9, hem.
  expect(folds.map(({ y0 }) => y0).sort((a, b) => a - b)).toEqual([inches(8.75), inches(21.75)]);

  const upright = exactPieces({ kind, measures: { ...measures, opening: 'upright' } }).strip;
  expect(sizeOf(upright)).toEqual([inches(2 * 19 + 3.5 + 2.5), inches(14.25)]);
  const uprightFolds = upright.lines.filter((line) => line.kind === 'fold').map(({ x0 }) => x0);
  // From the left: hem, inner back of 13 1/2, front of 19, outer back of 9, hem.
  expect(uprightFolds.sort((a, b) => a - b)).toEqual([inches(14.75), inches(33.75)]);
});

test('the outer back is folded over first, and a back deeper than the front is refused', () => {
  const { assembly } = madeUp({ kind, measures: { size: '19 x 13 in' } });
  const at = (words: string) => assembly.findIndex((sentence) => sentence.includes(words));
  expect(at('Fold the outer back')).toBeGreaterThan(0);
  expect(at('Fold the inner back')).toBeGreaterThan(at('Fold the outer back'));
  const deep = { kind, measures: { size: '19 x 13 in', 'inner back depth': '13 1/8 in' } };
  expect(madeUp(deep).remarks).toMatchObject([{ severity: 'error', measure: 'inner back depth' }]);
  expect(exactPieces(deep)).toEqual({});
});
