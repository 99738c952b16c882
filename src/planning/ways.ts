import type { ClothPlan, LayWay } from '../model/cut-plan.ts';
import type { Plan } from '../model/plan.ts';
import { ticks } from '../units/ticks.ts';
import { foldsOf } from './spread.ts';
import { cuttingSteps } from './steps.ts';
import { toolsOn } from './tool-reach.ts';

/**
 * Of all plans tried for a cloth, those that none beats in cloth, work and spares together: least cloth first. The
 * chosen plan is always among them, so that a maker sees what a further fold, or less work, would cost.
 */
export function waysToLay(plan: Plan, chosen: ClothPlan, tried: readonly ClothPlan[]): readonly LayWay[] {
  const ways = [wayOf(plan, chosen, true), ...tried.map((own) => wayOf(plan, own, false))];
  return ways
    .filter((way, index) => way.chosen || !ways.some((other, at) => beats(other, way, at < index)))
    .filter((way) => way.chosen || isWorthTelling(way, ways[0]!))
    .sort((a, b) => a.bought - b.bought || workOf(a) - workOf(b) || a.spare - b.spare);
}

/** A way that costs more is worth a line only where it saves a good part of the work or of the spares. */
function isWorthTelling(way: LayWay, chosen: LayWay): boolean {
  return way.bought < chosen.bought || way.spare < chosen.spare || 4 * workOf(way) <= 3 * workOf(chosen);
}

function wayOf(plan: Plan, own: ClothPlan, chosen: boolean): LayWay {
  const cloth = plan.cloths.find(({ name }) => name === own.cloth);
  const steps = own.lengths.flatMap((length) => cuttingSteps(length, toolsOn(plan.tools, cloth, length)));
  const cost = own.purchase?.cost;
  return {
    lay: layOf(own),
    bought: own.purchase?.bought ?? ticks(0),
    ...(cost !== undefined && { cost }),
    strokes: steps.reduce((total, step) => total + step.strokes, 0),
    folds: steps.reduce((total, { spread }) => total + foldsOf(spread), 0),
    spare: own.surplus.reduce((total, { copies }) => total + copies, 0),
    chosen,
  };
}

function layOf({ lengths }: ClothPlan): LayWay['lay'] {
  const aside = lengths.some(({ lay, width }) => lay.kind === 'folded' && 2 * lay.foldAt < width - 1);
  return aside ? 'part-folded' : (lengths[0]?.lay.kind ?? 'flat');
}

/** Nowhere worse and somewhere better; of equals, the earlier one beats the later. */
function beats(a: LayWay, b: LayWay, earlier: boolean): boolean {
  const better = [b.bought - a.bought, workOf(b) - workOf(a), b.spare - a.spare];
  return better.every((gain) => gain >= 0) && (earlier || better.some((gain) => gain > 0));
}

function workOf(way: LayWay): number {
  return way.strokes + way.folds;
}
