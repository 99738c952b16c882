import { describe, expect, test } from 'vitest';
import published from '../../fixtures/published/trade/makes.json' with { type: 'json' };
import { centimetres, exactPieces, inches, madeUp, sizeOf } from './support.ts';

const kind = 'envelope-cover';

describe('published covers', () => {
  // "Cut size = finished + 2 × seam allowance": universal practice, no published source.
  test.each([
    ['18 x 18 in', '1/2 in', inches(published['cut-size'].values['18in,1/2in'])],
    ['18 x 18 in', '5/8 in', inches(published['cut-size'].values['18in,5/8in'])],
    ['18 x 18 in', '1/4 in', inches(published['cut-size'].values['18in,1/4in'])],
    ['45 x 45 cm', '1.5 cm', centimetres(published['cut-size'].values['45cm,1.5cm'])],
  ])('a front of %s with %s seams', (size, allowance, side) => {
    const { front } = exactPieces({ kind, measures: { size, 'seam allowance': allowance } });
    expect(sizeOf(front)).toEqual([side, side]);
  });

  // "Make the finished cover 1 in smaller than a fibre form, 2 in smaller for feather": read in one shop project sheet, common practice.
  const ease = published['cover-smaller'].values;
  test.each([
    ['18 x 18 in', '0', undefined],
    ['18 x 18 in', `${ease.fibre_in} in`, 'sits tighter'],
    ['18 x 18 in', `${ease.feather_in} in`, 'sits tighter'],
    // One tick of the finest mark beyond what is usual for feather.
    ['18 x 18 in', '2 1/64 in', 'may strain the seams'],
    ['17 x 17 in', '0', 'sits loose'],
  ])('a pad at hand of %s in a cover of 18 in made %s smaller', (pad, smaller, words) => {
    const { remarks } = madeUp({ kind, measures: { size: '18 x 18 in', pad, 'smaller than pad': smaller } });
    const [own, ...others] = remarks.filter(({ measure }) => measure === 'pad');
    expect(others).toEqual([]);
    if (words === undefined) expect(own).toBeUndefined();
    else {
      expect(own!.sentence).toContain(words);
      expect(own!.severity).toBe('warning');
      if (words !== 'sits loose')
        expect([own!.figures.fibre, own!.figures.feather]).toEqual([inches(1), inches(2)]);
    }
  });

  // Equal backs: (finished + lap) / 2 + seam allowance + hem, where the hem is visible + turned under. Derived.
  const derived = published['envelope-derived'].values;
  test.each([
    ['18 x 18 in', '1/2 in', '5 in', '1 + 1/2 in', derived['18in fin, SA .5, overlap 5, hem 1+.5'], inches],
    ['16 x 16 in', '1/2 in', '4 in', '1 + 1/2 in', derived['16in fin, SA .5, overlap 4, hem 1+.5'], inches],
    [
      '45 x 45 cm',
      '1.5 cm',
      '12 cm',
      '2 + 1 cm',
      derived['45cm fin, SA 1.5, overlap 12, hem 2+1'],
      centimetres,
    ],
  ] as const)('equal backs of a %s cover', (size, allowance, lap, hem, expected, unit) => {
    const pieces = exactPieces({ kind, measures: { size, 'seam allowance': allowance, lap, hem } });
    expect(sizeOf(pieces.front)).toEqual(expected.front.map(unit));
    expect(sizeOf(pieces['outer back'])).toEqual(expected.back_each.map(unit));
    expect(sizeOf(pieces['inner back'])).toEqual(expected.back_each.map(unit));
  });

  // Cut lists read in four craft pages; the lap is arithmetic. Lap = back cuts - hems - front cut.
  // Tutorial D gives its hems in metric (1.575 in = 4 cm each) and its lap to one decimal; the rest is exact.
  test.each(Object.entries(published['envelope-overlap-identity'].values))(
    'backs and lap of %s',
    (_title, { front_cut, backs_cut, hem_turn_total, overlap_in }) => {
      const allowance = 0.25;
      const depth = (index: number) => backs_cut[index] - hem_turn_total[index] - allowance;
      const measures = {
        size: `${front_cut - 2 * allowance} x ${front_cut - 2 * allowance} in`,
        'seam allowance': `${allowance} in`,
        hem: `${hem_turn_total[0] - 0.25} + 0.25 in`,
        'outer back depth': `${depth(0).toFixed(4)} in`,
        'inner back depth': `${depth(1).toFixed(4)} in`,
      };
      const wanted = { kind, measures };
      const pieces = exactPieces(wanted);
      expect(pieces['outer back'].exactSize.length / 8128).toBeCloseTo(backs_cut[0], 3);
      expect(pieces['inner back'].exactSize.length / 8128).toBeCloseTo(backs_cut[1], 3);
      const lap = madeUp(wanted)
        .arithmetic.find(({ what }) => what === 'lap')
        ?.terms.at(-1);
      expect(lap).toMatchObject({ ticks: expect.any(Number) });
      expect((lap as { ticks: number }).ticks / 8128).toBeCloseTo(overlap_in, 2);
    },
  );

  // One shop project sheet, agrees with practice: 1 in smaller for a fibre form, 2 in for feather.
  test.each([
    ['fibre', published['cover-smaller'].values.fibre_in],
    ['feather', published['cover-smaller'].values.feather_in],
  ])('a cover smaller than a %s pad', (_filling, smaller) => {
    const measures = { size: '20 x 14 in', 'smaller than pad': `${smaller} in` };
    expect(madeUp({ kind, measures }).finished).toEqual({
      width: inches(20 - smaller),
      length: inches(14 - smaller),
    });
  });
});

