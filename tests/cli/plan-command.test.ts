import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { COMMAND, laywright, run } from '../support/run-command.ts';

const SMALL_PLAN = `# The Tern House, pantry
plan: Pantry
unit: in
currency: $
cloths:
  kelp check:
    width: 45
    selvedge: 1/2
    price: 8.40 per yd
    buy: yes
pieces:
  - { name: shelf cloth, count: 5, size: 13 x 29, cloth: kelp check }
`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'laywright-plan-'));
  writeFileSync(join(folder, 'pantry.yaml'), SMALL_PLAN);
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const ran = (...words: string[]) => laywright(words, { cwd: folder });
const written = (...path: string[]) => readFileSync(join(folder, ...path), 'utf8');
const names = (...path: string[]) => readdirSync(join(folder, ...path)).sort();

describe('planning a file', () => {
  it('prints the summary and writes markers, book and plan beside each other', async () => {
    const { exitCode, stdout, stderr } = await ran('plan', 'pantry.yaml');
    expect([exitCode, stderr]).toEqual([0, '']);
    // 3 x 13 = 39 and 1 x 29 + 13 = 42 in of the usable 44 in: five lie in 29 + 29 in or in 42 in by turning.
    expect(stdout).toMatch(/^Pantry\n/);
    expect(stdout).toContain('A  shelf cloth  13 x 29 in       5');
    expect(names('pantry-marker')).toEqual(['marker-kelp-check.svg', 'markers.pdf', 'plan.json']);
    for (const name of names('pantry-marker')) expect(stdout).toContain(`Written: pantry-marker/${name}`);
    expect(written('pantry-marker', 'marker-kelp-check.svg')).toMatch(/<svg [\s\S]+<\/svg>\s*$/);
    expect(written('pantry-marker', 'markers.pdf')).toMatch(/^%PDF-[\s\S]+%%EOF\s*$/);
  });

  it('prints, with --json, the very plan.json that it writes, which keeps to its schema', async () => {
    const { exitCode, stdout, stderr } = await ran('plan', 'pantry.yaml', '--json', '--out', 'here');
    expect(exitCode).toBe(0);
    expect(stdout).toBe(written('here', 'plan.json'));
    expect(stderr).toContain('Written: here/plan.json');
    const schema = await ran('schema', 'cut-plan');
    const validate = new Ajv2020({ strict: true }).compile(JSON.parse(schema.stdout));
    expect(validate(JSON.parse(stdout)) || validate.errors).toBe(true);
  });

  it('reads standard input for -', async () => {
    const options = { cwd: folder, input: SMALL_PLAN };
    const piped = await laywright(['plan', '-', '--json', '--write', 'nothing'], options);
    const named = await ran('plan', 'pantry.yaml', '--json', '--write', 'nothing');
    expect([piped.exitCode, named.exitCode]).toEqual([0, 0]);
    expect(piped.stdout).toBe(named.stdout);
    expect(names()).toEqual(['pantry.yaml']);
    await laywright(['plan', '-', '--write', 'text'], options);
    expect(names('laywright-marker')).toEqual(['summary.txt']);
  });

  it('gives the same bytes again, in place of its own files', async () => {
    await ran('plan', 'pantry.yaml', '--write', 'svg,pdf,json,text');
    const before = names('pantry-marker').map((name) => written('pantry-marker', name));
    const again = await ran('plan', 'pantry.yaml', '--write', 'svg,pdf,json,text');
    expect(again.exitCode).toBe(0);
    expect(names('pantry-marker')).toHaveLength(4);
    expect(names('pantry-marker').map((name) => written('pantry-marker', name))).toEqual(before);
  });

  it('names markers that an earlier plan left in the folder', async () => {
    const words = ['plan', 'pantry.yaml', '--write', 'svg'];
    await ran(...words);
    writeFileSync(join(folder, 'pantry-marker', 'marker-mine.svg'), '<svg><!-- by hand --></svg>');
    writeFileSync(join(folder, 'pantry.yaml'), SMALL_PLAN.replaceAll('kelp check', 'kelp'));
    const { exitCode, stderr } = await ran(...words);
    expect(exitCode).toBe(0);
    expect(stderr).toBe('Not of this plan, from an earlier one: marker-kelp-check.svg\n');
  });

  it('takes the paper from its option', async () => {
    // US Letter is 8 1/2 x 11 in, A4 is 210 x 297 mm (ANSI/ASME Y14.1, ISO 216), in points of 1/72 in.
    await ran('plan', 'pantry.yaml', '--write', 'pdf', '--out', 'letter');
    await ran('plan', 'pantry.yaml', '--write', 'pdf', '--out', 'a4', '--paper', 'a4');
    const box = (name: string) => /\/MediaBox \[([^\]]+)\]/.exec(written(name, 'markers.pdf'))![1]!;
    const [letter, a4] = [box('letter'), box('a4')].map((text) => text.trim().split(' ').map(Number));
    expect(letter!.slice(2).sort()).toEqual([612, 792]);
    expect(a4!.slice(2).map(Math.round).sort()).toEqual([595, 842]);
  });

  it('names the drawings of cloths that sound alike apart', async () => {
    const twice = SMALL_PLAN.replace(
      'pieces:',
      '  Kelp: { width: 40, selvedge: 0, buy: yes }\n  kelp!: { width: 39, selvedge: 0, buy: yes }\npieces:',
    );
    const cloths = ['Kelp', 'kelp!'].map(
      (cloth, index) => `  - { name: rag ${index}, count: 1, size: 3 x 7, cloth: "${cloth}" }\n`,
    );
    writeFileSync(join(folder, 'twice.yaml'), twice + cloths.join(''));
    expect((await ran('plan', 'twice.yaml', '--write', 'svg')).exitCode).toBe(0);
    expect(names('twice-marker')).toEqual(['marker-kelp-2.svg', 'marker-kelp-check.svg', 'marker-kelp.svg']);
  });
});

