import type { MakeSpec } from './measure.ts';
import { type JsonSchema, planSchemaDocument } from './plan-schema.ts';

/** One key of the plan file, as a person looks it up. */
export interface ReferenceRow {
  /** As it is written, without what stands above it. */
  readonly key: string;
  /** The keys above it; `*` for a name of one's own, `[]` for an entry of a list. */
  readonly under: readonly string[];
  readonly required: boolean;
  /** Values that are all there are, or one example. */
  readonly written: string;
  readonly meaning: string;
}

/** Every key of plan files in the order of the definition; keys of a make stand under its kind. */
export function planReference(makes: readonly MakeSpec[]): readonly ReferenceRow[] {
  return rowsOf(planSchemaDocument(makes), []);
}

/** The reference as Markdown: a heading and a table for each level. */
export function planReferenceText(makes: readonly MakeSpec[]): string {
  const tables = new Map<string, ReferenceRow[]>();
  for (const row of planReference(makes)) {
    const title = titleOf(row.under, makes);
    tables.set(title, [...(tables.get(title) ?? []), row]);
  }
  return [...tables].map(([title, rows]) => `### ${title}\n\n${table(rows)}\n`).join('\n');
}

function rowsOf(schema: JsonSchema, under: readonly string[]): readonly ReferenceRow[] {
  const alternatives = (schema.anyOf ?? schema.oneOf) as readonly JsonSchema[] | undefined;
  if (alternatives !== undefined) return alternatives.flatMap((one) => rowsOf(one, underKind(one, under)));
  if (schema.items !== undefined) return rowsOf(schema.items as JsonSchema, [...under, '[]']);
  if (typeof schema.additionalProperties === 'object') {
    return rowsOf(schema.additionalProperties as JsonSchema, [...under, '*']);
  }
  const properties = Object.entries((schema.properties ?? {}) as Record<string, JsonSchema>);
  const required = (schema.required ?? []) as readonly string[];
  return properties.flatMap(([key, value]) => [
    {
      key,
      under,
      required: required.includes(key),
      written: writtenOf(value),
      meaning: String(value.description ?? ''),
    },
    ...rowsOf(value, [...under, key]),
  ]);
}

/** The orders of each make have keys of their own. */
function underKind(schema: JsonSchema, under: readonly string[]): readonly string[] {
  const kind = (schema.properties as Record<string, JsonSchema> | undefined)?.kind?.const;
  return typeof kind === 'string' ? [...under, kind] : under;
}

function writtenOf(schema: JsonSchema): string {
  const alternatives = (schema.anyOf ?? schema.oneOf) as readonly JsonSchema[] | undefined;
  if (alternatives !== undefined && schema.examples === undefined) {
    return [...new Set(alternatives.map(writtenOf).filter((text) => text !== ''))].join(', or ');
  }
  if (schema.const !== undefined) return `\`${schema.const}\``;
  if (Array.isArray(schema.enum)) return schema.enum.map((value) => `\`${value}\``).join(', ');
  if (Array.isArray(schema.examples)) return schema.examples.map((value) => `\`${value}\``).join(', ');
  if (schema.items !== undefined) return 'a list';
  return schema.type === 'object' ? 'the keys below' : '';
}

function titleOf(under: readonly string[], makes: readonly MakeSpec[]): string {
  if (under.length === 0) return 'The plan';
  const make = makes.find(({ kind }) => under.includes(kind));
  const path = under.filter((key) => key !== '[]' && key !== '*' && key !== make?.kind).join(' › ');
  return make === undefined ? `Under \`${path}\`` : `Under \`${path}\`, ${make.title} (\`${make.kind}\`)`;
}

function table(rows: readonly ReferenceRow[]): string {
  const cells = rows.map(
    ({ key, required, written, meaning }) =>
      `| \`${key}\` | ${required ? 'yes' : ''} | ${cell(written)} | ${cell(meaning)} |`,
  );
  return ['| key | needed | such as | meaning |', '| --- | --- | --- | --- |', ...cells].join('\n');
}

function cell(text: string): string {
  return text.replace(/\|/g, '\\|');
}
