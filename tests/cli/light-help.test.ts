import { readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const SOURCE = fileURLToPath(new URL('../../src', import.meta.url));

/** Everything that a module loads before its first line runs: its imports but for types, and theirs. */
function loadedBy(entry: string): {
  readonly files: readonly string[];
  readonly packages: readonly string[];
} {
  const files = new Set<string>([entry]);
  const packages = new Set<string>();
  for (const file of files) {
    const statements = readFileSync(file, 'utf8').matchAll(
      /^(?:import|export)\s(?!type\s)[^;]*?from\s'([^']+)';/gm,
    );
    for (const [, from] of statements) {
      if (from!.startsWith('.')) files.add(join(dirname(file), from!));
      else if (!from!.startsWith('node:')) packages.add(from!);
    }
  }
  return { files: [...files].map((file) => relative(SOURCE, file)), packages: [...packages] };
}

it('help comes at once: nothing is loaded for it but the command line itself', () => {
  const { files, packages } = loadedBy(join(SOURCE, 'cli', 'main.ts'));
  expect(files).toContain(join('cli', 'help.ts'));
  expect(packages).toEqual(['commander']);
  expect(files.filter((file) => /^(planning|packing|makes|cloth|check|geometry)\b/.test(file))).toEqual([]);
});

it('and the look-up does see what planning loads', () => {
  const { files, packages } = loadedBy(join(SOURCE, 'cli', 'commands', 'plan.ts'));
  expect(files).toContain(join('rendering', 'plan-json.ts'));
  expect(packages).toEqual(expect.arrayContaining(['zod', 'yaml']));
});
