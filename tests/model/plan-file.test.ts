import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Issue, Outcome } from '../../src/model/issue.ts';
import { wordIssue } from '../../src/model/messages.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { TICKS_PER_INCH, TICKS_PER_MM } from '../../src/units/ticks.ts';
import { specs } from './specs.ts';

const inch = (count: number) => count * TICKS_PER_INCH;
const mm = (count: number) => count * TICKS_PER_MM;
const read = (text: string): Outcome<Plan> => readPlan(text, { file: 'attic.yaml', makes: specs });

function planOf(text: string): Plan {
  const outcome = read(text);
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
  return outcome.value;
}

const FULL = `
plan: The Tern House, attic   # a comment
unit: in
ruler: 1/16
paper: a4
currency: $
keep: 5 x 9
stages: 3
tools: { ruler length: 23, most plies: 2 }
cloths:
  saltmarsh stripe:
    width: 54
    selvedge: { left: 1/2, right: 3/4 }
    crease: keep off 5/8
    direction: one-way
    print runs: across
    squaring: 3/8
    price: $14.80 per yd
    buy: { step: 1/4 yd, longest: 10 yd }
    lengths:
      - 2 yd
      - { name: end of bolt, length: 61, width: 20, selvedge: { left: 0, right: 1/2 }, crease: none, count: 3 }
    washing: { along: 3 %, across: { before: 20, after: 19 }, washed: before-cutting }
    lay: folded
    note: from the loft
  lime wash:
    width: 1.4 m
    selvedge: 1 cm
    buy: yes
make:
  - name: settle covers
    kind: envelope-cover
    count: 7
    size: 17 x 19 1/2
    hem: { visible: 1, under: 1/4 }
    smaller by: 3/8
    opening: upright
    cloth: { front: saltmarsh stripe, backs: lime wash }
  - name: dormer curtain
    kind: curtain
    count: 2
    drop: 41
    fullness: 2.125
    widths: 5
    lined: yes
    cloth: lime wash
pieces:
  - { name: tie, count: 8, size: 3 x 14, cloth: lime wash, grain: crosswise }
`;

describe('a plan that says everything', () => {
  const plan = planOf(FULL);

  test('head and tools', () => {
    expect(plan).toMatchObject({
      name: 'The Tern House, attic',
      unit: 'in',
      rulerMark: inch(1 / 16),
      paper: 'a4',
      currency: '$',
      keep: { width: inch(5), length: inch(9) },
      stages: 3,
      tools: { rulerLength: inch(23), mostPlies: 2 },
    });
  });

  test('a cloth', () => {
    expect(plan.cloths[0]).toEqual({
      name: 'saltmarsh stripe',
      width: inch(54),
      selvedge: { left: inch(1 / 2), right: inch(3 / 4) },
      crease: { kind: 'keep-off', each: inch(5 / 8) },
      direction: 'one-way',
      printRuns: 'across',
      squaring: inch(3 / 8),
      washing: {
        along: { numerator: 3, denominator: 100 },
        across: { numerator: 1, denominator: 20 },
        washed: 'before-cutting',
      },
      price: { hundredths: 1480, per: inch(36) },
      buy: { step: inch(9), longest: inch(360) },
      inHand: [
        {
          name: 'length 1',
          length: inch(72),
          width: inch(54),
          selvedge: { left: inch(1 / 2), right: inch(3 / 4) },
          crease: { kind: 'keep-off', each: inch(5 / 8) },
          copies: 1,
        },
        {
          name: 'end of bolt',
          length: inch(61),
          width: inch(20),
          selvedge: { left: 0, right: inch(1 / 2) },
          crease: { kind: 'none' },
          copies: 3,
        },
      ],
      lay: 'folded',
      note: 'from the loft',
    });
  });

  test('orders, with every measure by name', () => {
    expect(plan.makes).toEqual([
      {
        name: 'settle covers',
        make: 'envelope-cover',
        count: 7,
        measures: {
          size: { width: inch(17), length: inch(19.5) },
          seam: inch(1 / 2),
          hem: { visible: inch(1), under: inch(1 / 4) },
          'smaller by': inch(3 / 8),
          opening: 'upright',
        },
        cloths: { front: 'saltmarsh stripe', backs: 'lime wash' },
      },
      {
        name: 'dormer curtain',
        make: 'curtain',
        count: 2,
        measures: { drop: inch(41), fullness: { thousandths: 2125 }, widths: 5, lined: true },
        cloths: { panel: 'lime wash' },
      },
    ]);
  });

  test('loose pieces', () => {
    expect(plan.pieces).toEqual([
      {
        name: 'tie',
        count: 8,
        size: { width: inch(3), length: inch(14) },
        cloth: 'lime wash',
        grain: 'crosswise',
      },
    ]);
  });

  test('line ends of any system and a byte-order mark change nothing', () => {
    expect(planOf(FULL.replaceAll('\n', '\r\n'))).toEqual(plan);
    expect(planOf(`\ufeff${FULL}`)).toEqual(plan);
    expect(planOf(`---${FULL}`)).toEqual(plan);
  });
});

