import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { NO_WIDTH_OF_PANELS } from '../../src/rendering/buys.ts';
import { laywright } from '../support/run-command.ts';

const PLAN = `plan: Pantry
unit: in
currency: $
cloths:
  dune ticking:
    width: 44
    selvedge: 0
    price: 13.00 per yd
    buy: yes
    note: 'blue bolt, "seconds"'
  old holland: { width: 30, selvedge: 0, lengths: [1 yd] }
pieces:
  - { name: front, count: 2, size: 19 x 19, cloth: dune ticking }
  - { name: back, count: 4, size: 19 x 13 1/2, cloth: dune ticking }
  - { name: tie, count: 3, size: 4 x 17, cloth: old holland }
`;

const PANELS = `plan: Sail loft
unit: in
cloths:
  gull squares:
    width: 54
    selvedge: 1
    buy: yes
    panels: { every: 30, areas: [{ name: gull, from edge: 4, from end: 3, size: 15 x 15 }] }
pieces:
  - { name: front, count: 2, size: 18 x 18, cloth: gull squares, panel: gull }
`;

let cwd: string;
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'laywright-buys-'));
  writeFileSync(join(cwd, 'pantry.yaml'), PLAN);
  writeFileSync(join(cwd, 'panels.yaml'), PANELS);
});
afterAll(() => rmSync(cwd, { recursive: true }));

const run = (words: readonly string[]) => laywright([...words, '--effort', '4000'], { cwd });

