import type { PlainBox } from '../geometry/walk.ts';
import type { ClothName } from '../model/cloth.ts';
import type { CutPlan, LengthPlan, Stack } from '../model/cut-plan.ts';
import type { Tools } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { mirrored } from './open-fold.ts';
import { type CuttingStep, cuttingSteps } from './steps.ts';
import { toolsOn } from './tool-reach.ts';

/** The stack that a length is cut in, and whether its steps are told with this length: those of the first layer are. */
export interface InStack {
  readonly stack: Stack;
  readonly leads: boolean;
}

/** Undefined for a length that is cut by itself. */
export function stackOf(cutPlan: CutPlan, cloth: ClothName, length: string): InStack | undefined {
  for (const stack of cutPlan.stacks ?? []) {
    const layer = stack.layers.findIndex((own) => own.cloth === cloth && own.length === length);
    if (stack.taken && layer >= 0) return { stack, leads: layer === 0 };
  }
  return undefined;
}

/** The tools as they serve one layer: each ply of the cutter's most is a layer already, as far as they go round. */
export function toolsInStack(tools: Tools, layers: number): Tools {
  const plies = Math.floor(tools.mostPlies / layers);
  return { ...tools, mostPlies: plies >= 4 ? 4 : plies >= 2 ? 2 : 1 };
}

/** How a layer is laid and cut. */
export type LayerOf = Pick<Stack, 'edge' | 'sectionsFirst'> & { readonly layers: number };

/**
 * The order of work for one layer, with its own plies only; where sections come first, all the plies that the tools allow
 * are its own for those. Aligned at the right, settings are measured from the right
 * edge; lines and parts stay in the coordinates of the opened cloth.
 */
export function layerSteps(
  length: LengthPlan,
  tools: Tools,
  { layers, edge, sectionsFirst }: LayerOf,
): readonly CuttingStep[] {
  const own = toolsInStack(tools, layers);
  const stepsFrom = (seen: LengthPlan) => {
    if (!sectionsFirst) return cuttingSteps(seen, own);
    const [first, ...rest] = cuttingSteps(seen, own, { sections: tools });
    return first?.action === 'crosscut' ? [{ ...first, oneByOne: layers }, ...rest] : cuttingSteps(seen, own);
  };
  if (edge === 'left') return stepsFrom(length);
  const back = ({ x0, y0, x1, y1 }: PlainBox<Ticks>) => ({
    ...{ x0: ticks(length.width - x1), y0, x1: ticks(length.width - x0), y1 },
  });
  return stepsFrom(turnedAbout(length)).map((step) => ({
    ...step,
    parts: step.parts.map(back),
    lines: step.lines.map(back),
  }));
}

/** A length as it is seen from its right edge. */
export function turnedAbout(length: LengthPlan): LengthPlan {
  const whole = { x0: ticks(0), y0: ticks(0), x1: length.width, y1: length.length };
  return { ...length, tree: mirrored(length.tree, whole) };
}

/** The steps of a length as it is cut: by itself, or as one layer of its stack. */
export function stepsOfLength(
  cutPlan: CutPlan,
  cloth: ClothName,
  length: LengthPlan,
): readonly CuttingStep[] {
  const { tools, cloths } = cutPlan.plan;
  const found = stackOf(cutPlan, cloth, length.name);
  const own = cloths.find(({ name }) => name === cloth);
  if (!found) return cuttingSteps(length, toolsOn(tools, own, length));
  return layerSteps(length, tools, { ...found.stack, layers: found.stack.layers.length });
}

/** The steps of a whole stack, told once: plies and all that comes free are those of all layers. */
export function stackSteps(cutPlan: CutPlan, stack: Stack): readonly CuttingStep[] {
  const each = stack.layers.map(({ cloth, length }) =>
    stepsOfLength(cutPlan, cloth, lengthNamed(cutPlan, cloth, length)),
  );
  return toldOnce(each).map((step, index) => ({
    ...step,
    frees: each.flatMap((steps) => steps[index]?.frees ?? []),
    remnants: each.reduce((total, steps) => total + (steps[index]?.remnants ?? 0), 0),
  }));
}

/** The steps of all layers as one: under the blade lie the plies of all, but for what is done to them one by one. */
export function toldOnce(layers: readonly (readonly CuttingStep[])[]): readonly CuttingStep[] {
  return layers[tellerOf(layers)]!.map((step) =>
    step.oneByOne === undefined
      ? { ...step, spread: { ...step.spread, plies: step.spread.plies * layers.length } }
      : { ...step, strokes: step.strokes * step.oneByOne },
  );
}

function lengthNamed(cutPlan: CutPlan, cloth: ClothName, name: string): LengthPlan {
  const found = cutPlan.cloths
    .find((own) => own.cloth === cloth)
    ?.lengths.find((length) => length.name === name);
  if (!found) throw new RangeError(`a stack names "${name}" of "${cloth}", which is not cut`);
  return found;
}

/** Whether the hands do the same on every layer: the same cuts at the same settings in the same order. */
export function sameWork(layers: readonly (readonly CuttingStep[])[]): boolean {
  const teller = layers[tellerOf(layers)]!;
  return layers.every(
    (steps) => steps.length === teller.length && steps.every((step, index) => isDoneBy(step, teller[index]!)),
  );
}

/**
 * The layer whose steps are told for all, since it asks for most: the widest may have to be folded once more to reach,
 * and one that ends where its last pieces do is spared the cut there.
 */
export function tellerOf(layers: readonly (readonly CuttingStep[])[]): number {
  const asked = layers.map((steps) => [
    strokesOf(steps),
    steps.filter(({ blade }) => blade === 'scissors').length,
    steps.reduce((total, { spread }) => total + spread.reachFolds, 0),
  ]);
  return asked.reduce((most, own, layer) => (isMore(own, asked[most]!) ? layer : most), 0);
}

export function strokesOf(steps: readonly CuttingStep[]): number {
  return steps.reduce((total, step) => total + step.strokes, 0);
}

function isMore(one: readonly number[], other: readonly number[]): boolean {
  const differs = one.findIndex((value, index) => value !== other[index]);
  return differs >= 0 && one[differs]! > other[differs]!;
}

function isDoneBy(step: CuttingStep, told: CuttingStep): boolean {
  const alike = ({ action, spread, parts }: CuttingStep) =>
    JSON.stringify([action, spread.mirrorAt, parts.length]);
  const spared = step.action === 'crosscut' && step.settings.length < told.settings.length ? 1 : 0;
  const settings = told.settings.slice(0, told.settings.length - spared);
  return alike(step) === alike(told) && JSON.stringify(step.settings) === JSON.stringify(settings);
}

/** The other layers of a length's stack, for "cut together with ...": the cloth, and the length where it is in hand. */
export function cutTogetherWith(cutPlan: CutPlan, cloth: ClothName, length: string): readonly string[] {
  const found = stackOf(cutPlan, cloth, length);
  return (found?.stack.layers ?? [])
    .filter((own) => own.cloth !== cloth || own.length !== length)
    .map((own) => layerName(cutPlan, own));
}

/** A bought layer by its cloth alone, one in hand by its own name too. */
export function layerName(cutPlan: CutPlan, { cloth, length }: Stack['layers'][number]): string {
  const plan = lengthNamed(cutPlan, cloth, length);
  return plan.source === 'bought' ? cloth : `${cloth} (${length})`;
}
