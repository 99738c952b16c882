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
  const [first, ...rest] = runs(step.settings);
  const settings = [first, ...rest].flatMap((run) => (run ? [timed(run, length)] : [])).join(', then ');
  const where = step.spread.mirrorAt === undefined ? '' : ' from the fold';
  const square = step.squaresEnd ? ' (the first squares the end)' : '';
  const parts = step.parts.length > 1 ? `${step.parts.length} alike parts: ` : '';
  const blade = step.blade === 'scissors' ? ', with scissors' : '';
  return `${parts}${parts ? verb.toLowerCase() : verb} at ${settings}${where}${square}${blade}`;
}

/** Equal settings in a row are one setting of the ruler. */
function runs(settings: readonly Ticks[]): readonly { readonly setting: Ticks; readonly times: number }[] {
  const found: { setting: Ticks; times: number }[] = [];
  for (const setting of settings) {
    const last = found.at(-1);
    if (last?.setting === setting) last.times += 1;
    else found.push({ setting, times: 1 });
  }
  return found;
}

function timed(
  run: { readonly setting: Ticks; readonly times: number },
  length: (ticks: Ticks) => string,
): string {
  if (run.setting === 0) return 'the fold itself';
  return run.times === 1 ? length(run.setting) : `${length(run.setting)}, ${run.times} times`;
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
