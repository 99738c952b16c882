import { describe, expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { centimetres, exactPieces, inches, madeUp, sizeOf } from './support.ts';

const kind = 'curtain';
const noSides = { 'side hem': '0 + 0 in', 'seam allowance': '0 in', curtains: '1' };

describe('published figures', () => {
  const widthsOf = (measures: Readonly<Record<string, string>>) =>
    Object.values(exactPieces({ kind, measures })).reduce((all, { copies }) => all + copies, 0);

  // Widths = finished width × fullness ÷ usable width, rounded up: two how-to pages, common practice.
  test('65 in × 2.25 on 54 in takes 3 widths; three drops of 96 in are 8 yd', () => {
    const facts = published['widths-count'].values;
    const measures = {
      ...noSides,
      'finished width': '65 in',
      fullness: '2.25',
      'width of each': '54 in',
      'finished length': '86 in',
      heading: '1 1/2 + 1/2 in',
      'bottom hem': '4 + 4 in',
    };
    expect(widthsOf(measures)).toBe(facts['146.25/54']);
    const drops = Object.values(exactPieces({ kind, measures }));
    const all = drops.reduce((length, piece) => length + piece.copies * piece.exactSize.length, 0);
    expect(all).toBe(inches(facts['3x96']));
    expect(all).toBe(inches(36 * facts.yd));
  });

  test('189 in on 54 in takes 4 widths', () => {
    const measures = {
      ...noSides,
      'finished width': '189 in',
      fullness: '1',
      'width of each': '54 in',
      'finished length': '80 in',
    };
    expect(widthsOf(measures)).toBe(published['widths-count'].values['189/54']);
  });

  // A cover of 3 m from cloth of 1.35 m: two widths make 2.70 m, too few (a furnishing studio's glossary, common practice).
  test('3 m from 1.35 m takes 3 widths', () => {
    const measures = {
      ...noSides,
      'finished width': '3 m',
      fullness: '1',
      'width of each': '1.35 m',
      'finished length': '3 m',
    };
    const pieces = exactPieces({ kind, measures, unit: 'cm' });
    const all = Object.values(pieces).reduce((sum, { copies }) => sum + copies, 0);
    expect(all).toBe(published['bedcover-widths'].values.widths);
  });

  // A usable width on plain cloth leaves out about 1.5 cm of seam on each side (Encyclopaedia of Curtains, pp. 116-117).
  test('each join takes a seam of both widths', () => {
    const seam = published['repeat-rule'].values.seam_each_side_cm;
    const measures = {
      ...noSides,
      'seam allowance': `${seam} cm`,
      'finished width': '265 cm',
      fullness: '1',
      'width of each': '137 cm',
      'finished length': '190 cm',
    };
    // 2 × 137 - 3 = 271 ≥ 265, but 272 would ask for a third.
    expect(widthsOf(measures)).toBe(2);
    expect(widthsOf({ ...measures, 'finished width': '271 cm' })).toBe(2);
    expect(widthsOf({ ...measures, 'finished width': '271.1 cm' })).toBe(3);
  });

  // A double hem adds twice its depth; 1 in goes into each joining seam (a pattern-making handbook extract).
  test.each([
    [4, published['curtain-allowances'].values['4in_double']],
    [5, published['curtain-allowances'].values.sheer[0]],
    [6, published['curtain-allowances'].values.sheer[1]],
  ])('a double hem of %i in adds %i in', (deep, adds) => {
    const measures = {
      'finished width': '40 in',
      'finished length': '71 in',
      heading: '2 + 1/2 in',
      'bottom hem': `${deep} + ${deep} in`,
    };
    expect(exactPieces({ kind, measures }).curtain.exactSize.length).toBe(inches(71 + 2.5 + adds));
  });
});

const measures = {
  'finished width': '63 in',
  'finished length': '77 in',
  fullness: '1.75',
  curtains: '2',
  'side hem': '1 1/4 + 3/4 in',
  'seam allowance': '5/8 in',
};

test('one whole panel each, on the lengthwise grain', () => {
  const { curtain } = exactPieces({ kind, measures, count: 3 });
  expect(sizeOf(curtain)).toEqual([inches((63 * 1.75) / 2 + 4), inches(77 + 2 + 8)]);
  expect(curtain.copies).toBe(6);
  expect(curtain.grain).toBe('lengthwise');
});

test('widths cut alike, with side hems outside and joins between', () => {
  const pieces = exactPieces({ kind, measures: { ...measures, widths: '4' }, count: 3 });
  const each = ((63 * 1.75) / 2 + 4 + 3 * 1.25) / 4;
  expect(Object.entries(pieces).map(([name, { copies }]) => [name, copies])).toEqual([
    ['left width', 6],
    ['middle width', 12],
    ['right width', 6],
  ]);
  for (const piece of Object.values(pieces)) expect(piece.exactSize.width).toBe(Math.ceil(inches(1) * each));
  expect(pieces['left width'].finished.x0).toBe(inches(2));
  expect(pieces['right width'].finished.x0).toBe(inches(0.625));
  expect(
    pieces['middle width'].lines.map((line) => line.kind).filter((name) => name === 'join'),
  ).toHaveLength(2);
});

test('a given width says how full the curtain comes out', () => {
  const wanted = { kind, measures: { ...measures, 'width of each': '41 in' } };
  // 63 × 1.75 ÷ 2 = 55 1/8; two widths of 41 in, less a seam of 2 × 5/8 and side hems of 2 × 2 in, make 76 3/4.
  expect(madeUp(wanted).finished.width).toBe(inches(76.75));
  expect(exactPieces(wanted)['left width'].exactSize.width).toBe(inches(41));
});

test('a narrow width hangs at the outer edge of each of a pair (common practice, no published source)', () => {
  const told = (changed: Readonly<Record<string, string>>) =>
    madeUp({ kind, measures: { ...measures, ...changed } }).assembly.join(' ');
  expect(told({ 'curtain joins': '1' })).toMatch(/narrow one hang at the outer edge/);
  expect(told({})).not.toMatch(/outer edge/);
  expect(told({ 'curtain joins': '1', curtains: '1' })).not.toMatch(/outer edge/);
});

test('two curtains of metric cloth', () => {
  const metric = { 'finished width': '164 cm', 'finished length': '203 cm', fullness: '2.5' };
  const { curtain } = exactPieces({ kind, measures: metric, unit: 'cm' });
  expect(sizeOf(curtain)).toEqual([centimetres(205 + 10), centimetres(203 + 5 + 20)]);
});

test.each([
  [{ widths: '1', 'width of each': '41 in' }, 'widths'],
  [{ 'width of each': '1 1/4 in' }, 'width of each'],
  [{ widths: '40', 'seam allowance': '5/8 in', 'side hem': '4 + 4 in', 'finished width': '5 in' }, 'widths'],
])('%o is refused', (changed, measure) => {
  const wanted = { kind, measures: { ...measures, ...changed } };
  const errors = madeUp(wanted).remarks.filter(({ severity }) => severity === 'error');
  expect(errors.map((remark) => remark.measure)).toContain(measure);
  expect(exactPieces(wanted)).toEqual({});
});

test('cords are cautioned', () => {
  expect(madeUp({ kind, measures }).cautions).toEqual(['rotary-cutter', 'curtain-cords', 'flammability']);
});
