import type { Cloth } from '../model/cloth.ts';
import type { CutPlan, LengthPlan, Stack, StackLayer } from '../model/cut-plan.ts';
import type { Box } from '../model/piece.ts';
import type { Ticks } from '../units/ticks.ts';
import { isCut, placeTree } from './placed-tree.ts';
import type { Report } from './plan-fault.ts';
import { tableCloth } from './table-cloth.ts';

interface FoundLayer {
  readonly cloth: Cloth;
  readonly length: LengthPlan;
}

/**
 * That cloths stacked on each other can be cut as one: no more plies than may be cut, each length in one stack, all flat,
 * aligned where the plan asks, and alike cut for cut; and that a stack is free where the plan takes no others.
 */
export function checkStacks(cutPlan: CutPlan, report: Report): void {
  const { plan } = cutPlan;
  const rule = plan.stacks ?? { take: 'where-free', edge: 'left' };
  const used = new Set<string>();
  for (const stack of (cutPlan.stacks ?? []).filter(({ taken }) => taken)) {
    const first = stack.layers[0];
    const here: Report = (code, figures) =>
      report(code, figures, first ? { cloth: first.cloth, length: first.length } : {});
    if (rule.take === 'never' || stack.edge !== rule.edge) here('stack-unasked', { edge: stack.edge });
    const plies = stack.layers.length;
    if (plies > plan.tools.mostPlies) here('stack-plies', { plies, most: plan.tools.mostPlies });
    if (rule.take === 'where-free' && !isFree(stack)) here('stack-not-free', {});
    const found = stack.layers.map((layer) => layerOf(cutPlan, layer));
    const layers = found.filter((layer) => layer !== undefined);
    const names = stack.layers.map(({ cloth, length }) => JSON.stringify([cloth, length]));
    const fresh = names.filter((name) => !used.has(name) && used.add(name)).length;
    if (plies < 2 || layers.length < plies || fresh < plies) {
      here('stack-layers', { layers: plies, sound: Math.min(layers.length, fresh) });
      continue;
    }
    for (const [index, { cloth, length }] of layers.entries()) {
      const place = { cloth: cloth.name, length: length.name };
      if (length.lay.kind !== 'flat') report('stack-folded', {}, place);
      const { tree } = length;
      const isCrosscut = tree.kind === 'cut' && tree.direction === 'crosscut';
      if (stack.sectionsFirst && !isCrosscut) report('stack-sections', {}, place);
      const apart = differences(cutsOf(layers[0]!, stack.edge), cutsOf(layers[index]!, stack.edge));
      if (apart > 0) report('stack-disagrees', { cuts: apart }, place);
    }
  }
}

/** What is told as bought beyond the plans of each cloth alone: no money, or without prices no length. */
function isFree({ extraCost, extraBought }: Stack): boolean {
  return extraCost === undefined ? extraBought.every((extra) => extra <= 0) : extraCost <= 0;
}

function layerOf(
  { plan, cloths }: CutPlan,
  { cloth: name, length: own }: StackLayer,
): FoundLayer | undefined {
  const cloth = plan.cloths.find((one) => one.name === name);
  const length = cloths.find((one) => one.cloth === name)?.lengths.find((one) => one.name === own);
  return cloth && length && { cloth, length };
}

/**
 * Every cut that has a piece on one of its sides, with the places of the pieces on both, measured from the aligned edge
 * and the near end; and the pieces themselves. Two layers with the same such cuts are cut by the same strokes. The cut
 * that takes the last pieces off the rest of the length is spared where there is no rest.
 */
