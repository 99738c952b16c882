/** Which of the things that cloth can ask for a cut plan really holds, and the replay of all its steps. */
import { flawsOnTable } from '../../src/check/check-flaws.ts';
import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan, LengthPlan } from '../../src/model/cut-plan.ts';
import { lengthInHand } from '../../src/planning/length-in-hand.ts';
import {
  layerSteps,
  stackOf,
  stepsOfLength,
  toolsInStack,
  turnedAbout,
} from '../../src/planning/stack-steps.ts';
import type { CuttingStep } from '../../src/planning/steps.ts';
import { toolsOn } from '../../src/planning/tool-reach.ts';
import { replayFaults } from './replay.ts';

interface Mix {
  readonly cutPlan: CutPlan;
  readonly lengths: readonly LengthPlan[];
  readonly steps: readonly CuttingStep[];
  /** The cloths that something is cut from. */
  readonly used: readonly Cloth[];
}

/** A plan holds a point where it shows in what is cut, not only in what is asked. */
const POINTS = {
  folds: ({ lengths }) => lengths.some(({ lay }) => lay.kind === 'folded'),
  'fold off the middle': ({ lengths }) =>
    lengths.some(({ lay, width }) => lay.kind === 'folded' && 2 * lay.foldAt < width - 1),
  'piece on a fold': ({ cutPlan }) => cutPlan.pieces.some(({ onFold }) => onFold),
  'one spread': ({ lengths }) => lengths.some(({ oneSpread }) => oneSpread),
  'folds to reach': ({ steps }) => steps.some(({ spread }) => spread.reachFolds > 0),
  'long cuts': ({ steps }) => steps.some(({ blade }) => blade !== 'rotary'),
  mat: ({ cutPlan }) => cutPlan.plan.tools.mat !== undefined,
  crease: ({ used }) => used.some(({ crease }) => crease.kind === 'keep-off'),
  edges: ({ used }) => used.some(({ selvedge }) => selvedge.left !== selvedge.right),
  squaring: ({ used }) => used.some(({ squaring }) => squaring > 0),
  'lengths in hand': ({ lengths }) => lengths.some(({ source }) => source === 'in-hand'),
  'washed first': ({ used }) => used.some(({ washing }) => washing?.washed === 'before-cutting'),
  'wash to come': ({ cutPlan }) => cutPlan.pieces.some(({ washesTo }) => washesTo),
  direction: ({ used }) => used.some(({ direction }) => direction !== 'plain'),
  openings: ({ cutPlan }) => cutPlan.makes.some(({ openings }) => openings),
  matches: ({ cutPlan }) => cutPlan.pieces.some(({ match }) => match),
  panels: ({ cutPlan }) => cutPlan.pieces.some(({ panel }) => panel),
  flaws: ({ cutPlan }) =>
    cutPlan.cloths.some(({ cloth, lengths }) =>
      lengths.some((length) => flawsOf(cutPlan, cloth, length).length > 0),
    ),
  joins: ({ cutPlan }) => cutPlan.joined.length > 0,
  stacks: ({ cutPlan }) => cutPlan.stacks?.some(({ taken }) => taken) === true,
} satisfies Record<string, (mix: Mix) => boolean | undefined>;

export type Point = keyof typeof POINTS;

export const ALL_POINTS = Object.keys(POINTS) as Point[];

export function pointsOf(cutPlan: CutPlan): readonly Point[] {
  const lengths = cutPlan.cloths.flatMap((own) => own.lengths);
  const steps = cutPlan.cloths.flatMap((own) =>
    own.lengths.flatMap((length) => stepsOfLength(cutPlan, own.cloth, length)),
  );
  const used = cutPlan.cloths.map(({ cloth }) => clothNamed(cutPlan, cloth));
  return ALL_POINTS.filter((point) => POINTS[point]({ cutPlan, lengths, steps, used }));
}

/** All that is wrong with the steps of a plan, each length by itself or as one layer of its stack. */
export function replayedPlan(cutPlan: CutPlan): readonly string[] {
  const { tools } = cutPlan.plan;
  return cutPlan.cloths.flatMap(({ cloth, lengths }) =>
    lengths.flatMap((length) => {
      const found = stackOf(cutPlan, cloth, length.name);
      if (!found) {
        const own = toolsOn(tools, clothNamed(cutPlan, cloth), length);
        const steps = stepsOfLength(cutPlan, cloth, length);
        return replayFaults(length, steps, own, flawsOf(cutPlan, cloth, length));
      }
      const { layers, edge } = found.stack;
      const layer = edge === 'right' ? turnedAbout(length) : length;
      const own = toolsInStack(tools, layers.length);
      const laid = { ...found.stack, edge: 'left' as const, layers: layers.length };
      return replayFaults(layer, layerSteps(layer, tools, laid), own, [], tools);
    }),
  );
}

function clothNamed({ plan }: CutPlan, cloth: string): Cloth {
  return plan.cloths.find(({ name }) => name === cloth)!;
}

function flawsOf(cutPlan: CutPlan, cloth: string, length: LengthPlan): ReturnType<typeof flawsOnTable> {
  const own = clothNamed(cutPlan, cloth);
  return flawsOnTable(own, lengthInHand(own, length) ?? { bought: length.length });
}
