import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { laywright } from '../support/run-command.ts';

const PLAN = `# The net loft, by hand
plan: The net loft
unit: in
currency: $
cloths:
  sail grey:               # from the chandler
    width: 40
    selvedge: 0
    washing: { along: 3 %, across: 0 %, washed: before-cutting }
    price: 12.00 per yd
    buy: { step: 1/4 yd }
pieces:
  # for the table
  - { name: square, count: 14, size: 10 x 10, cloth: sail grey }
`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-mat-'));
  writeFileSync(join(folder, 'net.yaml'), PLAN);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const ran = (...words: string[]) => laywright(words, { cwd: folder });
const textOf = (name: string) => readFileSync(join(folder, name), 'utf8');
const plainSpaces = (text: string) => text.replaceAll('\u00a0', ' ');

const measure = (length: string, ...more: string[]) =>
  ran('measured', 'net.yaml', '--width', '40', '--length', length, ...more);

describe('laywright measured', () => {
  it('writes what was measured, leaves every other line, and tells what was lost', async () => {
    const { exitCode, stdout } = await measure('30', '--before', '33');
    expect(exitCode).toBe(0);
    expect(plainSpaces(stdout).replace(/\s+/g, ' ')).toContain(
      'sail grey: washed length, 40 x 30 in; it shrank 9.1 % along, you planned 3 %.',
    );
    const facts = '    measured: { width: 40, length: 30, before: 33 }\n';
    expect(textOf('net.yaml')).toBe(PLAN.replace('step: 1/4 yd }\n', `step: 1/4 yd }\n${facts}`));
    expect(readdirSync(folder)).toEqual(['net.yaml']);
  });

  it('takes a further length, or measures anew, only when told so', async () => {
    await measure('30');
    const { exitCode, stderr } = await measure('29');
    expect([exitCode, stderr]).toEqual([
      2,
      '"sail grey" has been measured already; --add for a further length of it, or --again to measure anew, would work\n',
    ]);
    await measure('12', '--add', '--name', 'the rest');
    expect(textOf('net.yaml')).toContain(
      'measured: [ { width: 40, length: 30 }, { width: 40, length: 12, name: the rest } ]',
    );
    await measure('41', '--again');
    expect(textOf('net.yaml')).toContain('measured: { width: 40, length: 41 }\n');
  });

  it('takes edges, crease, first motif and repeat under their own keys', async () => {
    writeFileSync(join(folder, 'net.yaml'), PLAN.replace('    price', '    repeat: { along: 8 }\n    price'));
    const { exitCode, stderr } = await measure(
      '30',
      ...['--left', '1/2', '--right', '0', '--crease', 'keep off 1 at 18'],
      ...['--first-motif', '3', '--repeat-along', '7 3/4'],
    );
    expect([exitCode, stderr]).toEqual([0, '']);
    expect(textOf('net.yaml')).toContain(
      'measured: { width: 40, length: 30, crease: keep off 1 at 18, first motif: 3, selvedge: { left: 1/2, right: 0 }, repeat: { along: 7 3/4 } }',
    );
  });
});

