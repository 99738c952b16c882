import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { readPlan } from '../../src/model/plan-file.ts';
import { planReference, planReferenceText } from '../../src/model/plan-reference.ts';
import { type JsonSchema, planSchemaDocument } from '../../src/model/plan-schema.ts';
import { specs } from './specs.ts';

// Ajv is an independent judge of JSON Schema draft 2020-12; `strict` makes it refuse keywords that the draft does not know.
const schema = planSchemaDocument(specs);
const judge = new Ajv2020({ strict: true, strictTypes: false, allErrors: true });
const accepts = judge.compile(schema);

/** As an editor reads the file: YAML 1.2 with its own numbers. */
const asEditor = (text: string): unknown => parse(text, { logLevel: 'error' });

const PLAN = `
plan: The Tern House, box room
unit: in
stages: 2
tools: { most plies: 2 }
cloths:
  gull stripe:
    width: 54
    selvedge: { left: 1/2, right: 1 }
    crease: keep off 3/4
    buy: { step: 1/8 yd }
    washing: { along: 3 %, across: { before: 20, after: 19 }, washed: after-sewing }
    lengths: [2 yd, 61, { length: 35, count: 2 }]
  lime wash: { width: 44 1/2, selvedge: 0, buy: yes }
make:
  - { name: covers, kind: envelope-cover, count: 7, size: 17 x 19, hem: { visible: 1, under: 1/2 }, cloth: { front: gull stripe, backs: lime wash } }
  - { name: curtain, kind: curtain, count: 2, drop: 41, fullness: 2.25, lined: no, cloth: lime wash }
pieces:
  - { name: tie, count: 8, size: 3 x 14, cloth: lime wash }
`;

test('what the reader takes, the schema takes', () => {
  expect(readPlan(PLAN, { file: 'p', makes: specs }).ok).toBe(true);
  expect([accepts(asEditor(PLAN)), accepts.errors]).toEqual([true, null]);
});

describe('what is wrong in shape, in a key or in a choice shows in the editor as well', () => {
  test.each([
    ['selvedge: 0', 'selvage: 0'],
    ['unit: in', 'unit: inch'],
    ['stages: 2', 'stages: 4'],
    ['most plies: 2', 'most plies: 3'],
    ['crease: keep off 3/4', 'crease: [keep, off]'],
    ['buy: yes', 'buy: perhaps'],
    ['kind: curtain', 'kind: curtains'],
    ['drop: 41, ', ''],
    ['size: 17 x 19', 'size: [17, 19]'],
    ['left: 1/2', 'lefd: 1/2'],
    ['washed: after-sewing', 'washed: later'],
    ['backs: lime wash', 'backz: lime wash'],
    ['lengths: [2 yd', 'lengths: [[2 yd]'],
  ])('%s → %s', (good, bad) => {
    const spoilt = PLAN.replace(good, bad);
    expect(spoilt).not.toBe(PLAN);
    expect(accepts(asEditor(spoilt))).toBe(false);
    expect(readPlan(spoilt, { file: 'p', makes: specs }).ok).toBe(false);
  });
});

test('every bad plan that the schema refuses, the reader refuses as well, and many are refused by both', () => {
  const folder = new URL('../../fixtures/cases/bad-plans/', import.meta.url);
  let refusedByBoth = 0;
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.yaml'))) {
    const text = readFileSync(new URL(name, folder), 'utf8');
    let value: unknown;
    try {
      value = asEditor(text);
    } catch {
      continue;
    }
    if (accepts(value)) continue;
    expect(readPlan(text, { file: name, makes: specs }).ok, name).toBe(false);
    refusedByBoth += 1;
  }
  expect(refusedByBoth).toBeGreaterThan(30);
});

test('every key says what it means and how it is written', () => {
  const rows = planReference(specs);
  for (const row of rows) {
    expect(row.meaning, [...row.under, row.key].join('.')).toMatch(/\S{3}/);
    expect(row.written, [...row.under, row.key].join('.')).not.toBe('');
  }
  expect(rows.find((row) => row.key === 'fullness')).toEqual({
    key: 'fullness',
    under: ['make', '[]', 'curtain'],
    required: false,
    written: '`2 1/4`',
    meaning: 'Cloth to rail. `2 1/4` on an inch plan, `2.25` on a centimetre plan, unless said.',
  });
  expect(rows.filter((row) => row.required && row.under.length === 0).map((row) => row.key)).toEqual([
    'plan',
    'unit',
    'cloths',
  ]);
});

test('the reference as Markdown has a table for each level', () => {
  const text = planReferenceText(specs);
  expect(text).toContain('### The plan\n\n| key | needed | such as | meaning |\n');
  expect(text).toContain('### Under `make`, Curtain (`curtain`)');
  expect(text).toContain('| `drop` | yes | `54` | Finished drop. |');
});

test('the schema says so itself, and leaks nothing of how it was made', () => {
  expect(schema).toMatchObject({
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: 'Laywright plan file',
  });
  expect(JSON.stringify(schema)).not.toMatch(/writtenAs|suchAs/);
  const cloths = (schema.properties as Record<string, JsonSchema>).cloths;
  expect(cloths.description).toBe('Every cloth of the plan, by its name.');
});