function cutsOf({ length }: FoundLayer, edge: Stack['edge']): readonly string[] {
  const parts = placeTree(length.tree, length.width, length.length, () => {});
  const from = (x: number) => (edge === 'left' ? x : length.width - x);
  const place = ({ x0, y0, x1, y1 }: Box) => [Math.min(from(x0), from(x1)), y0, x1 - x0, y1 - y0].join(' ');
  const pieces = parts.filter(({ tree }) => tree.kind === 'piece').map(({ box }) => box);
  const reach = Math.max(...pieces.map((own) => own.y1));
  const cuts = parts.filter(isCut).flatMap(({ tree, box }) => {
    const crosscut = tree.direction === 'crosscut';
    return tree.at.flatMap((at, index) => {
      const line = (crosscut ? box.y0 : box.x0) + at;
      const near = (crosscut ? box.y0 : box.x0) + (tree.at[index - 1] ?? 0);
      const far =
        tree.at[index + 1] === undefined
          ? crosscut
            ? box.y1
            : box.x1
          : (crosscut ? box.y0 : box.x0) + tree.at[index + 1]!;
      const within = (low: number, high: number) =>
        pieces
          .filter((own) => own.x0 >= box.x0 && own.x1 <= box.x1 && own.y0 >= box.y0 && own.y1 <= box.y1)
          .filter((own) => (crosscut ? own.y0 >= low && own.y1 <= high : own.x0 >= low && own.x1 <= high))
          .map(place)
          .sort()
          .join('; ');
      const sides = [within(near, line), within(line, far)];
      if (sides.every((side) => side === '')) return [];
      if (crosscut && line === reach && sides[1] === '') return [];
      const seen = crosscut || edge === 'left' ? sides : sides.reverse();
      return [`${tree.direction} ${crosscut ? line : from(line)}: ${seen.join(' | ')}`];
    });
  });
  return [...cuts, ...pieces.map(place)];
}

function differences(one: readonly string[], other: readonly string[]): number {
  const missing = (from: readonly string[], of: readonly string[]) => {
    const left = [...of];
    return from.filter((cut) => {
      const at = left.indexOf(cut);
      if (at >= 0) left.splice(at, 1);
      return at < 0;
    }).length;
  };
  return missing(one, other) + missing(other, one);
}

/**
 * From where else the lengthwise cuts of a length may be measured: the ends of the cloth that all layers of its stack
 * have in common. Each layer's own usable cloth is a whole number of marks from its left; what they share, from its edge
 * nearer the aligned one.
 */
export function stackEdges(cutPlan: CutPlan, clothName: string, lengthName: string): readonly number[] {
  const stack = (cutPlan.stacks ?? []).find(
    ({ taken, layers }) =>
      taken && layers.some(({ cloth, length }) => cloth === clothName && length === lengthName),
  );
  const layers = stack?.layers.map((layer) => layerOf(cutPlan, layer)).filter((layer) => layer !== undefined);
  const own = layers?.find(({ cloth, length }) => cloth.name === clothName && length.name === lengthName);
  if (!stack || !layers || !own) return [];
  const mark = cutPlan.plan.rulerMark;
  const shared = layers
    .map((layer) => usableFrom(layer, stack.edge, mark))
    .reduce((common, spans) =>
      common.flatMap((one) =>
        spans
          .map((span) => ({ from: Math.max(one.from, span.from), to: Math.min(one.to, span.to) }))
          .filter(({ from, to }) => from < to),
      ),
    );
  return shared.map(({ from }) => (stack.edge === 'left' ? from : own.length.width - from));
}

/** Usable stretches as distances from the aligned edge. */
function usableFrom({ cloth, length }: FoundLayer, edge: Stack['edge'], mark: Ticks) {
  const inHand = cloth.inHand.find(
    ({ name, copies }) => length.name === name || (copies > 1 && isNumbered(length.name, name)),
  );
  const source = length.source === 'in-hand' && inHand ? inHand : { bought: length.length };
  const { across, width } = tableCloth(cloth, source);
  return across
    .map(({ from, to }) => ({ from, to: from + Math.floor((to - from) / mark) * mark }))
    .filter(({ from, to }) => from < to)
    .map(({ from, to }) => (edge === 'left' ? { from, to } : { from: width - to, to: width - from }));
}

const isNumbered = (name: string, entry: string): boolean =>
  name.startsWith(`${entry} `) && /^\d+$/.test(name.slice(entry.length + 1));
