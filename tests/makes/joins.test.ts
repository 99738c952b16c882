import { describe, expect, test } from 'vitest';
import { exactPieces, inches, madeUp } from './support.ts';

const cover = (measures: Readonly<Record<string, string>>) => ({
  kind: 'envelope-cover',
  measures: { size: '19 x 17 in', ...measures },
  withParts: ['interfacing'],
});

describe('joins that a plan permits', () => {
  test('interfacing is lapped, and only the interfacing', () => {
    const pieces = exactPieces(
      cover({
        'interfacing joins': '2',
        'interfacing lap': '3/8 in',
        'interfacing narrowest part': '5 1/2 in',
        'interfacing whole middle': 'yes',
      }),
    );
    expect(pieces.interfacing.join).toEqual({
      by: 'lap',
      allowance: inches(0.375),
      lines: 'either',
      mostJoins: 2,
      narrowest: inches(5.5),
      clearMiddle: true,
    });
    expect(pieces.front.join).toBeUndefined();
  });

  test.each([
    ['runner', { length: '92 in' }, 'level', ['front', 'lining']],
    ['tablecloth', { table: '61 x 43 in' }, 'either', ['tablecloth']],
    ['curtain', { 'finished width': '70 in', 'finished length': '83 in' }, 'upright', ['curtain']],
  ] as const)('a %s is seamed with its own seam allowance', (kind, measures, lines, names) => {
    const wanted = {
      kind,
      measures: {
        ...measures,
        [`${kind} joins`]: '3',
        'seam allowance': '5/8 in',
        [`${kind} narrowest part`]: '7 in',
      },
      withParts: ['lining'],
    };
    const pieces = exactPieces(wanted);
    expect(Object.keys(pieces)).toEqual(names);
    for (const name of names) {
      expect(pieces[name].join).toEqual({
        by: 'seam',
        allowance: inches(0.625),
        lines,
        mostJoins: 3,
        narrowest: inches(7),
        clearMiddle: false,
      });
    }
  });

  test('none unless asked', () => {
    for (const { join } of Object.values(exactPieces(cover({})))) expect(join).toBeUndefined();
  });
});

describe('practice of joins', () => {
  // Fusible interfacing is lapped 1/4 to 1/2 in: trade practice, from memory.
  test.each(['1/8 in', '5/8 in'])('warns of a lap of %s', (lap) => {
    const { remarks } = madeUp(cover({ 'interfacing joins': '1', 'interfacing lap': lap }));
    expect(remarks).toMatchObject([
      {
        severity: 'warning',
        measure: 'interfacing lap',
        figures: { least: inches(0.25), most: inches(0.5) },
      },
    ]);
  });

  test.each(['1/4 in', '1/2 in'])('says nothing of a lap of %s', (lap) => {
    expect(madeUp(cover({ 'interfacing joins': '1', 'interfacing lap': lap })).remarks).toEqual([]);
  });

  test('a lap as wide as the part is refused; so are seams that take all of it', () => {
    const lapped = cover({
      'interfacing joins': '1',
      'interfacing lap': '1/2 in',
      'interfacing narrowest part': '1/2 in',
    });
    expect(madeUp(lapped).remarks).toMatchObject([
      { severity: 'error', measure: 'interfacing narrowest part' },
    ]);
    const seamed = {
      kind: 'runner',
      measures: {
        length: '92 in',
        'runner joins': '1',
        'seam allowance': '3/4 in',
        'runner narrowest part': '1 1/2 in',
      },
    };
    expect(madeUp(seamed).remarks).toMatchObject([
      {
        severity: 'error',
        measure: 'runner narrowest part',
        figures: { narrowest: inches(1.5), taken: inches(1.5) },
      },
    ]);
    expect(exactPieces(seamed)).toEqual({});
  });
});
