import { makes } from '../../makes/catalogue.ts';
import { cupboardSchemaDocument } from '../../model/cupboard-schema.ts';
import { planSchemaDocument } from '../../model/plan-schema.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { planJsonSchemaDocument } from '../../rendering/plan-json-schema.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { show, type Terminal } from '../terminal.ts';

const SCHEMAS: Readonly<Record<string, () => object>> = {
  'plan-file': () => planSchemaDocument(makes.map((make) => make.spec)),
  'cut-plan': planJsonSchemaDocument,
  cupboard: cupboardSchemaDocument,
};

/** Prints the JSON Schema of plan files, of the plan that comes out, or of the cupboard's file. */
export async function runSchema(
  operands: readonly string[],
  _options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const which = operands[0] ?? 'plan-file';
  if (!Object.hasOwn(SCHEMAS, which)) {
    const known = Object.keys(SCHEMAS)
      .join(', ')
      .replace(/, ([^,]*)$/, ' or $1');
    throw new CommandProblem(EXIT.badInput, `"${which}": there is no such schema; ${known} would work.`);
  }
  show(terminal, writeJson(SCHEMAS[which]!()));
  return EXIT.done;
}