describe('which way it opens', () => {
  const measures = {
    size: '21 1/2 x 15 in',
    lap: '4 in',
    hem: '1 1/4 + 3/8 in',
    'outer back depth': '11 in',
  };

  test('level: backs are as wide as the cover, the outer one above', () => {
    const pieces = exactPieces({ kind, measures: { ...measures, opening: 'level' } });
    expect(sizeOf(pieces.front)).toEqual([inches(22.5), inches(16)]);
    expect(sizeOf(pieces['outer back'])).toEqual([inches(22.5), inches(11 + 0.5 + 1.625)]);
    expect(sizeOf(pieces['inner back'])).toEqual([inches(22.5), inches(8 + 0.5 + 1.625)]);
    expect(pieces['outer back'].finished.y0).toBe(inches(1.625));
    expect(pieces['inner back'].finished.y0).toBe(inches(0.5));
  });

  test('upright: backs are as tall as the cover, the outer one at the left from behind', () => {
    const pieces = exactPieces({ kind, measures: { ...measures, opening: 'upright' } });
    expect(sizeOf(pieces['outer back'])).toEqual([inches(11 + 0.5 + 1.625), inches(16)]);
    expect(sizeOf(pieces['inner back'])).toEqual([inches(21.5 + 4 - 11 + 0.5 + 1.625), inches(16)]);
    expect(pieces['outer back'].finished.x0).toBe(inches(0.5));
    expect(pieces['inner back'].finished.x0).toBe(inches(1.625));
  });

  test('the pile goes front, outer back, inner back; raw edges lie where the backs belong', () => {
    for (const [opening, outerSide] of [
      ['level', 'top'],
      ['upright', 'right-hand side'],
    ] as const) {
      const assembly = madeUp({ kind, measures: { ...measures, opening } }).assembly;
      const at = (start: string) => assembly.findIndex((sentence) => sentence.startsWith(start));
      expect(at('Lay the front face up')).toBeGreaterThan(0);
      expect(at('Lay the outer back on it first, face down')).toBe(at('Lay the front face up') + 1);
      expect(at('Lay the inner back on last, face down')).toBe(at('Lay the front face up') + 2);
      expect(assembly[at('Lay the outer back')]).toContain(outerSide);
    }
  });
});

test('hem folds lie at the finished edge and at the turn-under', () => {
  const pieces = exactPieces({ kind, measures: { size: '17 x 13 in', hem: '1 1/8 + 3/8 in' } });
  const across = { x0: 0, x1: inches(18) };
  expect(pieces['outer back'].lines).toContainEqual({
    kind: 'turn-under',
    ...across,
    y0: inches(0.375),
    y1: inches(0.375),
  });
  expect(pieces['outer back'].lines).toContainEqual({
    kind: 'hem-fold',
    ...across,
    y0: inches(1.5),
    y1: inches(1.5),
  });
  expect(pieces.front.lines.map(({ kind: lineKind }) => lineKind)).toEqual(['seam', 'seam', 'seam', 'seam']);
});

describe('interfacing', () => {
  const wanted = (interfacing: string) => ({
    kind,
    measures: {
      size: '17 x 13 in',
      'seam allowance': '3/8 in',
      interfacing,
      'interfacing oversize': '5/8 in',
    },
    withParts: ['interfacing'],
  });

  test.each([
    ['cut to the front', [17.75, 13.75], 0.375],
    ['inside the seams', [17, 13], 0],
    ['oversize', [19, 15], 1],
  ] as const)('%s', (choice, [width, length], outside) => {
    const { interfacing } = exactPieces(wanted(choice));
    expect(sizeOf(interfacing)).toEqual([inches(width), inches(length)]);
    expect(interfacing.finished.x0).toBe(inches(outside));
    expect(interfacing.cloth).toBe('cloth for interfacing');
    expect(madeUp(wanted(choice)).cautions).toContain('iron-and-fusing');
  });

  test('none where no cloth is named for it', () => {
    const without = { ...wanted('oversize'), withParts: [] };
    expect(Object.keys(exactPieces(without))).toEqual(['front', 'outer back', 'inner back']);
    expect(madeUp(without).cautions).not.toContain('iron-and-fusing');
    expect(madeUp(without).cautions).toContain('infant-sleep');
  });
});

