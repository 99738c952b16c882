import type { CutPlan, Stack } from '../model/cut-plan.ts';
import { formatLength, formatMoney } from '../units/format.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import { layerName } from './stack-steps.ts';

/** `gull stripe, harbour check`, from the lowest layer up. */
export function stackName(cutPlan: CutPlan, stack: Stack): string {
  return stack.layers.map((layer) => layerName(cutPlan, layer)).join(', ');
}

/** What a stack saves and what it costs, as a sentence without its end: `2 plies, left edges aligned: 12 cuts in place of 24, at no cost`. */
export function wordStack(cutPlan: CutPlan, stack: Stack): string {
  const { layers, edge, taken, cutsApart, cutsStacked, withScissors } = stack;
  const plies = `${layers.length} plies, ${edge} edges aligned`;
  const scissors = withScissors === 0 ? '' : ` (${withScissors} with scissors)`;
  const cuts = `${cutsStacked} cuts${scissors} in place of ${cutsApart}`;
  return taken
    ? `${plies}: ${cuts}, ${costOf(cutPlan, stack)}`
    : `not so cut: as ${plies}, ${cuts}, ${costOf(cutPlan, stack)}`;
}

function costOf({ plan }: CutPlan, { layers, extraBought, extraCost }: Stack): string {
  const length = (value: number): string => formatLength(ticks(Math.abs(value)) as Ticks, plan);
  const changes = extraBought.flatMap((extra, index) =>
    extra === 0 ? [] : [`${length(extra)} ${extra > 0 ? 'more' : 'less'} of ${layers[index]!.cloth}`],
  );
  const money =
    extraCost === undefined || extraCost === 0
      ? ''
      : ` (${formatMoney(Math.abs(extraCost), plan.currency)} ${extraCost > 0 ? 'more' : 'less'})`;
  return changes.length === 0 ? 'for no more cloth' : `for ${changes.join(' and ')}${money}`;
}
