import type { Box, PieceId } from '../model/piece.ts';
import type { Plan } from '../model/plan.ts';
import { formatLength, formatSize } from '../units/format.ts';
import { floorTo, type Ticks, ticks } from '../units/ticks.ts';
import { wordBegin } from './begin-words.ts';
import type { CuttingStep } from './steps.ts';
import type { MeasuredBy } from './tool-reach.ts';

/** One step as a person reads it: what to do, how the cloth lies, and what then is on the table. */
export interface StepWords {
  readonly number: number;
  /** `The part of 54 x 40 in: crosscut at 18 1/2 in, 2 times, each from the last cut`. */
  readonly todo: string;
  /** `folded once to reach, 2 plies`; empty for a single ply. */
  readonly spread: string;
  /** `frees 4 × C, 1 keepable leftover`; empty when nothing is freed. */
  readonly frees: string;
}

/** Words a step, with piece letters as `letters` gives them. */
export function wordStep(
  step: CuttingStep,
  plan: Pick<Plan, 'unit' | 'rulerMark'>,
  letters: ReadonlyMap<PieceId, string>,
): StepWords {
  const length = (ticks: Ticks) => formatLength(ticks, { unit: plan.unit });
  // A part that ends off the marks is told down to one: its size only says which part is meant.
  const marked = (extent: number) => floorTo(ticks(extent), plan.rulerMark);
  const size = (box: Box) =>
    formatSize({ width: marked(box.x1 - box.x0), length: marked(box.y1 - box.y0) }, { unit: plan.unit });
  return {
    number: step.number,
    todo: todo(step, length, size),
    spread: spread(step, length),
    frees: frees(step, letters),
  };
}

function todo(step: CuttingStep, length: (ticks: Ticks) => string, size: (box: Box) => string): string {
  const blade = step.blade === 'scissors' ? ', with scissors along a marked line' : '';
  const cut = `${VERBS[step.blade === 'tear' ? 'tear' : 'cut'][step.action]} ${settingWords(step, length)}${blade}`;
  if (step.begins) return `${capital(beginWords(step.begins, step, length))}${blade}`;
  const [part] = step.parts;
  if (step.number === 1 || step.ofRest || !part) return capital(cut);
  const of =
    step.parts.length > 1 ? `${step.parts.length} alike parts of ${size(part)}` : `the part of ${size(part)}`;
  return `${capital(of)}: ${cut}`;
}

/** The setting of a cut that begins a print is the most that may go, so it is told by the print instead. */
function beginWords(
  begins: NonNullable<CuttingStep['begins']>,
  { settings }: CuttingStep,
  length: (ticks: Ticks) => string,
): string {
  return wordBegin(begins, ticks(settings[0]! - begins.within), length);
}

const VERBS = {
  cut: { crosscut: 'crosscut', 'cut-lengthwise': 'cut lengthwise' },
  tear: { crosscut: 'snip and tear across', 'cut-lengthwise': 'snip and tear along the length' },
} as const satisfies Record<string, Record<CuttingStep['action'], string>>;

/** Added to a setting that the ruler is too narrow for. */
function measureWords(by: MeasuredBy | undefined): string {
  if (by === undefined || by === 'ruler') return '';
  return by === 'mat' ? " (on the mat's grid)" : ' (by tape)';
}

/**
 * Two ways of measuring never share a word: from a fold every distance counts from that fold, else each counts on from the cut
 * before it.
 */
function settingWords(step: CuttingStep, length: (ticks: Ticks) => string): string {
  const { mirrorAt } = step.spread;
  if (mirrorAt !== undefined) {
    const from = step.settings.flatMap((setting, index) =>
      setting > 0 ? [`${length(setting)}${measureWords(step.measures?.[index])}`] : [],
    );
    const slit = step.settings.includes(0 as Ticks) ? ['along the fold itself'] : [];
    return [...slit, ...(from.length > 0 ? [`${listed(from)} from the fold`] : [])].join(' and ');
  }
  return runs(step)
    .map((run, index) => timed(run, index, step, length))
    .join(', then ');
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

interface Run {
  readonly setting: Ticks;
  readonly trim: CuttingStep['trims'][number];
  readonly by: MeasuredBy | undefined;
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
    else found.push({ setting, trim, by: step.measures?.[index], times: 1 });
  }
  return found;
}

const TAKEN_AWAY: Readonly<Record<NonNullable<Run['trim']>, string>> = {
  selvedge: 'to trim the selvedge',
  crease: 'to take out the crease strip',
  squaring: 'to square the end',
  'cut-to-size': 'to trim to size',
};

const FROM_FOLD: Readonly<Record<NonNullable<CuttingStep['fromFold']>, string>> = {
  all: ' from the fold',
  some: ' from the fold, or from the left edge of a part without one',
};

function timed(
  { setting, trim, by, times }: Run,
  index: number,
  step: CuttingStep,
  length: (ticks: Ticks) => string,
): string {
  if (setting === 0) return 'along the fold itself';
  const measured = measureWords(by);
  const from = step.fromFold === undefined ? '' : FROM_FOLD[step.fromFold];
  const on =
    index === 0 ? `at ${length(setting)}${measured}${from}` : `${length(setting)} further on${measured}`;
  const again =
    times === 1 ? '' : `, ${times} times, each from the last ${step.blade === 'tear' ? 'tear' : 'cut'}`;
  return `${on}${again}${trim ? ` ${TAKEN_AWAY[trim]}` : ''}`;
}

function spread(step: CuttingStep, length: (ticks: Ticks) => string): string {
  const { reachFolds, mirrorAt, stacked, plies, pliesVary } = step.spread;
  const said: string[] = [];
  if (step.oneByOne !== undefined) said.push(`each of the ${step.oneByOne} cloths by itself`);
  if (reachFolds === 1) said.push('folded once to reach');
  if (reachFolds === 2) said.push('folded twice to reach');
  if (mirrorAt !== undefined) said.push(`folded at ${length(mirrorAt)} so that two cuts fall together`);
  if (stacked > 1) said.push(`${stacked} stacked`);
  if (plies > 1) said.push(pliesVary ? `up to ${plies} plies` : `${plies} plies`);
  const marked = step.measures?.some((by) => by !== 'ruler') === true && step.blade !== 'tear';
  if (marked) said.push('what the ruler is too narrow for is marked at both ends');
  if (step.squareAfter !== undefined) {
    const often = `after every ${step.squareAfter} cuts`;
    said.push(`${often} lay the fold true again and check that the edge is square`);
  }
  return said.join(', ');
}

function frees(step: CuttingStep, letters: ReadonlyMap<PieceId, string>): string {
  const pieces = step.frees.map(({ piece, copies }) => `${copies} × ${letters.get(piece) ?? piece}`);
  const left =
    step.remnants === 0 ? [] : [`${step.remnants} keepable leftover${step.remnants === 1 ? '' : 's'}`];
  const all = [...pieces, ...left];
  return all.length === 0 ? '' : `frees ${all.join(', ')}`;
}