const SHORT = `
plan: The landing
unit: cm
cloths:
  oat linen: { width: 137, selvedge: 1.1, buy: yes }
make:
  - { name: covers, kind: envelope-cover, count: 3, size: 42 x 46, cloth: oat linen }
  - { name: curtains, kind: curtain, count: 2, drop: 1.9 m, cloth: oat linen }
pieces:
  - { name: tab, count: 5, size: 6 x 21, cloth: oat linen }
`;

describe('a plan that says only what it must', () => {
  test('takes the metric defaults', () => {
    const plan = planOf(SHORT);
    expect(plan).toMatchObject({
      rulerMark: mm(1),
      paper: 'a4',
      currency: '',
      keep: { width: mm(150), length: mm(150) },
      stages: 'any',
      tools: { rulerLength: mm(600), mostPlies: 4 },
    });
    expect(plan.cloths[0]).toEqual({
      name: 'oat linen',
      width: mm(1370),
      selvedge: { left: mm(11), right: mm(11) },
      crease: { kind: 'none' },
      direction: 'plain',
      printRuns: 'along',
      squaring: 0,
      buy: { step: mm(100) },
      inHand: [],
      lay: 'flat',
    });
    expect(plan.makes[0].measures).toEqual({
      size: { width: mm(420), length: mm(460) },
      seam: mm(12),
      hem: { visible: mm(25), under: mm(10) },
      opening: 'level',
    });
    expect(plan.makes[0].cloths).toEqual({ front: 'oat linen', backs: 'oat linen' });
    expect(plan.makes[1].measures).toEqual({
      drop: mm(1900),
      fullness: { thousandths: 2250 },
      widths: 4,
      lined: false,
    });
    expect(plan.pieces[0].grain).toBe('either');
  });

  test('takes the inch defaults', () => {
    const plan = planOf(SHORT.replace('unit: cm', 'unit: in').replace('1.9 m', '75'));
    expect(plan).toMatchObject({
      rulerMark: inch(1 / 8),
      paper: 'letter',
      keep: { width: inch(6), length: inch(6) },
      tools: { rulerLength: inch(24), mostPlies: 4 },
    });
    expect(plan.cloths[0].buy).toEqual({ step: inch(4.5) });
    expect(plan.makes[0].measures.hem).toEqual({ visible: inch(1), under: inch(1 / 2) });
    expect(plan.makes[1].measures.widths).toBe(3);
  });
});

test('what is needed is rounded up to a tick, what is available down', () => {
  const plan = planOf(`
plan: The pantry
unit: in
cloths:
  tea cloth: { width: 20.1, selvedge: 0.1, squaring: 0.1, lengths: [30.1], buy: { step: 0.1, longest: 80.1 } }
pieces: [{ name: shelf edge, count: 2, size: 3.1 x 4.1, cloth: tea cloth }]
`);
  // 0.1 in = 812.8 ticks.
  const [cloth] = plan.cloths;
  expect([cloth.width, cloth.inHand[0].length, cloth.buy?.longest]).toEqual([163_372, 244_652, 651_052]);
  expect([cloth.selvedge.left, cloth.squaring]).toEqual([813, 813]);
  expect(plan.pieces[0].size).toEqual({ width: 25_197, length: 33_325 });
});

