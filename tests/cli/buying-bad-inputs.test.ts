import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laywrightOf } from '../support/run-here.ts';

const PLAN = `plan: Pantry
unit: in
currency: $
cloths:
  dune ticking: { width: 44, selvedge: 0, price: 13.00 per yd, buy: yes }
  old holland: { width: 30, selvedge: 0, lengths: [1 yd] }
make:
  - { name: mats, kind: place-mat, count: 4, size: 16 x 12, cloth: dune ticking }
pieces:
  - { name: tie, count: 3, size: 4 x 17, cloth: old holland }
`;

const OPEN = `plan: Hall
unit: in
cloths:
  one: { width: 44, selvedge: 0, buy: yes }
  two: { width: 44, selvedge: 0, buy: yes }
pieces: [{ name: panel, count: 2, size: 9 x 9, cloth: [one, two] }]
`;

const SOLD_ONLY = `plan: Porch
unit: cm
cloths: { moss: { width: 140, selvedge: 1, buy: yes } }
pieces: [{ name: panel, count: 2, size: 40 x 40, cloth: moss }]
`;

const SHORT = `plan: Porch
unit: in
cloths: { rib: { width: 44, selvedge: 0, buy: { step: 1/8 yd, longest: 2 yd } } }
pieces: [{ name: panel, count: 2, size: 9 x 9, cloth: rib }]
`;

const TOO_LARGE = SOLD_ONLY.replace('40 x 40', '150 x 150');

let cwd: string;
let before: readonly string[];
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'laywright-bad-buys-'));
  writeFileSync(join(cwd, 'pantry.yaml'), PLAN);
  writeFileSync(join(cwd, 'hall.yaml'), OPEN);
  writeFileSync(join(cwd, 'porch.yaml'), SOLD_ONLY);
  writeFileSync(join(cwd, 'short.yaml'), SHORT);
  writeFileSync(join(cwd, 'large.yaml'), TOO_LARGE);
  writeFileSync(join(cwd, 'broken.yaml'), 'plan: [');
  writeFileSync(join(cwd, 'notes.pdf'), 'my own notes');
  before = readdirSync(cwd).sort();
});
afterAll(() => rmSync(cwd, { recursive: true }));

/** Command words, the exit code, and what the one message must say. */
const CASES: readonly (readonly [words: string, exitCode: number, message: string])[] = [
  ['buys none.yaml', 2, 'none.yaml'],
  ['buys broken.yaml', 2, 'broken.yaml:1:'],
  ['buys large.yaml', 3, 'needs 150 cm'],
  ['buys pantry.yaml --cloth|dune tickin', 2, 'the plan cuts nothing from "dune tickin"'],
  ['buys pantry.yaml --cloth|old holland', 3, 'no buys to compare'],
  ['buys pantry.yaml --lengths|1 yd, two', 2, '"two" is no length'],
  ['buys short.yaml --lengths|1 yd, 3 yd', 2, '"3 yd" is more than the longest that "rib" is sold in, 2 yd'],
  ['buys pantry.yaml --lengths|0', 2, '"0" buys nothing'],
  ['buys pantry.yaml --lengths|1 yd,,2 yd', 2, '"" is no length'],
  ['buys pantry.yaml --rungs|0', 2, 'a whole number from 1 to 200'],
  ['buys pantry.yaml --rungs|many', 2, 'a whole number from 1 to 200'],
  ['buys pantry.yaml --worth|650', 2, '--worth: found "650"; write an amount and the area it is for'],
  ['buys pantry.yaml --worth|6.50 per yd', 2, 'likely "6.50 per sq yd"'],
  ['buys pantry.yaml --worth|lots per sq yd', 2, '--worth: found "lots per sq yd"'],
  ['buys pantry.yaml --set|mats', 2, '"mats" does not say how many of what; "1 mats, 1 tie" would work'],
  ['buys pantry.yaml --set|2 mat', 2, 'the plan makes no "mat"; "mats" would work'],
  ['buys pantry.yaml --set|2 cushions', 2, '"mats" or "tie" would work'],
  ['buys pantry.yaml --set|9 mats', 2, '9 of "mats" are no part of the 4'],
  ['buys pantry.yaml --set|0 mats', 2, '1 to 4 would work'],
  ['buys pantry.yaml --set|1 mats, 2 mats', 2, '"mats" stands there twice'],
  ['buys pantry.yaml --set|1 mats;', 2, '"" does not say how many of what'],
  ['buys pantry.yaml --out|pantry.yaml', 2, 'pantry.yaml'],
  ['buys pantry.yaml --chart', 2, "unknown option '--chart'"],
  ['buys', 2, "missing required argument 'file'"],
  ['yield hall.yaml --here|one 2 yd', 2, 'leaves the cloth of some parts open'],
  ['yield porch.yaml', 2, 'No length of any cloth is here; say what there is, such as --here "moss 2 m"'],
  ['yield pantry.yaml --here|dune 2 yd', 2, '"dune 2 yd" begins with no cloth of this plan'],
  ['yield pantry.yaml --here|dune ticking two', 2, '"two" is no length of "dune ticking"'],
  [
    'yield pantry.yaml --here|dune ticking',
    2,
    '"dune ticking" tells no length; "dune ticking 1 1/2 yd" would work',
  ],
  ['yield pantry.yaml --here|dune ticking 0', 2, '"0" is no length of "dune ticking"'],
  ['yield pantry.yaml --here|dune ticking: 2 yards of it', 2, 'is no length of "dune ticking"'],
  ['yield pantry.yaml --most|61', 2, 'a whole number from 1 to 60'],
  ['yield pantry.yaml --set|3 tea towels', 2, 'the plan makes no "tea towels"'],
  ['uses pantry.yaml --cloth|canvas', 2, 'the plan cuts nothing from "canvas"'],
  ['uses large.yaml', 3, 'needs 150 cm'],
  ['shopping large.yaml', 3, 'needs 150 cm'],
  ['shopping pantry.yaml --as|pdf', 2, '--as: found "pdf"'],
  ['shopping pantry.yaml --page|notes.pdf', 2, 'notes.pdf'],
];

describe('a bad input to the commands for buying', () => {
  it('is kept in thirty kinds at least, each once', () => {
    expect(new Set(CASES.map(([words]) => words)).size).toBe(CASES.length);
    expect(CASES.length).toBeGreaterThanOrEqual(30);
  });

  it.each(CASES.map((one, index) => [...one, index] as const))(
    'laywright %s: exit code %i, one clear message',
    async (words, exitCode, message, index) => {
      // A blank parts two words, but not behind the first bar, where one word with blanks stands.
      const [first = '', ...rest] = words.split('|');
      const ran = await laywrightOf(
        index,
        [...first.split(' '), ...(rest.length > 0 ? [rest.join('|')] : [])],
        { cwd },
      );
      expect([ran.exitCode, ran.stdout]).toEqual([exitCode, '']);
      expect(
        ran.stderr
          .trimEnd()
          .split('\n')
          .filter((line) => !line.includes('warning:')),
      ).toHaveLength(1);
      expect(ran.stderr).toContain(message);
      expect(ran.stderr).not.toContain('€');
      expect(readdirSync(cwd).sort()).toEqual(before);
    },
  );
});
