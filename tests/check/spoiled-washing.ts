/** A plan whose pieces are cut larger for a wash to come, spoiled by a tick each, with every code the checker must then report. */
import type { CutPlan } from '../../src/model/cut-plan.ts';
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { type Spoiled, spoiled, to } from './spoiled.ts';

const linen = clothOf({
  washing: {
    along: { numerator: 7, denominator: 100 },
    across: { numerator: 3, denominator: 100 },
    washed: 'after-sewing',
    cutLarger: true,
  },
});

/** Mats of 13 x 19 in that are sewn as 13 ÷ 0.97 by 19 ÷ 0.93. */
export const largerPlan: CutPlan = planned(planOf([linen], [loose('mat', 13, 19, 3)]), 2_000);

const mat = ['pieces', 0] as const;
const { washesTo: _, ...bare } = largerPlan.pieces[0]!;

export const spoiledWashing: readonly Spoiled[] = [
  spoiled(
    'a piece is sewn a tick narrower than the wash needs',
    moved(largerPlan, [...mat, 'finished', 'x1'], -1),
    'washed-too-small',
  ),
  spoiled(
    'a piece needs a tick more for the wash than it is cut',
    moved(largerPlan, [...mat, 'exactSize', 'length'], -1),
    'washed-too-small',
  ),
  spoiled(
    'a piece needs a tick less for the wash than is said',
    moved(largerPlan, [...mat, 'exactSize', 'width'], 1),
    'washed-too-large',
  ),
  spoiled(
    'a piece is to come to another size than is asked for',
    moved(largerPlan, [...mat, 'washesTo', 'width'], -inches(1)),
    ...(['washed-size-misread', 'washed-too-large'] as const),
  ),
  spoiled(
    'a piece may lie either way, and the ways shrink differently',
    changed(largerPlan, [...mat, 'grain'], to('either')),
    'washed-grain-open',
  ),
  spoiled(
    'nothing is said of the wash to come',
    changed(largerPlan, mat, to({ ...bare, grain: 'either' })),
    'washed-size-missing',
  ),
  spoiled(
    'its cloth is not to be cut larger',
    changed(largerPlan, ['plan', 'cloths', 0, 'washing', 'cutLarger'], to(undefined)),
    'washed-size-unasked',
  ),
];