describe('prices', () => {
  const priceOf = (price: string, currency = '€') =>
    planOf(
      SHORT.replace('buy: yes', `buy: yes, price: "${price}"`).replace(
        'cloths:',
        `currency: ${currency}\ncloths:`,
      ),
    ).cloths[0].price;
  test.each([
    ['13.45 per m', 1345, mm(1000)],
    ['13,4/m', 1340, mm(1000)],
    ['€9 per yd', 900, inch(36)],
    ['9.05 € / yd', 905, inch(36)],
    ['2 1/2 per 25 cm', 250, mm(250)],
    ['0 per m', 0, mm(1000)],
  ])('%s', (text, hundredths, per) => {
    expect(priceOf(text)).toEqual({ hundredths, per });
  });
});

describe('problems', () => {
  test('all are told at once, in the order of the file', () => {
    const outcome = read(`
plan: The hall
unit: in
papr: a4
cloths:
  gull stripe:
    width: 54 inn
    selvedge: 1/0
    buy: yes
  oat linen:
    width: 40
    selvedge: 20
    buy: { step: 0 }
make:
  - { name: mats, kind: envelop-cover, count: 3 }
  - { name: mats, kind: curtain, drop: 0, fullness: 4, widths: 1, lined: maybe, cloth: gul stripe }
`);
    expect(outcome.ok).toBe(false);
    const found = outcome.issues.map((issue) => [
      issue.place?.line,
      issue.place?.column,
      issue.path.join('.'),
      issue.code,
    ]);
    expect(found).toEqual([
      [4, 1, 'papr', 'unknown-key'],
      [7, 12, 'cloths.gull stripe.width', 'not-understood'],
      [8, 15, 'cloths.gull stripe.selvedge', 'not-understood'],
      [13, 18, 'cloths.oat linen.buy.step', 'out-of-range'],
      [15, 25, 'make.0.kind', 'not-understood'],
      [16, 5, 'make.1.count', 'missing'],
      [16, 13, 'make.1.name', 'duplicate-name'],
      [16, 40, 'make.1.drop', 'out-of-range'],
      [16, 53, 'make.1.fullness', 'out-of-range'],
      [16, 64, 'make.1.widths', 'out-of-range'],
      [16, 74, 'make.1.lined', 'not-understood'],
      [16, 88, 'make.1.cloth', 'unknown-cloth'],
    ]);
  });

  test('an unused cloth is a warning and the plan goes on', () => {
    const outcome = read(
      SHORT.replace('cloths:', 'cloths:\n  lime wash: { width: 90, selvedge: 0, buy: yes }'),
    );
    expect(outcome.ok).toBe(true);
    expect(outcome.issues.map((issue) => wordIssue(issue, 'cm'))).toEqual([
      'attic.yaml:5:3 warning: cloths.lime wash: nothing is cut from "lime wash"; name it under make or pieces, or leave it out.',
    ]);
  });

  test('a set that no order names, and a ruler or a mat that no cut could be guided by, are told', () => {
    const text = (set: string, tools: string) => `plan: Attic
unit: in
tools: ${tools}
cloths: { oat linen: { width: 44, selvedge: 0, buy: yes } }
sets:
  ghost: { alike: [front, backs] }
make:
  - { name: covers, kind: envelope-cover, count: 2, size: 16 x 16, cloth: oat linen${set} }
`;
    const told = (set: string, tools: string) => {
      const outcome = read(text(set, tools));
      expect(outcome.ok).toBe(true);
      return outcome.issues.map((issue) => wordIssue(issue, 'in'));
    };
    expect(told('', '{ ruler length: 1/16, mat: 12 x 1/4 }')).toEqual([
      'attic.yaml:3:24 warning: tools.ruler length: a ruler of 1/16 in guides hardly any cut; write what lies on the table, 4 in at least (its smallest mark stands under ruler).',
      'attic.yaml:3:35 warning: tools.mat: a mat of 1/4 in guides hardly any cut; write what lies on the table, 4 in at least.',
      'attic.yaml:6:3 warning: sets.ghost: no order belongs to the set "ghost", so its rules bind nothing; write set: ghost at the orders that do, or leave it out.',
    ]);
    expect(told(', set: ghost', '{ ruler length: 4, mat: 4 x 12 }')).toEqual([]);
  });

  test('names that JavaScript keeps for itself are names like any other', () => {
    for (const name of ['constructor', 'toString', 'hasOwnProperty']) {
      expect(planOf(SHORT.replaceAll('oat linen', name)).cloths[0].name).toBe(name);
      const key = read(SHORT.replace('plan:', `${name}: 1\nplan:`));
      expect(key.issues.map((issue) => issue.code)).toEqual(['unknown-key']);
    }
    const proto = read(SHORT.replaceAll('oat linen', '__proto__'));
    expect(proto.issues[0]).toMatchObject({ code: 'out-of-range', path: ['cloths', '__proto__'] });
  });

  test('a name finds its fellow, however the keyboard made its letters', () => {
    const composed = 'caf\u00e9 check';
    const decomposed = 'cafe\u0301 check';
    const text = SHORT.replace('oat linen', decomposed).replaceAll('oat linen', composed);
    expect(planOf(text).cloths[0].name).toBe(composed);
  });

  test('a bomb of aliases is refused without being set off', () => {
    const layers = Array.from(
      { length: 40 },
      (_, i) => `k${i}: &a${i} [${i === 0 ? 'x' : `*a${i - 1}, *a${i - 1}`}]`,
    );
    const outcome = read(layers.join('\n'));
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.some((issue) => issue.code === 'yaml-feature')).toBe(true);
  });

  test('a file of more than a million characters is not read', () => {
    const outcome = read(`plan: ${'x'.repeat(1_000_001)}`);
    expect(outcome.issues.map((issue) => issue.code)).toEqual(['not-text']);
  });

  test('a spoilt plan never throws, and every problem has a place within the text', () => {
    let good = 0;
    let bad = 0;
    const lines = FULL.trim().split('\n');
    const spoil = fc.record({
      line: fc.nat(lines.length - 1),
      column: fc.nat(60),
      cut: fc.nat(6),
      put: fc.constantFrom(
        '',
        ' ',
        ':',
        '- ',
        '"',
        '{',
        ']',
        '0',
        '#',
        '&a',
        '*a',
        '\t',
        'x',
        ', ',
        '1/0',
        '%',
      ),
    });
    fc.assert(
      fc.property(fc.array(spoil, { minLength: 1, maxLength: 3 }), (spoils) => {
        const spoilt = [...lines];
        for (const { line, column, cut, put } of spoils) {
          spoilt[line] = spoilt[line].slice(0, column) + put + spoilt[line].slice(column + cut);
        }
        const outcome = read(spoilt.join('\n'));
        if (outcome.ok) good += 1;
        else bad += 1;
        expect(outcome.ok || outcome.issues.length > 0).toBe(true);
        for (const issue of outcome.issues) expectPlaced(issue, spoilt);
      }),
      { seed: 21, numRuns: 400 },
    );
    expect(good).toBeGreaterThan(20);
    expect(bad).toBeGreaterThan(100);
  });
});

function expectPlaced(issue: Issue, lines: readonly string[]): void {
  const { place } = issue;
  expect(place?.file).toBe('attic.yaml');
  // The end of the text counts as a place: something may be missing there.
  expect(place!.line).toBeGreaterThanOrEqual(1);
  expect(place!.line).toBeLessThanOrEqual(lines.length + 1);
  expect(place!.column).toBeLessThanOrEqual((lines[place!.line - 1] ?? '').length + 1);
  expect(wordIssue(issue, 'in')).not.toMatch(/undefined|\[object|\n/);
}
