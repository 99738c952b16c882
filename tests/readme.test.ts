import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makes } from '../src/makes/catalogue.ts';
import { readPlan } from '../src/model/plan-file.ts';
import { COMMAND, run } from './support/run-command.ts';

const HOUSE = fileURLToPath(new URL('..', import.meta.url));
const LAYOUTS = join(HOUSE, 'layouts');
const documents = ['README.md', 'DEVELOPERS.md'].filter((name) => existsSync(join(HOUSE, name)));
const scripts: Readonly<Record<string, string>> = JSON.parse(
  readFileSync(join(HOUSE, 'package.json'), 'utf8'),
).scripts;

const textOf = (name: string) => readFileSync(join(HOUSE, name), 'utf8');

/** Fenced blocks of one language, without their fences. */
function blocks(name: string, language: string): readonly string[] {
  const fenced = new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, 'gm');
  return [...textOf(name).matchAll(fenced)].map((match) => match[1]!);
}

/** Shell lines of the documents, one command each, in order. */
const commands = documents.flatMap((name) =>
  blocks(name, 'sh').flatMap((block) =>
    block
      .split('\n')
      .filter((line) => line.trim() !== '' && !line.startsWith('#'))
      .map((line) => [name, line] as const),
  ),
);

/** The heading's anchor, as hosts of Markdown make it: small letters, hyphens for spaces, no other signs. */
const anchorOf = (heading: string) =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s-]/gu, '')
    .replaceAll(' ', '-');

describe.each(documents)('%s', (name) => {
  const links = [...textOf(name).matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1]!);

  it('links only to what is there', () => {
    if (name === 'README.md') expect(links.length).toBeGreaterThan(10);
    for (const link of links.filter((own) => !/^https?:/.test(own))) {
      const [path = '', anchor] = link.split('#');
      const target = path === '' ? join(HOUSE, name) : join(HOUSE, dirname(name), path);
      expect(existsSync(target), link).toBe(true);
      if (anchor === undefined) continue;
      const headings = [...readFileSync(target, 'utf8').matchAll(/^#+ (.+)$/gm)].map((match) =>
        anchorOf(match[1]!),
      );
      expect(headings, link).toContain(anchor);
    }
  });

  it('names only npm scripts and repository files that are there', () => {
    for (const [, script] of textOf(name).matchAll(/npm run ([\w:-]+)/g))
      expect(scripts).toHaveProperty([script!]);
    for (const [, path] of textOf(name).matchAll(/`((?:src|tests|layouts|fixtures)\/[\w./-]+)`/g)) {
      expect(existsSync(join(HOUSE, path!)), path).toBe(true);
    }
  });

  it('shows only plans that can be read', () => {
    for (const text of blocks(name, 'yaml')) {
      const outcome = readPlan(text, { file: name, makes: makes.map((make) => make.spec) });
      expect(outcome.ok || outcome.issues).toBe(true);
    }
  });
});

describe('README.md', () => {
  it('opens with the job, then the one command and the marker that it draws', () => {
    const [, job, command, , picture] = textOf('README.md').split(/\n\n/);
    expect(job).toMatch(/^Laywright plans how to cut straight-sided pieces out of woven cloth\./);
    expect(command).toBe('```sh\nnpm ci && npm run demo\n```');
    expect(picture).toMatch(/^!\[.+\]\(layouts\/breakfast-room\/marker-[\w-]+\.svg\)$/);
  });

  it('says where the marker of its first command lies', () => {
    const [, folder] = /--out (\S+)$/.exec(scripts.demo!)!;
    expect(textOf('README.md')).toContain(`\`${folder}/markers.pdf\``);
  });

  it('shows what the terminal says, as it is kept beside the plans', () => {
    const summaries = readdirSync(LAYOUTS, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => readFileSync(join(LAYOUTS, entry.name, 'summary.txt'), 'utf8'));
    const shown = blocks('README.md', 'text');
    expect(shown.length).toBeGreaterThan(0);
    for (const block of shown)
      expect(
        summaries.some((summary) => summary.includes(block)),
        block,
      ).toBe(true);
  });

  it('lists no key that a plan file does not have, and every one that it must have', () => {
    const schema = JSON.parse(readFileSync(join(LAYOUTS, 'plan-file.schema.json'), 'utf8'));
    const cloth = schema.properties.cloths.additionalProperties;
    const known = [...Object.keys(schema.properties), ...Object.keys(cloth.properties)];
    const [, chapter] = /## The plan file\n([\s\S]+?)\n## /.exec(textOf('README.md'))!;
    const rows = [...chapter!.matchAll(/^\| (`[^|]+`) \|/gm)].map((match) => match[1]!);
    const listed = rows.flatMap((row) => [...row.matchAll(/`([^`]+)`/g)].map((match) => match[1]!));
    expect(listed.length).toBeGreaterThan(20);
    expect(listed.filter((key) => !known.includes(key))).toEqual([]);
    expect(listed).toEqual(expect.arrayContaining([...schema.required, ...cloth.required]));
  });

  it('lists every worked plan', () => {
    const folders = readdirSync(LAYOUTS, { withFileTypes: true }).filter((entry) => entry.isDirectory());
    for (const { name } of folders) expect(textOf('README.md')).toContain(`](layouts/${name}/plan.yaml) |`);
  });

  it('has its test command run where the project is tested', () => {
    expect(blocks('README.md', 'sh')).toContain('npm ci && npm test\n');
    expect(textOf('.ci/run')).toMatch(/^npm ci && npm test\b/m);
  });
});

describe('commands in the documents', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'laywright-readme-'));
    copyFileSync(join(LAYOUTS, 'breakfast-room', 'plan.yaml'), join(folder, 'breakfast-room.yaml'));
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
  });

  it('are of kinds that this test knows', () => {
    const known = /^(laywright |npm (ci|test|link|run [\w:-]+)\b)/;
    expect(
      commands.filter(([, command]) => !command.split(' && ').every((part) => known.test(part))),
    ).toEqual([]);
  });

  it.each(commands.filter(([, command]) => command.startsWith('laywright ')))(
    '%s: %s',
    async (_name, command) => {
      const shellFunction = `laywright() { "${process.execPath}" "${COMMAND}" "$@"; }`;
      const { exitCode, stderr } = await run('bash', ['-c', `${shellFunction}\n${command}`], { cwd: folder });
      expect(exitCode, stderr).toBe(0);
    },
  );
});
