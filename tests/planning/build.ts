import type { Cloth } from '../../src/model/cloth.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { LoosePiece, Plan } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { TICKS_PER_INCH, type Ticks, ticks } from '../../src/units/ticks.ts';

export const inches = (count: number): Ticks => ticks(count * TICKS_PER_INCH);

/** A cloth to buy by the eighth of a yard, 54 in wide without selvedges, plain, unless changed. */
export function clothOf(changes: Partial<Cloth> = {}): Cloth {
  return {
    name: 'gull grey',
    width: inches(54),
    selvedge: { left: ticks(0), right: ticks(0) },
    crease: { kind: 'use' },
    direction: 'plain',
    printRuns: 'along',
    squaring: ticks(0),
    buy: { step: inches(4.5) },
    inHand: [],
    lay: 'flat',
    ...changes,
  };
}

export function loose(
  name: string,
  width: number,
  length: number,
  count: number,
  cloth = 'gull grey',
): LoosePiece {
  return { name, count, size: { width: inches(width), length: inches(length) }, cloth, grain: 'either' };
}

export function planOf(
  cloths: readonly Cloth[],
  pieces: readonly LoosePiece[],
  changes: Partial<Plan> = {},
): Plan {
  return {
    name: 'landing',
    unit: 'in',
    rulerMark: inches(1 / 8),
    paper: 'letter',
    currency: '$',
    keep: { width: inches(6), length: inches(6) },
    tools: { rulerLength: inches(24), mostPlies: 4 },
    stages: 'any',
    makes: [],
    cloths,
    pieces,
    ...changes,
  };
}

/** The cut plan, or a thrown list of its problems. */
export function planned(plan: Plan, effort = 60_000): CutPlan {
  const outcome = makeCutPlan(plan, { effort, seed: 3 });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}
