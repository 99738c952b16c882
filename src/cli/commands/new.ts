import { makes } from '../../makes/catalogue.ts';
import type { MakeSpec } from '../../model/measure.ts';
import type { PlanUnit } from '../../model/plan.ts';
import { MOST_COUNT } from '../../model/reading/scalars.ts';
import { parseHem, parseLength, parseSize } from '../../units/parse.ts';
import { type Answer, type Asker, askOn } from '../ask.ts';
import { CommandProblem, EXIT, type ExitCode } from '../exit-codes.ts';
import { fileWord } from '../file-names.ts';
import { type NewPlan, newPlanText } from '../new-plan-text.ts';
import type { OptionValues } from '../option-records.ts';
import { readOutcome, refusalOf } from '../read-plan-text.ts';
import { say, show, type Terminal } from '../terminal.ts';
import { writeNew } from '../write-set.ts';
import { specOf } from './makes.ts';

/**
 * Starts a plan file. On a terminal it asks for what the options leave open; elsewhere, or with --defaults, the usual
 * values stand. The file is read back as a plan before it is written, and never takes the place of another.
 */
export async function runNew(
  operands: readonly string[],
  options: OptionValues,
  terminal: Terminal,
): Promise<ExitCode> {
  const asks = terminal.input.isTTY === true && options.defaults !== true;
  const asker = asks ? askOn(terminal) : undefined;
  try {
    const plan = await gather(options, asker, terminal);
    const file = operands[0] ?? `${fileWord(plan.name) || 'plan'}.yaml`;
    const text = newPlanText(plan, file);
    const outcome = readOutcome({ text, file });
    if (!outcome.ok) throw refusalOf(outcome.issues, EXIT.badInput, plan.unit);
    writeNew(file, text);
    show(terminal, `Written: ${file}`);
    say(terminal, `Look it over, then plan it: laywright plan ${file}`);
    return EXIT.done;
  } finally {
    asker?.close();
  }
}

const USUAL = {
  in: { size: '17 x 17', width: '54', length: '24', hem: '1 + 1/2' },
  cm: { size: '43 x 43', width: '140', length: '60', hem: '2.5 + 1' },
} as const;

async function gather(options: OptionValues, asker: Asker | undefined, terminal: Terminal): Promise<NewPlan> {
  const open = gatherer(options, asker);
  const specs = makes.map((make) => make.spec);
  const name = await open('name', 'What is the plan called?', 'Our plan', anyText);
  const unit = await open('unit', 'Inches or centimetres: in or cm?', 'in', readUnit);
  if (asker !== undefined && options.make === undefined) {
    say(terminal, specs.map((spec) => `  ${spec.kind}: ${spec.summary}`).join('\n'));
  }
  const make = await open('make', 'What will you sew?', specs[0]!.kind, (typed) => readMake(specs, typed));
  const count = await open('count', 'How many?', '4', readCount);
  const measures = await gatherMeasures(make, unit, options, asker);
  const cloth = await open('cloth', 'What is the cloth called?', 'main cloth', anyText);
  const width = await open('width', 'How wide is it, selvedge to selvedge?', USUAL[unit].width, (typed) =>
    kept(typed, parseLength(typed, { unit, round: 'down' }).ok, `a length such as ${USUAL[unit].width}`),
  );
  return { name, unit, make, count, measures, cloth, width };
}

type Open = <T>(name: string, text: string, usual: string, read: (typed: string) => Answer<T>) => Promise<T>;

/** Takes what an option says, else asks, else lets the usual value stand. */
function gatherer(options: OptionValues, asker: Asker | undefined): Open {
  return async (name, text, usual, read) => {
    const typed = options[name];
    if (typed === undefined && asker !== undefined) return asker.ask({ text, usual, read });
    const answer = read(String(typed ?? usual));
    if (answer.ok) return answer.value;
    throw new CommandProblem(EXIT.badInput, `--${name}: ${answer.message}`);
  };
}

/** `size` fills the make's own size, or its width and length; other measures that it cannot do without are asked for. */
async function gatherMeasures(
  make: MakeSpec,
  unit: PlanUnit,
  options: OptionValues,
  asker: Asker | undefined,
): Promise<Readonly<Record<string, string>>> {
  const open = gatherer(options, asker);
  const measures: Record<string, string> = {};
  const reading = { unit, round: 'up' } as const;
  const readSize = (typed: string) =>
    kept(typed, parseSize(typed, reading).ok, `a size such as ${USUAL[unit].size}`);
  const bySides = make.measures.size === undefined && 'width' in make.measures && 'length' in make.measures;
  if (make.measures.size?.kind === 'size') {
    measures.size = await open('size', 'Finished size, width x height?', USUAL[unit].size, readSize);
  } else if (bySides) {
    const size = await open('size', 'Finished size, width x length?', USUAL[unit].size, readSize);
    [measures.width, measures.length] = sidesOf(size);
  } else if (options.size !== undefined) {
    const names = Object.keys(make.measures).join(', ');
    throw new CommandProblem(EXIT.badInput, `--size: a ${make.kind} has no size; its measures are ${names}.`);
  }
  for (const [name, measure] of Object.entries(make.measures)) {
    const settled = measure.default !== undefined || measure.optional === true || name in measures;
    if (settled) continue;
    const question = gatherer({}, asker);
    const usual = sampleOf(measure.kind, unit);
    measures[name] = await question(name, `${measure.meaning}`, usual, (typed) => {
      const good = measure.kind === 'hem' ? parseHem(typed, reading).ok : parseLength(typed, reading).ok;
      return kept(typed, good || (measure.kind !== 'hem' && measure.kind !== 'length'), `such as ${usual}`);
    });
  }
  return measures;
}

function sampleOf(kind: string, unit: PlanUnit): string {
  if (kind === 'size') return USUAL[unit].size;
  return kind === 'hem' ? USUAL[unit].hem : USUAL[unit].length;
}

/** `12 x 70 in` → `12 in`, `70 in`: a unit said once holds for both. */
function sidesOf(size: string): [string, string] {
  const [width = '', length = ''] = size.split(/[x×]/i).map((side) => side.trim());
  const unit = /[a-z"']+$/i.exec(length)?.[0] ?? '';
  return [
    /[a-z"']$/i.test(width) || unit === '' ? width : `${width} ${unit}`,
    length === '' ? width : length,
  ];
}

function kept(typed: string, understood: boolean, example: string): Answer<string> {
  if (understood) return { ok: true, value: typed };
  return { ok: false, message: `"${typed}" is not understood; ${example} would work` };
}

function anyText(typed: string): Answer<string> {
  return { ok: true, value: typed };
}

function readUnit(typed: string): Answer<PlanUnit> {
  const unit = typed.toLowerCase();
  return unit === 'in' || unit === 'cm'
    ? { ok: true, value: unit }
    : { ok: false, message: `"${typed}" is not understood; in or cm would work` };
}

function readMake(specs: readonly MakeSpec[], typed: string): Answer<MakeSpec> {
  try {
    return { ok: true, value: specOf(specs, typed) };
  } catch (problem) {
    if (problem instanceof CommandProblem) return { ok: false, message: problem.message };
    throw problem;
  }
}

function readCount(typed: string): Answer<number> {
  const count = /^[1-9]\d{0,4}$/.test(typed) ? Number(typed) : Number.NaN;
  return count <= MOST_COUNT
    ? { ok: true, value: count }
    : {
        ok: false,
        message: `"${typed}" is not understood; a whole number from 1 to ${MOST_COUNT} would work`,
      };
}
