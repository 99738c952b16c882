import { describe, expect, test } from 'vitest';
import { CAUTIONS } from '../../src/model/cautions.ts';
import type { Issue } from '../../src/model/issue.ts';
import { wordDetails, wordIssue, wordPath } from '../../src/model/messages.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, ticks } from '../../src/units/ticks.ts';

const place = { file: 'layouts/hall.yaml', line: 12, column: 5 };
const inch = (count: number) => ticks(count * TICKS_PER_INCH);

describe('where, what was found, what would work', () => {
  test('a misspelt unit', () => {
    const issue: Issue = {
      code: 'not-understood',
      severity: 'error',
      path: ['cloths', 'gull stripe', 'width'],
      place,
      details: {
        found: '54 inn',
        wanted: 'a length such as 54, 17 3/8 in, 1 1/4 yd',
        reason: 'unknown-unit',
        part: 'inn',
        likely: 'in',
      },
    };
    expect(wordIssue(issue, 'in')).toBe(
      'layouts/hall.yaml:12:5 cloths.gull stripe.width: found "54 inn" ("inn" is no unit; in, ft, yd, mm, cm and m are; likely "in"); write a length such as 54, 17 3/8 in, 1 1/4 yd.',
    );
  });

  test('lengths come in the unit that is asked for, and never in ticks', () => {
    const issue: Issue = {
      code: 'too-wide',
      severity: 'error',
      path: ['pieces', 2, 'size'],
      details: {
        piece: 'shelf edge',
        cloth: 'oat linen',
        needs: inch(46),
        usable: inch(43.25),
        side: 'width',
      },
    };
    expect(wordIssue(issue, 'in')).toBe(
      'pieces[3].size: "shelf edge" needs 46 in of width, more than the usable 43 1/4 in of "oat linen"; make it smaller, let it be joined, or choose a wider cloth.',
    );
    const metric: Issue = {
      ...issue,
      details: {
        ...issue.details,
        needs: ticks(118 * TICKS_PER_CM),
        usable: ticks(110.5 * TICKS_PER_CM),
        side: 'length',
      },
    } as Issue;
    expect(wordDetails(metric, 'cm')).toBe(
      '"shelf edge" needs 118 cm of length, more than the usable 110.5 cm of "oat linen"; make it smaller, let it be joined, or choose a longer cloth.',
    );
  });

  test.each<[Issue, string]>([
    [
      {
        code: 'longer-than-sold',
        severity: 'error',
        path: [],
        details: { cloth: 'sea holly', needs: inch(411), longest: inch(360) },
      },
      '"sea holly" is needed in one length of 411 in, and the longest to be had is 360 in; cut fewer or smaller pieces from it.',
    ],
    [
      {
        code: 'not-enough-cloth',
        severity: 'error',
        path: ['cloths', 'ticking'],
        details: { cloth: 'ticking', shortOf: ['tab', 'tie', 'front'] },
      },
      'cloths.ticking: the lengths of "ticking" in hand do not hold tab, tie and front; add a length, write buy: yes, or cut fewer.',
    ],
    [
      { code: 'surplus', severity: 'note', path: [], details: { piece: 'covers/front', copies: 1 } },
      'note: "covers/front": 1 more than wanted will be cut, as the cloth is cut folded.',
    ],
    [
      {
        code: 'make-practice',
        severity: 'warning',
        path: ['make', 0, 'lap'],
        details: {
          sentence: 'The lap of {lap} is less than {least}, so {what} may show; {unheard} stays.',
          figures: { lap: inch(1.5), least: inch(3), what: 'the pad' },
        },
      },
      'warning: make[1].lap: The lap of 1 1/2 in is less than 3 in, so the pad may show; {unheard} stays.',
    ],
    [
      {
        code: 'grain-against-print',
        severity: 'error',
        path: [],
        details: { piece: 'tie', cloth: 'gull stripe', grain: 'crosswise', printRuns: 'along' },
      },
      '"tie" is to lie crosswise, and the print of "gull stripe" runs along the cloth; leave its grain open, or choose another cloth.',
    ],
  ])('%#', (issue, words) => {
    expect(wordIssue(issue, 'in').replace(/^(\w+: )(?=make)/, '$1')).toBe(words);
  });
});

test('positions in a list count from 1', () => {
  expect(wordPath(['make', 0, 'cloth', 'backs'])).toBe('make[1].cloth.backs');
  expect(wordPath([])).toBe('');
  expect(wordPath([4])).toBe('[5]');
});

test('a long list of what is known is cut short', () => {
  const known = Array.from({ length: 30 }, (_, index) => `cloth ${index + 1}`);
  const issue: Issue = {
    code: 'unknown-cloth',
    severity: 'error',
    path: [],
    details: { found: 'velvet', known },
  };
  expect(wordDetails(issue, 'in')).toMatch(/cloth 24 and 6 more\.$/);
});

describe('cautions', () => {
  test.each(Object.entries(CAUTIONS))('%s: short, and deferring', (_, { title, text }) => {
    expect(title.length).toBeLessThan(30);
    expect(text.length).toBeLessThan(330);
    expect(text).toMatch(/maker|health service|authority|instructions/);
    // They advise; what a law asks is for others to say.
    expect(text).not.toMatch(/\b(?:must|law|illegal|required by|complies|safe to)\b/i);
  });
});
