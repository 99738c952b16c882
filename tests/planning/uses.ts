/** Plans that are read from text, and what their leftovers could become: proven, whatever they are. */
import { expect } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { makes } from '../../src/makes/catalogue.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import type { ClothUses, UseAcross } from '../../src/model/leftover-use.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPlan } from '../../src/model/plan-file.ts';
import { usesAcross } from '../../src/planning/leftovers/uses-across.ts';
import { usesOfLeftovers } from '../../src/planning/leftovers/uses-of.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';

export const EFFORT = { effort: 8_000, seed: 2 };

export const planned = (plan: Plan): CutPlan | undefined => {
  const outcome = makeCutPlan(plan, EFFORT);
  return outcome.ok ? outcome.value : undefined;
};

export function read(text: string): Plan {
  const outcome = readPlan(text, { file: 'plan.yaml', makes: makes.map(({ spec }) => spec) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

export interface Uses {
  readonly cut: CutPlan;
  readonly uses: readonly ClothUses[];
  readonly across: readonly UseAcross[];
}

export function usesWith(asked: Plan, withUsual = false): Uses {
  const { wishes, ...bare } = asked;
  const cut = { ...planned(bare)!, plan: asked };
  const options = { ...EFFORT, withUsual, planned };
  const uses = usesOfLeftovers(cut, options);
  const across = usesAcross(cut.plan, uses, options);
  expect(checkPlan({ ...cut, uses, usesAcross: across })).toEqual([]);
  return { cut, uses, across };
}