describe('laywright refit', () => {
  it('says so where everything still fits, and where nothing has been measured', async () => {
    const told = async () => {
      const { exitCode, stdout } = await ran('refit', 'net.yaml');
      expect(exitCode).toBe(0);
      expect(stdout.replace(/\s+/g, ' ')).toContain(
        'It fits as it is. Its markers: `laywright plan net.yaml`',
      );
      return stdout;
    };
    expect(await told()).toContain('Nothing has been measured yet');
    await measure('40');
    expect(await told()).not.toContain('Nothing has been measured yet');
  });

  it('tells every way out, with what it costs and whether it is the least', async () => {
    await measure('30');
    const { exitCode, stdout } = await ran('refit', 'net.yaml', '--may-shrink', 'square by 3');
    expect(exitCode).toBe(3);
    const told = stdout.replace(/\s+/g, ' ');
    expect(told).toContain('drop leave out 2 of 14 square; nothing to pay; no fewer would do, proven');
    expect(told).toContain(
      'shrink make square 8 x 8 in, not 10 x 10 in; nothing to pay; one mark larger would not fit, proven',
    );
    // 10 in on the table are 10.31 in at the shop: half a yard, by the quarter.
    expect(told).toContain('buy buy 1/2 yd more of sail grey; costs $6.00; no less would do, proven');
    expect(told).toContain('no join');
    expect(readdirSync(folder)).toEqual(['net.yaml']);
  });

  it.each([
    ['drop', 'count: 14', 'count: 12', 'At the mat: leave out 2 of 14 square.'],
    ['shrink', 'size: 10 x 10', 'size: 8 x 8', 'At the mat: make square 8 x 8 in, not 10 x 10 in.'],
    ['buy', '\npieces', '\n    buy more: yes\npieces', 'At the mat: buy 1/2 yd more of sail grey.'],
  ])(
    'takes %s: a plan file of its own, changed there alone, with its markers',
    async (offer, before, after, note) => {
      await measure('30');
      const measured = textOf('net.yaml');
      const { exitCode, stdout } = await ran(
        'refit',
        'net.yaml',
        '--take',
        offer,
        '--may-shrink',
        'square by 3',
      );
      expect(exitCode).toBe(0);
      expect(textOf('net.yaml')).toBe(measured);
      const noted = measured.replace('loft\nunit', `loft\nnote: "${note}"\nunit`);
      expect(textOf('net-refit.yaml')).toBe(noted.replace(before, after));
      expect(readdirSync(join(folder, 'net-refit-marker')).sort()).toEqual([
        ...['marker-sail-grey.svg', 'markers.pdf', 'plan.json'],
      ]);
      expect(stdout).toContain(note);
      const again = await ran('plan', 'net-refit.yaml', '--write', 'json', '--out', 'again');
      expect(again.exitCode).toBe(0);
      expect(textOf('again/plan.json')).toBe(textOf('net-refit-marker/plan.json'));
      const json = JSON.parse(textOf('again/plan.json'));
      expect([json.note, json.cloths[0].measured[0].size.shown]).toEqual([note, '40 x 30 in']);
    },
  );

  it('takes a join, as a rule in the plan', async () => {
    const long = PLAN.replace(
      '{ name: square, count: 14, size: 10 x 10',
      '{ name: runner, count: 1, size: 14 x 36, grain: lengthwise',
    );
    writeFileSync(join(folder, 'net.yaml'), long);
    await measure('30');
    const { exitCode } = await ran(
      'refit',
      'net.yaml',
      '--take',
      'join',
      '--write',
      'nothing',
      '--as',
      'joined.yaml',
    );
    expect(exitCode).toBe(0);
    expect(textOf('joined.yaml')).toContain('join: { by: seam, most joins: 1 } }');
    expect((await ran('plan', 'joined.yaml', '--write', 'nothing')).exitCode).toBe(0);
  });

  it('gives the offers as JSON, each a whole cut plan', async () => {
    await measure('30');
    const { exitCode, stdout } = await ran('refit', 'net.yaml', '--json');
    expect(exitCode).toBe(3);
    const { format, fits, offers, none } = JSON.parse(stdout);
    expect([format, fits]).toEqual(['laywright refit', false]);
    expect(offers.map((offer: { take: string }) => offer.take)).toEqual(['drop', 'buy']);
    expect(offers[0].plan.format).toBe('laywright cut plan');
    expect(none.map(({ kind }: { kind: string }) => kind)).toEqual(['join', 'shrink']);
  });

  it('leaves a plan file alone that is there already', async () => {
    await measure('30');
    writeFileSync(join(folder, 'net-refit.yaml'), 'mine');
    const { exitCode, stderr } = await ran('refit', 'net.yaml', '--take', 'drop');
    expect([exitCode, stderr]).toEqual([
      2,
      'net-refit.yaml: already there, and left as it is. Give another name with --as.\n',
    ]);
    expect(textOf('net-refit.yaml')).toBe('mine');
    expect(existsSync(join(folder, 'net-refit-marker'))).toBe(false);
  });

  it('settles two cloths each by its own need, and takes what is said for each', async () => {
    const two = PLAN.replace(
      'pieces:',
      `  oat linen: { width: 40, selvedge: 0, price: 9.00 per yd, buy: yes, measured: { width: 40, length: 30 } }
pieces:
  - { name: mat, count: 13, size: 10 x 10, cloth: oat linen }`,
    );
    writeFileSync(join(folder, 'net.yaml'), two);
    await measure('30', '--cloth', 'sail grey');
    const { stdout } = await ran('refit', 'net.yaml', '--may-shrink', 'square by 3, mat by 4');
    const told = stdout.replace(/\s+/g, ' ');
    // 14 squares lie 5 by 3 at 8 in. 13 mats lie the same way: both need 8 in, told apart.
    expect(told).toContain(
      'shrink nothing to pay on sail grey: make square 8 x 8 in, not 10 x 10 in; one mark larger would not fit, proven on oat linen: make mat 8 x 8 in, not 10 x 10 in; one mark larger would not fit, proven',
    );
    const take = 'sail grey: buy, oat linen: drop';
    const { exitCode } = await ran('refit', 'net.yaml', '--take', take, '--write', 'nothing');
    expect(exitCode).toBe(0);
    expect(textOf('net-refit.yaml')).toContain('buy more: yes');
    expect(textOf('net-refit.yaml')).toContain('name: mat, count: 12,');
    expect((await ran('plan', 'net-refit.yaml', '--write', 'nothing')).exitCode).toBe(0);
  });

  it.each([
    [
      'sail grey: burn',
      '--take: found "sail grey: burn"; join, shrink, drop or buy would work, or one for each cloth, such as "sail grey: drop"',
    ],
    ['sail gray: drop', '--take: found "sail gray"; "sail grey" would work'],
  ])('refuses --take "%s" in one line', async (take, message) => {
    await measure('30');
    const { exitCode, stderr } = await ran('refit', 'net.yaml', '--take', take);
    expect([exitCode, stderr]).toEqual([2, `${message}\n`]);
  });

  it('lists what has to be smaller, a line each, where it is more than one thing', async () => {
    writeFileSync(
      join(folder, 'net.yaml'),
      PLAN.replace('count: 14', 'count: 4').replace(
        '- { name',
        '- { name: long, count: 4, size: 10 x 12, cloth: sail grey }\n  - { name',
      ),
    );
    // Rows of 10 and 12 in go into 20 in where both come down by 1 in, neither alone.
    await measure('20', '--cloth', 'sail grey');
    const { stdout } = await ran('refit', 'net.yaml', '--may-shrink', 'square by 1, long by 1');
    expect(stdout).toMatch(
      /make these smaller; nothing to pay\n +- long +\S.* in +not 10 x 12 in +(proven|found)\n +- square +\S.* in +not 10 x 10 in +(proven|found)\n/,
    );
  });

  it('keeps the pad of a cover that is made smaller', async () => {
    const covers = PLAN.replace('pieces:', 'make:').replace(
      'name: square, count: 14, size: 10 x 10',
      'name: bench covers, kind: wrap-cover, count: 2, size: 18 x 18, lap: 4',
    );
    writeFileSync(join(folder, 'net.yaml'), covers);
    // Cut 19 in across: two beside each other ask for 38 in.
    await ran('measured', 'net.yaml', '--width', '37', '--length', '44');
    const { stdout } = await ran('refit', 'net.yaml');
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'make bench covers 17 1/2 x 17 1/2 in, not 18 x 18 in; nothing to pay; one mark larger would not fit, proven; the pad of bench covers stays 18 x 18 in and sits tighter',
    );
    await ran('refit', 'net.yaml', '--take', 'shrink', '--write', 'nothing');
    expect(textOf('net-refit.yaml')).toContain(
      'size: 17 1/2 x 17 1/2, lap: 4, cloth: sail grey, pad: 18 x 18',
    );
    const list = await ran('shopping', 'net-refit.yaml');
    expect(list.stdout).toContain('pad  2, no price; 18 x 18 in;');
  });

  it('tells the width of more to buy as the shop labels it, not as the measured cloth would have been', async () => {
    const text = PLAN.replace('unit: in', 'unit: cm')
      .replace('width: 40', 'width: 140')
      .replace('across: 0 %', 'across: 2.7 %');
    writeFileSync(
      join(folder, 'net.yaml'),
      text
        .replace('size: 10 x 10', 'size: 30 x 30')
        .replace(/ {4}price.*\n/, '')
        .replace('1/4 yd', '10 cm'),
    );
    await ran('measured', 'net.yaml', '--width', '134.3', '--length', '90');
    await ran('refit', 'net.yaml', '--take', 'buy', '--write', 'nothing');
    const { stdout } = await ran('plan', 'net-refit.yaml', '--write', 'nothing');
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      '140 cm wide is reckoned to come out 134.3 cm wide, as you measured.',
    );
    expect(stdout).not.toContain('just over');
  });

  it('names the way out where the plan is made without it', async () => {
    await measure('30');
    const { exitCode, stderr } = await ran('plan', 'net.yaml', '--write', 'nothing');
    expect(exitCode).toBe(3);
    expect(stderr).toContain('`laywright refit` tells the least to join, shrink, drop or buy');
  });
});
