import { makes } from '../../makes/catalogue.ts';
import type { MakeSpec, MeasureSpec } from '../../model/measure.ts';
import { rowsInColumns } from '../../rendering/text-columns.ts';
import { likelySpelling } from '../../units/spelling.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import type { OptionValues } from '../option-records.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';

/** Lists the makes, or one of them with its measures and parts. */
export async function runMakes(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const specs = makes.map((make) => make.spec);
  const kind = operands[0];
  const chosen = kind === undefined ? specs : [specOf(specs, kind)];
  if (options.json === true) show(terminal, JSON.stringify(chosen, undefined, 2));
  else if (kind === undefined) show(terminal, listOfMakes(chosen, columnsOf(terminal)));
  else show(terminal, makeInFull(chosen[0]!, columnsOf(terminal)));
  return EXIT.done;
}

/** Throws a CommandProblem with the likely spelling when there is no such make. */
export function specOf(specs: readonly MakeSpec[], kind: string): MakeSpec {
  const spec = specs.find((one) => one.kind === kind);
  if (spec !== undefined) return spec;
  const kinds = specs.map((one) => one.kind);
  const likely = likelySpelling(kind, kinds);
  const hint =
    likely === undefined ? `One of these would work: ${kinds.join(', ')}` : `Did you mean ${likely}?`;
  throw new CommandProblem(EXIT.badInput, `"${kind}": there is no such make. ${hint}`);
}

function listOfMakes(specs: readonly MakeSpec[], columns: number): string {
  const rows = specs.map((spec): readonly [string, string] => [spec.kind, spec.summary]);
  const tail = ['', '`laywright makes KIND` lists the measures and parts of one.'];
  return [...rowsInColumns(rows, columns), ...tail].join('\n');
}

function makeInFull(spec: MakeSpec, columns: number): string {
  const measures = Object.entries(spec.measures).map(([name, measure]): readonly [string, string] => [
    name,
    `${measure.meaning} (${measureRemarks(measure)})`,
  ]);
  const parts = Object.entries(spec.parts).map(([name, part]): readonly [string, string] => [
    name,
    part.optional === true ? `${part.meaning} (left out unless a cloth is named)` : part.meaning,
  ]);
  return [
    `${spec.title} (kind: ${spec.kind})`,
    ...rowsInColumns([['', spec.summary]], columns),
    '',
    'Measures',
    ...rowsInColumns(measures, columns),
    '',
    'Parts, each cut from the cloth that the plan names',
    ...rowsInColumns(parts, columns),
  ].join('\n');
}

/** What may be written for a measure, and what stands where nothing is. */
export function measureRemarks(measure: MeasureSpec): string {
  const usual = measure.default;
  if (usual !== undefined) {
    const both = usual.inches === usual.metric ? usual.inches : `${usual.inches} in, or ${usual.metric} cm`;
    return `${wanted(measure)}; usually ${both}`;
  }
  return measure.optional === true ? `${wanted(measure)}; may be left out` : `${wanted(measure)}; needed`;
}

function wanted(measure: MeasureSpec): string {
  switch (measure.kind) {
    case 'length':
      return 'a length';
    case 'size':
      return 'a size, width x height';
    case 'hem':
      return 'a hem, visible + under';
    case 'count':
      return `a whole number from ${measure.least}`;
    case 'factor':
      return `a number from ${measure.least} to ${measure.most}`;
    case 'choice':
      return measure.choices.join(' or ');
    case 'yes-no':
      return 'yes or no';
  }
}
