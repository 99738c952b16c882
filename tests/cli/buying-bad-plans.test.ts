import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { laywrightOf } from '../support/run-here.ts';

const PRICED = `plan: Pantry
unit: in
currency: $
cloths:
  dune ticking: { width: 44, selvedge: 0, price: 13.00 per yd, buy: yes }
make:
  - { name: mats, kind: place-mat, count: 4, size: 16 x 12, cloth: dune ticking }
from leftovers:
  - { name: coasters, kind: napkin, size: 4 x 4 }
`;

const OPEN = `plan: Hall
unit: in
cloths:
  one: { width: 44, selvedge: 0, buy: yes }
  two: { width: 44, selvedge: 0, buy: yes, groups: [plain] }
make:
  - { name: covers, kind: envelope-cover, count: 2, size: 18 x 18, cloth: { front: [one, two], backs: [one, two] } }
pieces: [{ name: panel, count: 2, size: 9 x 9, cloth: [one, two] }]
`;

/** What is written in the place of what, and the message without the name of the file. */
const CASES: readonly (readonly [plan: string, from: string, to: string, message: string])[] = [
  [
    PRICED,
    '13.00 per yd',
    'free',
    '5:50 cloths.dune ticking.price: found "free"; write a price and what it is for',
  ],
  [PRICED, '13.00 per yd', '-2 per yd', '5:50 cloths.dune ticking.price: found "-2 per yd" (a minus'],
  [PRICED, '13.00 per yd', '13.00', '5:50 cloths.dune ticking.price: found "13.00"'],
  [PRICED, '13.00 per yd', '13.00 per bolt', '5:50 cloths.dune ticking.price: found "13.00 per bolt"'],
  [
    PRICED,
    'buy: yes',
    'buy: { step: 0 }',
    '5:77 cloths.dune ticking.buy.step: found "0"; write a length above zero',
  ],
  [PRICED, 'buy: yes', 'buy: { step: -1 in }', '5:77 cloths.dune ticking.buy.step: found "-1 in"'],
  [
    PRICED,
    'buy: yes',
    'buy: { step: 1/8 yd, least: 1 yd }',
    '"least" is not known here; known are step and longest',
  ],
  [
    PRICED,
    'buy: yes',
    'buy: { step: 1 yd, longest: 1/2 yd }',
    'longest allows 18 in, which is no step at all',
  ],
  [PRICED, 'buy: yes', 'buy: perhaps', 'cloths.dune ticking.buy: found "perhaps"'],
  [
    PRICED,
    'currency: $',
    'currency: dollars please',
    '3:11 currency: found "dollars please"; write a sign or code',
  ],
  [PRICED, 'currency: $', 'keep: 0 x 9', '3:7 keep: found "0 x 9"; write a width and a length above zero'],
  [
    PRICED,
    'currency: $',
    'keep: most of it',
    '3:7 keep: found "most of it" (not two lengths with x between)',
  ],
  [
    PRICED,
    'currency: $',
    'leftover worth: 3',
    '3:17 leftover worth: found "3"; write an amount and the area',
  ],
  [
    PRICED,
    'currency: $',
    'leftover worth: -2 per sq yd',
    '3:17 leftover worth: found "-2 per sq yd" (a minus',
  ],
  [PRICED, 'kind: napkin', 'kind: coaster', '9:29 from leftovers[1].kind: found "coaster"'],
  [
    PRICED,
    '4 x 4',
    '4 x 4, most: 2, least: 3',
    'from leftovers[1].least: found "3"; write no more than the most',
  ],
  [PRICED, '4 x 4', '4 x 4, most: 0', 'from leftovers[1].most: found "0"; write a number from 1'],
  [
    PRICED,
    '4 x 4',
    '4 x 4, worth: much',
    'from leftovers[1].worth: found "much" (no number can be read from it)',
  ],
  [
    PRICED,
    '4 x 4',
    '4 x 4, cloth: gone',
    'from leftovers[1].cloth: there is no cloth called "gone" in this plan',
  ],
  [
    PRICED,
    'name: coasters',
    'name: mats',
    '9:13 from leftovers[1].name: the name "mats" is taken already in line 7',
  ],
  [OPEN, 'cloth: [one, two]', 'cloth: [one, three]', 'pieces[1].cloth[2]: there is no cloth called "three"'],
  [OPEN, 'cloth: [one, two]', 'cloth: []', 'pieces[1].cloth: found an empty list; write one cloth at least'],
  [OPEN, 'cloth: [one, two]', 'cloth: group seas', 'no cloth of this plan belongs to a group "seas"'],
  [OPEN, 'cloth: [one, two]', 'cloth: [one, one]', 'pieces[1].cloth: found "one"; write each cloth once'],
  [
    OPEN,
    'cloth: [one, two]',
    'cloth: one, rules: { no cloth twice: yes }',
    'pieces[1].rules: "rules" is not known here',
  ],
  [
    OPEN,
    'backs: [one, two] }',
    'backs: one }, rules: { unlike: [front, lids] }',
    'rules.unlike[2]: found "lids"',
  ],
  [
    OPEN,
    'backs: [one, two] }',
    'backs: one }, rules: { unlike: [front] }',
    'rules.unlike: found "front"; write two parts',
  ],
  [
    OPEN,
    'backs: [one, two] }',
    'backs: one }, rules: { never twice: yes }',
    '"never twice" is not known here',
  ],
  [OPEN, 'backs: [one, two] }', 'backs: group seas }', 'no cloth of this plan belongs to a group "seas"'],
  [OPEN, 'backs: [one, two] }', 'backs: one, lids: one }', 'make[1].cloth.lids: "lids" is not known here'],
  [OPEN, 'count: 2, size: 18', 'count: 2.5, size: 18', 'make[1].count: found "2.5"; write a whole number'],
];

describe('a plan that says something wrong about buying or choosing', () => {
  it.each(CASES.map((one, index) => [one[2], one, index] as const))(
    '%s: one clear message that names the place',
    async (_, [plan, from, to, message], index) => {
      const cwd = mkdtempSync(join(tmpdir(), 'laywright-bad-plan-'));
      try {
        expect(plan).toContain(from);
        writeFileSync(join(cwd, 'plan.yaml'), plan.replace(from, to));
        const ran = await laywrightOf(index, ['buys', 'plan.yaml'], { cwd });
        expect([ran.exitCode, ran.stdout]).toEqual([2, '']);
        const lines = ran.stderr.trimEnd().split('\n');
        expect(lines.filter((line) => !line.includes('warning:'))).toHaveLength(1);
        expect(ran.stderr).toMatch(/^plan\.yaml:\d+:\d+ /);
        expect(ran.stderr).toContain(message);
        expect(readdirSync(cwd)).toEqual(['plan.yaml']);
      } finally {
        rmSync(cwd, { recursive: true });
      }
    },
  );
});