describe('a plan that cannot be made', () => {
  it.each([
    ['unit: in', 'unit: inches', 2, /^pantry.yaml:3:7 unit: found "inches".+\n$/],
    ['count: 5', 'count: none', 2, /^pantry.yaml:12:\d+ pieces\[1\].count: found "none".+\n$/],
    ['13 x 29', '46 x 47', 3, /46 in.+44 in/],
    ['buy: yes', 'lengths: [30]', 3, /kelp check/],
  ])('%s → %s: exit code %d, one message, nothing written', async (from, to, code, message) => {
    writeFileSync(join(folder, 'pantry.yaml'), SMALL_PLAN.replace(from, to));
    const { exitCode, stdout, stderr } = await ran('plan', 'pantry.yaml');
    expect([exitCode, stdout]).toEqual([code, '']);
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
    expect(names()).toEqual(['pantry.yaml']);
  });

  it('says all its problems at once', async () => {
    const text = SMALL_PLAN.replace('unit: in', 'unit: inches').replace('width: 45', 'wdith: 45');
    writeFileSync(join(folder, 'pantry.yaml'), text);
    const { exitCode, stderr } = await ran('plan', 'pantry.yaml');
    expect(exitCode).toBe(2);
    expect(stderr).toMatch(/pantry.yaml:3:7 unit/);
    expect(stderr).toMatch(/"wdith" is not known here; likely "width"/);
  });

  it('refuses what is no text', async () => {
    writeFileSync(join(folder, 'pantry.yaml'), Buffer.from([0x70, 0xff, 0xfe, 0x00]));
    const { exitCode, stderr } = await ran('plan', 'pantry.yaml');
    expect(exitCode).toBe(2);
    expect(stderr).toMatch(/^pantry.yaml:1:2 .+UTF-8/);
  });
});

