import { expect } from 'vitest';
import { checkPacking, type PackingAsked } from '../../src/check/check-packing.ts';
import type { FewestQuestion, MostQuestion, ShortestQuestion, Stages } from '../../src/packing/instance.ts';
import type { PackResult } from '../../src/packing/result.ts';

type Answered = Extract<PackResult, { status: 'best' | 'found' }>;

/** The question as the checker takes it. */
export function asked(
  ask: PackingAsked['ask'],
  question: ShortestQuestion | MostQuestion | FewestQuestion,
  stages: Stages = 'any',
): PackingAsked {
  const sheets = 'sheets' in question ? question.sheets : [question.sheet];
  const set = 'set' in question && question.set !== undefined ? { set: question.set } : {};
  return { ask, sheets, kinds: question.kinds, stages, ...set };
}

/** Fails unless the result is an answer and the independent checker finds nothing wrong with it. */
export function expectSoundSheet(
  ask: PackingAsked['ask'],
  question: ShortestQuestion | MostQuestion | FewestQuestion,
  result: PackResult,
  stages: Stages = 'any',
): asserts result is Answered {
  expect(['best', 'found'], JSON.stringify(question)).toContain(result.status);
  expect(checkPacking(asked(ask, question, stages), result as Answered), JSON.stringify(question)).toEqual(
    [],
  );
}
