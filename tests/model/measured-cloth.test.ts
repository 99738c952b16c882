import { describe, expect, it } from 'vitest';
import { usableWidth } from '../../src/cloth/usable.ts';
import { afterWashing } from '../../src/cloth/washing.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import { editPlan } from '../../src/model/plan-edit.ts';
import { measuredLines, perCentRounded } from '../../src/rendering/measured-words.ts';
import { TICKS_PER_INCH, TICKS_PER_YARD, ticks } from '../../src/units/ticks.ts';
import { messagesOf, planFrom } from '../support/measured-plan.ts';

const inches = (count: number) => ticks(count * TICKS_PER_INCH);

const text = (cloth: string) => `plan: The net loft
unit: in
cloths:
  sail grey: { width: 54, selvedge: 1/2, ${cloth} }
pieces:
  - { name: mat, count: 2, size: 12 x 15, cloth: sail grey }
`;
const clothFrom = (cloth: string): Cloth => planFrom(text(cloth)).cloths[0]!;

const WASHED = 'washing: { along: 3 %, across: 2 %, washed: before-cutting }, buy: yes';

describe('cloth that was measured', () => {
  it('lies in hand as it was measured, washed, and nothing of it is bought', () => {
    const cloth = clothFrom(`${WASHED}, measured: { width: 51 1/2, length: 75 }`);
    expect(cloth.buy).toBeUndefined();
    expect(cloth.inHand).toMatchObject([
      { name: 'washed length', width: inches(51.5), length: inches(75), washed: true, copies: 1 },
    ]);
    const [own] = cloth.inHand;
    expect(usableWidth(cloth, own!, inches(1 / 8)).spans).toEqual([{ x0: inches(0.5), x1: inches(51) }]);
  });

  it('is bought as before where more is asked for, reckoned with what it measured and lost', () => {
    // 2 1/4 yd are 81 in; 75 are left: 6/81 = 2/27 lost, by (original − final) ÷ original (Dooley, Textiles, 1914).
    const cloth = clothFrom(
      `${WASHED}, measured: { width: 51 1/2, length: 75, before: 2 1/4 yd }, buy more: yes`,
    );
    expect(cloth.washing!.along).toEqual({ numerator: 2, denominator: 27 });
    expect(cloth.buy).toEqual({ step: TICKS_PER_YARD / 8 });
    expect(afterWashing(cloth.width, cloth.washing!.across)).toBe(inches(51.5));
  });

  it('counts the greater loss where the wash took less than was reckoned', () => {
    const cloth = clothFrom(`${WASHED}, measured: { width: 53, length: 80, before: 2 1/4 yd }`);
    expect(cloth.washing!.along).toEqual({ numerator: 3, denominator: 100 });
  });

  it('has its own edges, crease, flaws and first motif', () => {
    const facts =
      'selvedge: { left: 3/4, right: 0 }, crease: keep off 1 at 20, first motif: 4, repeat: { along: 11 3/4 }, flaws: [{ from edge: 5, from end: 12, size: 3 x 4 }]';
    const cloth = clothFrom(
      `${WASHED}, repeat: { along: 12 1/4 }, measured: { width: 53, length: 60, ${facts} }`,
    );
    expect(cloth.inHand[0]).toMatchObject({
      selvedge: { left: inches(0.75), right: 0 },
      crease: { kind: 'keep-off', each: inches(1), at: inches(20) },
      firstMotif: inches(4),
    });
    expect(cloth.inHand[0]!.flaws).toHaveLength(1);
    // The print lies on the table as it was measured there, to the tick.
    expect(afterWashing(cloth.repeat!.along!, cloth.washing!.along)).toBe(inches(11.75));
  });

  it('may be a length that was in hand before: then it is measured anew and the bolt stays as it was', () => {
    const cloth = clothFrom(
      `${WASHED}, lengths: [{ name: end of bolt, length: 40 }, 30], measured: { of: end of bolt, width: 52, length: 38 }`,
    );
    expect(cloth.inHand.map(({ name, width, length, washed }) => [name, width, length, washed])).toEqual([
      ['end of bolt', inches(52), inches(38), true],
      ['length 2', inches(54), inches(30), undefined],
    ]);
    expect([cloth.width, cloth.buy]).toEqual([inches(54), { step: TICKS_PER_YARD / 8 }]);
  });

  it('may come in several lengths, each with a name', () => {
    const cloth = clothFrom(
      `${WASHED}, measured: [{ width: 52, length: 38 }, { width: 53, length: 20 }, { name: cut, width: 52, length: 9 }]`,
    );
    expect(cloth.inHand.map(({ name }) => name)).toEqual(['washed length', 'washed length 2', 'cut']);
  });

  it('asks for the repeat again once washing changed it', () => {
    const found = messagesOf(text(`${WASHED}, repeat: { along: 12 }, measured: { width: 53, length: 60 }`));
    expect(found.map((line) => line.replace(/^\S+ /, ''))).toEqual([
      'cloths.sail grey.measured.repeat: missing; write repeat: { along: 12 1/4 }',
    ]);
  });
});

