import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { entryRemarks } from '../../src/cli/cupboard/entry-text.ts';
import type { Cupboard } from '../../src/model/cupboard.ts';
import { readCupboard, readEntry } from '../../src/model/cupboard-file.ts';
import { cupboardSchemaDocument } from '../../src/model/cupboard-schema.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { TICKS_PER_CM, TICKS_PER_INCH, TICKS_PER_METRE, TICKS_PER_YARD } from '../../src/units/ticks.ts';

const FULL = `# The Tern House
cupboard: Landing cupboard
unit: in
currency: $
worth: $5.20 per sq yd
entries:
  - name: kelp end
    cloth: kelp check
    width: 45
    length: 1 3/4 yd
    selvedge: { left: 1/2, right: 3/8 }
    crease: keep off 3/4
    grain: lengthwise
    direction: one-way
    print runs: across
    washed: yes
    where: top shelf
    since: 2024-02-29
    count: 3
    worth: 7.15 per square foot
    note: a stain near one end
  - { name: gull strip, cloth: gull stripe, width: 11, length: 29, selvedge: 0 }
cut:
  - { plan: Attic, on: 2026-03-14, mark: 0123456789abcdef }
`;

function read(text: string): Cupboard {
  const outcome = readCupboard(text, { file: 'c.yaml' });
  if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue, 'in')).join('\n'));
  return outcome.value;
}

const inches = (count: number) => count * TICKS_PER_INCH;

describe('the file of a cupboard', () => {
  it('tells everything of an entry', () => {
    const [entry, short] = read(FULL).entries;
    expect(entry).toEqual({
      ...{ name: 'kelp end', cloth: 'kelp check', width: inches(45), length: 1.75 * TICKS_PER_YARD },
      selvedge: { left: inches(1 / 2), right: inches(3 / 8) },
      crease: { kind: 'keep-off', each: inches(3 / 4) },
      ...{ grain: 'lengthwise', direction: 'one-way', printRuns: 'across', washed: true },
      ...{ where: 'top shelf', since: '2024-02-29', count: 3, note: 'a stain near one end' },
      worth: { hundredths: 715, per: inches(12) ** 2 },
    });
    expect(short).toEqual({
      ...{ name: 'gull strip', cloth: 'gull stripe', width: inches(11), length: inches(29) },
      ...{ selvedge: { left: 0, right: 0 }, crease: { kind: 'none' }, grain: 'lengthwise' },
      ...{ washed: false, count: 1 },
      worth: { hundredths: 520, per: TICKS_PER_YARD ** 2 },
    });
    expect(read(FULL).cut).toEqual([{ plan: 'Attic', on: '2026-03-14', mark: '0123456789abcdef' }]);
  });

  it('counts in centimetres where it says so, and rounds what is there down', () => {
    const text = FULL.replace('unit: in', 'unit: cm').replace('width: 11', 'width: 27.00001');
    const [, short] = read(text.replace('sq yd', 'm²')).entries;
    expect(short).toMatchObject({ width: 27 * TICKS_PER_CM, length: 29 * TICKS_PER_CM });
    expect(short!.worth).toEqual({ hundredths: 520, per: TICKS_PER_METRE ** 2 });
  });

  it('tells where a crease lies that is not midway', () => {
    const [first] = read(FULL.replace('keep off 3/4', 'keep off 3/4 at 20 1/2')).entries;
    const crease = { kind: 'keep-off', each: (3 / 4) * TICKS_PER_INCH, at: 20.5 * TICKS_PER_INCH };
    expect(first!.crease).toEqual(crease);
    expect(entryRemarks(first!, { unit: 'in', currency: '$' })).toContain(
      'crease kept off by 3/4 in, 20 1/2 in from the left edge',
    );
  });

  it('may be empty', () => {
    expect(read('cupboard: c\nunit: in\nentries: []').entries).toEqual([]);
  });
});

