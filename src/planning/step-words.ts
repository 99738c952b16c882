import type { PieceId } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { formatLength } from '../units/format.ts';
import type { Ticks } from '../units/ticks.ts';
import type { CuttingStep } from './steps.ts';

/** One step as a person reads it: what to do, how the cloth lies, and what then is on the table. */
export interface StepWords {
  readonly number: number;
  /** `Crosscut at 18 1/2 in, 3 times`. */
  readonly todo: string;
  /** `folded once to reach, 2 plies`; empty for a single ply. */
  readonly spread: string;
  /** `frees 4 × C, 1 keepable leftover`; empty when nothing is freed. */
  readonly frees: string;
}

/** Words a step, with piece letters as `letters` gives them. */
export function wordStep(
  step: CuttingStep,
  plan: Pick<Plan, 'unit'>,
  letters: ReadonlyMap<PieceId, string>,
): StepWords {
  const length = (ticks: Ticks) => formatLength(ticks, { unit: plan.unit });
  return {
    number: step.number,
    todo: todo(step, length),
    spread: spread(step, length),
    frees: frees(step, letters),
  };
}

function todo(step: CuttingStep, length: (ticks: Ticks) => string): string {
  const verb = step.action === 'crosscut' ? 'Crosscut' : 'Cut lengthwise';
  const where = step.spread.mirrorAt === undefined ? '' : ' from the fold';
  const settings = runs(step).map((run) => timed(run, length));
  const parts = step.parts.length > 1 ? `${step.parts.length} alike parts: ` : '';
  const blade = step.blade === 'scissors' ? ', with scissors' : '';
  return `${parts}${parts ? verb.toLowerCase() : verb} ${settings.join(', then ')}${where}${blade}`;
}

interface Run {
  readonly setting: Ticks;
  readonly trim: CuttingStep['trims'][number];
  readonly times: number;
}

/** Equal settings in a row are one setting of the ruler. */
function runs(step: CuttingStep): readonly Run[] {
  const found: Run[] = [];
  for (const [index, setting] of step.settings.entries()) {
    const trim = step.trims[index];
    const last = found.at(-1);
    if (last?.setting === setting && last.trim === trim)
      found[found.length - 1] = { ...last, times: last.times + 1 };
    else found.push({ setting, trim, times: 1 });
  }
  return found;
}

const TAKEN_AWAY: Readonly<Record<NonNullable<Run['trim']>, string>> = {
  selvedge: 'to trim the selvedge',
  crease: 'to take out the crease strip',
  squaring: 'to square the end',
  'cut-to-size': 'to trim to size',
};

function timed({ setting, trim, times }: Run, length: (ticks: Ticks) => string): string {
  if (setting === 0) return 'along the fold itself';
  const at = times === 1 ? `at ${length(setting)}` : `at ${length(setting)}, ${times} times`;
  return trim ? `${at} ${TAKEN_AWAY[trim]}` : at;
}

function spread(step: CuttingStep, length: (ticks: Ticks) => string): string {
  const { reachFolds, mirrorAt, stacked, plies } = step.spread;
  const said: string[] = [];
  if (reachFolds === 1) said.push('folded once to reach');
  if (reachFolds === 2) said.push('folded twice to reach');
  if (mirrorAt !== undefined) said.push(`folded at ${length(mirrorAt)} so that two cuts fall together`);
  if (stacked > 1) said.push(`${stacked} stacked`);
  if (plies > 1) said.push(`${plies} plies`);
  return said.join(', ');
}

function frees(step: CuttingStep, letters: ReadonlyMap<PieceId, string>): string {
  const pieces = step.frees.map(({ piece, copies }) => `${copies} × ${letters.get(piece) ?? piece}`);
  const left =
    step.remnants === 0 ? [] : [`${step.remnants} keepable leftover${step.remnants === 1 ? '' : 's'}`];
  const all = [...pieces, ...left];
  return all.length === 0 ? '' : `frees ${all.join(', ')}`;
}
