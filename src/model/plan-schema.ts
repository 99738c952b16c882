import { z } from 'zod';
import type { MakeSpec } from './measure.ts';
import type { WrittenAs } from './reading/fields.ts';
import { planDefinition } from './reading/plan-definition.ts';

/** A JSON Schema, as plain data. */
export interface JsonSchema {
  readonly [keyword: string]: unknown;
}

/**
 * The JSON Schema (draft 2020-12) of plan files, from the very definition that reads them, for completion and hints in an editor.
 * It knows keys, choices and what must be there; how lengths are written, and what fits together, only `readPlan` can tell.
 */
export function planSchemaDocument(makes: readonly MakeSpec[]): JsonSchema {
  const definition = planDefinition(makes, { unit: 'in', currency: '' });
  const schema = z.toJSONSchema(definition, {
    io: 'input',
    override: ({ jsonSchema }) => describeValue(jsonSchema as Record<string, unknown>),
  });
  return { ...schema, title: 'Laywright plan file' } as JsonSchema;
}

/** An editor sees `54` as a number and `yes` as a word or a truth; the reader sees the text of both. */
export function describeValue(schema: Record<string, unknown>): void {
  const { writtenAs, suchAs } = schema as { readonly writtenAs?: WrittenAs; readonly suchAs?: string };
  delete schema.writtenAs;
  delete schema.suchAs;
  if (writtenAs === undefined) return;
  if (writtenAs === 'text') {
    schema.type = ['string', 'number'];
    schema.examples = [suchAs];
  } else if (writtenAs === 'yes-no') {
    delete schema.type;
    schema.enum = ['yes', 'no'];
  } else {
    delete schema.type;
    // A digit alone is a number to the editor.
    schema.enum = writtenAs.choices.map((choice) => (/^\d+$/.test(choice) ? Number(choice) : choice));
  }
}
