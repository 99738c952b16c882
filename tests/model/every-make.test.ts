import { describe, expect, test } from 'vitest';
import { makes } from '../../src/makes/catalogue.ts';
import type { MakeSpec, MeasureSpec } from '../../src/model/measure.ts';
import { wordIssue } from '../../src/model/messages.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { planReference } from '../../src/model/plan-reference.ts';

const specs = makes.map((make) => make.spec);

/** Something that a person might write for a measure that has no default. */
function written(spec: MeasureSpec): string {
  switch (spec.kind) {
    case 'length':
      return '31';
    case 'size':
      return '43 x 37';
    case 'hem':
      return '2 + 1';
    case 'count':
      return String(spec.least + 1);
    case 'factor':
      return spec.least;
    case 'choice':
      return spec.choices[0];
    case 'yes-no':
      return 'no';
  }
}

function shortest(make: MakeSpec, unit: 'in' | 'cm'): string {
  const must = Object.entries(make.measures).filter(
    ([, spec]) => spec.default === undefined && spec.optional !== true,
  );
  const measures = must.map(([name, spec]) => `    ${name}: ${written(spec)}\n`).join('');
  return `plan: p\nunit: ${unit}\ncloths:\n  oat linen: { width: 118, selvedge: 1, buy: yes }\nmake:\n  - name: first\n    kind: ${make.kind}\n    count: 3\n    cloth: oat linen\n${measures}`;
}

describe.each(specs)('$kind', (make) => {
  test.each(['in', 'cm'] as const)(
    'the shortest order reads on a plan in %s, with every default of its own',
    (unit) => {
      const outcome = readPlan(shortest(make, unit), { file: 'p', makes: specs });
      expect(outcome.issues.map((issue) => wordIssue(issue, unit))).toEqual([]);
      if (!outcome.ok) throw new Error('not read');
      const [order] = outcome.value.makes;
      for (const [name, spec] of Object.entries(make.measures)) {
        expect([name, Object.hasOwn(order.measures, name)]).toEqual([name, spec.optional !== true]);
      }
      const parts = Object.entries(make.parts).filter(([, part]) => part.optional !== true);
      expect(Object.keys(order.cloths)).toEqual(parts.map(([part]) => part));
    },
  );

  test('each of its measures and parts is in the reference, with its meaning', () => {
    const rows = planReference(specs).filter((row) => row.under.includes(make.kind));
    const keys = rows.map((row) => row.key);
    expect(keys).toEqual(expect.arrayContaining([...Object.keys(make.measures), ...Object.keys(make.parts)]));
    for (const row of rows) expect(row.meaning).toMatch(/\S{3}/);
  });
});
