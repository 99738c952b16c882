/** A plan of covers that close each its own way, spoiled in how they close, with every code the checker must then report. */
import { planned } from '../planning/build.ts';
import { changed, moved } from '../support/changed.ts';
import { coverPlan, covers } from '../support/opening-plan.ts';
import { type Path, type Spoiled, spoiled, to } from './spoiled.ts';

/** One level and two upright. */
const each = planned(coverPlan(covers(3, { 'opening choice': 'each cover' })), 4_000);
const split: Path = ['makes', 0, 'openings'];
const measures: Path = ['plan', 'makes', 0, 'measures'];

export const spoiledOpenings: readonly Spoiled[] = [
  spoiled(
    'a cover more closes than there are',
    moved(each, [...split, 'upright'], 1),
    ...(['opening-counts', 'order-misread'] as const),
  ),
  spoiled(
    'nothing is said of how covers close',
    changed(each, split, to(undefined)),
    ...(['opening-counts', 'order-misread'] as const),
  ),
  spoiled(
    'a set closes both ways',
    changed(each, [...measures, 'opening choice'], to('whole set')),
    'opening-counts',
  ),
  spoiled(
    'a back is turned for the other opening',
    changed(each, ['pieces', 1, 'opening'], to('upright')),
    ...(['order-misread', 'opening-turned'] as const),
  ),
  spoiled(
    'the plan chooses where the order does not let it',
    changed(each, [...measures, 'opening'], to('level')),
    'opening-unasked',
  ),
  spoiled(
    'all close level, and there are backs for upright ones',
    changed(each, split, to({ level: 3, upright: 0 })),
    ...(['opening-backs', 'order-misread'] as const),
  ),
];