describe('laywright buys', () => {
  it('compares the buys that are named, and marks the best value in words', async () => {
    const { exitCode, stdout } = await run(['buys', 'pantry.yaml', '--lengths', '3/4 yd, 1 3/8 yd']);
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/3\/4 yd +1 .*\$9\.75 +\$9\.75/);
    expect(stdout).toMatch(/1 3\/8 yd +2 .*\$17\.88 +\$8\.94/);
    expect(stdout).toContain('Best value: 1 3/8 yd, 2 sets at $8.94 each');
    expect(stdout).toMatch(/Width: the plan\s+holds down to/);
    expect(stdout).toMatch(/Left, sq in +Largest, in/);
    expect(stdout).not.toContain('old holland: ');
  });

  it('says that no width at risk is worked out for printed panels', async () => {
    const { exitCode, stdout } = await run(['buys', 'panels.yaml']);
    expect(exitCode).toBe(0);
    expect(stdout.replace(/\s+/g, ' ')).toContain(NO_WIDTH_OF_PANELS);
    expect((await run(['buys', 'pantry.yaml'])).stdout).not.toContain('printed panels');
  });

  it('says what stands for a length that no shop’s step is, and how many steps are not listed', async () => {
    const words = ['buys', 'pantry.yaml', '--cloth', 'dune ticking', '--lengths'];
    const named = (await run([...words, '1 m, 1 1/2 yd'])).stdout;
    // 1 m is 39.37 in; 1 1/8 yd are 40 1/2 in.
    expect(named).toContain('In the shop\'s steps "1 m" is asked for as 1 1/8 yd.');
    expect((await run([...words, '1 yd, 1 1/2 yd'])).stdout).not.toContain("In the shop's steps");
    const climbed = ['buys', 'pantry.yaml', '--cloth', 'dune ticking', '--rungs', '4', '--out', 'climbed'];
    const few = (await run(climbed)).stdout;
    const chart = readFileSync(join(cwd, 'climbed', 'buys-dune-ticking.svg'), 'utf8');
    expect(chart).toContain("2 of the shop's steps between these are not drawn");
    // 3/4 yd to 1 3/8 yd, which the plan buys: six steps.
    expect(few).toContain("2 of the shop's steps between these are not listed; --rungs 6 lists every one.");
    const all = (await run(['buys', 'pantry.yaml', '--cloth', 'dune ticking', '--rungs', '6'])).stdout;
    expect(all).not.toContain('not listed');
  });

  it('tells up to which shrinkage the plan holds, each way, where cloth is washed before it is cut', async () => {
    const plan = (washed: string, more = '') => `plan: Larder
unit: in
cloths:
  dot: { width: 43, selvedge: 1/2, squaring: 1/2, ${more}washing: { along: 5 %, across: 2 %, washed: ${washed} }, buy: yes }
pieces: [{ name: square, count: 14, size: 13 x 13, cloth: dot${more === '' ? '' : ', match: alike'} }]
`;
    const told = async (text: string) => {
      writeFileSync(join(cwd, 'washed.yaml'), text);
      return (await run(['buys', 'washed.yaml', '--rungs', '1'])).stdout.replace(/\s+/g, ' ');
    };
    // Five rows take 66 in of 72 in bought, or 76 1/2, or 81; three columns 40 in of 43 in, two 27 in.
    const words = await told(plan('before-cutting'));
    expect(words).toContain(
      'Shrinkage along the length: the plan, which reckons 5 %, holds up to 8.33 %; above that buy 1/8 yd more; above 13.72 % buy 1/4 yd more.',
    );
    expect(words).toContain(
      'Shrinkage across the width: the plan, which reckons 2 %, holds up to 6.97 %; above that buy 3/4 yd more; above 37.2 % buy 3 3/8 yd more; above 67.44 % there is no plan.',
    );
    // 40 in of 0.98 of the width.
    expect(words).toContain('Width: the plan holds down to 40 7/8 in overall');
    const { cloths } = JSON.parse((await run(['buys', 'washed.yaml', '--rungs', '1', '--json'])).stdout);
    expect(cloths[0].shrinkageAlong.steps[0]).toMatchObject({ upToMillionths: 83300, proven: true });
    expect(cloths[0].shrinkageAcross.noneAboveMillionths).toBe(674418);
    expect(await told(plan('after-sewing'))).not.toContain('Shrinkage');
    expect(await told(plan('before-cutting', 'repeat: { along: 9 }, '))).toContain(
      'Shrinkage: what a larger loss would need is not worked out for a print that is matched',
    );
  });

  it('says what the least is where no buy yields a set, in the table, the chart and as JSON', async () => {
    const words = ['buys', 'pantry.yaml', '--cloth', 'dune ticking', '--lengths', '3/8 yd, 5/8 yd'];
    const { stdout } = await run([...words, '--out', 'short']);
    // 19 in along hold one front beside nothing else: no set, and no efficiency of sets.
    expect(stdout).toMatch(/5\/8 yd +0 +- +\d+ +\S.* \$8\.13 +- +\d/);
    const told = 'the least that was found to yield one is 3/4 yd, for $9.75.';
    expect(stdout.replace(/\s+/g, ' ')).toContain(`None of these yields a complete set; ${told}`);
    expect(stdout).toContain('Rest: the single pieces that it would still give.');
    const chart = readFileSync(join(cwd, 'short', 'buys-dune-ticking.svg'), 'utf8');
    expect(chart).toContain('None of these yields a complete set.');
    expect(chart).toContain(`T${told.slice(1)}`);
    const json = JSON.parse((await run([...words, '--json'])).stdout);
    expect(json.cloths[0].leastForOne).toEqual({ ticks: 219456, text: '3/4 yd', cost: 975 });
  });

  it('tells the first widths that matter, and every one where asked', async () => {
    const plan = `plan: Steps
unit: in
cloths: { reed: { width: 44, selvedge: 0, buy: { step: 1 in } } }
pieces: [{ name: mat, count: 30, size: 7 x 11, cloth: reed, grain: lengthwise }]
`;
    writeFileSync(join(cwd, 'steps.yaml'), plan);
    const few = (await run(['buys', 'steps.yaml', '--rungs', '1'])).stdout;
    const all = (await run(['buys', 'steps.yaml', '--rungs', '1', '--every-width'])).stdout;
    const rows = [...all.matchAll(/^ {2}down to (.*?) in {2,}/gm)].map(([, width]) => width);
    const { width } = JSON.parse((await run(['buys', 'steps.yaml', '--rungs', '1', '--json'])).stdout)
      .cloths[0];
    // By hand: 6 across to 1 across take 5, 6, 8, 10, 15 and 30 rows.
    expect(rows).toEqual(['42', '35', '28', '21', '14', '7']);
    expect(rows).toEqual(
      width.steps.map(({ from }: { from: { text: string } }) => from.text.replace(' in', '')),
    );
    expect(all).toContain(`below ${rows.at(-1)} in`);
    const told = few.replace(/\s+/g, ' ');
    expect(told).toContain(`holds down to ${rows[0]} in overall; below that buy`);
    expect(told).toContain(
      'below 21 in 2 more steps, which --every-width lists; below 7 in there is no plan',
    );
  });

  it('ends with what all cloths allow together, of a set that is named or of the smallest', async () => {
    const whole = await run(['buys', 'pantry.yaml', '--lengths', '1 yd']);
    expect(whole.stdout).toContain('All cloths together: one set is 2 front, 4 back, 3 tie');
    expect(whole.stdout).toMatch(/1 +\$17\.88 +\$17\.88 +dune ticking 1 3\/8 yd/);
    const named = await run(['buys', 'pantry.yaml', '--set', '1 front, 2 back, 1 tie', '--json']);
    const { together, cloths } = JSON.parse(named.stdout);
    expect(cloths[0].set).toEqual({ front: 1, back: 2 });
    expect(together.set).toEqual({ front: 1, back: 2, tie: 1 });
    expect(together.buys.map(({ sets, cost }: { sets: number; cost: number }) => [sets, cost])).toEqual([
      [1, 975],
      [2, 1788],
    ]);
    expect(together.inHandOnly).toEqual([{ cloth: 'old holland', sets: 2, proven: true }]);
  });

  it('gives the same as JSON, and charts that are told', async () => {
    const { exitCode, stdout } = await run([
      'buys',
      'pantry.yaml',
      '--rungs',
      '3',
      '--json',
      '--out',
      'charts',
    ]);
    expect(exitCode).toBe(0);
    const [cloth] = JSON.parse(stdout).cloths;
    // The ladder reaches what the plan buys, 1 3/8 yd.
    expect(cloth.buys.map((buy: { sets: number }) => buy.sets)).toEqual([1, 1, 2]);
    expect(cloth.buys.map((buy: { bestValue: boolean }) => buy.bestValue)).toEqual([false, false, true]);
    expect(cloth.buys[0].bought).toEqual({ ticks: 219456, text: '3/4 yd' });
    expect(readdirSync(join(cwd, 'charts')).sort()).toEqual([
      'buys-dune-ticking.pdf',
      'buys-dune-ticking.svg',
    ]);
    const svg = readFileSync(join(cwd, 'charts', 'buys-dune-ticking.svg'), 'utf8');
    expect(svg.match(/class="sets"/g)).toHaveLength(3);
    expect(svg.match(/class="cost"/g)).toHaveLength(3);
  });
});

