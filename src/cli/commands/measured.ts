import type { Plan } from '../../model/plan.ts';
import { editPlan } from '../../model/plan-edit.ts';
import { readSource } from '../../model/reading/source.ts';
import { type Written, writtenTree } from '../../model/reading/written-tree.ts';
import { valueAt } from '../../model/reading/zod-issues.ts';
import { writeJson } from '../../rendering/json-text.ts';
import { measuredLines } from '../../rendering/measured-words.ts';
import { wrapWords } from '../../rendering/text-columns.ts';
import { likelySpelling } from '../../units/spelling.ts';
import { cupboardForPlan } from '../cupboard/read-cupboard.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { MEASURE_OPTIONS } from '../mat/records.ts';
import { replaceText } from '../mat/replace-text.ts';
import type { OptionValues } from '../option-records.ts';
import { planOf, readOutcome, refusalOf, refuseCupboard, unitOf } from '../read-plan-text.ts';
import { readText, STANDARD_INPUT, type TextRead } from '../read-text.ts';
import { columnsOf, show, type Terminal } from '../terminal.ts';

/** Writes what was measured into the plan file, and says what the cloth really shrank. Every other line stays as it is. */
export async function runMeasured(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const file = operands[0]!;
  if (file === STANDARD_INPUT)
    throw new CommandProblem(
      EXIT.badInput,
      'measured: it writes into the plan file, so name the file instead of -.',
    );
  const read = await readText(file, terminal);
  refuseCupboard(read);
  const plan = planOf(read, terminal, cupboardForPlan(read, undefined));
  const cloth = clothOf(plan, options.cloth);
  const measure = measureOf(options);
  const value = besideOthers(measure, standing(read, cloth), { cloth, options });
  const text = editPlan(read.text, [{ kind: 'set', at: ['cloths', cloth], key: 'measured', value }]);
  const next = measuredPlan(text, read);
  replaceText(read, text);
  const lines = measuredLines(next.cloths.find(({ name }) => name === cloth)!, next);
  if (options.json === true) show(terminal, writeJson({ file, cloth, measured: lines }));
  else {
    const told = [
      ...lines.map((line) => `${cloth}: ${line}.`),
      `Written into ${file}. Whether it still fits: \`laywright refit ${file}\``,
    ];
    show(terminal, told.flatMap((line) => wrapWords(line, columnsOf(terminal))).join('\n'));
  }
  return EXIT.done;
}

function clothOf(plan: Plan, wanted: OptionValues[string]): string {
  const names = plan.cloths.map(({ name }) => name);
  const listed = names.map((name) => `"${name}"`).join(' or ');
  if (typeof wanted !== 'string') {
    if (names.length === 1) return names[0]!;
    throw new CommandProblem(EXIT.badInput, `--cloth: say which cloth was measured; ${listed} would work`);
  }
  if (names.includes(wanted)) return wanted;
  const likely = likelySpelling(wanted, names);
  const hint = likely === undefined ? listed : `"${likely}"`;
  throw new CommandProblem(EXIT.badInput, `--cloth: the plan has no cloth "${wanted}"; ${hint} would work`);
}

/** What was typed, under its keys in the plan file. */
function measureOf(options: OptionValues): { readonly [key: string]: Written } {
  const missing = ['width', 'length'].filter((name) => typeof options[name] !== 'string');
  if (missing.length > 0) {
    const wanted = missing.map((name) => `--${name}`).join(' and ');
    throw new CommandProblem(
      EXIT.badInput,
      `${wanted}: measure the washed cloth, and say ${missing.length === 1 ? 'it' : 'both'}.`,
    );
  }
  if ((options.left === undefined) !== (options.right === undefined))
    throw new CommandProblem(EXIT.badInput, '--left and --right: say both, or --selvedge for the two alike');
  if (options.left !== undefined && options.selvedge !== undefined)
    throw new CommandProblem(
      EXIT.badInput,
      '--selvedge: it is for both sides alike; leave it out beside --left and --right',
    );
  const plain = Object.entries(MEASURE_OPTIONS).flatMap(([option, key]) =>
    typeof options[option] === 'string' ? [[key, options[option] as string] as const] : [],
  );
  const selvedge =
    typeof options.left === 'string'
      ? { left: options.left, right: String(options.right) }
      : (options.selvedge as string | undefined);
  const repeat = Object.fromEntries(
    [
      ['along', options['repeat-along']],
      ['across', options['repeat-across']],
      ['from edge', options['from-edge']],
    ].flatMap(([key, value]) => (typeof value === 'string' ? [[key as string, value]] : [])),
  );
  return {
    ...Object.fromEntries(plain),
    ...(selvedge !== undefined && { selvedge }),
    ...(Object.keys(repeat).length > 0 && { repeat }),
  };
}

/** What the file says was measured of the cloth already. */
function standing(read: TextRead, cloth: string): readonly Written[] {
  const { source } = readSource(read.text, read.file);
  const found = source && valueAt(writtenTree(source).root, ['cloths', cloth, 'measured']);
  if (found === undefined) return [];
  return Array.isArray(found) ? found : [found];
}

function besideOthers(
  measure: { readonly [key: string]: Written },
  stands: readonly Written[],
  { cloth, options }: { readonly cloth: string; readonly options: OptionValues },
): Written {
  if (stands.length === 0 || options.again === true) return measure;
  if (options.add === true) return [...stands, measure];
  throw new CommandProblem(
    EXIT.badInput,
    `"${cloth}" has been measured already; --add for a further length of it, or --again to measure anew, would work`,
  );
}

/** The plan as the new text has it. Throws with every problem, worded at its key, and nothing is written. */
function measuredPlan(text: string, read: TextRead): Plan {
  const again = { text, file: read.file };
  const outcome = readOutcome(again, cupboardForPlan(again, undefined));
  if (outcome.ok) return outcome.value;
  const placeless = outcome.issues.map(({ place: _, ...issue }) => issue);
  throw refusalOf(placeless as typeof outcome.issues, EXIT.badInput, unitOf(read));
}
