import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { foldedPlan, freshFoldPlan, smallPlan } from '../support/plans.ts';

describe('a sound plan', () => {
  it.each([
    ['flat, bought and in hand', smallPlan()],
    ['folded at the crease', foldedPlan()],
    ['on a fresh fold', freshFoldPlan()],
  ])('has no fault: %s', (_, cutPlan) => {
    expect(checkPlan(cutPlan)).toEqual([]);
  });
});