describe('laywright yield', () => {
  it('tells what is over of each cloth once: rests of what was cut, and lengths left whole', async () => {
    const plan = `plan: Ends
unit: in
cloths:
  reed: { width: 44, selvedge: 0, squaring: 1/2, lengths: [12, 31, { name: flawed, length: 31, flaws: [{ from edge: 0, from end: 5, size: 44 x 8 }] }] }
pieces: [{ name: mat, count: 4, size: 11 x 11, cloth: reed }]
`;
    writeFileSync(join(cwd, 'ends.yaml'), plan);
    const words = ['yield', 'ends.yaml', '--most', '1', '--set', '4 mat'];
    const { stdout } = await run(words);
    expect(stdout.match(/^reed$/gm)).toHaveLength(1);
    const { uses } = JSON.parse((await run([...words, '--json'])).stdout);
    const [{ left }, ...others] = uses;
    expect(others).toEqual([]);
    // Four mats fill the 12 in; the others stay whole, an inch shorter once they are squared.
    const told = (own: { name: string; usable: { shown: string } }) => [own.name, own.usable.shown];
    expect(left.map(told)).toEqual([
      ['length 2', '44 x 30 in'],
      ['flawed', '44 x 30 in'],
    ]);
    // 16 1/2 in squares: two along and two across of the whole one, one row of two beyond the flaw of the other.
    const listed = `${plan}from leftovers: [{ name: squares, kind: napkin, size: 15 x 15, hem: 1/2 + 1/4, least: 1 }]\n`;
    writeFileSync(join(cwd, 'ends.yaml'), listed);
    const [use] = JSON.parse((await run([...words, '--json'])).stdout).uses[0].uses;
    expect([use.name, use.count]).toEqual(['squares', 4]);
  });
});

