import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { type SourceFile, violations } from './support/architecture.ts';

const source = fileURLToPath(new URL('../src/', import.meta.url));

function sourceFiles(): readonly SourceFile[] {
  return readdirSync(source, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return { path: relative(source, path).replaceAll('\\', '/'), text: readFileSync(path, 'utf8') };
    });
}

test('the whole of src/ keeps the direction of imports and stays free of the machine below cli/', () => {
  const files = sourceFiles();
  expect(files.length).toBeGreaterThan(20);
  expect(files.flatMap(violations)).toEqual([]);
});

describe('the rules can fail', () => {
  test.each([
    [
      'a lower room imports an upper one',
      'units/bad.ts',
      `import { readPlan } from '../model/plan-file.ts';`,
    ],
    ['a neighbour behind the same bar', 'makes/bad.ts', `import { usable } from '../cloth/usable.ts';`],
    ['geometry and check are neighbours', 'check/bad.ts', `import { walk } from '../geometry/walk.ts';`],
    [
      'check proves with nothing of the packer',
      'check/bad.ts',
      `import type { PackResult } from '../packing/result.ts';`,
    ],
    ['packing knows no inches', 'packing/deep/bad.ts', `import { ticks } from '../../units/ticks.ts';`],
    ['packing takes one type of model', 'packing/bad.ts', `import type { Plan } from '../model/plan.ts';`],
    ['packing takes types only of model', 'packing/bad.ts', `import { x } from '../model/cut-tree.ts';`],
    ['rendering needs no packing', 'rendering/bad.ts', `import { pack } from '../packing/pack.ts';`],
    ['cli and page are neighbours', 'page/bad.ts', `import { main } from '../cli/main.ts';`],
    ['exports count as imports', 'model/bad.ts', `export * from '../planning/plan.ts';`],
    ['imports at run time too', 'model/bad.ts', `const late = await import('../makes/catalogue.ts');`],
    ['over several lines', 'model/bad.ts', `import {\n  one,\n  two,\n} from '../rendering/svg.ts';`],
    ['an unknown room', 'attic/bad.ts', `import { ticks } from '../units/ticks.ts';`],
    ['an import without its ending', 'model/bad.ts', `import { ticks } from '../units/ticks';`],
    ['Node by its prefix', 'planning/bad.ts', `import { join } from 'node:path';`],
    ['Node by its bare name', 'planning/bad.ts', `import { readFileSync } from 'fs';`],
    ['the process', 'packing/bad.ts', `const seed = process.pid;`],
    ['the clock', 'planning/bad.ts', `const start = Date.now();`],
    ['the clock as an object', 'planning/bad.ts', `const start = new Date();`],
    ['the other clock', 'planning/bad.ts', `const start = performance.now();`],
    ['chance', 'packing/bad.ts', `const turn = Math.random() < 0.5;`],
    ['stray prints', 'makes/bad.ts', `console.log('here');`],
    ['require', 'makes/bad.ts', `const fs = require('fs');`],
    ['timers', 'planning/bad.ts', `setTimeout(stop, 10);`],
    ['the page in the engine', 'rendering/bad.ts', `document.createElement('svg');`],
    ['pdfkit elsewhere', 'rendering/tables.ts', `import PDFDocument from 'pdfkit';`],
    ['svg.js elsewhere', 'rendering/pdf.ts', `import { SVG } from '@svgdotjs/svg.js';`],
    ['commander elsewhere', 'planning/bad.ts', `import { Command } from 'commander';`],
    ['flatten-js elsewhere', 'geometry/walk.ts', `import Flatten from '@flatten-js/core';`],
    ['yaml elsewhere', 'cli/bad.ts', `import { parse } from 'yaml';`],
    ['zod elsewhere', 'makes/bad.ts', `import { z } from 'zod';`],
    ['a library that has no place', 'rendering/bad.ts', `import potpack from 'potpack';`],
  ])('%s', (_, path, text) => {
    expect(violations({ path, text })).toHaveLength(1);
  });

  test.each([
    [
      'downwards',
      'planning/good.ts',
      `import { pack } from '../packing/pack.ts';\nimport { ticks } from '../units/ticks.ts';`,
    ],
    ['inside a room', 'packing/search/good.ts', `import { bounds } from '../bounds.ts';`],
    ['model may use units', 'model/good.ts', `import { ticks } from '../units/ticks.ts';`],
    [
      'the type of the tree in packing',
      'packing/good.ts',
      `import type { CutTree } from '../model/cut-tree.ts';`,
    ],
    [
      'Node in cli',
      'cli/good.ts',
      `import { join } from 'node:path';\nconsole.log(process.argv, Date.now());`,
    ],
    ['pdfkit at home', 'rendering/pdf/page.ts', `import PDFDocument from 'pdfkit';`],
    ['svg.js at home', 'rendering/svg.ts', `import { SVG } from '@svgdotjs/svg.js';`],
    ['flatten-js at home', 'geometry/outline.ts', `import Flatten from '@flatten-js/core';`],
    [
      'words in comments and text',
      'model/good.ts',
      `// process, Date.now() and require('x')\nconst text = 'console.log(1) in the process';\n/* import x from '../cli/main.ts' */`,
    ],
  ])('%s is allowed', (_, path, text) => {
    expect(violations({ path, text })).toEqual([]);
  });
});