describe('practice', () => {
  const remarksOf = (measures: Readonly<Record<string, string>>) =>
    madeUp({ kind, measures: { size: '19 x 17 in', ...measures } }).remarks;

  test('nothing is said about a usual cover', () => {
    expect(remarksOf({})).toEqual([]);
  });

  test.each([
    ['a lap that either rule allows', { size: '27 x 24 in', lap: '8 in' }],
    ['the least lap of a large cover', { size: '27 x 24 in', lap: '3 in' }],
    ['a quarter of a small cover', { size: '8 x 9 in', lap: '2 1/4 in' }],
    ['a back as deep as the front', { 'outer back depth': '17 in', lap: '3 in' }],
    ['a hem as deep as its back', { hem: '3 1/2 + 1/2 in', lap: '3 in', 'inner back depth': '3 1/2 in' }],
    ['the least seam', { 'seam allowance': '1/4 in' }],
  ] as const)('says nothing of %s', (_what, measures) => {
    expect(remarksOf(measures)).toEqual([]);
  });

  test.each([
    // Laps of 3 to 6 in, or a quarter to a third of the pad: craft pages, common practice.
    ['a small lap', { lap: '2 7/8 in' }, 'lap', { lap: inches(2.875), least: inches(3) }],
    ['a large lap', { lap: '6 1/8 in' }, 'lap', { lap: inches(6.125), most: inches(6) }],
    // First turn of a hem at least 1/4 in: Watson 1907, Hems.
    ['a thin turn-under', { hem: '1 + 3/16 in' }, 'hem', { under: inches(0.1875), least: inches(0.25) }],
    ['a deep turn-under', { hem: '3/4 + 7/8 in' }, 'hem', { under: inches(0.875), visible: inches(0.75) }],
    [
      'a hem deeper than its back',
      { hem: '4 + 1/2 in', lap: '3 in', 'inner back depth': '3 1/2 in' },
      'hem',
      { visible: inches(4), room: inches(3.5), piece: 'inner back' },
    ],
    ['a thin seam', { 'seam allowance': '1/8 in' }, 'seam allowance', { allowance: inches(0.125) }],
  ] as const)('warns of %s and still cuts', (_what, measures, measure, figures) => {
    const remarks = remarksOf(measures);
    expect(remarks).toHaveLength(1);
    expect(remarks[0]).toMatchObject({ severity: 'warning', measure, figures });
    expect(Object.keys(exactPieces({ kind, measures: { size: '19 x 17 in', ...measures } }))).toHaveLength(3);
  });

  test.each([
    ['lap', '7.4 cm', { lap: centimetres(7.4), least: centimetres(7.5) }],
    ['lap', '15.1 cm', { lap: centimetres(15.1), most: centimetres(15) }],
    ['hem', '2.5 + 0.59 cm', { under: centimetres(0.59), least: centimetres(0.6) }],
    ['seam allowance', '0.5 cm', { allowance: centimetres(0.5), least: centimetres(0.6) }],
  ] as const)('speaks of centimetres on a metric plan: %s of %s', (measure, text, figures) => {
    const measures = { size: '48 x 43 cm', [measure]: text };
    expect(madeUp({ kind, measures, unit: 'cm' }).remarks).toMatchObject([
      { severity: 'warning', measure, figures },
    ]);
  });

  test.each([
    ['a back deeper than the front', { 'outer back depth': '17 1/8 in' }, 'outer back depth'],
    ['a back that leaves the other too deep', { 'inner back depth': '3 in' }, 'inner back depth'],
    ['a back that is too deep with its lap', { 'inner back depth': '3 in', lap: '4 in' }, 'lap'],
    ['a lap deeper than the cover', { lap: '17 1/4 in' }, 'lap'],
    ['nothing left for a back', { 'outer back depth': '16 in', 'inner back depth': '1 in' }, 'lap'],
    [
      'three that contradict',
      { 'outer back depth': '12 in', 'inner back depth': '9 in', lap: '5 in' },
      'lap',
    ],
    ['a cover of nothing', { 'smaller than pad': '17 in' }, 'smaller than pad'],
  ] as const)('refuses %s and cuts nothing', (_what, measures, measure) => {
    const remarks = remarksOf(measures);
    expect(remarks.filter(({ severity }) => severity === 'error').map((remark) => remark.measure)).toEqual([
      measure,
    ]);
    expect(exactPieces({ kind, measures: { size: '19 x 17 in', ...measures } })).toEqual({});
  });

  test('every figure in a sentence is given', () => {
    for (const measures of [
      { lap: '1 in' },
      { lap: '9 in' },
      { hem: '1 + 0 in' },
      { 'smaller than pad': '40 in' },
    ]) {
      for (const { sentence, figures } of remarksOf(measures)) {
        const asked = [...sentence.matchAll(/\{(\w+)\}/g)].map(([, figure]) => figure);
        expect(Object.keys(figures).sort()).toEqual([...new Set(asked)].sort());
      }
    }
  });
});
