import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../src/check/check-plan.ts';
import { walk } from '../../src/geometry/walk.ts';
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { wordIssue } from '../../src/model/messages.ts';
import type { LoosePiece } from '../../src/model/plan.ts';
import { makeCutPlan } from '../../src/planning/plan.ts';
import { clothPointer } from '../../src/rendering/marker/pieces.ts';
import { drawMarker } from '../../src/rendering/marker.ts';
import { changed } from '../support/changed.ts';
import { clothOf, loose, planned, planOf } from './build.ts';

/** 23 across and 14 up as it stands: on a print that runs across the length, 14 across the cloth and 23 along it. */
const panel = loose('panel', 23, 14, 5);
const across = clothOf({ direction: 'one-way', printRuns: 'across' });

function turnsOf(cutPlan: CutPlan): readonly number[] {
  const [length] = cutPlan.cloths[0]!.lengths;
  return walk(length!.tree, length!.width, length!.length).leaves.flatMap(({ leaf }) =>
    leaf.kind === 'piece' ? [leaf.quarterTurns] : [],
  );
}

describe('a print that runs across the length', () => {
  const cutPlan = planned(planOf([across], [panel]), 6_000);

  it('turns every piece a quarter, so that the print stands upright on it', () => {
    expect(checkPlan(cutPlan)).toEqual([]);
    expect(turnsOf(cutPlan)).toEqual([1, 1, 1, 1, 1]);
  });

  it('points to the left on the marker, and so does the top of every piece', () => {
    const marker = drawMarker(cutPlan, across.name);
    expect(clothPointer(marker.cloth)).toEqual({ side: 'left', bothWays: false });
    expect(marker.lengths[0]!.pieces.map(({ up }) => up)).toEqual(['left', 'left', 'left', 'left', 'left']);
  });

  it('is caught by the checker when a print runs the other way', () => {
    const along = changed(cutPlan, ['plan', 'cloths', 0, 'printRuns'], () => 'along');
    expect(checkPlan(along).map(({ code }) => code)).toEqual(Array(5).fill('piece-against-print'));
  });

  it('takes pieces whose up is to follow the crosswise grain, and refuses the lengthwise', () => {
    const grained = (grain: LoosePiece['grain']) => planOf([across], [{ ...panel, grain }]);
    expect(turnsOf(planned(grained('crosswise'), 2_000))).toEqual([1, 1, 1, 1, 1]);
    const refused = makeCutPlan(grained('lengthwise'), { effort: 500, seed: 1 });
    expect(refused.issues.map((issue) => wordIssue(issue, 'in'))).toEqual([
      'cloths.gull grey.direction: "panel" is to lie lengthwise, and the print of "gull grey" runs across the cloth; leave its grain open, or choose another cloth.',
    ]);
  });
});

describe('a print that runs along the length', () => {
  const along = clothOf({ direction: 'nap' });

  it('leaves every piece upright, with its top at the far end', () => {
    const cutPlan = planned(planOf([along], [panel]), 6_000);
    expect(turnsOf(cutPlan)).toEqual([0, 0, 0, 0, 0]);
    expect(drawMarker(cutPlan, along.name).lengths[0]!.pieces.map(({ up }) => up)).toEqual(
      Array(5).fill('far'),
    );
  });
});