describe('files in the way', () => {
  it('leaves a file that it did not write, and everything beside it', async () => {
    mkdirSync(join(folder, 'pantry-marker'));
    writeFileSync(join(folder, 'pantry-marker', 'plan.json'), '{ "mine": true }');
    const { exitCode, stdout, stderr } = await ran('plan', 'pantry.yaml');
    expect([exitCode, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(
      /^pantry-marker.plan\.json: this was not written by Laywright, so it stays as it is\./,
    );
    expect(names('pantry-marker')).toEqual(['plan.json']);
    expect(written('pantry-marker', 'plan.json')).toBe('{ "mine": true }');
  });

  it('says that the output folder is a file', async () => {
    const { exitCode, stdout, stderr } = await ran('plan', 'pantry.yaml', '--out', 'pantry.yaml');
    expect([exitCode, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^pantry.yaml: this is a file, not a folder\. Nothing was written\./);
    expect(written('pantry.yaml')).toBe(SMALL_PLAN);
  });

  // The superuser may write anywhere.
  it.runIf(process.getuid?.() !== 0 && process.platform !== 'win32')(
    'leaves a read-only folder as it is',
    async () => {
      mkdirSync(join(folder, 'kept'), { mode: 0o555 });
      const { exitCode, stdout, stderr } = await ran('plan', 'pantry.yaml', '--out', 'kept');
      expect([exitCode, stdout, names('kept')]).toEqual([2, '', []]);
      expect(stderr).toMatch(/^kept: no permission to write here\. Nothing was written\./);
    },
  );

  // Not even the superuser can make a folder in /proc.
  it.runIf(process.platform === 'linux')('says that the output folder cannot be written', async () => {
    const words = ['plan', 'pantry.yaml', '--out', '/proc/laywright/markers'];
    expect((await ran(...words, '--write', 'nothing')).exitCode).toBe(0);
    const { exitCode, stdout, stderr } = await ran(...words);
    expect([exitCode, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^\/proc\/laywright\/markers: .+ Nothing was written\./);
  });

  // A limit on the size of files ends a write half-way, as a full disk does.
  it.runIf(process.platform === 'linux')(
    'leaves nothing half-written when the disk takes no more',
    async () => {
      await ran('plan', 'pantry.yaml', '--write', 'svg,pdf,json');
      const before = names('pantry-marker').map((name) => written('pantry-marker', name));
      writeFileSync(join(folder, 'pantry.yaml'), SMALL_PLAN.replace('count: 5', 'count: 9'));
      const limited = `ulimit -f 4; exec "${process.execPath}" "${COMMAND}" plan pantry.yaml --write json,svg,pdf`;
      const { exitCode, stdout, stderr } = await run('bash', ['-c', limited], { cwd: folder });
      expect(exitCode).toBe(1);
      expect(stdout).toMatch(/^Pantry\n/); // A search may have cost hours: its result is told all the same.
      expect(stdout).not.toContain('Written');
      expect(stderr).toMatch(
        /^pantry-marker: the file would be larger than allowed here\. Nothing was written\./,
      );
      expect(names('pantry-marker')).toHaveLength(3);
      expect(names('pantry-marker').map((name) => written('pantry-marker', name))).toEqual(before);
    },
  );

  it.runIf(existsSync('/dev/full'))('tells a full disk behind standard output', async () => {
    const piped = `exec "${process.execPath}" "${COMMAND}" makes > /dev/full`;
    const { exitCode, stderr } = await run('bash', ['-c', piped], { cwd: folder });
    expect(exitCode).toBe(1);
    expect(stderr).toBe('laywright: standard output cannot be written (ENOSPC).\n');
  });

  it.runIf(process.platform !== 'win32')('takes a reader that goes away for no fault', async () => {
    const piped = `"${process.execPath}" "${COMMAND}" schema plan-file | head -c 1`;
    const { exitCode, stdout, stderr } = await run('bash', ['-o', 'pipefail', '-c', piped], { cwd: folder });
    expect([exitCode, stdout, stderr]).toEqual([0, '{', '']);
  });
});
