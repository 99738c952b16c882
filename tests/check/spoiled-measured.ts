/** A sound plan on a measured length, spoiled by one tick of what was measured. */
import { clothOf, inches, loose, planned, planOf } from '../planning/build.ts';
import { moved } from '../support/changed.ts';
import { type Spoiled, spoiled } from './spoiled.ts';

const edges = {
  width: inches(41),
  selvedge: { left: inches(0.5), right: inches(0.5) },
  crease: { kind: 'keep-off', each: inches(0.5), at: inches(15) },
} as const;
const { buy, ...cloth } = clothOf({
  washing: {
    along: { numerator: 3, denominator: 100 },
    across: { numerator: 1, denominator: 50 },
    washed: 'before-cutting',
  },
  inHand: [{ name: 'washed length', length: inches(30), copies: 1, washed: true, ...edges }],
});
const measured = {
  lengths: [{ name: 'washed length', width: inches(41), length: inches(30), before: inches(31) }],
  reckoned: { width: inches(42), buy: buy! },
};

/** 14 in beside the near selvedge, 25 in beyond the strip: both are taken to the tick. */
export const measuredPlan = planned(
  planOf([{ ...cloth, measured }], [loose('near', 14, 30, 1), loose('far', 25, 30, 1)]),
  4000,
);

const own = ['plan', 'cloths', 0] as const;

export const spoiledMeasures: readonly Spoiled[] = [
  spoiled(
    'it had measured a tick less across',
    moved(measuredPlan, [...own, 'measured', 'lengths', 0, 'width'], -1),
    'length-not-as-measured',
  ),
  spoiled(
    'it had measured a tick less along',
    moved(measuredPlan, [...own, 'measured', 'lengths', 0, 'length'], -1),
    'length-not-as-measured',
  ),
  spoiled(
    'its crease lay a tick further from the left',
    moved(measuredPlan, [...own, 'inHand', 0, 'crease', 'at'], 1),
    'piece-over-crease',
  ),
];
