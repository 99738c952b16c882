import { walk } from '../geometry/walk.ts';
import type { ClothPlan, LengthPlan } from '../model/cut-plan.ts';
import type { Plan, Tools } from '../model/plan.ts';
import { type CuttingStep, cuttingSteps, foldsIn } from './steps.ts';
import { bladeReach, isWelcome, type ToolsOnCloth, toolsOn } from './tool-reach.ts';
import { isWeighed, moneyOf } from './worth.ts';

/**
 * A pass with scissors along a line that no ruler reaches is slow and rarely straight; a tear is quick, but its edges
 * have to be pressed flat. What the maker would rather not do at all weighs more than any fold.
 */
const WEIGHTS = { rotary: 1, tear: 2, scissors: 3 } as const;
const UNWELCOME_WEIGHT = 12;

/**
 * The wishes of the design, in their order, for plans that all cut every piece: least bought (least money, where using
 * a length in hand is worth some); least cloth opened from
 * what is in hand; fewest spare pieces; leftovers in few large rectangles (in tenths, so that a sliver does not outweigh an hour's work);
 * little work; least length used. Smaller is better in every place.
 */
export type Wishes = readonly [
  bought: number,
  opened: number,
  spare: number,
  scattered: number,
  work: number,
  needed: number,
];

/** Measures a plan of one cloth against the wishes. */
export function wishesOf(plan: Plan, clothPlan: ClothPlan): Wishes {
  const inHand = clothPlan.lengths.filter((length) => length.source === 'in-hand');
  const cloth = plan.cloths.find(({ name }) => name === clothPlan.cloth);
  return [
    cloth && isWeighed(cloth) ? moneyOf(plan, cloth, clothPlan) : (clothPlan.purchase?.bought ?? 0),
    inHand.reduce((total, length) => total + length.width * length.length, 0),
    clothPlan.surplus.reduce((total, { copies }) => total + copies, 0),
    Math.round(10 * scattered(clothPlan.lengths)),
    clothPlan.lengths.reduce((total, length) => total + work(length, toolsOn(plan.tools, cloth, length)), 0),
    clothPlan.purchase?.needed ?? 0,
  ];
}

/** The first of equal plans wins, so the order in which they are tried is part of the answer. */
export function better(a: Wishes, b: Wishes): boolean {
  const differs = a.findIndex((wish, index) => wish !== b[index]);
  return differs >= 0 && a[differs]! < b[differs]!;
}

/** 0 when all that is left over is one keepable rectangle (or nothing is left), towards 1 as it falls apart. */
function scattered(lengths: readonly LengthPlan[]): number {
  let left = 0;
  let squares = 0;
  for (const length of lengths) {
    for (const { leaf, box } of walk(length.tree, length.width, length.length).leaves) {
      if (leaf.kind !== 'remnant' && leaf.kind !== 'scrap') continue;
      const area = (box.x1 - box.x0) * (box.y1 - box.y0);
      left += area;
      if (leaf.kind === 'remnant') squares += area * area;
    }
  }
  return left === 0 ? 0 : 1 - squares / (left * left);
}

/** Passes of the blade and folds to be made. */
export function work(length: LengthPlan, tools: ToolsOnCloth): number {
  return workOf(cuttingSteps(length, tools), tools);
}

/**
 * Passes of the blade and folds of some steps; a tear counts for more, and so does a pass with scissors, for each length
 * of the ruler that it goes on for.
 */
export function workOf(steps: readonly CuttingStep[], tools: Tools): number {
  return steps.reduce((total, step) => {
    const { strokes, blade, lines } = step;
    const each = isWelcome(blade, tools) ? WEIGHTS[blade] : UNWELCOME_WEIGHT;
    const rulers = blade === 'scissors' ? Math.ceil(longest(lines) / bladeReach(tools)) : 1;
    return total + foldsIn(step) + strokes * each * Math.max(1, rulers);
  }, 0);
}

function longest(lines: CuttingStep['lines']): number {
  return lines.reduce((most, { x0, y0, x1, y1 }) => Math.max(most, x1 - x0, y1 - y0), 0);
}