/** What each slip is changed from and to, where its one message points, and what it says. */
const BAD: readonly (readonly [from: string | RegExp, to: string, place: string, words: RegExp])[] = [
  [/^[\s\S]*$/, '', '1:1', /holds no cupboard; start with cupboard: and a name/],
  [/^[\s\S]*$/, '- kelp end', '1:1', /found a list; write keys such as cupboard, unit and entries/],
  ['cupboard: Landing cupboard\n', '', '2:1', /cupboard: missing; write cupboard: The linen cupboard/],
  ['unit: in', 'unit: inches', '3:7', /found "inches" .*likely "in"/],
  ['entries:', 'entires:', '6:1', /"entires" is not known here; likely "entries"/],
  [/entries:[\s\S]*cut:/, 'entries: 3\ncut:', '6:10', /found "3"; write a list of lengths/],
  ['worth: $5.20 per sq yd', 'worth: 5.20 per yd', '5:8', /found "5.20 per yd" \(likely "5.20 per sq yd"\)/],
  ['worth: $5.20 per sq yd', 'worth: 5.20', '5:8', /write an amount and the area it is for/],
  ['worth: $5.20', 'worth: 5.205', '5:8', /write an amount with two decimals/],
  [/\$\nworth: \$/, 'dollars\nworth: ', '4:11', /a sign or code of up to five letters/],
  ['    cloth: kelp check\n', '', '7:5', /entries\[1\].cloth: missing; write cloth: lime wash/],
  ['width: 45', 'width: 45 inn', '9:12', /"inn" is no unit;.* likely "in"/],
  ['width: 45', 'width: 0', '9:12', /write a length above zero/],
  ['width: 45', 'width: 11 m', '9:12', /write a width up to 10 m/],
  ['width: 45', 'widht: 45', '9:5', /"widht" is not known here; likely "width"/],
  ['right: 3/8', 'right: 44 1/2', '11:15', /the selvedges take 45 in, all of the 45 in there is/],
  ['keep off 3/4', 'keep of 3/4', '12:13', /likely "keep off 3\/4"/],
  ['keep off 3/4', 'keep off 3/4 at 45', '12:13', /a place inside the width/],
  ['keep off 3/4', 'keep off 30', '12:13', /the strip kept off the crease takes 60 in, more than/],
  ['grain: lengthwise', 'grain: along', '13:12', /write lengthwise, crosswise or unknown/],
  ['grain: lengthwise', 'grain: crosswise', '13:12', /selvedge and crease run along the length/],
  ['direction: one-way', 'direction: oneway', '14:16', /likely "one-way"/],
  ['washed: yes', 'washed: true', '16:13', /found "true"; write yes or no/],
  ['2024-02-29', '2023-02-29', '18:12', /write a day that the calendar has/],
  ['2024-02-29', '29.2.2024', '18:12', /write a day such as 2026-03-14/],
  ['count: 3', 'count: 0', '19:12', /a number from 1 to 10000/],
  ['count: 3', 'count: three', '19:12', /a whole number in plain digits/],
  ['name: gull strip', 'name: kelp end', '22:13', /"kelp end" is taken already in line 7/],
  ['name: gull strip', 'name: kelp end 2', '22:13', /"kelp end 2" is taken already in line 7/],
  [
    'width: 11,',
    'width: 11, flaws: [{ from edge: 12, from end: 3, size: 1 x 2 }],',
    '22:64',
    /flaw 1 lies wholly outside the cloth, which is/,
  ],
  ['width: 11,', 'width: 11, width: 12,', '22:56', /"width" stands here a second time/],
  ['selvedge: 0 }', 'selvedge: 0', '22:5', /opens here is not closed/],
  ['    count: 3', '\tcount: 3', '19:1', /a tab stands where spaces must/],
  ['    cloth: kelp check', '    cloth: &kelp kelp check', '8:18', /found the anchor "&kelp"/],
  ['mark: 0123456789abcdef', 'mark: 0123', '24:42', /sixteen digits from 0 to f/],
  ['kelp check', 'kelp \ufffdcheck', '8:17', /the file is not UTF-8/],
];

describe('a bad cupboard', () => {
  it.each(BAD)('%s → %j is told at %s', (from, to, place, words) => {
    const text = FULL.replace(from, to);
    expect(text).not.toBe(FULL);
    const { ok, issues } = readCupboard(text, { file: 'c.yaml' });
    const lines = issues.map((issue) => wordIssue(issue, 'in'));
    expect([ok, lines]).toEqual([false, [expect.stringMatching(words)]]);
    expect(lines[0]).toMatch(new RegExp(`^c.yaml:${place} `));
  });

  it('tells all its problems at once, in the order of the file', () => {
    const text = FULL.replace('width: 45', 'width: x').replace('count: 3', 'count: x').replace('29,', 'x,');
    const { issues } = readCupboard(text, { file: 'c.yaml' });
    expect(issues.map(({ place }) => place?.line)).toEqual([9, 19, 22]);
  });
});

describe('an entry from words', () => {
  const look = { unit: 'cm', currency: 'EUR' } as const;

  it('is read as in the file', () => {
    const words = { name: 'end', cloth: 'lime', width: '31', length: '1.2 m', selvedge: '0', count: '2' };
    expect(readEntry(words, look)).toMatchObject({
      ok: true,
      value: { name: 'end', width: 31 * TICKS_PER_CM, length: 120 * TICKS_PER_CM, count: 2 },
    });
  });

  it('tells its problems by key, without a place', () => {
    const { issues } = readEntry({ name: 'end', width: 'x', length: '1.2 m', selvedge: '0' }, look);
    expect(issues.map(({ code, path, place }) => [code, path, place])).toEqual([
      ['missing', ['cloth'], undefined],
      ['not-understood', ['width'], undefined],
    ]);
  });
});

describe('the schema of cupboards', () => {
  const validate = new Ajv2020({ strict: true, strictTypes: false }).compile(cupboardSchemaDocument());
  const layout = fileURLToPath(new URL('../../layouts/cupboard-odd-lengths/cupboard.yaml', import.meta.url));

  it('takes the cupboards that the reader takes', () => {
    for (const text of [FULL, readFileSync(layout, 'utf8')]) {
      read(text);
      expect(validate(parse(text, { schema: 'core' })) || validate.errors).toBe(true);
    }
  });

  it.each(['wide: 4', 'grain: along'])('knows that %s is wrong', (line) => {
    const spoilt = parse(FULL.replace('grain: lengthwise', line));
    expect(validate(spoilt)).toBe(false);
  });
});