describe('laywright shopping', () => {
  it('tells what to ask for, what it costs, and what is in hand apart', async () => {
    const { exitCode, stdout } = await run(['shopping', 'pantry.yaml']);
    expect(exitCode).toBe(0);
    expect(stdout).toContain('dune ticking  1 3/8 yd at $13.00 per yd, $17.88; 44 in wide, plain');
    expect(stdout).toContain('Total $17.88');
    expect(stdout).toMatch(/Already in hand\n {2}old holland {2}length 1, 30 x 36 in/);
  });

  it('tells a length in hand as it lies there, not as it will come out of the wash', async () => {
    writeFileSync(
      join(cwd, 'unwashed.yaml'),
      `plan: Sea room
unit: in
cloths:
  brine:
    width: 45
    selvedge: 1/2
    washing: { along: 3 %, across: 3 %, washed: before-cutting }
    lengths: [{ name: end, length: 40 }]
pieces: [{ name: front, count: 2, size: 17 x 17, cloth: brine }]
`,
    );
    const text = (await run(['shopping', 'unwashed.yaml'])).stdout;
    expect(text).toMatch(/Already in hand\n {2}brine {2}end, 45 x 40 in/);
    const rows = (await run(['shopping', 'unwashed.yaml', '--as', 'csv'])).stdout;
    expect(rows).toContain('in hand,,brine,45 in,40 in,end,,,,');
  });

  it('writes rows that keep quotes and commas (RFC 4180)', async () => {
    const { stdout } = await run(['shopping', 'pantry.yaml', '--as', 'csv']);
    const rows = stdout.split('\r\n');
    expect(rows[0]).toBe('get,where,what,width,length,ask for,price,cost,currency,note');
    expect(rows[1]).toBe(
      'buy,,dune ticking,44 in,49 1/2 in,1 3/8 yd,$13.00 per yd,17.88,$,"blue bolt, ""seconds"""',
    );
    expect(rows[2]).toBe('in hand,,old holland,30 in,36 in,length 1,,,,');
  });

  it('parts the list by shops, tells goods by count and by length, and what comes from the cupboard apart', async () => {
    const plan = `plan: Wash house
unit: cm
currency: €
cupboard: cupboard.yaml
goods:
  - { name: zip, count: 8, have: 3, price: 1.20, shop: harbour stores }
  - { name: piping cord, length: 7.35 m, have length: 1 m, step: 50 cm, price: 0.90 per m }
  - { name: thread, count: 2, have: 2 }
cloths:
  moss: { width: 140, selvedge: 1, price: 12.00 per m, buy: yes, shop: lane drapers }
  reed: { width: 140, selvedge: 1, lengths: [{ from cupboard: reed end }] }
make:
  - { name: seat covers, kind: wrap-cover, count: 2, size: 40 x 40, cloth: moss }
pieces:
  - { name: strip, count: 1, size: 20 x 20, cloth: reed }
`;
    const cupboard =
      'cupboard: Landing\nunit: cm\nentries:\n  - { name: reed end, cloth: reed, width: 140, length: 50, selvedge: 1, washed: yes, where: top shelf }\n';
    writeFileSync(join(cwd, 'wash.yaml'), plan);
    writeFileSync(join(cwd, 'cupboard.yaml'), cupboard);
    const { stdout } = await run(['shopping', 'wash.yaml']);
    const text = stdout.replace(/\s+/g, ' ');
    expect(text).toMatch(/lane drapers, €\d+\.\d\d moss .* at €12\.00 per m/);
    expect(text).toContain('harbour stores, €6.00 zip 5 at €1.20 each, €6.00; 3 at hand already');
    // 7.35 m less 1 m are 6.35 m, which is 6.5 m in steps of 50 cm.
    expect(text).toContain('Anywhere, €5.85 piping cord 6.5 m at €0.90 per m, €5.85; 1 m at hand already');
    expect(text).toContain('pad 2, no price; 40 x 40 cm; one for each of seat covers, unless you have them');
    expect(text).toMatch(
      /Total €\d+\.\d\d, not counting what has no price: pad for seat covers Already in hand thread 2 From the cupboard reed reed end, 140 x 50 cm; top shelf/,
    );
    const flat = await run(['shopping', 'wash.yaml', '--by', 'cloth']);
    expect(flat.stdout).not.toContain('harbour stores');
    const csv = await run(['shopping', 'wash.yaml', '--as', 'csv']);
    expect(csv.stdout).toContain('buy,harbour stores,zip,,,5,€1.20 each,6.00,€,3 at hand already\r\n');
    expect(csv.stdout).toContain('cupboard,top shelf,reed,140 cm,50 cm,reed end,,,,\r\n');
    const json = JSON.parse((await run(['shopping', 'wash.yaml', '--as', 'json'])).stdout);
    expect(json.cupboard).toMatchObject([{ cloth: 'reed', where: 'top shelf' }]);
    expect(json.inHand).toEqual([]);
    expect(json.goods.map(({ name, cost }: { name: string; cost: number | null }) => [name, cost])).toEqual([
      ['zip', 600],
      ['piping cord', 585],
      ['thread', null],
      ['pad', null],
    ]);
    const listed = plan.replace('name: thread,', 'name: pads of 40 cm,');
    writeFileSync(join(cwd, 'wash.yaml'), listed);
    expect((await run(['shopping', 'wash.yaml'])).stdout).not.toContain('one for each');
  });

  it('asks for pads of one size once, and for the pad that a smaller cover keeps', async () => {
    const cover = (name: string, count: number, more: string) =>
      `  - { name: ${name}, kind: envelope-cover, count: ${count}, ${more}, cloth: moss }`;
    const plan = [
      'plan: Landing',
      'unit: in',
      'cloths:',
      '  moss: { width: 54, selvedge: 1/2, buy: yes }',
      'make:',
      cover('seat covers', 3, 'size: 17 x 17'),
      cover('bench covers', 2, 'size: 16 1/2 x 16 1/2, pad: 17 x 17'),
      cover('bolsters', 1, 'size: 12 x 20'),
      '',
    ].join('\n');
    writeFileSync(join(cwd, 'pads.yaml'), plan);
    const { stdout, stderr } = await run(['shopping', 'pads.yaml']);
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'pad 5, no price; 17 x 17 in; one for each of seat covers and bench covers, unless you have them pad 1, no price; 12 x 20 in; one for each of bolsters, unless you have them',
    );
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'not counting what has no price: moss, pad for seat covers and bench covers and pad for bolsters',
    );
    expect(stderr).toBe('');
  });

  it('gives JSON, and a page to take along', async () => {
    const { exitCode, stdout } = await run(['shopping', 'pantry.yaml', '--as', 'json', '--page', 'list.pdf']);
    expect(exitCode).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      total: 1788,
      unpriced: [],
      inHand: [{ cloth: 'old holland' }],
    });
    expect(readFileSync(join(cwd, 'list.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('never writes over a file that is not its own', async () => {
    writeFileSync(join(cwd, 'letter.pdf'), 'dear');
    const { exitCode, stderr } = await run(['shopping', 'pantry.yaml', '--page', 'letter.pdf']);
    expect(exitCode).toBe(2);
    expect(stderr).toContain('letter.pdf');
    expect(readFileSync(join(cwd, 'letter.pdf'), 'utf8')).toBe('dear');
  });
});
