import { z } from 'zod';
import { describeValue, type JsonSchema } from './plan-schema.ts';
import { cupboardDefinition } from './reading/cupboard-definition.ts';

/**
 * The JSON Schema (draft 2020-12) of the cupboard's file, from the very definition that reads it, for completion and
 * hints in an editor. How lengths are written, and what fits together, only `readCupboard` can tell.
 */
export function cupboardSchemaDocument(): JsonSchema {
  const schema = z.toJSONSchema(cupboardDefinition({ unit: 'in', currency: '' }), {
    io: 'input',
    override: ({ jsonSchema }) => describeValue(jsonSchema as Record<string, unknown>),
  });
  return { ...schema, title: "Laywright's cupboard" } as JsonSchema;
}