describe('what it really lost', () => {
  const said = (facts: string) => {
    const plan = planFrom(text(`${WASHED}, measured: { ${facts} }`));
    return measuredLines(plan.cloths[0]!, plan).map((line) => line.replaceAll('\u00a0', ' '));
  };

  // ISO 5077 and AATCC 135 state dimensional change in per cent of the length before, to the nearest 0.1 %.
  it.each([
    [9, 200, '4.5 %'],
    [6, 81, '7.4 %'],
    [1, 3, '33.3 %'],
    [3, 100, '3 %'],
    [1, 1000, '0.1 %'],
  ])('%i of %i is %s', (part, whole, words) => {
    expect(perCentRounded(part, whole).replace('\u00a0', ' ')).toBe(words);
  });

  it('is told beside what was reckoned with', () => {
    expect(said('width: 52 7/8, length: 75, before: 2 1/4 yd')).toEqual([
      'washed length, 52 7/8 x 75 in; it shrank 7.4 % along, you planned 3 %',
    ]);
    // 54 in less 2 % is 52.92 in.
    expect(said('width: 51 1/2, length: 97, before: 100')).toEqual([
      'washed length, 51 1/2 x 97 in; it shrank 3 % along, as planned; 1 3/8 in narrower than reckoned',
    ]);
    expect(said('width: 53 1/2, length: 73, before: 2 yd')).toEqual([
      'washed length, 53 1/2 x 73 in; 1 in longer than before washing; 1/2 in wider than reckoned',
    ]);
  });
});

describe('changes in the text of a plan', () => {
  const written = `# by hand
plan: The net loft   # up the ladder
unit: in
cloths:
  sail grey:
    width: 54        # from the label
    selvedge: 1/2
    buy: yes
make:
  # for the guests
  - { name: covers, kind: envelope-cover, count: 3, size: 17 x 17, cloth: sail grey }  # three
  - name: mats
    kind: place-mat
    count: 4
    size: 12 x 15
    cloth: sail grey
`;

  it('leave every other line as it is', () => {
    const next = editPlan(written, [
      { kind: 'set', at: ['make', 0], key: 'count', value: '2' },
      { kind: 'set', at: ['make', 1], key: 'size', value: '11 x 15' },
      { kind: 'set', at: [], key: 'note', value: 'one fewer', behind: 'plan' },
      { kind: 'set', at: ['cloths', 'sail grey'], key: 'buy more', value: 'yes' },
    ]);
    expect(next).toBe(
      written
        .replace('count: 3', 'count: 2')
        .replace('size: 12 x 15', 'size: 11 x 15')
        .replace('ladder\n', 'ladder\nnote: one fewer\n')
        .replace('    buy: yes\n', '    buy: yes\n    buy more: yes\n'),
    );
  });

  it('take entries out last, so that every place holds until then', () => {
    const next = editPlan(written, [
      { kind: 'drop-item', list: 'make', index: 0 },
      { kind: 'set', at: ['make', 1], key: 'count', value: '6' },
    ]);
    expect(next).not.toContain('covers');
    expect(next).toContain('    count: 6\n');
  });

  it('refuse a place that is not there', () => {
    expect(() => editPlan(written, [{ kind: 'set', at: ['make', 7], key: 'count', value: '6' }])).toThrow(
      RangeError,
    );
  });
});
