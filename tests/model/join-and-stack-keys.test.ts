import { describe, expect, it } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';

const specs = makes.map((make) => make.spec);

function read(lines: { readonly unit?: 'in' | 'cm'; readonly top?: string; readonly join?: string }) {
  const { unit = 'in', top = '', join } = lines;
  const text = [
    'plan: The porch',
    `unit: ${unit}`,
    ...(top === '' ? [] : [top]),
    'cloths: { sail cotton: { width: 47, selvedge: 1/2, direction: plain, buy: yes } }',
    `pieces: [{ name: sling, count: 3, size: 61 x 29, cloth: sail cotton${join === undefined ? '' : `, join: ${join}`} }]`,
    '',
  ].join('\n');
  const outcome = readPlan(text, { file: 'porch.yaml', makes: specs });
  return outcome.ok
    ? { plan: outcome.value, told: [] }
    : { plan: undefined, told: outcome.issues.map((issue) => wordIssue(issue, unit)) };
}

describe('joins of loose pieces', () => {
  it('are read with everything said', () => {
    const join =
      '{ by: lap, most joins: 3, allowance: 3/8, lines: level, narrowest part: 5 1/2, whole middle: yes }';
    expect(read({ join }).plan!.pieces[0]!.join).toEqual({
      by: 'lap',
      allowance: ticks((3 * TICKS_PER_INCH) / 8),
      lines: 'level',
      mostJoins: 3,
      narrowest: ticks(5.5 * TICKS_PER_INCH),
      clearMiddle: true,
    });
  });

  it('are filled in with what is usual', () => {
    expect(read({ join: '{ by: seam, most joins: 2 }' }).plan!.pieces[0]!.join).toEqual({
      ...{ by: 'seam', allowance: ticks(TICKS_PER_INCH / 2), lines: 'either' },
      ...{ mostJoins: 2, narrowest: ticks(4 * TICKS_PER_INCH), clearMiddle: false },
    });
    const metric = read({ unit: 'cm', join: '{ by: lap, most joins: 2 }' }).plan!.pieces[0]!.join!;
    expect([metric.allowance, metric.narrowest]).toEqual([1.2 * TICKS_PER_CM, 10 * TICKS_PER_CM]);
    const seam = read({ unit: 'cm', join: '{ by: seam, most joins: 2 }' }).plan!.pieces[0]!.join!;
    expect(seam.allowance).toBe(1.5 * TICKS_PER_CM);
  });

  it('are none unless asked', () => {
    expect(read({}).plan!.pieces[0]).not.toHaveProperty('join');
  });

  it.each([
    [
      '{ by: lap, most joins: 2, allowance: 5, narrowest part: 4 }',
      'pieces[1].join.allowance: a join takes up 5 in, and so all of a part of 4 in',
    ],
    [
      '{ by: seam, most joins: 2, narrowest part: 1 }',
      'pieces[1].join.narrowest part: a join takes up 1 in, and so all of a part of 1 in',
    ],
    ['{ by: glue, most joins: 2 }', 'found "glue"; write seam or lap'],
    ['{ by: seam, most joins: 0 }', 'found "0"; write a number from 1'],
    ['{ by: seam }', 'pieces[1].join.most joins: missing'],
    ['{ by: seam, most joins: 2, lap: 1 }', '"lap" is not known here'],
  ])('%s gets one clear message', (join, message) => {
    const { plan, told } = read({ join });
    expect(plan).toBeUndefined();
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(message);
  });

  it('take a join that leaves a tick of the narrowest part', () => {
    const join = '{ by: lap, most joins: 2, allowance: 3 63/64, narrowest part: 4 }';
    expect(read({ join }).told).toEqual([]);
  });
});

describe('stacks', () => {
  it('are left to what is usual where nothing is said', () => {
    expect(read({}).plan!).not.toHaveProperty('stacks');
  });

  it.each([
    ['stacks: never', { take: 'never', edge: 'left' }],
    ['stacks: always', { take: 'always', edge: 'left' }],
    ['stacks: where free', { take: 'where-free', edge: 'left' }],
    ['stack edge: right', { take: 'where-free', edge: 'right' }],
  ])('%s', (top, stacks) => {
    expect(read({ top }).plan!.stacks).toEqual(stacks);
  });

  it('refuse another word', () => {
    expect(read({ top: 'stacks: sometimes' }).told[0]).toContain('write never, where free or always');
  });
});
